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

// MeteredParts are the report's section on meters, in order; none without reads.
func (l *Study) MeteredParts(list []*ComparedMeter) (parts []plots.TextPart) {
	for _, m := range list {
		parts = append(parts, plots.TextPart{Lead: inSentences(l.meterHead(m))})
		for _, t := range l.meterTables(m) {
			part := plots.TextPart{Notes: t.notes}
			if cut := len(t.rows) - maxPeriodsInReport; cut > 0 {
				t.rows = t.rows[cut:]
				t.caption += fmt.Sprintf(" The last %d; loamledger meter prints the %d before them, too.", maxPeriodsInReport, cut)
			}
			if len(list) > 1 {
				t.caption = m.title() + ": " + strings.ToLower(t.caption[:1]) + t.caption[1:]
			}
			if len(t.rows) == 0 {
				part.Lead = t.caption + ":"
				parts = append(parts, part)
				continue
			}
			table := plots.Table{Caption: t.caption, First: capital(t.head[0]), Words: t.words}
			for _, h := range t.head[1:] {
				table.Head = append(table.Head, capital(strings.ReplaceAll(h, "\n", " ")))
			}
			for _, row := range t.rows {
				table.Rows = append(table.Rows, plots.TableRow{Name: row[0], Cells: row[1:]})
			}
			part.Tables = []plots.Table{table}
			parts = append(parts, part)
		}
	}
	if len(list) > 0 {
		parts = append(parts, plots.TextPart{Lead: "The replay is compared as the scenario states it; nothing is tuned to these reads. " +
			"loamledger calibrate " +
			"tunes base use, flow and the schedule, within bounds, and shows which numbers a meter cannot test."})
	}
	return parts
}

// capital writes the first letter of a text, if it is one of a to z, as a capital.
func capital(text string) string {
	if text == "" || text[0] < 'a' || text[0] > 'z' {
		return text
	}
	return strings.ToUpper(text[:1]) + text[1:]
}

// MeteredFact says in a sentence how close the replay is to the meters; empty without
// reads.
func (l *Study) MeteredFact(list []*ComparedMeter) string {
	var texts []string
	for _, m := range list {
		name := strings.ToLower(m.title()[:1]) + m.title()[1:]
		s := m.Of(meter.Outdoor)
		text := name + ": too few reads to score"
		if s.OK {
			text = fmt.Sprintf("%s: outdoor use under “%s” has NMBE %s%% and CV(RMSE) %s%% (n %d, p %d): %s",
				name, m.strategy, pct(s.NMBE), pct(s.CV), s.N, s.P, labelText(&s.Score))
		}
		text += ". It tests " + m.supports.Text().Doc
		if m.afterName == "" {
			text += ", not the other strategies"
		}
		texts = append(texts, text)
	}
	if len(texts) == 0 {
		return ""
	}
	return strings.Join(texts, "; ")
}

// TestedFact says in everyday words how far meters test the replay; empty for none.
func (l *Study) TestedFact(list []*ComparedMeter) string {
	var texts []string
	for _, m := range list {
		text := "has too few reads to test “%s”"
		if s := m.Of(meter.Outdoor); s.OK {
			text = map[meter.Label]string{
				meter.Calibrated:    "agrees with the replay of “%s” (calibrated)",
				meter.Indicative:    "roughly agrees with the replay of “%s” (indicative)",
				meter.NotCalibrated: "does not agree well with the replay of “%s” (not calibrated): use these numbers only to compare options",
			}[meter.LabelOf(&s.Score).Label]
		}
		texts = append(texts, m.lowTitle()+" "+fmt.Sprintf(text, m.strategy))
	}
	if len(texts) == 0 {
		return ""
	}
	return strings.Join(texts, "; ") + "."
}

// lowTitle is the title within a sentence.
func (m *ComparedMeter) lowTitle() string { return strings.ToLower(m.title()[:1]) + m.title()[1:] }

// VerifiedFact states in everyday words the savings of earlier changes that meters verified:
// they are measured, and nothing else on the first page is. Empty for none.
func (l *Study) VerifiedFact(list []*ComparedMeter) string {
	var texts []string
	for _, m := range list {
		s := m.Saving
		if s.Claim < 0 || s.Status != meter.VerifiedSaving {
			continue
		}
		text := fmt.Sprintf("the change of %s", plots.DayText(m.Use.Changed))
		if m.afterName != "" {
			text += fmt.Sprintf(" from “%s” to “%s”", m.strategy, m.afterName)
		}
		text += fmt.Sprintf(", by %s from %s to %s: %s", m.lowTitle(), plots.DayText(s.From), plots.DayText(s.To),
			strings.ToLower(savingText(s)[:1])+savingText(s)[1:])
		texts = append(texts, text)
	}
	if len(texts) == 0 {
		return ""
	}
	return strings.Join(texts, "; ") + ". A bias of the baseline is not in it. All other savings are estimated."
}

// RunningFact says which strategy has run since a change that meters saw; empty if none is
// stated, or several.
func (l *Study) RunningFact(list []*ComparedMeter) string {
	text := ""
	for _, m := range list {
		if m.afterName == "" || m.afterName == m.strategy {
			continue
		}
		one := fmt.Sprintf("“%s” has run since %s, not “%s.”", m.afterName, plots.DayText(m.Use.Changed), m.strategy)
		if text != "" && text != one {
			return ""
		}
		text = one
	}
	return text
}

// inSentences joins lines, each with one period at its end.
func inSentences(lines []string) string {
	var out []string
	for _, line := range lines {
		out = append(out, strings.TrimSuffix(line, ".")+".")
	}
	return strings.Join(out, " ")
}

// savingText states a verified saving with its uncertainty and confidence, which belong
// together, or that it is too close to call.
func savingText(s *meter.Saving) string {
	by := &s.By[s.Claim]
	share := func(m3 float64) string { return pct(100 * m3 / by.BaselineM3) }
	what, of := "Saving", by.M3
	if of < 0 {
		what, of = "Increase", -of
	}
	text := fmt.Sprintf("%s of %s%%", what, share(of))
	if by.PlusOK {
		text += fmt.Sprintf(" ± %s points at %.0f%% confidence", share(by.Plus), 100*meter.Confidence)
	}
	if text += ", " + string(s.Status); by.TooClose() {
		text += ": too close to call"
	}
	return text
}

// MeterCharts draws every meter over time, and its periods as dots.
func (l *Study) MeterCharts(list []*ComparedMeter) (charts []plots.Chart) {
	taken := map[string]int{}
	for _, m := range list {
		v := &plots.MeterView{Site: l.Scenario.Site.Name, Station: l.stationName(), Meter: m.Name, Strategy: m.strategy, Units: l.chartUnits(),
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
