package strategy_test

import (
	"math"
	"testing"

	"loamledger/sim"
	"loamledger/sim/strategy"
	"loamledger/weather/cal"
)

// TestThresholdsIgnoreRoundingNoise: hand. A value at the threshold, less or more
// by the noise of a conversion, is at the threshold: "at least" holds, "above"
// and "below" do not.
func TestThresholdsIgnoreRoundingNoise(t *testing.T) {
	under := func(v float64) float64 { return math.Nextafter(v, -100) }
	over := func(v float64) float64 { return math.Nextafter(v, 100) }
	for _, c := range []struct {
		what         string
		part         strategy.Part
		set          func(w *sim.Weather, v float64)
		limit        float64
		atTheLimit   string // the reason on day 2
		beyond       float64
		beyondReason string
	}{
		{"rain", strategy.RainHold{AtLeastMM: 6.35, DryOut: 1}, func(w *sim.Weather, v float64) { w.RainMM[0] = v }, 6.35, "held: rain",
			6.3, "watered"},
		{"frost", strategy.FrostHold{BelowC: 25.0 / 9}, func(w *sim.Weather, v float64) { w.TminC[0] = v }, 25.0 / 9, "watered", 2.7,
			"held: frost"},
		{"wind", strategy.WindHold{AboveMS: 4.4704}, func(w *sim.Weather, v float64) { w.WindMS[0] = v }, 4.4704, "watered", 4.5, "held: wind"},
		{"forecast", strategy.ForecastHold{AtLeastMM: 5.08, Days: 1, MaxHeld: 9, Source: strategy.PerfectForecast},
			func(w *sim.Weather, v float64) { w.RainMM[1] = v }, 5.08, "held: forecast", 5, "watered"},
	} {
		for _, v := range []float64{under(c.limit), c.limit, over(c.limit), c.beyond} {
			w := days(cal.Of(2003, 6, 1), same(2, 0)...)
			c.set(&w, v)
			rows, _ := replayed(t, handZone(), w, 0, daily(5), c.part)
			want := c.atTheLimit
			if v == c.beyond {
				want = c.beyondReason
			}
			if got := rows[1].Reason.String(); got != want {
				t.Errorf("%s of %.17g: %s, want %s", c.what, v, got, want)
			}
		}
	}
}

// TestSensorAtItsSetPoint: hand. TAW 100 mm, depletion 40 mm in each of 20 equal
// strips, whose mean is a rounding below 40: a sensor that permits at 40 % does.
func TestSensorAtItsSetPoint(t *testing.T) {
	z := handZone()
	z.Strips = 20
	for at, want := range map[float64]string{0.4: "watered", 0.41: "sensor wet"} {
		rows, _ := replayed(t, z, days(cal.Of(2003, 6, 1), 0), 0.4, daily(5),
			strategy.Sensor{PermitAt: at, Zones: []bool{true}, Placement: "average"})
		if got := rows[0].Reason.String(); got != want {
			t.Errorf("permit at %g: %s, want %s", at, got, want)
		}
	}
}

// TestTiesRoundUp: hand. 35 min at 90 % are 31.5 min, a tie, and 31.499999999999996
// in binary; 21 min at 50 % are 10.5.
func TestTiesRoundUp(t *testing.T) {
	for _, c := range []struct{ minutes, share, want float64 }{{35, 0.9, 32}, {21, 0.5, 11}, {35, 0.89, 31}} {
		rows, _ := replayed(t, handZone(), days(cal.Of(2003, 6, 1), 0), 1, daily(c.minutes), strategy.ZonePercent{Share: []float64{c.share}},
			strategy.Round{StepMin: 1})
		if rows[0].Minutes != c.want {
			t.Errorf("%g min at %g: %g, want %g", c.minutes, c.share, rows[0].Minutes, c.want)
		}
	}
}

// TestOneStripNeedsNoExtra: hand. PR 60 mm/h, depletion 50 of 100 mm: a refill of
// a zone that is replayed evenly waters 50 min, whatever its DU; with four strips
// and a DU of 55 % 50/(0.4 + 0.6·0.55) = 68.49 min. A stated extra counts always.
func TestOneStripNeedsNoExtra(t *testing.T) {
	for _, c := range []struct {
		strips int
		extra  float64
		want   float64
	}{{1, -1, 50}, {4, -1, 50 / 0.73}, {1, 0.2, 60}} {
		z := handZone()
		z.Strips, z.DULQ = c.strips, 0.55
		rows, _ := replayed(t, z, days(cal.Of(2003, 6, 1), 0), 0.5, &strategy.Refill{Zones: []bool{true}, MAD: 0.5, Extra: c.extra})
		if got := rows[0].Minutes; math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%d strips, extra %g: %g min, want %g", c.strips, c.extra, got, c.want)
		}
	}
}
