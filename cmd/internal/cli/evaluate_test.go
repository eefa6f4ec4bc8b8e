package cli_test

import (
	"encoding/csv"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"loamledger/scenarios/evaluate/costsfile"
	"loamledger/sim/portfolio"
	"loamledger/sim/portfolio/portfoliofile"
)

// townUse returns the use of an invented account as found and under the three measures of the
// template of costs [m³/yr]: weather controller waters at 105% of need, monthly settings take off a
// quarter of what is beyond 110% of need, and both together save less than the sum.
func townUse(found, need float64) [4]float64 {
	months := found - float64(0.25*max(0, found-1.1*need))
	weather := 1.05 * need
	both := weather // where little is applied, the controller decides
	if found > weather {
		both = min(weather, months)
	}
	return [4]float64{found, months, weather, both}
}

// writeTown writes the results of n invented accounts over the years 2001 to 2012 and returns their
// mean saving under the weather controller [m³/yr].
func writeTown(t testing.TB, dir string, n int) (saving float64) {
	t.Helper()
	var files []io.Closer
	create := func(name string) io.Writer {
		f, err := os.Create(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		files = append(files, f)
		return f
	}
	meta := map[string]string{"version": "test"}
	results := portfoliofile.NewResults(create("results.parquet"), meta)
	months := portfoliofile.NewMonths(create("months.parquet"), meta)
	accounts := portfoliofile.NewAccounts(create("accounts.parquet"), meta)
	r := rand.New(rand.NewPCG(5, 6))
	shape := [12]float64{0, 0, 0.02, 0.06, 0.12, 0.18, 0.22, 0.18, 0.13, 0.07, 0.02, 0}
	for a := range n {
		id := fmt.Sprintf("%05d", a)
		area := 120 + float64(500*r.Float64()*r.Float64())
		ratio := math.Exp(0.05 + float64(0.5*r.NormFloat64()))
		station := []string{"Cottonwood Wash", "Saltgrass Flat"}[a%2]
		about := portfolio.Account{
			ID:           id,
			Station:      station,
			Zones:        4,
			AreaM2:       area,
			Class:        []string{"single home", "single home", "common area"}[a%3],
			Area:         []string{"north", "south", "east", "old town"}[min(a%7, 3)],
			AsFound:      portfolio.FromBills,
			AsFoundScale: 1,
			ImputedShare: 0.4,
		}
		if a == 1 {
			about.Area = "mill lane" // one account: a group that must be withheld
		}
		if a%5 == 0 {
			about.AsFound = portfolio.Drawn
		}
		if err := accounts.Write(about); err != nil {
			t.Fatal(err)
		}
		for k, name := range []string{"as found", "monthly settings", "weather controller", "both"} {
			for y := 2001; y <= 2012; y++ {
				dry := 1 + float64(0.12*math.Sin(float64(y)*2.1))
				need := 0.55 * area * dry
				use := townUse(ratio*0.55*area, need)
				v := use[k]
				share := v / need
				money := 180 + float64(1.4*v)
				row := portfolio.Result{Account: id, Measure: name, Reference: k == 0, Year: int32(y), WholeYear: true, AreaM2: area, VolumeM3: v,
					RequirementM3: need, ApplicationRatio: &share, StressZoneDays: max(0, float64(90*(1-share))),
					BrowningDays: max(0, float64(30*(0.8-share))),
					PeakMonthM3:  v * 0.22, PeakDayM3: v * 0.011, Money: &money}
				if err := results.Write(row); err != nil {
					t.Fatal(err)
				}
				if k == 2 {
					saving += (use[0] - use[2]) / 12 / float64(n)
				}
				if y != 2003 && y != 2008 {
					continue
				}
				for m, s := range shape {
					weather := map[int]string{2003: portfolio.MedianYear, 2008: portfolio.DryYear}[y]
					if err := months.Write(portfolio.Month{Account: id, Measure: name, Weather: weather, Year: int32(y), Month: int32(m + 1),
						VolumeM3: v * s, RequirementM3: need * s}); err != nil {
						t.Fatal(err)
					}
				}
			}
		}
	}
	if err := errors.Join(results.Close(), months.Close(), accounts.Close()); err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		if err := f.Close(); err != nil {
			t.Fatal(err)
		}
	}
	return saving
}

// town writes results and the costs of the template, and returns their names.
func town(t testing.TB, n int) (dir, costs string, saving float64) {
	t.Helper()
	dir = t.TempDir()
	if keep := os.Getenv("KEEP"); keep != "" {
		dir = keep
	}
	saving = writeTown(t, dir, n)
	costs = filepath.Join(dir, "costs.yaml")
	if err := os.WriteFile(costs, []byte(costsfile.Template), 0o666); err != nil {
		t.Fatal(err)
	}
	return dir, costs, saving
}

