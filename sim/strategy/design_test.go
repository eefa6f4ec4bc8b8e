package strategy_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"loamledger/sim"
	"loamledger/sim/settings"
	"loamledger/sim/strategy"
	"loamledger/weather/cal"
	"loamledger/weather/quantity"
)

// peakRecord has 4 mm a day in June 2003 and 8 and 6 mm on alternate days of July.
func peakRecord() sim.Weather {
	eto := same(30, 4)
	for i := range 31 {
		eto = append(eto, 8-2*float64(i%2))
	}
	return days(cal.Of(2003, 6, 1), eto...)
}

// TestDesignOfThePeakMonth: hand. July has 16 days of 8 mm and 15 of 6 mm: (128 +
// 90)/31 = 7.0323 mm. After a day with 8 mm the run time of 10 min becomes 10 ·
// 8/7.0323 = 11.376 min; with the design a quarter lower, 4/3 of that.
func TestDesignOfThePeakMonth(t *testing.T) {
	w := peakRecord()
	auto := strategy.ETPercent{Days: 1, Max: 9}
	for factor, want := range map[float64]float64{1: 10 * 8 * 31 / 218.0, 0.75: 10 * 8 * 31 / 218.0 / 0.75, 1.25: 8 * 8 * 31 / 218.0} {
		st := strategy.Strategy{Name: "et", Parts: []strategy.Part{daily(10), auto}}
		scaled, ok := st.WithDesign(factor)
		rows, _ := replayed(t, handZone(), w, 0, scaled.Parts...)
		if got := rows[31].Minutes; !ok || math.Abs(got-want) > 1e-9 {
			t.Errorf("factor %g: %g min on July 2, want %g", factor, got, want)
		}
		if st.Parts[1].(strategy.ETPercent).DesignFactor != 0 {
			t.Error("the strategy itself was changed")
		}
	}
	given := auto
	given.DesignEToMM = 218.0 / 31
	a, _ := replayed(t, handZone(), w, 0, daily(10), auto)
	b, _ := replayed(t, handZone(), w, 0, daily(10), given)
	if !slices.Equal(a, b) {
		t.Error("the design ETo of the record and the same as a number differ")
	}
	plain := strategy.Strategy{Name: "plain", Parts: []strategy.Part{daily(10)}}
	if _, ok := plain.WithDesign(0.75); ok {
		t.Error("a strategy without a design ETo has one")
	}
}

// TestDesignSaysHindsight: wherever a design ETo of the record is shown, the text
// says so, and in US units it is in inches: 7.0323 mm are 0.277 in.
func TestDesignSaysHindsight(t *testing.T) {
	w := peakRecord()
	auto := strategy.ETPercent{Days: 7, Max: 1.5}
	st := strategy.Strategy{Name: "et", Parts: []strategy.Part{daily(10), auto}}
	site := &strategy.Site{Zones: []sim.Zone{handZone()}, Weather: w, Calendar: sim.NewCalendar(w.Start, w.Days()), Units: quantity.US}
	told, err := st.Describe(site)
	if err != nil || len(told) != 1 || !strings.Contains(told[0], "design ETo 0.28 in a day") || !strings.Contains(told[0], "July") ||
		!strings.Contains(told[0], "hindsight") {
		t.Errorf("%q, %v", told, err)
	}
	lines, err := strategy.Lines(auto, nil, quantity.US)
	if err != nil || !strings.Contains(lines[0], "hindsight") {
		t.Errorf("%q, %v", lines, err)
	}
	// A settings sheet has the number to enter.
	sheet, err := settings.Make(settings.NewSite(site.Zones, w, nil, nil), &st, settings.Options{})
	if err != nil {
		t.Fatal(err)
	}
	lines, err = sheet.Controls(quantity.US)
	if err != nil || !strings.Contains(lines[0], "0.28 in of reference ET") || !strings.Contains(lines[0], "hindsight") {
		t.Errorf("%q, %v", lines, err)
	}
}
