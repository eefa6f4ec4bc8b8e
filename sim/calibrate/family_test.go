package calibrate_test

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
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

func TestTryCoverage(t *testing.T) {
	for _, s := range []truth{
		{name: "plain 3y", years: 3, every: 1, base: 0.6, scale: 1.2, noise: 0.08, baseNoise: 0.1},
		{name: "plain 2y", years: 2, every: 1, base: 0.6, scale: 1.2, noise: 0.08, baseNoise: 0.1},
		{name: "plain 1y", years: 1, every: 1, base: 0.6, scale: 1.2, noise: 0.08, baseNoise: 0.1},
		{name: "bimonthly 4y", years: 4, every: 2, base: 0.6, scale: 0.8, noise: 0.08, baseNoise: 0.1, unit: 2.83},
		{name: "off", years: 3, every: 1, base: 0.6, scale: 1.2, noise: 0.08, baseNoise: 0.1, off: []int{4, 10}},
		{name: "change", years: 4, every: 1, base: 0.6, scale: 1.2, noise: 0.08, baseNoise: 0.1, from: cal.Of(2016, 7, 1), factor: 1.4},
		{name: "dedicated", years: 3, every: 1, dedicated: true, scale: 1.2, noise: 0.08},
		{name: "leak", years: 3, every: 1, dedicated: true, scale: 1.2, noise: 0.08, leak: 0.3, baseNoise: 0.1},
		{name: "loud", years: 3, every: 1, base: 0.6, scale: 1.2, noise: 0.25, baseNoise: 0.3},
	} {
		u := scheduled(s.days())
		const seeds = 200
		inBase, inScale, inFactor, right, extra := 0, 0, 0, 0, 0
		bias, width := 0.0, 0.0
		for seed := range seeds {
			rng := rand.New(rand.NewPCG(uint64(seed), 7))
			j := calibrate.Job{Periods: s.reads(u, rng), Replay: replayed(u), Dedicated: s.dedicated, Draws: 199}
			r, err := j.Run(context.Background())
			if err != nil || r.Stopped != "" {
				t.Fatal(err, r.Stopped)
			}
			n, found := 0, 0
			for _, p := range r.Params {
				in := p.Interval[0] <= p.Value && false
				switch p.Key {
				case calibrate.Base:
					in = p.Interval[0] <= s.base && s.base <= p.Interval[1]
					if in {
						inBase++
					}
				case calibrate.Leak:
					if in = !p.Tuned && s.leak == 0 || p.Interval[0] <= s.leak && s.leak <= p.Interval[1]; in {
						inBase++
					}
				case calibrate.Scale:
					bias += (p.Value/s.scale - 1) / seeds
					width += (p.Interval[1] - p.Interval[0]) / p.Value / seeds
					if p.Interval[0] <= s.scale && s.scale <= p.Interval[1] {
						inScale++
					}
				case calibrate.Off:
					n++
					for _, m := range s.off {
						if m == p.Month {
							found++
						}
					}
				case calibrate.Change:
					n++
					if s.from != 0 {
						if p.From-s.from < 5 && s.from-p.From < 5 {
							found++
						}
						if p.Interval[0] <= s.factor && s.factor <= p.Interval[1] {
							inFactor++
						}
					}
				}
			}
			want := len(s.off)
			if s.from != 0 {
				want++
			}
			if found == want {
				right++
			}
			if n > found {
				extra++
			}
		}
		fmt.Printf("%-14s base %3d scale %3d factor %3d of %d; schedule found %d, extra %d; bias %.3f width %.3f\n", s.name, inBase, inScale,
			inFactor, seeds, right, extra, bias, width)
	}
}