// readSheet reads a CSV file as rows of named cells.
func readSheet(t testing.TB, name string) (out []map[string]string) {
	t.Helper()
	f, err := os.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range rows[1:] {
		cells := map[string]string{}
		for i, cell := range row {
			cells[rows[0][i]] = cell
		}
		out = append(out, cells)
	}
	return out
}

func number(t testing.TB, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// TestEvaluateATown: the command finds the saving that went into an invented town, writes every file,
// and gives equal files again.
func TestEvaluateATown(t *testing.T) {
	dir, costs, saving := town(t, 700)
	out := filepath.Join(t.TempDir(), "evaluation")
	if keep := os.Getenv("KEEP"); keep != "" {
		out = filepath.Join(keep, "evaluation")
	}
	text := done(t, "portfolio", "evaluate", dir, "--costs", costs, "--out", out)
	for _, want := range []string{"were drawn, not observed", "The bills are simulated", "withheld", "Wrote "} {
		if !strings.Contains(strings.Join(strings.Fields(text), " "), want) {
			t.Errorf("%q is not in\n%s", want, text)
		}
	}
	found := 0
	for _, row := range readSheet(t, filepath.Join(out, "savings.csv")) {
		switch {
		case row["measure"] == "weather controller" && row["group"] == "all":
			found++
			if got := number(t, row["mean_saving_m3"]); math.Abs(got-saving) > 1e-6 {
				t.Errorf("the mean saving is %g m³, put in were %g", got, saving)
			}
		case row["cell"] == "mill lane":
			found++
			if row["withheld"] != "yes" || row["accounts"] != "" || row["mean_saving_m3"] != "" {
				t.Errorf("one account can be seen: %v", row)
			}
		}
	}
	if found != 4 { // all of one measure, mill lane of three
		t.Errorf("%d rows found", found)
	}
	files, err := os.ReadDir(out)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	again := filepath.Join(t.TempDir(), "again")
	done(t, "portfolio", "evaluate", filepath.Join(dir, "results.parquet"), "--costs", costs, "--out", again)
	for _, f := range files {
		names = append(names, f.Name())
		one, err1 := os.ReadFile(filepath.Join(out, f.Name()))
		two, err2 := os.ReadFile(filepath.Join(again, f.Name()))
		if f.Name() == "evaluation.html" { // it has the names of the files as they were given; the same here
			continue
		}
		if err1 != nil || err2 != nil || !slices.Equal(one, two) {
			t.Errorf("%s differs when it is written again: %v %v", f.Name(), err1, err2)
		}
	}
	want := []string{"account-savings.png", "bills.csv", "cost-of-saved-water.png", "costs.csv", "evaluation.html", "evaluation.json",
		"evaluation.pdf",
		"interactions.csv", "peaks.csv", "rebates.csv", "savings-by-rank.png", "savings-by-ratio.png", "savings.csv", "swings.csv", "targets.csv",
		"tests.csv"}
	if !slices.Equal(names, want) {
		t.Errorf("files %q", names)
	}
	page, err := os.ReadFile(filepath.Join(out, "evaluation.html"))
	if err != nil || !strings.Contains(string(page), "were drawn, not observed") || !strings.Contains(string(page), "bills are simulated") {
		t.Errorf("the page does not say what is assumed: %v", err)
	}
	// The saving of the parts is counted twice in part; the combination is at most the sum.
	x := readSheet(t, filepath.Join(out, "interactions.csv"))[0]
	if number(t, x["counted_twice_m3"]) <= 0 {
		t.Errorf("%v", x)
	}
}

// The JSON has the verdicts with their codes, and the flag that the distribution is assumed.
func TestEvaluateJSON(t *testing.T) {
	dir, costs, _ := town(t, 120)
	var r struct {
		Accounts int
		AsFound  struct{ Assumed bool } `json:"as_found"`
		Targets  struct {
			Simulated bool `json:"bills_simulated"`
		}
		Verdicts []struct{ Measure, Verdict string }
		Defaults []struct{ Key string }
		Tables   map[string][]map[string]string
	}
	if err := json.Unmarshal([]byte(done(t, "portfolio", "evaluate", dir, "--costs", costs, "--json")), &r); err != nil {
		t.Fatal(err)
	}
	if r.Accounts != 120 || !r.AsFound.Assumed || !r.Targets.Simulated || len(r.Verdicts) != 3 || len(r.Tables) != 9 {
		t.Errorf("%d accounts, %+v, %+v, %d verdicts, %d tables", r.Accounts, r.AsFound, r.Targets, len(r.Verdicts), len(r.Tables))
	}
	for _, v := range r.Verdicts {
		if !slices.Contains([]string{"renew", "retarget", "stop"}, v.Verdict) {
			t.Errorf("%+v", v)
		}
	}
}
