package cli

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
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
money: {rates: rates.yaml, indoor_use: 300 to 500 to 1000 L}
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

// largeRates are tiers, in two seasons, with a sewer charge by the winter average.
const largeRates = `name: large
currency: USD
unit: HCF
charges:
  - {name: service, part: fixed, amount: 14}
  - {name: water, part: water, season: {from: 05-01, to: 09-30}, tiers: [{to: 8, price: 2.5}, {to: 20, price: 4}, {price: 7}]}
  - {name: water, part: water, season: {from: 10-01, to: 04-30}, tiers: [{to: 8, price: 2.5}, {price: 3.5}]}
  - {name: sewer, part: sewer, volume: winter average, winter: {months: [dec, jan, feb], from: 04-01, default: 7}, price: 4.9}
account: {indoor: 150 gal}
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
		"rates.yaml":  largeRates,
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

// engineJob is the job of the program's site.
func engineJob(t testing.TB) *replay.Job {
	p := largePortfolio(t, 1, 30)
	site := &p.sites[0]
	l, err := study.New(site.Scenario, site.Weather, site.Forecast)
	if err != nil {
		t.Fatal(err)
	}
	l.Job.Strategies = l.Job.Strategies[:len(site.Scenario.Strategies)]
	for z := range l.Job.Zones { // no two zones of an account are alike
		l.Job.Zones[z].TAWMM += float64(z)
	}
	return &l.Job
}

// BenchmarkPortfolioEngine is the replay alone of the program's site, of the same size.
func BenchmarkPortfolioEngine(b *testing.B) {
	job := engineJob(b)
	var r replay.Runner
	b.ReportAllocs()
	n, began := 0, processorTime()
	for b.Loop() {
		if _, err := r.Run(context.Background(), job, nil); err != nil {
			b.Fatal(err)
		}
		n++
	}
	b.ReportMetric((processorTime()-began).Seconds()*1000/float64(n), "cpu-ms/account")
}

// What a run of many accounts may take: memory at most, and processor time against that of the
// replay alone.
const (
	portfolioMB    = 500
	portfolioRatio = 1.3
)

// TestLargePortfolio runs the built program over as many accounts as PORTFOLIO says, as in
// PORTFOLIO=1000,10000: 6 zones, 30 years, 6 measures each. Memory is as the operating system
// counts it. Time is that of the processor, against the replay alone of a site of that size, so
// that a busy machine decides nothing; the ratio is judged only if PORTFOLIO_RATIO is set, too,
// since a processor that is shared is slower by turns.
func TestLargePortfolio(t *testing.T) {
	sizes := os.Getenv("PORTFOLIO")
	if sizes == "" {
		t.Skip("set PORTFOLIO=1000 to replay a portfolio of a thousand accounts, 36 s of processor time")
	}
	program := filepath.Join(t.TempDir(), "loamledger")
	if out, err := exec.Command("go", "build", "-o", program, "loamledger/cmd/loamledger").CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	for _, size := range strings.Split(sizes, ",") {
		n, err := strconv.Atoi(size)
		if err != nil {
			t.Fatal(err)
		}
		dir := t.TempDir()
		file, table := largeFiles(t, dir, n, 30)
		engine := engineTime(t)
		cmd := exec.Command(program, "portfolio", table, "--program", file, "--out", filepath.Join(dir, "out"))
		var told bytes.Buffer
		cmd.Stderr = &told
		began := time.Now()
		if err := cmd.Run(); err != nil {
			t.Fatalf("%v\n%s", err, told.String())
		}
		took := time.Since(began)
		engine = (engine + engineTime(t)) / 2
		state := cmd.ProcessState
		usage := state.SysUsage().(*syscall.Rusage)
		each := (state.UserTime() + state.SystemTime()).Seconds() / float64(n)
		ratio, mb := each/engine.Seconds(), float64(usage.Maxrss)/1024
		var bytes int64
		for name := range folderText(t, filepath.Join(dir, "out")) {
			if info, err := os.Stat(filepath.Join(dir, "out", name)); err == nil {
				bytes += info.Size()
			}
		}
		t.Logf("%d accounts: %.1f ms of processor time each, %.2f of the replay alone (%.1f ms), %.0f MB at most, %.1f accounts/s here, "+
			"%.0f bytes each on disk", n, 1000*each, ratio, 1000*engine.Seconds(), mb, float64(n)/took.Seconds(), float64(bytes)/float64(n))
		if mb >= portfolioMB {
			t.Errorf("%.0f MB, want less than %d", mb, portfolioMB)
		}
		if os.Getenv("PORTFOLIO_RATIO") != "" && ratio > portfolioRatio {
			t.Errorf("%.2f of the time of the replay alone, want at most %g", ratio, portfolioRatio)
		}
	}
}

// engineTime returns the processor time of the replay alone of a site with the zones, years and
// measures of the large portfolio.
func engineTime(t testing.TB) time.Duration {
	const times = 40
	job := engineJob(t)
	var r replay.Runner
	began := processorTime()
	for i := range times + 1 {
		if i == 1 { // the first lays out its memory
			began = processorTime()
		}
		if _, err := r.Run(context.Background(), job, nil); err != nil {
			t.Fatal(err)
		}
	}
	return (processorTime() - began) / times
}
