//go:build linux

package cli

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// largeZones, 20 strategies and 30 years must fit in largestMB of memory.
const (
	largeZones = 200
	largestMB  = 400
)

// TestLargeSite holds the peak memory of a whole run, of the built program, as the
// operating system counts it. It takes half a minute of processor time, so it runs only
// with LARGE=1.
func TestLargeSite(t *testing.T) {
	if os.Getenv("LARGE") == "" {
		t.Skip("set LARGE=1 to replay a site of 200 zones, 20 strategies and 30 years")
	}
	dir := t.TempDir()
	program := filepath.Join(dir, "loamledger")
	if out, err := exec.Command("go", "build", "-o", program, "loamledger/cmd/loamledger").CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	run := func(args ...string) (string, *os.ProcessState) {
		cmd := exec.Command(program, args...)
		var out, errs bytes.Buffer
		cmd.Dir, cmd.Stdout, cmd.Stderr = dir, &out, &errs
		if err := cmd.Run(); err != nil {
			t.Fatalf("%s: %v\n%s", args[0], err, errs.String())
		}
		return out.String(), cmd.ProcessState
	}
	put := func(name, text string) {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	normals, _ := run("generate", "--template")
	put("normals.yaml", normals)
	run("generate", "--normals", "normals.yaml", "--years", "30", "--seed", "1", "--out", "weather.csv")
	put("large.yaml", largeScenario())
	_, state := run("replay", "large.yaml", "--out", "out", "--no-ledger")
	usage, ok := state.SysUsage().(*syscall.Rusage)
	if !ok {
		t.Skip("this system does not count memory")
	}
	mb := float64(usage.Maxrss) / 1024 // kilobytes on Linux
	t.Logf("%.0f MB at most, %.1f s of processor time", mb, state.UserTime().Seconds())
	if mb >= largestMB {
		t.Errorf("%.0f MB, want less than %d", mb, largestMB)
	}
}

// largeScenario is a site of many zones and of every kind of strategy.
func largeScenario() string {
	plants := []string{"cool-season turf", "warm-season turf", "shrubs, dry climate", "desert plants"}
	soils := []string{"clay loam", "sandy loam", "clay", "loam", "loamy sand"}
	sprinklers := []string{
		"{kind: spray, rate: 1.5 in/h, uniformity: 55%, spray_loss: 3%}", "{kind: rotor, rate: 0.6 in/h, uniformity: 65%, spray_loss: 4%}",
		"{kind: multi-stream, rate: 0.45 in/h, uniformity: 70%, spray_loss: 3%}", "{kind: drip, rate: 0.4 in/h}",
	}
	var b strings.Builder
	b.WriteString("site: {name: Large sample, latitude: 38.9, elevation: 1600 ft}\nunits: us\n" +
		"weather: {file: weather.csv, wind_height: 2 m}\nzones:\n")
	minutes := make([]float64, largeZones)
	for i := range largeZones {
		plant, kind := i%4, (i/4)%3
		if plant == 3 {
			kind = 3
		}
		// Short enough that 200 zones in a row finish before the next day begins.
		minutes[i] = []float64{22, 48, 60, 40}[kind] * (0.6 + 0.1*float64(i%9)) / 6.5
		fmt.Fprintf(&b, "  - {name: zone %d, area: %d ft2, plant: %q, soil: %s, slope: %d%%, root_depth: %d in, sprinkler: %s}\n", i+1, 800+37*i,
			plants[plant], soils[i%5], []int{1, 2, 4, 8, 15}[(i/5)%5], []int{6, 8, 16, 20}[plant], sprinklers[kind])
	}
	b.WriteString("programs:\n")
	program := func(name, days, start string, share float64, more string) {
		fmt.Fprintf(&b, "  - name: %s\n    days: %s\n    starts: [%q]\n%s    minutes:\n", name, days, start, more)
		for i := range minutes {
			fmt.Fprintf(&b, "      zone %d: %.0f min\n", i+1, minutes[i]*share)
		}
	}
	program("main", "[mon, wed, fri]", "04:30", 1, "")
	program("soaked", "[mon, wed, fri]", "04:30", 1, "    cycle: 3 min\n    soak: 40 min\n")
	program("forgotten", "[mon, fri]", "18:00", 0.4, "")
	const (
		months = "monthly: [10, 15, 30, 50, 75, 95, 100, 95, 70, 40, 15, 10]"
		season = "season: {start: 03-01, end: 11-15}"
		rain   = "hold: {rain: {at_least: 0.25 in, dry_out: 2 days}}"
		frost  = "hold: {rain: {at_least: 0.25 in, dry_out: 2 days}, frost: {below: 37 F}}"
		et     = "et_percent: {design_eto: 0.27 in, days: 7 days, max: 130%}"
		auto   = "et_percent: {design_eto: auto, days: 7 days, subtract_rain: true, max: 150%}"
	)
	b.WriteString("baseline: as found\nstrategies:\n")
	for _, s := range [][]string{
		{"as found", "main, forgotten", season}, {"fixed", "main", season}, {"fixed all year", "main"}, {"months", "main", season, months},
		{"months auto", "main", season, "monthly: auto"}, {"et", "main", season, et}, {"et auto", "main", season, auto},
		{"rain skip", "main", season, rain}, {"frost", "main", frost}, {"months rain", "main", season, months, rain},
		{"et rain", "main", season, et, rain}, {"et rain soaked", "soaked", season, et, rain},
		{"et auto frost", "soaked", auto, frost, "round: 1 min"},
		{"sensor", "main", season, "sensor: {permit_at: 40%, placement: average, error: 5%}"},
		{"wind", "main", season, "hold: {wind: {above: 12 mph}}"},
		{"habit", "main", season, "habit: {edits: 3, min_delay: 14 days, max_delay: 42 days, seed: 1, raise_by: 20%}"},
		{"refill", "", "refill: {zones: all, mad: 35%, days: any, extra: 50%, cycle: 8 min, soak: 40 min}"},
		{"refill plain", "", "refill: {zones: all, mad: 35%, days: any, extra: 0%, cycle: 8 min, soak: 40 min}"},
		{"refill two days", "", "refill: {zones: all, mad: 20%, days: [tue, sat], cycle: 8 min, soak: 40 min}"},
		{"refill share", "", season, "refill: {zones: all, mad: 50%, share: 80%, days: any, cycle: 6 min, soak: 60 min}"},
	} {
		fmt.Fprintf(&b, "  - name: %s\n", s[0])
		if s[1] != "" {
			fmt.Fprintf(&b, "    programs: [%s]\n", s[1])
		}
		for _, part := range s[2:] {
			fmt.Fprintf(&b, "    %s\n", part)
		}
	}
	return b.String()
}
