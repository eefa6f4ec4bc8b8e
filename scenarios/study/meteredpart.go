package study

import (
	"fmt"
	"math"
	"strings"

	"loamledger/plots"
	"loamledger/sim/meter"
)

// maxPeriodsInReport is how many periods the table of the report has.
const maxPeriodsInReport = 36

// MeteredPart is the report's section on meters; nil without reads.
func (l *Study) MeteredPart(list []*Metered) *plots.TextPart {
	if len(list) == 0 {
		return nil
	}
	part := &plots.TextPart{}
	var lead []string
	for _, m := range list {
		lead = append(lead, strings.Join(l.meterHead(m), ". ")+".")
		for _, t := range l.meterTables(m) {
			if cut := len(t.rows) - maxPeriodsInReport; cut > 0 {
				t.rows = t.rows[cut:]
				t.caption += fmt.Sprintf(" The last %d; %d before them are printed by loamledger meter.", maxPeriodsInReport, cut)
			}
			if len(list) > 1 {
				t.caption = m.title() + ": " + t.caption
			}
			if len(t.rows) == 0 {
				part.Notes = append(append(part.Notes, t.caption+":"), t.notes...)
				continue
			}
			table := plots.Table{Caption: t.caption, First: capital(t.head[0]), Words: t.words}
			for _, h := range t.head[1:] {
				table.Head = append(table.Head, strings.ReplaceAll(h, "\n", " "))
			}
			for _, row := range t.rows {
				table.Rows = append(table.Rows, plots.TableRow{Name: row[0], Cells: row[1:]})
			}
			part.Tables = append(part.Tables, table)
			part.Notes = append(part.Notes, t.notes...)
		}
	}
	part.Lead = strings.Join(lead, " ")
	return part
}

func capital(text string) string { return strings.ToUpper(text[:1]) + text[1:] }

// MeteredFact says in a sentence how close the replay is to the meters; empty without
// reads.
func (l *Study) MeteredFact(list []*Metered) string {
	var texts []string
	for _, m := range list {
		s := m.Of(meter.Outdoor)
		text := fmt.Sprintf("%s: too few reads to score", strings.ToLower(m.title()[:1])+m.title()[1:])
		if s.OK {
			text = fmt.Sprintf("%s: outdoor use under “%s” is off by %.0f%% on average (NMBE) and %.0f%% by period (CV(RMSE), n %d): %s",
				strings.ToLower(m.title()[:1])+m.title()[1:], m.Strategy, s.NMBE, s.CV, s.N, labelText(&s.Score))
		}
		texts = append(texts, text+". It tests "+m.Supports.Text().Doc)
	}
	if len(texts) == 0 {
		return ""
	}
	return strings.Join(texts, "; ") + ". See Meters"
}

// MeterCharts draws every meter over time, and its periods as dots.
func (l *Study) MeterCharts(list []*Metered) (charts []plots.Chart) {
	taken := map[string]int{}
	for _, m := range list {
		v := &plots.MeterView{Site: l.Scenario.Site.Name, Station: l.stationName(), Meter: m.Name, Strategy: m.Strategy, Units: l.chartUnits(),
			Changed: m.Use.Changed}
		whole := m.Of(meter.Whole)
		v.Scored, v.N, v.NMBE, v.CV = whole.OK, whole.N, whole.NMBE, whole.CV
		if whole.OK {
			v.Label = labelText(&m.Of(meter.Outdoor).Score)
		}
		for i := range m.Site.Periods {
			p, pair := &m.Site.Periods[i], &m.Pairs[i]
			one := plots.MeterPeriod{From: p.From, To: p.To, Metered: p.PerDay(), Sim: math.NaN(), Base: math.NaN(), Left: p.Left}
			if m.Base >= 0 {
				one.Base = pair.BaseM3 / float64(p.Days())
				if pair.Known {
					one.Sim = (pair.SimM3 + pair.BaseM3) / float64(p.Days())
				}
			}
			v.Periods = append(v.Periods, one)
		}
		for _, c := range []plots.Chart{plots.Meter(v), plots.MeterScatter(v)} {
			if taken[c.Name]++; taken[c.Name] > 1 { // two names that differ in signs only
				c.Name = fmt.Sprintf("%s-%d", c.Name, taken[c.Name])
			}
			charts = append(charts, c)
		}
	}
	return charts
}
