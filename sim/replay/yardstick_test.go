package replay

import (
	"fmt"
	"os/exec"
	"path/filepath"
	"slices"
	"testing"
	"time"
)

// What the yardstick counts: 30 years, eight zones, six strategies.
const yardstickZoneDays = 10957 * 8 * 6

// yardstickRun returns the work that testdata/yardstick/replay.c does.
func yardstickRun(b *testing.B) func() {
	job := &Job{Zones: inventZones(8, 8), Weather: inventWeather(1, 10957), Strategies: inventStrategies(8)}
	var r Runner
	return func() {
		r.stage.prepare(job, 1)
		r.prepareTable(job)
		r.workers = grow(r.workers, 1)
		w := &r.workers[0]
		w.prepare(&r.stage)
		for s := range job.Strategies {
			if err := w.strategy(s, &r.table, nil); err != nil {
				b.Fatal(err)
			}
		}
	}
}

// BenchmarkYardstick times the program's loop and the same arithmetic in C in
// turn, and reports the best and the median of each [ns/zone-day] and the
// ratio of the best. C is built twice: one operation at a time, which is the
// yardstick, and as the compiler likes, several strips at a time. Without a C
// compiler it is skipped.
func BenchmarkYardstick(b *testing.B) {
	cc, err := exec.LookPath("cc")
	if err != nil {
		b.Skip("no C compiler: cc is not on the path")
	}
	type build struct {
		name         string
		flags        []string
		program      string
		best, median []float64
	}
	builds := []build{
		{name: "c-scalar", flags: []string{"-fno-tree-vectorize", "-fno-tree-slp-vectorize"}},
		{name: "c-vector"},
	}
	for i := range builds {
		c := &builds[i]
		c.program = filepath.Join(b.TempDir(), c.name)
		args := append([]string{"-O3", "-march=native"}, c.flags...)
		args = append(args, "-o", c.program, "../../testdata/yardstick/replay.c", "-lm")
		if out, err := exec.Command(cc, args...).CombinedOutput(); err != nil {
			b.Skipf("%s cannot build the yardstick: %v\n%s", cc, err, out)
		}
	}
	run := yardstickRun(b)
	run() // grows memory once
	var ours []float64
	for b.Loop() {
		for range 40 {
			start := time.Now()
			run()
			ours = append(ours, float64(time.Since(start).Nanoseconds())/yardstickZoneDays)
		}
		for i := range builds {
			c := &builds[i]
			out, err := exec.Command(c.program).Output()
			if err != nil {
				b.Fatal(err)
			}
			var best, median float64
			if _, err := fmt.Sscanf(string(out), "best %f median %f", &best, &median); err != nil {
				b.Fatalf("%q: %v", out, err)
			}
			c.best, c.median = append(c.best, best), append(c.median, median)
		}
	}
	slices.Sort(ours)
	b.ReportMetric(0, "ns/op") // of no meaning here
	b.ReportMetric(ours[0], "go-best-ns")
	b.ReportMetric(ours[len(ours)/2], "go-median-ns")
	for _, c := range builds {
		slices.Sort(c.median)
		b.ReportMetric(slices.Min(c.best), c.name+"-best-ns")
		b.ReportMetric(c.median[len(c.median)/2], c.name+"-median-ns")
		b.ReportMetric(ours[0]/slices.Min(c.best), "x-"+c.name)
	}
}
