package forecast

import (
	"errors"
	"math"
	"testing"

	"loamledger/weather"
	"loamledger/weather/cal"
)

func TestScores(t *testing.T) {
	tests := []struct {
		s                        Score
		pod, far, bias, ets, tol float64
		source                   string
	}{
		// The ratios are published, the counts are not at hand: these are the
		// smallest ones that give all three.
		{Score{Hits: 394, Misses: 55, FalseAlarms: 193}, 0.8775, 0.3288, 1.307, math.NaN(), 0.0005,
			"alpine station, 24 h rain of 1 mm and more, 2008"},
		{Score{Hits: 28, Misses: 23, FalseAlarms: 72, CorrectNegatives: 2680}, 0.549, 0.720, 1.961, 0.216, 0.0005,
			"Finley's forecasts of 1884, after Murphy (1996), from memory"},
	}
	for _, tt := range tests {
		for _, c := range []struct {
			name      string
			got, want float64
		}{{"POD", tt.s.POD(), tt.pod}, {"FAR", tt.s.FAR(), tt.far}, {"bias", tt.s.Bias(), tt.bias}, {"ETS", tt.s.ETS(), tt.ets}} {
			if !math.IsNaN(c.want) && !(math.Abs(c.got-c.want) <= tt.tol) {
				t.Errorf("%s: %s is %.4f, want %.4f", tt.source, c.name, c.got, c.want)
			}
		}
	}
	var none Score
	for name, v := range map[string]float64{"POD": none.POD(), "FAR": none.FAR(), "bias": none.Bias(), "POFD": none.pofd(), "ETS": none.ETS(),
		"base rate": none.baseRate()} {
		if !math.IsNaN(v) {
			t.Errorf("%s of nothing is %g", name, v)
		}
	}
}

// TestPOFD: b 0.10, POD 0.60 and FAR 0.39 give 0.0426 by hand: 0.39 · 0.60 ·
// 0.10 / (0.61 · 0.90) = 0.0234/0.549.
func TestPOFD(t *testing.T) {
	if got := (Skill{POD: 0.60, FAR: 0.39}).pofd(0.10); math.Abs(got-0.0426) > 0.00005 {
		t.Errorf("POFD is %.5f, want 0.0426", got)
	}
	// The table that the three make has the FAR it was made for.
	for _, b := range []float64{0.02, 0.1, 0.3} {
		for _, s := range Defaults(40).Leads {
			pofd := s.pofd(b)
			if far := pofd * (1 - b) / (pofd*(1-b) + s.POD*b); math.Abs(far-s.FAR) > 1e-12 {
				t.Errorf("b %g and %+v: FAR comes out as %g", b, s, far)
			}
		}
	}
	if got := (Skill{POD: 0.9, FAR: 0.9}).pofd(0.5); got != 1 {
		t.Errorf("POFD past 1 is not held: %g", got)
	}
}

func TestVerifyByHand(t *testing.T) {
	nan := math.NaN()
	s := weather.NewSeries(weather.UnknownStation(), 100, 6, weather.Rain)
	for i, v := range []float64{5, 0, 8, 4.9, nan, 6} {
		s.Set(weather.Rain, i, v, weather.Observed)
	}
	withChance := said(103, 105, nan)
	withChance.ProbabilityPct = 80
	a := archive(t,
		said(99, 100, 5),   // hit
		said(100, 101, 7),  // false alarm
		said(101, 102, 4),  // miss
		said(102, 103, 0),  // correct negative
		said(103, 104, 9),  // no observation
		said(98, 100, 0),   // miss, lead 2
		withChance,         // lead 2, no amount
		said(105, 106, 20), // past the record
	)
	got, err := Verify(a, s, Rule{RainMM: 5})
	want := []Score{{LeadDays: 1, Hits: 1, Misses: 1, FalseAlarms: 1, CorrectNegatives: 1, Unknown: 1}, {LeadDays: 2, Misses: 1, Unknown: 1}}
	if err != nil || len(got) != 2 || got[0] != want[0] || got[1] != want[1] {
		t.Errorf("by amount: %+v, %v; want %+v", got, err, want)
	}
	got, err = Verify(a, s, Rule{RainMM: 5, ProbabilityPct: 60})
	if err != nil || len(got) != 2 || got[1] != (Score{LeadDays: 2, Hits: 1, Unknown: 1}) {
		t.Errorf("by chance: %+v, %v", got, err)
	}
	// As a hold does: 5 mm or more, and 60% or more if there is a chance.
	wet := func(issued, valid cal.Date, mm, pct float64) Forecast {
		f := said(issued, valid, mm)
		f.ProbabilityPct = pct
		return f
	}
	got, err = Verify(archive(t,
		wet(99, 100, 5, 60),    // hit
		wet(101, 102, 9, 59),   // miss: the chance is too low
		wet(100, 101, 9, nan),  // false alarm: no chance is stated
		wet(102, 103, 4, 90),   // correct negative: too little rain
		wet(104, 105, nan, 90), // no amount
	), s, Rule{RainMM: 5, ProbabilityPct: 60, AmountToo: true})
	if err != nil || len(got) != 1 || got[0] != (Score{LeadDays: 1, Hits: 1, Misses: 1, FalseAlarms: 1, CorrectNegatives: 1, Unknown: 1}) {
		t.Errorf("by amount and chance: %+v, %v", got, err)
	}
	if _, err := Verify(a, s, Rule{}); !errors.Is(err, errRule) {
		t.Errorf("a rule without an event: %v", err)
	}
}
