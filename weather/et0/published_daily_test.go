package et0

import (
	"math"
	"testing"

	"loamledger/weather"
)

// The published reference ET of whole station-years, from the publishers'
// daily inputs: ASCE-EWRI 2005 table C-3 (Greeley), the AgriMet network
// (Fallon) and the CoAgMET network (Holyoke).
func TestPublishedStationDays(t *testing.T) {
	groups, rows := dailyGroups(t, sharedFile(t, "reference", "ref-et-daily.csv"))
	tests := []struct {
		group        string
		stations     int
		days         int
		worst        float64 // mm, on any day; NaN: not held
		meanAbs      float64 // mm
		worstETr     float64 // mm; NaN: not held
		sourceOfStep string
	}{
		{"GREELEY", 1, 10, 0.03, 0.03, 0.03, "printed to 0.01 mm from inputs rounded from °F"},
		{"HOLYOKE", 1, 366, 0.06, 0.03, 0.06, "printed to 0.1 mm"},
		{"FALLON", 1, 364, 0.22, 0.08, math.NaN(), "printed to 0.01 in; one day without wind"},
		{"AZMET", 30, 270, 0.09, 0.03, math.NaN(), "printed to 0.1 mm"},
		{"CIMIS", 2, 403, math.NaN(), 0.40, math.NaN(), "another equation, by the hour: a band"},
	}
	checked := 0
	for _, tt := range tests {
		list := groups[tt.group]
		if list == nil {
			t.Logf("%s: not in the file", tt.group)
			continue
		}
		var abs, worst, worstETr float64
		n := 0
		for _, s := range list {
			r, err := Daily(s, Options{})
			if err != nil {
				t.Fatal(err)
			}
			tr, err := DailyTall(s, Options{})
			if err != nil {
				t.Fatal(err)
			}
			for i, v := range r.ComputedMM {
				want := s.At(weather.ETo, i)
				if math.IsNaN(want) || !s.Has(weather.Wind) || math.IsNaN(s.At(weather.Wind, i)) {
					continue
				}
				d := math.Abs(v - want)
				if d > tt.worst {
					t.Errorf("%s %v: ETo %.3f mm; published %.3f (%s)", tt.group, s.Date(i), v, want, tt.sourceOfStep)
				}
				n++
				abs, worst = abs+d, max(worst, d)
				if want := s.At(weather.ETr, i); !math.IsNaN(want) {
					d := math.Abs(tr.ETrMM[i] - want)
					if d > tt.worstETr {
						t.Errorf("%s %v: ETr %.3f mm; published %.3f", tt.group, s.Date(i), tr.ETrMM[i], want)
					}
					worstETr = max(worstETr, d)
				}
			}
		}
		if len(list) != tt.stations || n != tt.days {
			t.Errorf("%s: %d stations and %d days checked; want %d and %d", tt.group, len(list), n, tt.stations, tt.days)
		}
		if abs/float64(n) > tt.meanAbs {
			t.Errorf("%s: mean absolute difference %.3f mm; want at most %.3f", tt.group, abs/float64(n), tt.meanAbs)
		}
		t.Logf("%s: %d days, worst %.4f, mean absolute %.4f mm; ETr worst %.4f", tt.group, n, worst, abs/float64(n), worstETr)
		checked += n
	}
	if checked < 740 {
		t.Errorf("only %d of %d rows checked", checked, rows)
	}
}

// What the guesses cost, as [Daily] tells users, is worked out again.
func TestMeasuredErrorsAreWhatTheEquationsGive(t *testing.T) {
	groups, _ := dailyGroups(t, sharedFile(t, "reference", "ref-et-daily.csv"))
	for k, name := range []string{"HOLYOKE", "FALLON"} {
		s := groups[name][0]
		for _, offset := range []float64{0, 2} {
			e := newEngine(s.Station, Short(), Options{TdewOffsetC: offset}.withDefaults())
			c, doys := columnsOf(s), yearDays(s)
			computed, methods := make([]float64, s.Days), make([]Method, s.Days)
			e.run(c, doys, computed, methods, nil)
			for g := Guess(1); g <= GuessAll; g++ {
				x := e.measure(g, c, doys, methods, computed)
				t.Logf("%s %g %d {%.2f, %.2f, %.1f}, days %d mean %.2f", name, offset, g, x.BiasMM, x.MeanAbsMM, x.WorstMM, x.FullDays, x.MeanMM)
				want := measured[k].humid[g]
				if offset == 2 {
					want = measured[k].arid[g]
				}
				if math.Abs(x.BiasMM-want.bias) > 0.00501 || math.Abs(x.MeanAbsMM-want.meanAbs) > 0.00501 || math.Abs(x.WorstMM-want.worst) > 0.0501 {
					t.Errorf("%s, Tdew = Tmin − %g, %v: %.3f %.3f %.2f; told %+v", name, offset, g, x.BiasMM, x.MeanAbsMM, x.WorstMM, want)
				}
			}
		}
	}
}
