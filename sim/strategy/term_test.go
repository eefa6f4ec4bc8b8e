package strategy

import (
	"math"
	"slices"
	"testing"

	"loamledger/sim"
	"loamledger/weather/cal"
)

func TestTermByHand(t *testing.T) {
	d := func(m, day int) cal.Date { return cal.Of(2014, m, day) }
	term := Term{From: d(3, 1), Until: d(9, 30), Off: []Days{{d(5, 1), d(5, 31)}}}
	for _, c := range []struct {
		date cal.Date
		in   bool
	}{{d(2, 28), false}, {d(3, 1), true}, {d(4, 30), true}, {d(5, 1), false}, {d(5, 31), false}, {d(6, 1), true}, {d(9, 30), true},
		{d(10, 1), false}} {
		if got := term.In(c.date, false); got != c.in {
			t.Errorf("%v: in force %v, by hand %v", c.date, got, c.in)
		}
	}
	if term.In(0, true) || !(&Term{Until: d(1, 1)}).In(0, true) {
		t.Error("before every date a part is in force unless it begins on one")
	}
	if n := len(term.Dates()); n != 4 {
		t.Errorf("%d dates, by hand 4: begin, end, off and on", n)
	}
}

// TestLifeByHand: the mean of the lives is the stated one, found by adding up the share
// that is intact (∫R = mean life); a stated age is a step; the other shares multiply.
func TestLifeByHand(t *testing.T) {
	l := Life{Years: 8}
	sum, step := 0.0, 0.001
	for age := step / 2; age < 100; age += step {
		sum += l.Intact(age) * step
	}
	if math.Abs(sum-8) > 1e-3 {
		t.Errorf("mean life %g years, stated as 8", sum)
	}
	// scale = 8/0.886227 = 9.027033; R(4.5) = exp(−0.248505) = 0.779966
	if got := l.Working(5); math.Abs(got-0.779966) > 1e-6 {
		t.Errorf("working in the fifth year %g, by hand 0.779966", got)
	}
	given := Life{FailsAt: 3, Unplugged: 0.5, Overridden: 0.2}
	// In the middle of year 3, age 2.5: 0.8·0.5^2.5 = 0.1414214; in year 4 it has failed.
	if got := given.Working(3); math.Abs(got-0.1414214) > 1e-7 || given.Working(4) != 0 {
		t.Errorf("working %g and %g, by hand 0.1414214 and 0", got, given.Working(4))
	}
	never := sim.Ending{Age: math.Inf(1), Cause: sim.NeverEnds}
	if got := (&Life{FailsAt: 3}).Drawn(""); got != (sim.Ending{Age: 3, Cause: sim.Failed}) || (&Life{}).Drawn("") != never {
		t.Error("a stated age is not drawn, and without a life nothing fails")
	}
	if (&Life{Years: 8, Seed: 7}).Drawn("a") != (&Life{Years: 8, Seed: 7}).Drawn("a") {
		t.Error("one seed draws two ages")
	}
	if (&Life{Years: 8, Seed: 7}).Drawn("a") == (&Life{Years: 8, Seed: 7}).Drawn("b") {
		t.Error("the devices of two zones fail together")
	}
}

// TestDrawnDevicesAreTheStatedShare: of many drawn devices the mean life is the stated
// one, and the share that works in the middle of a year is that of [Life.Working], with
// every cause.
func TestDrawnDevicesAreTheStatedShare(t *testing.T) {
	const n = 4000
	mean := 0.0
	for seed := range uint64(n) {
		mean += (&Life{Years: 8, Seed: seed}).Drawn("lawn").Age / n
	}
	// The standard deviation of a life is 0.5227·8 = 4.18, that of the mean 0.066.
	if math.Abs(mean-8) > 4*0.066 {
		t.Errorf("the mean of 4,000 drawn lives is %g years, stated as 8", mean)
	}
	l := Life{Years: 8, Unplugged: 0.05, Overridden: 0.2}
	causes := map[sim.EndCause]int{}
	for _, year := range []int{1, 5, 12} {
		works := 0.0
		for seed := range uint64(n) {
			l.Seed = seed
			end := l.Drawn("lawn")
			causes[end.Cause]++
			if end.Age > float64(year)-0.5 {
				works++
			}
		}
		// The standard deviation of a share of 4,000 is at most 0.008.
		if want := l.Working(year); math.Abs(works/n-want) > 4*0.008 {
			t.Errorf("year %d: %g of the drawn devices work, stated %g", year, works/n, want)
		}
	}
	if len(causes) != 3 {
		t.Errorf("causes %v, by hand failed, unplugged and overridden", causes)
	}
}

// TestDevicesOfAPart: a refill and sensors in zones can have one device per zone; a sensor
// that controls other zones, and a hold, serve all with one.
func TestDevicesOfAPart(t *testing.T) {
	zones := []bool{true, false, true}
	for _, test := range []struct {
		part Part
		want []int
	}{
		{Sensor{Zones: zones}, []int{0, 2}}, {&Refill{Zones: zones}, []int{0, 2}}, {Sensor{Zones: zones, ReadZone: 1}, nil}, {RainHold{}, nil},
	} {
		if got := DevicesOf(test.part); !slices.Equal(got, test.want) {
			t.Errorf("%T: devices in %v, by hand %v", test.part, got, test.want)
		}
		st := Strategy{Parts: []Part{test.part}, Terms: []Term{{Lasts: &Life{Years: 8}}}}
		if st.Devices(0) != nil {
			t.Errorf("%T: one device is stated", test.part)
		}
		st.Terms[0].Lasts.PerZone = true
		if got := st.Devices(0); !slices.Equal(got, test.want) {
			t.Errorf("%T: %v", test.part, got)
		}
	}
}
