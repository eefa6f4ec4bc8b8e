package study

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"loamledger/plots"
	"loamledger/sim/meter"
	"loamledger/weather/cal"
	"loamledger/weather/quantity"
)

// MeterCaution is the line below the comparison with meters.
const MeterCaution = "Only a saving marked “verified at this meter” is measured; all others are estimates. Local watering rules " +
	"come first."

// A meterTable is a table with notes, for a terminal and for the report. The first
// column has names.
type meterTable struct {
	caption string
	head    []string
	words   []bool // columns of words, the first not counted
	rows    [][]string
	notes   []string
}

// view shows the table with its caption; columns of words have the given width.
func (t *meterTable) view(wide int) View {
	v := View{Head: []string{"", t.caption}, Notes: wrapAll(t.notes)}
	if len(t.rows) == 0 {
		return v
	}
	v.Grid = &Grid{Head: t.head, Rows: t.rows, Columns: toTheRight(1, len(t.head))}
	v.Grid.Columns[0].Width = 40
	for i, words := range t.words {
		if words {
			v.Grid.Columns[i+1] = GridColumn{Width: wide}
		}
	}
	return v
}

// MeteredViews shows the meters beside the replay.
func (l *Study) MeteredViews(list []*ComparedMeter) (views []View) {
	for _, m := range list {
		views = append(views, View{Head: append([]string{""}, l.meterHead(m)...)})
		for _, t := range l.meterTables(m) {
			views = append(views, t.view(48))
		}
	}
	return views
}

func wrapAll(notes []string) (out []string) {
	for _, n := range notes {
		out = append(out, Wrap(n, 100)...)
	}
	return out
}

// meterTables returns the tables of one meter in their order.
func (l *Study) meterTables(m *ComparedMeter) []meterTable {
	list := []meterTable{l.meterPeriods(m)}
	if t := l.meterReads(m); len(t.rows) > 0 {
		list = append(list, t)
	}
	list = append(list, l.meterBases(m), l.meterScores(m), l.meterLadder(m))
	if t := l.meterEvents(m); len(t.rows) > 0 {
		list = append(list, t)
	}
	return append(list, l.meterSaving(m), l.meterNotes(m))
}

func (m *ComparedMeter) title() string {
	if m.Name == "" {
		return "The meter"
	}
	return "Meter " + m.Name
}

// vol writes a volume, whole gallons or tenths of m³, without its unit.
func (l *Study) vol(m3 float64) string {
	v := quantity.Convert(m3, quantity.Volume, l.Scenario.Units)
	if l.Scenario.Units == quantity.US {
		return fixedNumber(v, 0)
	}
	return fixedNumber(v, 1)
}

// rate writes use per day without its unit.
func (l *Study) rate(m3 float64) string {
	v := quantity.Convert(m3, quantity.Volume, l.Scenario.Units)
	if l.Scenario.Units == quantity.US {
		return fixedNumber(v, 0)
	}
	return fixedNumber(v, 3)
}

func (l *Study) volUnit() string { return quantity.Label(quantity.Volume, l.Scenario.Units) }

// fixedNumber writes v with the given decimals and a comma every three digits.
func fixedNumber(v float64, decimals int) string {
	text, minus := strconv.FormatFloat(math.Abs(v), 'f', decimals, 64), ""
	if v < 0 && strings.ContainsAny(text, "123456789") {
		minus = "-"
	}
	whole, frac, dot := strings.Cut(text, ".")
	if dot {
		frac = "." + frac
	}
	return minus + quantity.Thousands(whole) + frac
}

// pct writes a percentage with a decimal and without its sign.
func pct(v float64) string { return fixedNumber(v, 1) }

