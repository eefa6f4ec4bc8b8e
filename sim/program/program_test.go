package program

import (
	"math"
	"math/rand/v2"
	"testing"
)

const (
	galM3 = 0.003785411784
	hcfM3 = 2.8316846592
	afM3  = 1233.48183754752
)

// costs returns a program of one measure without doubts: 10 years, no discount, losses, decay or
// costs, avoided cost 1 a m³.
func costs(change func(v *[Knobs]Value)) (*Costs, *Measure) {
	m := Measure{Name: "m"}
	for k, v := range map[Knob]float64{Saving: 1, NetToGross: 1, Life: 10, Avoided: 1} {
		m.Values[k] = Sure(v)
	}
	if change != nil {
		change(&m.Values)
	}
	c := &Costs{FirstYear: 2027, Avoided: []YearPrice{{2027, 1}}, Measures: []Measure{m}}
	return c, &c.Measures[0]
}

// near reports whether a printed number is v rounded to the same decimals.
func near(v, printed float64, decimals int) bool {
	return math.Abs(v-printed) <= 0.5*math.Pow(10, -float64(decimals))+1e-9
}

// By hand, $218,790 for 325 units and 30,070 gal a unit and year, numbers of two published
// programs put together for illustration: $673.2 a unit; 0.0923 AF or 40.2 HCF a year. The present
// value of ten years is 10, 8.530 at 3%, 7.722 at 5%; with decay 5% at 3%
// (1 − (0.95 ÷ 1.03)^10) ÷ (1.03 − 0.95) = 6.931.
func TestLevelizedCostByHand(t *testing.T) {
	for _, tt := range []struct {
		name                 string
		discount, decay, ntg float64
		af, perAF, perHCF    float64
	}{
		{"undiscounted", 0, 0, 1, 0.923, 730, 1.67}, {"3%", 0.03, 0, 1, 0.787, 855, 1.96}, {"5%", 0.05, 0, 1, 0.713, 945, 2.17},
		{"decay", 0.03, 0.05, 1, 0.640, 1053, 2.42}, {"net-to-gross 0.37", 0.03, 0.05, 0.37, 0.237, 2845, 6.53},
	} {
		c, m := costs(func(v *[Knobs]Value) {
			v[Discount], v[Decay], v[NetToGross], v[Admin] = Sure(tt.discount), Sure(tt.decay), Sure(tt.ntg), Sure(218790.0/325)
		})
		s := m.mid()
		r := c.evaluate(m, 0, &s, meansOf([]float64{30070 * galM3}, nil))
		if af := r.waterM3 / afM3; !near(af, tt.af, 3) || !near(r.Levelized()*afM3, tt.perAF, 0) || !near(r.Levelized()*hcfM3, tt.perHCF, 2) {
			t.Errorf("%s: %.4f AF, %.1f per AF, %.3f per HCF; by hand %g, %g, %g", tt.name, af, r.Levelized()*afM3, r.Levelized()*hcfM3,
				tt.af, tt.perAF, tt.perHCF)
		}
	}
}

