package tune

import (
	"math"
	"slices"

	"loamledger/sim"
	"loamledger/sim/strategy"
	"loamledger/weather/portable"
)

func (s *search) calendar() *sim.Calendar {
	return sim.NewCalendar(s.job.Weather.Start, s.job.Weather.Days())
}

// meanETo returns the mean reference ET of each calendar month [mm/d].
func (s *search) meanETo() (mean [12]float64) {
	var days [12]float64
	for i, m := range s.calendar().Month {
		mean[m-1] += s.job.Weather.EToMM[i]
		days[m-1]++
	}
	for m := range mean {
		mean[m] /= max(days[m], 1)
	}
	return mean
}

// peakETo returns the highest monthly mean reference ET, rounded [mm/d].
func (s *search) peakETo() float64 {
	mean := s.meanETo()
	mm := slices.Max(mean[:])
	if s.design != nil {
		return s.design(mm)
	}
	return max(math.Round(10*mm)/10, 0.1)
}

// A bend defines how percentages follow twelve base shares b, the highest of which
// is 1: min(1, Scale · (Floor + (1 − Floor) · b^Exponent)), rounded up to the
// step. Months between months with water are never off.
type bend struct{ exponent, floor, scale float64 }

// share returns the percentage for a share of the base.
func (b bend) share(base float64) float64 {
	return min(1, b.scale*(b.floor+float64((1-b.floor)*portable.Pow(base, b.exponent))))
}

// bases returns the shapes that percentages may follow: monthly mean reference
// ET, and the smoothed need of the least-water reference.
func (s *search) bases() [][12]float64 {
	return [][12]float64{shape(s.meanETo()), smoothed(s.needM3)}
}

// A bent is a row of percentages, as indices into bases and the space.
type bent struct{ base, exponent, floor, scale int }

// row returns the percentages of a bent.
func (s *search) row(b bent, bases [][12]float64, full int) row {
	bend := bend{s.space.Exponents[b.exponent], s.space.Floors[b.floor], s.space.Scales[b.scale]}
	var share [12]float64
	for m, x := range bases[b.base] {
		share[m] = bend.share(x)
	}
	return rowAbove(share, full)
}

// monthly searches programs and percentages. Twelve free percentages would fit
// the quirks of single years, so they follow the season of reference ET or of the
// need, adjusted by three numbers. It chooses options under a plain row, tries
// rows with these options, and chooses options again under the best row.
func (s *search) monthly(options []option, _ Kind) (choice, []option, []strategy.Part, error) {
	full := int(math.Round(1 / s.space.Timer.PercentStep))
	bases := s.bases()
	size := [4]int{len(bases), len(s.space.Exponents), len(s.space.Floors), len(s.space.Scales)}
	var best choice
	var found row
	for base := range bases {
		at := bent{base: base, exponent: nearest(s.space.Exponents, 1)}
		now := s.row(at, bases, full)
		c, _, err := s.choose(options, nil, []strategy.Part{monthly(now, full)})
		for range 3 { // rounds of rows and options; each must save water
			if err != nil {
				return best, nil, nil, err
			}
			was := c.cost
			if now, err = s.bend(options, &c, at, size, bases, full, now); err != nil {
				return best, nil, nil, err
			}
			var again choice
			again, _, err = s.choose(options, nil, []strategy.Part{monthly(now, full)})
			if err == nil && again.cost.less(c.cost) {
				c = again
			}
			if !c.cost.less(was) || len(options) == 1 {
				break
			}
		}
		if err != nil {
			return best, nil, nil, err
		}
		if base == 0 || c.cost.less(best.cost) {
			best, found = c, now
		}
	}
	return best, options, []strategy.Part{monthly(found, full)}, nil
}

// nearest returns the index of the value nearest to x.
func nearest(values []float64, x float64) (at int) {
	for i, v := range values {
		if math.Abs(v-x) < math.Abs(values[at]-x) {
			at = i
		}
	}
	return at
}

// bend looks for better percentages with the options of a choice, using the
// shortest run times for each row. It tries all rows if there are few, else varies
// two numbers at a time as long as that saves water.
func (s *search) bend(options []option, c *choice, at bent, size [4]int, bases [][12]float64, full int, now row) (row, error) {
	const few = 300 // rows times zones
	improve := func(list []bent) (better bool, err error) {
		var rows []row
		var of []bent
		for _, b := range list {
			if r := s.row(b, bases, full); !slices.Contains(rows, r) {
				rows, of = append(rows, r), append(of, b)
			}
		}
		got, err := s.rows(options, c.option, c.minutes, rows, full)
		if err != nil {
			return false, err
		}
		for i := range got {
			if got[i].cost.less(c.cost) {
				c.minutes, c.cost, now, at, better = got[i].minutes, got[i].cost, rows[i], of[i], true
			}
		}
		return better, nil
	}
	if size[0]*size[1]*size[2]*size[3]*len(s.job.Zones) <= few {
		var all []bent
		for i := range size[0] * size[1] * size[2] * size[3] {
			b := bent{base: i % size[0]}
			i /= size[0]
			b.exponent, i = i%size[1], i/size[1]
			b.floor, b.scale = i%size[2], i/size[2]
			all = append(all, b)
		}
		_, err := improve(all)
		return now, err
	}
	for better := true; better; {
		better = false
		for _, pair := range [][2]int{{0, 1}, {1, 2}, {1, 3}, {2, 3}} { // two numbers at a time, since they offset each other
			var list []bent
			for i := range size[pair[0]] {
				for j := range size[pair[1]] {
					b := at
					figures := [4]*int{&b.base, &b.exponent, &b.floor, &b.scale}
					*figures[pair[0]], *figures[pair[1]] = i, j
					list = append(list, b)
				}
			}
			got, err := improve(list)
			if err != nil {
				return now, err
			}
			better = better || got
		}
	}
	return now, nil
}

func monthly(r row, full int) strategy.Monthly { return strategy.Monthly{Share: r.shares(full)} }

// rows finds the shortest run times under each row of percentages.
func (s *search) rows(options []option, of, hint []int, rows []row, full int) ([]found, error) {
	variants := make([]variant, len(rows))
	for i, r := range rows {
		parts := []strategy.Part{monthly(r, full)}
		most := make([]int, len(of))
		for z := range most {
			most[z] = s.mostMinutes(z, options[of[z]].cycle)
		}
		variants[i] = variant{most: most, hint: slices.Clone(hint), build: func(minutes []int) strategy.Strategy {
			return s.build("", options, of, minutes, parts)
		}}
	}
	return s.fewest(variants)
}