// meterHead says what is compared with what.
func (l *Study) meterHead(m *ComparedMeter) []string {
	h := m.History
	first, last := h.Reads[0].From, h.Reads[len(h.Reads)-1].To
	serves := "what else it serves is not stated, so it is taken as mixed"
	switch {
	case m.Only:
		serves = "it serves irrigation only"
	case m.Said:
		serves = "it serves irrigation and other uses"
	}
	var zones []string
	for _, z := range m.Zones {
		zones = append(zones, l.Job.Zones[z].Name)
	}
	lines := []string{fmt.Sprintf("%s beside the replay of “%s”: %s, %s (%s); %s",
		m.title(), m.strategy, quantity.Count(len(h.Reads), "read", "reads"), plots.DatesText(first, last), l.bare(m.File), serves)}
	lines = append(lines, fmt.Sprintf("Zones: %s; %s. Periods that count: %d before the change, %d after it; omitted: %d.",
		someOf(zones), quantity.Format(m.areaM2, quantity.Area, l.Scenario.Units), len(m.Before), len(m.Comparison.After),
		len(m.Site.Periods)-len(m.Before)-len(m.Comparison.After)))
	if m.Use.Changed == 0 {
		lines[1] = strings.Replace(lines[1], fmt.Sprintf("%d before the change, 0 after it", len(m.Before)), fmt.Sprint(len(m.Before)), 1)
	}
	if out, ok := m.Site.OutdoorPerYear(m.Comparison); ok {
		text := fmt.Sprintf("Metered outdoor use: %s %s a year", l.vol(out), l.volUnit())
		if m.areaM2 > 0 {
			text += ", " + l.depthUnit(1000*out/m.areaM2) + " on the area"
		}
		if m.requiredM3 > 0 {
			text += fmt.Sprintf("; application ratio %s (%s)", ratio(out/m.requiredM3), ratioClass(out/m.requiredM3))
		}
		lines = append(lines, text)
	}
	return lines
}

// ratioClass names the class of an application ratio, by which billing studies sort
// homes: below 70%, 70 to 130%, above.
func ratioClass(r float64) string {
	switch {
	case r < 0.7:
		return "deficit: a strategy that meets the need will use more"
	case r > 1.3:
		return "above need"
	}
	return "on target"
}

// periodText names a period by its dates.
func periodText(from, to cal.Date) string { return plots.DatesText(from, to) }

// meterPeriods is the replay beside the meter.
func (l *Study) meterPeriods(m *ComparedMeter) meterTable {
	unit := l.volUnit()
	t := meterTable{caption: "Period by period, at the real read dates. A period has the day of the read before, and not the day of " +
		"its own read.",
		head: []string{"period", "days", "metered\n[" + unit + "]", "a day\n[" + unit + "]", "simulated\n[" + unit + "]", "base use\n[" + unit +
			"]",
			"difference\n[" + unit + "]", "read", "counts"},
		words: []bool{false, false, false, false, false, false, true, true}}
	var why []meter.Reason
	for i := range m.Site.Periods {
		p, pair := &m.Site.Periods[i], &m.Pairs[i]
		sim, diff := "-", "-"
		if pair.Known {
			sim, diff = l.vol(pair.SimM3), l.vol(p.M3-pair.SimM3-pair.BaseM3)
		}
		base := "-"
		if m.Base >= 0 {
			base = l.vol(pair.BaseM3)
		}
		counts := "yes"
		switch {
		case p.Left:
			counts = "no: " + string(p.Why)
			if !slices.Contains(why, p.Why) {
				why = append(why, p.Why)
			}
		case pair.After:
			counts = "yes, after the change"
		}
		t.rows = append(t.rows, []string{periodText(p.From, p.To), fmt.Sprint(p.Days()), l.vol(p.M3), l.rate(p.PerDay()), sim, base, diff,
			string(p.Kind), counts})
	}
	t.notes = append(t.notes, "Difference: metered less simulated less base use; above 0, the replay is too low.")
	for _, r := range meter.Reasons() {
		if slices.Contains(why, r.Reason) {
			t.notes = append(t.notes, fmt.Sprintf("%s: %s.", r.Reason, r.Doc))
		}
	}
	return t
}

// meterReads shows reads that were corrected, as given and corrected; no rows if none
// was.
func (l *Study) meterReads(m *ComparedMeter) meterTable {
	h := m.History
	t := meterTable{caption: "Reads that later reads correct: the sum of the run is spread over its days. As periods, they count as one.",
		head: []string{"read", "as given\n[" + l.volUnit() + "]", "corrected\n[" + l.volUnit() + "]", "read"}, words: []bool{false, false, true}}
	for i := range h.Reads {
		r := &h.Reads[i]
		if h.Periods[h.Of[i]].Kind == meter.Corrected && r.Kind != meter.Corrected {
			t.rows = append(t.rows, []string{periodText(r.From, r.To), l.vol(r.M3), l.vol(h.SpreadM3[i]), string(r.Kind)})
		}
	}
	return t
}