// By hand. Two accounts: one saves 30 m³ a year, one uses 10 m³ more: means 15 and 5. Two years,
// discount 25%, decay 20%: water 0.8 + 0.8 × 0.64 = 1.312; years 0.8 + 0.64 = 1.44. Avoided cost 3
// and 4 a m³, losses 20%: (3 × 0.8 + 4 × 0.512) ÷ 0.8 = 5.56. Net-to-gross 0.5. Equipment 20,
// upkeep 5, admin 4, rebate 10, fixed cost 6 for two accounts, retail 2, externality 1.
//
//	avoided    gain 0.5 × 15 × 5.56 = 41.7; loss 0.5 × 5 × 5.56 = 13.9
//	bills      cut 2 × 15 × 1.312 = 39.36; rise 2 × 5 × 1.312 = 13.12
//	own cost   20 + 5 × 1.44 = 27.2; admin 4 + 6 ÷ 2 = 7
//	participant  39.36 + 10 = 49.36 against 27.2 + 13.12 = 40.32
//	utility      41.7 against 7 + 10 + 13.9 = 30.9
//	total        41.7 against 7 + 27.2 + 13.9 = 48.1
//	rates        41.7 + 0.5 × 13.12 = 48.26 against 30.9 + 0.5 × 39.36 = 50.58
//	societal     41.7 + 0.5 × 10 × 1.312 × 1 = 48.26 against 48.1
//	levelized    17 ÷ (0.5 × 10 × 1.312 ÷ 0.8) = 17 ÷ 8.2 = 2.0732; avoided 5.56 ÷ 1.312 × 0.8 = 3.3902
func TestTestsByHand(t *testing.T) {
	c, m := costs(func(v *[Knobs]Value) {
		for k, x := range map[Knob]float64{Life: 2, Discount: 0.25, Decay: 0.2, Losses: 0.2, NetToGross: 0.5, Equipment: 20, Upkeep: 5, Admin: 4,
			FixedCost: 6, Retail: 2, Externality: 1} {
			v[k] = Sure(x)
		}
	})
	c.Avoided, c.HasRetail, c.HasExternality = []YearPrice{{2027, 3}, {2028, 4}}, true, true
	s := m.mid()
	r := c.evaluate(m, 10, &s, meansOf([]float64{30, -10}, nil))
	want := [Tests]Balance{{49.36, 40.32, true}, {41.7, 30.9, true}, {41.7, 48.1, true}, {48.26, 50.58, true}, {48.26, 48.1, true}}
	for k, w := range want {
		if b := r.Tests[k]; math.Abs(b.Benefit-w.Benefit) > 1e-9 || math.Abs(b.Cost-w.Cost) > 1e-9 || b.Known != w.Known {
			t.Errorf("%s: %+v, by hand %+v", TestNames()[k], b, w)
		}
	}
	if math.Abs(r.Levelized()-17/8.2) > 1e-9 || math.Abs(r.AvoidedPerM3-3.3902439) > 1e-6 || math.Abs(r.FirstYearM3-5) > 1e-12 {
		t.Errorf("levelized %g, avoided %g, first year %g", r.Levelized(), r.AvoidedPerM3, r.FirstYearM3)
	}
	// Bills from rates replace the retail price: cut 8 and rise 2 a year on average.
	r = c.evaluate(m, 10, &s, meansOf([]float64{30, -10}, []float64{16, -4}))
	if b := r.Tests[Participant]; math.Abs(b.Benefit-(10+8*1.312)) > 1e-9 || math.Abs(b.Cost-(27.2+2*1.312)) > 1e-9 {
		t.Errorf("with bills: %+v", b)
	}
	// Without any price of water the two tests that need one are not known.
	c.HasRetail, c.HasExternality = false, false
	r = c.evaluate(m, 10, &s, meansOf([]float64{30, -10}, nil))
	if r.Tests[Participant].Known || r.Tests[RateImpact].Known || r.Tests[Societal].Known || !r.Tests[Utility].Known {
		t.Errorf("%+v", r.Tests)
	}
}

// A rebate is a transfer: it moves the participant's and the utility's test, never the total.
func TestRebateIsATransfer(t *testing.T) {
	c, m := costs(func(v *[Knobs]Value) { v[Equipment], v[Admin], v[Retail] = Sure(80), Sure(5), Sure(1) })
	c.HasRetail = true
	s := m.mid()
	none, some := c.evaluate(m, 0, &s, meansOf([]float64{9, 11}, nil)), c.evaluate(m, 50, &s, meansOf([]float64{9, 11}, nil))
	for k, by := range [Tests]float64{50, -50, 0, -50, 0} {
		if got := some.Tests[k].net() - none.Tests[k].net(); math.Abs(got-by) > 1e-9 {
			t.Errorf("%s moves by %g, by hand %g", TestNames()[k], got, by)
		}
	}
}

// By hand: prices of 2028 and 2029 are 2 and 3, and rise by 10% from then on; earlier years have
// the first price.
func TestPriceByYear(t *testing.T) {
	c := &Costs{FirstYear: 2027, Growth: 0.1, Avoided: []YearPrice{{2028, 2}, {2029, 3}}}
	for i, want := range []float64{2, 2, 3, 3.3, 3.63} {
		if got := c.price(i); math.Abs(got-want) > 1e-12 {
			t.Errorf("year %d: %g, by hand %g", 2027+i, got, want)
		}
	}
}

