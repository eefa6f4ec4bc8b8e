package plots

import (
	"fmt"
	"math"
	"strings"

	"loamledger/weather/cal"
)

// RunTimes returns the hours of watering in an average week by month, all zones added: a panel
// for each strategy, with the baseline.
func RunTimes(s *Study) Chart {
	c := s.frame(RunTimesKind, "watering-time-by-month", "Watering time in an average week, by month")
	base := s.weekHours(s.base())
	high := 0.0
	var alt []string
	var longest, shortest leader
	for st := range s.own() {
		hours, peak := s.weekHours(st), 0
		bars := Series{Form: Bars, Role: Applied, Width: 0.72}
		line := Series{Form: Steps, Role: BaseTotal, Width: 1}
		for m, h := range hours {
			high = max(high, h)
			if h > hours[peak] {
				peak = m
			}
			bars.X, bars.Y = append(bars.X, float64(m+1)), append(bars.Y, h)
			line.X, line.Y = append(line.X, float64(m+1)), append(line.Y, base[m])
		}
		p := Panel{Title: s.Table.Strategies[st], Series: []Series{bars}, Note: "none"}
		if hours[peak] > 0 {
			p.Note = fmt.Sprintf("most in %s: %s h a week", monthNames[peak], fixed(hours[peak], 1))
		}
		if st != s.base() {
			p.Series = append(p.Series, line)
		}
		c.Panels = append(c.Panels, p)
		alt = append(alt, p.Title+": "+p.Note)
		longest.offer(st, oneDecimal(hours[peak]), more)
		shortest.offer(st, oneDecimal(hours[peak]), fewer)
	}
	c.X = monthAxis()
	c.Y = scaleTo("watering time of all zones", "h/week", high, 4)
	c.Columns, c.HeightPt = columns(len(c.Panels)), 84
	c.Keys = []Key{{Form: Bars, Role: Applied, Label: "this option"}}
	if s.own() > 1 {
		c.Keys = append(c.Keys, Key{Form: Line, Role: BaseTotal, Label: "baseline"})
	}
	c.See = fmt.Sprintf("An average week of the busiest month takes %s hours with %s", fixed(longest.value, 1),
		longest.names(s.Table.Strategies))
	if shortest.value != longest.value {
		c.See += fmt.Sprintf(" and %s with %s", fixed(shortest.value, 1), shortest.names(s.Table.Strategies))
	}
	c.See += ". Single weeks can take more, and all of it must fit into the hours in which watering is allowed."
	if s.own() > 1 {
		c.See += " The baseline is " + quote(s.Table.Strategies[s.base()]) + "."
	}
	c.Alt = "Bar charts of watering hours in a week by month, one chart per strategy, with a line for the baseline. " +
		strings.Join(alt, ". ") + "."
	basis := s.Table.Basis()
	c.Notes = []string{basis.Sentence() + " The run times of all zones are added, without the soaks between cycles; zones on different " +
		"controllers can run at the same time. The run times of each zone are on its settings sheet."}
	return c
}

// oneDecimal rounds to what a sentence shows.
func oneDecimal(v float64) float64 { return math.Round(v*10) / 10 }

// weekHours returns how many hours a week zones run under strategy st, added over all
// zones, by calendar month over the days that yearly figures cover.
func (s *Study) weekHours(st int) (hours [12]float64) {
	t, basis := s.Table, s.Table.Basis()
	var days [12]int
	for i, span := range t.Spans {
		if !t.Covers(&basis, cal.Of(span.Year, span.Month, 1)) {
			continue
		}
		m := span.Month - 1
		days[m] += span.To - span.From
		for z := range t.Zones {
			hours[m] += t.Month(st, z, i).Minutes / 60
		}
	}
	for m, n := range days {
		if n > 0 {
			hours[m] *= 7 / float64(n)
		}
	}
	return hours
}
