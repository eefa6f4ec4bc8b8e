package cli

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"loamledger/scenarios/ratesfile"
	"loamledger/sim/bill"
	"loamledger/sim/money"
	rows "loamledger/sim/portfolio"
	"loamledger/sim/portfolio/portfoliofile"
	"loamledger/weather/cal"
)

// moneyProgram is a program of one zone with a rates file; what the rates may need is the same for all accounts.
const moneyProgram = `portfolio: 1
name: money
stations: [{name: dry, file: weather.csv, latitude: 38.9, longitude: -120, elevation: 490 m}]
as_found: {scale: 40%% to 250%%}
money: {rates: rates.yaml%s, indoor_use: 500 L, persons: 3, landscape: irrigated area, lot: 9000 ft2, meter_size: %q}
zones: [{name: lawn, area: 120 to 600 m2, plant: tall fescue, soil: loam, sprinkler: {kind: spray, rate: 40 mm/h}}]
programs: [{name: p, days: [mon, wed, fri], starts: ["05:00"], minutes: {lawn: 20}}]
strategies:
  - {name: as found, programs: p}
  - {name: monthly, like: as found, monthly: [0, 0, 40, 60, 80, 100, 100, 95, 75, 50, 25, 0]}
`

// readAll reads every row of a file of a portfolio.
func readAll[T any](t testing.TB, name string, read rowReader[T]) (list []T) {
	t.Helper()
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := read(bytes.NewReader(text), int64(len(text)), name, func(row *T) error {
		list = append(list,
			*row)
		return nil
	}); err != nil {
		t.Fatal(err)
	}
	return list
}

// TestAccountsAreBilledLikeASite: by every kind of rates, what irrigation costs an account is within a few cents a bill of two
// whole bills, worked out in exact decimals from the months of the results: with the water, and with the use
// indoors alone.
func TestAccountsAreBilledLikeASite(t *testing.T) {
	files, err := filepath.Glob("../../../scenarios/ratesfile/testdata/*.yaml")
	if err != nil || len(files) < 8 {
		t.Fatalf("%d files of rates, %v", len(files), err)
	}
	files = append(files, "../../../scenarios/examples/rates/quail-terrace-rates.yaml")
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".yaml"), func(t *testing.T) {
			text, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			rates, err := ratesfile.Read(bytes.NewReader(text), file)
			if err != nil {
				t.Fatal(err)
			}
			var meter bill.Meter
			for _, m := range rates.Account.Meters {
				if m.Use != bill.DeductUse && rates.Priced(&rates.Account, m) {
					meter = m
					break
				}
			}
			extra, size := "", "none"
			if meter.Name != "" {
				extra = fmt.Sprintf(", meter: %q", meter.Name)
			}
			if sizes := rates.Sizes(); len(sizes) > 0 {
				size = sizes[0]
				meter.Size = size
			}
			dir := t.TempDir()
			for name, text := range map[string]string{"rates.yaml": string(text), "weather.csv": string(longWeather(3)),
				"program.yaml": fmt.Sprintf(moneyProgram, extra, size), "accounts.csv": "account\n1\n2\n3\n"} {
				if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o666); err != nil {
					t.Fatal(err)
				}
			}
			out := filepath.Join(dir, "out")
			mustRun(t, "portfolio", filepath.Join(dir, "accounts.csv"), "--program", filepath.Join(dir, "program.yaml"), "--out", out,
				"--all-months")
			checkBills(t, out, rates, meter)
		})
	}
}

// checkBills compares the money of results with whole bills.
func checkBills(t *testing.T, out string, rates *bill.Rates, meter bill.Meter) {
	t.Helper()
	if day, dated := rates.Newest(&rates.Account); dated {
		rates = rates.AsOf(day)
	}
	type key struct{ account, measure string }
	water := map[key]map[cal.Date]float64{}
	for _, m := range readAll(t, filepath.Join(out, monthsName), portfoliofile.ReadMonths) {
		if k := (key{m.Account, m.Measure}); m.Weather == rows.AllYears {
			if water[k] == nil {
				water[k] = map[cal.Date]float64{}
			}
			water[k][cal.Of(int(m.Year), int(m.Month), 1)] = m.VolumeM3
		}
	}
	areas := map[string]float64{}
	for _, a := range readAll(t, filepath.Join(out, accountsName), portfoliofile.ReadAccounts) {
		areas[a.ID] = a.AreaM2
	}
	list := resultsOf(t, out)
	found := map[string]float64{}
	for _, r := range list {
		if r.Reference {
			found[fmt.Sprint(r.Account, r.Year)] = *r.Money
		}
	}
	whole := func(account string, of map[cal.Date]float64, year int) (total float64) {
		meter := meter
		a := bill.Account{Persons: money.Int(3), LandscapeM2: money.Float(areas[account], 6), LotM2: money.Float(9000*0.09290304, 6),
			Classes: rates.Account.Classes, Meters: []bill.Meter{meter}}
		var reads []bill.Read
		for _, p := range bill.Periods(cal.Of(1990, 1, 1), cal.Of(1993, 1, 1), rates.Months, 1, nil) {
			v := 0.0
			for d, m3 := range of {
				if d >= p.From && d < p.To {
					v += m3
				}
			}
			indoor := 0.0
			if meter.Use == bill.Mixed {
				indoor = 0.5 * float64(p.To-p.From)
			}
			reads = append(reads, bill.Read{Meter: meter.Name, From: p.From, To: p.To,
				Volume: money.Float(v+indoor, 9).Mul(money.Int(1000)).Div(rates.UnitL)})
		}
		for _, b := range rates.Bills(&a, reads) {
			if y, _, _ := (bill.Between{From: b.From, To: b.To}).Middle().YMD(); y == year {
				total += b.Total.Float64()
			}
		}
		return total
	}
	off, dearest := 0.0, 0.0
	const perYear = 0.25 // of twelve bills, twice
	for _, r := range list {
		want := whole(r.Account, water[key{r.Account, r.Measure}], int(r.Year)) - whole(r.Account, nil, int(r.Year))
		off, dearest = max(off, math.Abs(*r.Money-want)), max(dearest, want)
		if math.Abs(*r.Money-want) > perYear {
			t.Errorf("%s, %s, %d: irrigation costs %v, by whole bills %v", r.Account, r.Measure, r.Year, *r.Money, want)
		}
		if saving := found[fmt.Sprint(r.Account, r.Year)] - *r.Money; math.Abs(saving-*r.MoneySaving) > 0.011 {
			t.Errorf("%s, %s, %d: saves %v, the difference to the reference is %v", r.Account, r.Measure, r.Year, *r.MoneySaving, saving)
		}
		if *r.Money <= 0 && r.VolumeM3 > 10 {
			t.Errorf("%s, %s, %d: %v m³ cost %v", r.Account, r.Measure, r.Year, r.VolumeM3, *r.Money)
		}
	}
	t.Logf("%d rows, off by %.2f at most, of up to %.2f", len(list), off, dearest)
}
