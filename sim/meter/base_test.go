package meter_test

import (
	"testing"

	"loamledger/sim/meter"
	"loamledger/weather/cal"
)

// site makes a site of monthly periods from January 2022. The need of every day of a
// month is that of the list; the replay waters simM3 a day.
func site(use []float64, needMM, simM3 []float64) *meter.Site {
	s := &meter.Site{Periods: meter.Clean(monthly(2022, 1, use...), 0).Periods, Days: &meter.Days{Start: cal.Of(2022, 1, 1)},
		Cycle: meter.Cycle{LowestWinter: 3}}
	for i := range use {
		for range s.Periods[i].Days() {
			s.Days.NeedMM = append(s.Days.NeedMM, needMM[i%12])
			s.Days.SimM3 = append(s.Days.SimM3, simM3[i%12])
		}
	}
	return s
}

var (
	needs = []float64{-1, 0, 1, 2, 3, 5, 6, 5, 3, 1, 0, -1} // mm a day
	zero  = make([]float64, 12)
)

// byDay returns the use of months at a rate for each day.
func byDay(perDay ...float64) (out []float64) {
	for i, v := range perDay {
		out = append(out, v*float64(cal.Of(2022, i+2, 1)-cal.Of(2022, i+1, 1)))
	}
	return out
}

// Hand: winter is November to March, cut by the years in which it begins. The winter
// of 2021 has January 31·0.5, February 28·0.7 and March 31·0.6: 53.7 m³ in 90 days.
// That of 2022 has November 30·0.9 and December 31·0.8: 51.8 m³ in 61 days. Together
// 105.5/151 = 0.698675 m³ a day. The lowest period is January, 0.5. Four people use
// 4·55 gal = 0.832791 m³, 0.757082 to 0.908499. From April on use is 0.5 + 0.4·(need −
// 1), but the winters do not lie on that line.
func TestBases(t *testing.T) {
	s := site(byDay(0.5, 0.7, 0.6, 0.9, 1.3, 2.1, 2.5, 2.1, 1.3, 0.5, 0.9, 0.8), needs, zero)
	s.People = 4
	at := meter.Counted(s.Periods)
	bases := s.Bases(at)
	want := map[meter.Method]float64{meter.LowestWinter: 105.5 / 151, meter.LowestPeriod: 0.5, meter.People: 0.832791}
	for _, b := range bases {
		if v, is := want[b.Method]; is {
			near(t, string(b.Method), b.M3Day, v, 1e-6)
		}
	}
	near(t, "low", bases[2].Low, 0.757082, 1e-6)
	near(t, "high", bases[2].High, 0.908499, 1e-6)
	if len(bases) != 4 || meter.Choose(bases, "") != 0 || meter.Choose(bases, meter.People) != 2 {
		t.Errorf("%+v", bases)
	}
	low, high, n := meter.Spread(bases)
	if low != 0.5 || n != 4 || high != bases[2].M3Day && high != bases[3].M3Day {
		t.Error(low, high, n)
	}
}

// Hand: use on the line 0.6 + 0.4·max(0, need − 1) is found exactly, base 0.6.
func TestChangePointBase(t *testing.T) {
	var perDay []float64
	for _, n := range needs {
		perDay = append(perDay, 0.6+0.4*max(0, n-1))
	}
	s := site(byDay(perDay...), needs, zero)
	line, ok := meter.NeedLine(s.Periods, needs, meter.Counted(s.Periods))
	if !ok {
		t.Fatal("no line")
	}
	near(t, "base", line.Base, 0.6, 1e-9)
	near(t, "slope", line.Slope, 0.4, 1e-9)
	near(t, "threshold", line.Threshold, 1, 1e-9)
	near(t, "R2", line.R2, 1, 1e-9)
	near(t, "use at need 6", line.PerDay(6), 2.6, 1e-9)
	near(t, "use without need", line.PerDay(-3), 0.6, 1e-9)
}

// A meter for irrigation only has no base use, and a record without winters, people or
// spread says why methods fail.
func TestNoBase(t *testing.T) {
	s := site(byDay(1, 1, 1, 1, 1), needs, zero)
	s.Only = true
	if b, ok := s.BaseOf(meter.Counted(s.Periods)); !ok || b.Method != meter.OnlyIrrigates || b.M3Day != 0 {
		t.Errorf("%+v, %t", b, ok)
	}
	s.Only = false
	got := s.Bases([]int{3, 4})
	for i, want := range []meter.Missing{meter.NoWinter, "", meter.NoPeople, meter.NoLine} {
		if got[i].Missing != want {
			t.Errorf("%s: %q, want %q", got[i].Method, got[i].Missing, want)
		}
	}
	if _, ok := s.BaseOf(nil); ok {
		t.Error("base use of no period")
	}
}

// Hand: in the south, winter is May to September.
func TestSouthernWinter(t *testing.T) {
	s := site(byDay(5, 5, 4, 2, 1, 1, 1, 1, 1, 3, 4, 5), needs, zero)
	s.South = true
	near(t, "base", s.Bases(meter.Counted(s.Periods))[0].M3Day, 1, 1e-12)
}

// Base use that is stated counts if it is wanted, and is listed only if it is given.
func TestStatedBaseUse(t *testing.T) {
	in := meter.BaseInput{Stated: 0.6}
	bases := meter.Bases(&in)
	if at := meter.Choose(bases, meter.Stated); at < 0 || bases[at].Method != meter.Stated || bases[at].M3Day != 0.6 || bases[at].High != 0.6 {
		t.Errorf("bases %+v", bases)
	}
	in.Stated = 0
	if at := meter.Choose(meter.Bases(&in), meter.Stated); at >= 0 {
		t.Errorf("base use %d without any", at)
	}
	in.Only = true
	if n := len(meter.Bases(&in)); n != 5 {
		t.Errorf("%d methods of a meter for irrigation only, want 5", n)
	}
}