// By hand: between rebates of 50 and 100, shares of 2% and 6%, 75 brings 4%; outside nothing is
// known.
func TestUptake(t *testing.T) {
	m := &Measure{Uptake: []Point{{50, 0.02}, {100, 0.06}}}
	for rebate, want := range map[float64]float64{50: 0.02, 75: 0.04, 100: 0.06} {
		if got, ok := m.Share(rebate); !ok || math.Abs(got-want) > 1e-12 {
			t.Errorf("%g: %g, %v", rebate, got, ok)
		}
	}
	for _, rebate := range []float64{49, 101} {
		if _, ok := m.Share(rebate); ok {
			t.Errorf("%g is outside the curve", rebate)
		}
	}
	// By hand: of 1,000 accounts 20 and 60 take part, for admin 10 each and 600 in all.
	c, one := costs(func(v *[Knobs]Value) { v[Admin], v[FixedCost] = Sure(10), Sure(600) })
	one.Uptake = m.Uptake
	levels := c.Levels(one, Means{savedM3: 12, risenM3: 2, Accounts: 1000, ParticipatingShare: 1})
	for i, want := range []struct{ participants, budget, water float64 }{{20, 20*60 + 600, 200}, {60, 60*110 + 600, 600}} {
		if l := levels[i]; math.Abs(l.Participants-want.participants) > 1e-9 || math.Abs(l.Budget-want.budget) > 1e-9 ||
			math.Abs(l.FirstYearM3-want.water) > 1e-9 {
			t.Errorf("%+v, by hand %+v", l, want)
		}
	}
}

// TestBoundsCover: accounts whose savings are normal with mean 40 and standard deviation 60 m³, as
// many of them as rise as the distribution says. The 90% bounds of the mean saving must have 40 in
// nine tenths of 400 populations of 80: the standard error of that share is 0.015, and drawing
// again underestimates the spread by the factor √(79/80) and takes no account of Student's t, so
// 0.89 is expected.
func TestBoundsCover(t *testing.T) {
	c, m := costs(nil)
	r := rand.New(rand.NewPCG(11, 12))
	hits, closed := 0, 0.0
	const populations, n = 400, 80
	for k := range populations {
		saved := make([]float64, n)
		for a := range saved {
			saved[a] = 40 + float64(60*r.NormFloat64())
		}
		g := c.Groups(m, saved, nil, []float64{1}, uint64(k))[0]
		if g.SavingM3.Low <= 40 && 40 <= g.SavingM3.High {
			hits++
		}
		closed += (g.SavingM3.High - g.SavingM3.Low) / populations
	}
	if share := float64(hits) / populations; math.Abs(share-0.89) > 4*0.015 {
		t.Errorf("%g of the bounds have the true mean", share)
	}
	// In closed form the width is 2 × 1.645 × 60 ÷ √80 = 22.07.
	if math.Abs(closed-22.07) > 0.5 {
		t.Errorf("the bounds are %g wide on average, in closed form 22.07", closed)
	}
}

// The rule by hand: cost 60, avoided cost 1 a m³ for ten years, so savings from 6 m³ pay. Of 100
// accounts the first 20 save 12 m³, the others 2: all together 4.
func TestDecide(t *testing.T) {
	c, m := costs(func(v *[Knobs]Value) { v[Admin] = Sure(60) })
	saved := make([]float64, 100)
	for a := range saved {
		if saved[a] = 2; a < 20 {
			saved[a] = 12
		}
	}
	shares := []float64{0.1, 0.2, 0.3, 0.4, 0.5, 1}
	groups := c.Groups(m, saved, nil, shares, 1)
	d := Decide(&groups[len(groups)-1], groups)
	// 30 accounts save (240 + 20) ÷ 30 = 8.67, 40 save 7.0, 50 save 6.0.
	if d.Verdict != Retarget || d.Smallest.Share != 0.1 || d.Largest.Share < 0.2 || d.Largest.Share > 0.4 {
		t.Errorf("%+v, %+v to %+v", d, d.Smallest, d.Largest)
	}
	if d := Decide(&groups[len(groups)-1], nil); d.Verdict != Untested {
		t.Errorf("without a ranking %+v", d)
	}
	if d := Decide(&groups[0], groups); d.Verdict != Renew {
		t.Errorf("where all save 12 m³ %+v", d)
	}
	c, m = costs(func(v *[Knobs]Value) { v[Admin] = Sure(1000) })
	groups = c.Groups(m, saved, nil, shares, 1)
	if d := Decide(&groups[len(groups)-1], groups); d.Verdict != Stop {
		t.Errorf("at a cost of 1,000 %+v", d)
	}
	if again := c.Groups(m, saved, nil, shares, 1); again[2] != groups[2] {
		t.Error("equal seeds give other bounds")
	}
}

// What uses more has no levelized cost, and its bounds are no numbers either.
func TestNoSaving(t *testing.T) {
	c, m := costs(func(v *[Knobs]Value) { v[Admin] = Sure(60); v[NetToGross] = Value{0.4, 0.7, 1.1} })
	g := c.Groups(m, []float64{-3, -2, 1}, nil, []float64{1}, 1)[0]
	if !math.IsInf(g.Mid.Levelized(), 1) || !math.IsInf(g.LevelizedAll.High, 1) || g.Holds() || g.Chance != 0 {
		t.Errorf("%+v", g)
	}
}
