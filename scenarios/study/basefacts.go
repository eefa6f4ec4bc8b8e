package study

import (
	"fmt"
	"slices"
	"strings"

	"loamledger/scenarios"
	"loamledger/sim"
	"loamledger/sim/tally"
	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/quantity"
)

// yearETo gives the mean reference ET of the years that figures cover, or of a
// day if no year is whole.
func (l *Study) yearETo() string {
	w := l.Job.Weather
	t := &tally.Table{Spans: sim.NewCalendar(w.Start, w.Days()).Spans, South: l.Job.South, Excluded: l.Job.ExcludeYears}
	basis := t.Basis()
	sum, days := 0.0, 0
	for i, v := range l.Job.Weather.EToMM {
		if t.Covers(&basis, l.Job.Weather.Start+cal.Date(i)) {
			sum, days = sum+v, days+1
		}
	}
	switch {
	case days == 0:
		return ""
	case !basis.Yearly():
		return fmt.Sprintf("ETo of %s a day on average", quantity.Format(sum/float64(days), quantity.Depth, l.Scenario.Units))
	}
	return fmt.Sprintf("ETo of %s a year on average", quantity.Format(sum/basis.Divisor(), quantity.Depth, l.Scenario.Units))
}

// otherETo names the other ET columns of the file and why they are not used. A
// column that is used, computed or supplied, is compared with the other.
func (l *Study) otherETo() string {
	rec := l.Weather
	var texts []string
	year := func(mm float64) string {
		return quantity.Format(365.25*mm, quantity.Depth, l.Scenario.Units) + " a year"
	}
	if c := rec.ET.Compare; rec.Has(weather.ETo) && c.N > 0 {
		if l.Scenario.Weather.ComputeETo {
			texts = append(texts, fmt.Sprintf("the file’s own ETo (%s, %.0f%% of what is used) is not used, because compute_eto is set",
				year(c.SuppliedMM), 100/c.Ratio))
		} else {
			texts = append(texts, fmt.Sprintf("used as supplied; computed from the file’s weather it would be %.0f%% of that", 100*c.Ratio))
		}
	}
	if rec.Has(weather.ETr) {
		texts = append(texts, "etr_mm is not used: it is for a tall crop, and plant coefficients are for the short reference")
	}
	return strings.Join(append(texts, rec.OtherET...), "; ")
}

// kSets names the sets of the plant coefficients, each with its zones.
func (l *Study) kSets() string {
	var sets []string
	by := map[string][]string{}
	for i := range l.Scenario.Zones {
		z := &l.Scenario.Zones[i]
		name := z.Coefficients
		if name == scenarios.Custom {
			name = "given in the scenario"
		}
		if !slices.Contains(sets, name) {
			sets = append(sets, name)
		}
		by[name] = append(by[name], z.Name)
	}
	if len(sets) == 1 {
		return sets[0] + " (all zones); other sets differ by 20% to 40% for the same plant"
	}
	for i, name := range sets {
		sets[i] = name + " (" + someOf(by[name]) + ")"
	}
	return strings.Join(sets, "; ") + "; other sets differ by 20% to 40% for the same plant"
}
