package calibrate_test

import (
	"context"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"testing"

	"loamledger/sim/calibrate"
	"loamledger/sim/meter"
	"loamledger/weather/cal"
)

// A truth is a synthetic site whose parameters are known.
type truth struct {
	name      string
	years     int
	every     int // months in a period
	dedicated bool
	base      float64 // m³/d
	scale     float64
	leak      float64
	off       []int
	from      cal.Date // of a dated change
	factor    float64
	noise     float64 // share of the use of a period, 1 sigma
	baseNoise float64 // share of base use, 1 sigma
	unit      float64 // reads are whole units of this size, the rest carried [m³]; 0 for exact
}

var begin = cal.Of(2015, 1, 1)

// scheduled is a fixed schedule: every second day from April 15 to October 15, more in
// summer, as people set it.
func scheduled(days int) *calibrate.Use {
	share := [12]float64{0, 0, 0, 0.6, 0.8, 1, 1, 1, 0.7, 0.5, 0, 0}
	u := &calibrate.Use{Start: begin, RunM3: make([]float64, days)}
	for i := range u.RunM3 {
		d := begin + cal.Date(i)
		if _, m, dom := d.YMD(); i%2 == 0 && !(m == 4 && dom < 15 || m == 10 && dom > 15) {
			u.RunM3[i] = 4 * share[m-1]
		}
	}
	return u
}

// replayed returns a replay without memory that no plant changes.
func replayed(u *calibrate.Use) calibrate.Replay {
	return func(_ context.Context, a calibrate.Altered) (*calibrate.Use, error) {
		out := *u
		out.RunM3 = append([]float64(nil), u.RunM3...)
		for i := range out.RunM3 {
			if a.Off[(out.Start+cal.Date(i)).Month()-1] {
				out.RunM3[i] = 0
			}
		}
		return &out, nil
	}
}

// reads draws the reads of a meter.
func (s *truth) reads(u *calibrate.Use, rng *rand.Rand) (list []meter.Period) {
	from, carried := begin, 0.0
	for m := s.every; m <= 12*s.years; m += s.every {
		to := cal.Of(2015+m/12, 1+m%12, 1) + cal.Date(rng.IntN(5)-2)
		if to > begin+cal.Date(len(u.RunM3)) {
			to = begin + cal.Date(len(u.RunM3))
		}
		water := 0.0
		for d := from; d < to; d++ {
			v := s.scale * u.RunM3[d-begin]
			for _, off := range s.off {
				if d.Month() == off {
					v = 0
				}
			}
			if s.from != 0 && d >= s.from {
				v *= s.factor
			}
			water += v
		}
		days := float64(to - from)
		use := water*(1+s.noise*rng.NormFloat64()) + s.base*days*(1+s.baseNoise*rng.NormFloat64()) + s.leak*days
		if s.unit > 0 {
			whole := math.Floor((use + carried) / s.unit)
			use, carried = whole*s.unit, use+carried-whole*s.unit
		}
		list = append(list, meter.Period{From: from, To: to, M3: max(use, 0), Kind: meter.Actual})
		from = to
	}
	return list
}

func (s *truth) days() int { return int(cal.Of(2015+s.years, 1, 1)-begin) + 3 }

// sites are the family: periods, noise, leaks and schedules differ.
func sites() []truth {
	return []truth{
		{name: "3 years, monthly", years: 3, every: 1, base: 0.6, scale: 1.2, noise: 0.08, baseNoise: 0.1},
		{name: "2 years, monthly", years: 2, every: 1, base: 0.6, scale: 1.2, noise: 0.08, baseNoise: 0.1},
		{name: "1 year, monthly", years: 1, every: 1, base: 0.6, scale: 1.2, noise: 0.08, baseNoise: 0.1},
		{name: "4 years, bimonthly, units of 2.83 m3", years: 4, every: 2, base: 0.6, scale: 0.8, noise: 0.08, baseNoise: 0.1, unit: 2.83},
		{name: "April and October off", years: 3, every: 1, base: 0.6, scale: 1.2, noise: 0.08, baseNoise: 0.1, off: []int{4, 10}},
		{name: "run times up by 40%", years: 4, every: 1, base: 0.6, scale: 1.2, noise: 0.08, baseNoise: 0.1, from: cal.Of(2016, 7, 1),
			factor: 1.4},
		{name: "irrigation only", years: 3, every: 1, dedicated: true, scale: 1.2, noise: 0.08},
		{name: "irrigation only, with a leak", years: 3, every: 1, dedicated: true, scale: 1.2, noise: 0.08, leak: 0.3, baseNoise: 0.1},
		{name: "large errors", years: 3, every: 1, base: 0.6, scale: 1.2, noise: 0.25, baseNoise: 0.3},
	}
}

// A tally counts how often a family is recovered.
type tally struct{ base, scale, factor, found, extra int }

// count adds one calibration.
func (n *tally) count(s *truth, r *calibrate.Result) {
	holds := func(p *calibrate.Param, want float64) bool { return p.Interval[0] <= want && want <= p.Interval[1] }
	add := func(to *int, is bool) {
		if is {
			*to++
		}
	}
	chosen, found := 0, 0
	for i := range r.Params {
		switch p := &r.Params[i]; p.Key {
		case calibrate.Base:
			add(&n.base, holds(p, s.base))
		case calibrate.Leak:
			add(&n.base, !p.Tuned && s.leak == 0 || holds(p, s.leak))
		case calibrate.Scale:
			add(&n.scale, holds(p, s.scale))
		case calibrate.Off:
			chosen++
			add(&found, slices.Contains(s.off, p.Month))
		case calibrate.Change:
			chosen++
			if s.from != 0 && p.From-s.from < 5 && s.from-p.From < 5 {
				found++
				add(&n.factor, holds(p, s.factor))
			}
		}
	}
	want := len(s.off)
	if s.from != 0 {
		want++
	}
	add(&n.found, found == want)
	add(&n.extra, chosen > found)
}

// Over many drawn sites of every kind, the intervals hold the truth about as often as
// they say, 90%, the schedule that ran is found, and one that did not run rarely is. The
// bounds leave room for chance and no more; the log has the counts.
func TestKnownTruth(t *testing.T) {
	seeds := 40
	if os.Getenv("LONG") != "" {
		seeds = 400
	}
	for _, s := range sites() {
		u := scheduled(s.days())
		var n tally
		for seed := range seeds {
			rng := rand.New(rand.NewPCG(uint64(seed), 7))
			j := calibrate.Job{Periods: s.reads(u, rng), Replay: replayed(u), Dedicated: s.dedicated, Draws: 199, Seed: uint64(seed)}
			r, err := j.Run(context.Background())
			if err != nil || r.Stopped != "" {
				t.Fatal(err, r.Stopped)
			}
			n.count(&s, r)
		}
		t.Logf("%-37s of %d: constant in its interval %d, flow %d, run times %d; schedule found %d, something else chosen, too %d", s.name, seeds,
			n.base, n.scale, n.factor, n.found, n.extra)
		share := func(k int) float64 { return float64(k) / float64(seeds) }
		if share(n.base) < 0.75 || share(n.scale) < 0.75 || s.from != 0 && share(n.factor) < 0.75 {
			t.Errorf("%s: the intervals are too narrow", s.name)
		}
		if share(n.found) < 0.85 || share(n.extra) > 0.25 {
			t.Errorf("%s: the schedule", s.name)
		}
	}
}
