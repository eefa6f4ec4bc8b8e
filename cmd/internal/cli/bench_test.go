package cli

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"loamledger/sim/replay"
	"loamledger/weather/cal"
	"loamledger/weather/csvfile"
	"loamledger/weather/generate"
)

// BenchmarkSite runs a site with 8 zones and 8 strategies over 30 years from its
// files to the comparison: it reads, checks and fills the weather, computes ETo
// and replays everything; no ledger, no charts.
func BenchmarkSite(b *testing.B) {
	name := writeSite(b, b.TempDir())
	b.ReportAllocs()
	days := 0
	for b.Loop() {
		l, err := load(name, scenarioFlags{})
		if err != nil {
			b.Fatal(err)
		}
		table, err := replay.Run(context.Background(), &l.Job, nil)
		if err != nil {
			b.Fatal(err)
		}
		table.Compare()
		days = table.Days() * len(table.Zones) * len(table.Strategies)
	}
	b.ReportMetric(float64(b.N)*float64(days)/b.Elapsed().Seconds(), "zone-days/s")
}

// writeSite writes a scenario with 8 zones and 8 strategies, and 30 years of
// synthetic weather, to dir, and returns the name of the scenario.
func writeSite(tb testing.TB, dir string) string {
	tb.Helper()
	p, err := generate.DemoNormals().Params()
	if err != nil {
		tb.Fatal(err)
	}
	first, last := cal.Of(1991, 1, 1), cal.Of(2020, 12, 31)
	rec, err := generate.Generate(p, generate.DemoStation(), first, int(last-first)+1, 1)
	if err != nil {
		tb.Fatal(err)
	}
	f, err := os.Create(filepath.Join(dir, "weather.csv"))
	if err != nil {
		tb.Fatal(err)
	}
	if err := csvfile.WriteOwn(f, &rec.Series); err != nil {
		tb.Fatal(err)
	}
	if err := f.Close(); err != nil {
		tb.Fatal(err)
	}
	var s strings.Builder
	s.WriteString("site: {name: bench, latitude: 38.9, elevation: 490 m}\nunits: si\nweather: {file: weather.csv, wind_height: 2 m}\nzones:\n")
	soils := []string{"clay", "clay loam", "loam", "sandy loam", "silty clay", "loamy sand", "silt loam", "sand"}
	minutes := make([]string, len(soils))
	for i, soil := range soils {
		fmt.Fprintf(&s, "  - {name: zone %d, area: %d m2, plant: cool-season turf, soil: %s, slope: 3 %%, ", i+1, 100+30*i, soil)
		fmt.Fprintf(&s, "sprinkler: {kind: spray, rate: %d mm/h, uniformity: %d %%}}\n", 20+3*i, 50+4*i)
		minutes[i] = fmt.Sprintf("zone %d: %d", i+1, 12+2*i)
	}
	s.WriteString("programs:\n  - {name: p, days: [mon, wed, fri], starts: [\"05:00\"], cycle: 8 min, soak: 30 min, ")
	fmt.Fprintf(&s, "minutes: {%s}}\nstrategies:\n", strings.Join(minutes, ", "))
	for i, parts := range []string{
		"programs: [p]", "programs: [p], monthly: [0, 0, 40, 60, 80, 100, 100, 95, 75, 50, 25, 0]",
		"programs: [p], hold: {rain: {at_least: 6 mm, dry_out: 2 days}}",
		"programs: [p], et_percent: {design_eto: 6 mm, subtract_rain: true}", "refill: {mad: 50 %}", "refill: {mad: 30 %, days: [tue, sat]}",
		"programs: [p], sensor: {permit_at: 40 %}", "programs: [p], monthly: auto, hold: {frost: {below: 2 C}}",
	} {
		fmt.Fprintf(&s, "  - {name: strategy %d, %s}\n", i+1, parts)
	}
	name := filepath.Join(dir, "site.yaml")
	if err := os.WriteFile(name, []byte(s.String()), 0o666); err != nil {
		tb.Fatal(err)
	}
	return name
}
