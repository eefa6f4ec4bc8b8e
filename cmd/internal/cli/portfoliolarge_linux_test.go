package cli

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"loamledger/scenarios/accounts"
	"loamledger/scenarios/study"
	"loamledger/sim/replay"
	"loamledger/weather/cal"
)

// largeProgram has six zones and six measures, 30 years of weather.
const largeProgram = `portfolio: 1
name: large
stations: [{name: dry, file: weather.csv, latitude: 38.9, longitude: -120, elevation: 490 m}]
as_found: {scale: 40%% to 100%% to 250%%}
choices: {soil: {sandy loam: 25%%, loam: 45%%, clay loam: 30%%}}
zones:
%sprograms:
  - {name: p, days: [mon, wed, fri], starts: ["05:00"], minutes: {z1: 20, z2: 25, z3: 30, z4: 20, z5: 25, z6: 30}}
strategies:
  - {name: as found, programs: p}
  - {name: monthly, like: as found, monthly: auto}
  - {name: sensor, like: as found, hold: {rain: {at_least: 4 mm, dry_out: 2 days, miss_rate: 25%%}}}
  - {name: et, programs: p, et_percent: {design_eto: auto, subtract_rain: true}}
  - {name: refill, refill: {zones: all, mad: 50%%}}
  - {name: nozzles, like: as found, changes: [{zones: [z1], sprinkler: {uniformity: 70%%}, minutes: 85%%}]}
`

// largeFiles writes a program and n accounts of six zones, half of them with metered use.
func largeFiles(t testing.TB, dir string, n, years int) (program, table string) {
	t.Helper()
	var zones, rows strings.Builder
	for z := range 6 {
		fmt.Fprintf(&zones, "  - {name: z%d, area: 60 to 100 to 180 m2, plant: tall fescue, soil: loam, "+
			"sprinkler: {kind: spray, rate: 30 to 40 mm/h, uniformity: 40%% to 55%% to 70%%}}\n", z+1)
	}
	rows.WriteString("account,area (m2),outdoor_use (m3)\n")
	for i := range n {
		use := ""
		if i%2 == 0 {
			use = fmt.Sprint(300 + i%400)
		}
		fmt.Fprintf(&rows, "%08d,%d,%s\n", i*7919%99999989, 400+i%300, use)
	}
	files := map[string]string{"program.yaml": fmt.Sprintf(largeProgram, zones.String()), "accounts.csv": rows.String(),
		"weather.csv": string(longWeather(years))}
	for name, text := range files {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	return filepath.Join(dir, "program.yaml"), filepath.Join(dir, "accounts.csv")
}

// longWeather is synthetic weather of many years that differ.
func longWeather(years int) []byte {
	var b strings.Builder
	b.WriteString("date,tmax_c,tmin_c,rain_mm,eto_mm\n")
	from, to := cal.Of(1990, 1, 1), cal.Of(1990+years, 1, 1)
	state := uint64(1)
	for d := from; d < to; d++ {
		state = state*6364136223846793005 + 1442695040888963407
		_, month, _ := d.YMD()
		season := [...]float64{0, 0.1, 0.25, 0.45, 0.7, 0.9, 1, 0.95, 0.7, 0.4, 0.2, 0.05}[month-1]
		chance := float64(state>>40) / (1 << 24)
		rain := 0.0
		if chance < 0.3-0.22*season {
			rain = 2 + 40*chance
		}
		fmt.Fprintf(&b, "%v,%.1f,%.1f,%.1f,%.2f\n", d, 6+26*season+6*chance, -5+17*season+5*chance, rain, 0.6+5.5*season+1.5*chance)
	}
	return []byte(b.String())
}

func largePortfolio(t testing.TB, n, years int) *portfolio {
	t.Helper()
	program, table := largeFiles(t, t.TempDir(), n, years)
	p, err := loadPortfolio(table, &portfolioOptions{Program: program, Workers: 1})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// accountsRead returns the accounts of a portfolio.
func accountsRead(t testing.TB, p *portfolio) (list []*accounts.Account) {
	t.Helper()
	if err := p.eachAccount(nil, func(a *accounts.Account, faults error) error {
		list = append(list, a)
		return faults
	}); err != nil {
		t.Fatal(err)
	}
	return list
}

// BenchmarkPortfolioAccount is one account of a portfolio, 6 zones, 30 years and 6 measures,
// from its cells to its rows.
func BenchmarkPortfolioAccount(b *testing.B) {
	p := largePortfolio(b, 64, 30)
	list := accountsRead(b, p)
	r := accounts.NewReplayer(p.program, p.sites, accounts.Options{})
	b.ReportAllocs()
	n, began := 0, processorTime()
	for b.Loop() {
		if _, err := r.Account(context.Background(), list[n%len(list)]); err != nil {
			b.Fatal(err)
		}
		n++
	}
	b.ReportMetric((processorTime()-began).Seconds()*1000/float64(n), "cpu-ms/account")
}

// processorTime is the time that this process has had a processor: on a busy machine it says
// more than a clock.
func processorTime() time.Duration {
	var u syscall.Rusage
	_ = syscall.Getrusage(syscall.RUSAGE_SELF, &u) // cannot fail for the process itself
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

// BenchmarkPortfolioEngine is the replay alone of the program's site, of the same size.
func BenchmarkPortfolioEngine(b *testing.B) {
	p := largePortfolio(b, 1, 30)
	site := &p.sites[0]
	l, err := study.New(site.Scenario, site.Weather, site.Forecast)
	if err != nil {
		b.Fatal(err)
	}
	l.Job.Strategies = l.Job.Strategies[:len(site.Scenario.Strategies)]
	for z := range l.Job.Zones { // no two zones of an account are alike
		l.Job.Zones[z].TAWMM += float64(z)
	}
	var r replay.Runner
	b.ReportAllocs()
	n, began := 0, processorTime()
	for b.Loop() {
		if _, err := r.Run(context.Background(), &l.Job, nil); err != nil {
			b.Fatal(err)
		}
		n++
	}
	b.ReportMetric((processorTime()-began).Seconds()*1000/float64(n), "cpu-ms/account")
}
