package study

import (
	"fmt"
	"math"
	"strings"

	"loamledger/sim/meter"
	"loamledger/weather/quantity"
)

// meterBases shows base use by every method.
func (l *Study) meterBases(m *ComparedMeter) meterTable {
	unit := l.volUnit()
	t := meterTable{caption: "Base use, which is not irrigation, by every method",
		head: []string{"method", "a day\n[" + unit + "]", "range\n[" + unit + "]", "how", "beware"}, words: []bool{false, true, true, true}}
	for i := range m.Bases {
		b := &m.Bases[i]
		doc := b.Method.Doc()
		name, rate, span := string(b.Method), l.rate(b.M3Day), ""
		if i == m.Base {
			name += " (used)"
		}
		if b.High > b.Low {
			span = l.rate(b.Low) + " to " + l.rate(b.High)
		}
		how := doc.Doc
		if b.Method == meter.People && b.Missing == "" {
			how += "; " + meter.PersonSource
		}
		if b.Missing != "" {
			rate = "-"
			for _, d := range meter.Missings() {
				if d.Code == b.Missing {
					how = "none: " + d.Doc
				}
			}
		}
		if m.Only && b.Missing != "" {
			continue
		}
		t.rows = append(t.rows, []string{name, rate, span, how, doc.Bias})
	}
	low, high, n := meter.Spread(m.Bases)
	switch {
	case m.Base < 0:
		t.notes = []string{"No method gives base use, so outdoor use is not known and nothing is scored."}
	case n > 1:
		t.notes = []string{fmt.Sprintf("The methods differ by %s %s a day, from %s to %s; the one used decides outdoor use. "+
			"Choose another with base under the meter.", l.rate(high-low), unit, l.rate(low), l.rate(high))}
	}
	return t
}

// scoreText writes a score as cells: n, p, NMBE, CV.
func scoreText(s *meter.Score, ok bool) []string {
	if !ok {
		return []string{fmt.Sprint(s.N), fmt.Sprint(s.P), "-", "-"}
	}
	return []string{fmt.Sprint(s.N), fmt.Sprint(s.P), pct(s.NMBE), pct(s.CV)}
}

// labelText writes a label, with a mark if it is ours.
func labelText(s *meter.Score) string {
	l := meter.LabelOf(s)
	if l.Ours {
		return string(l.Label) + " (our label)"
	}
	return string(l.Label)
}

// meterScores shows how close the replay is.
func (l *Study) meterScores(m *ComparedMeter) meterTable {
	t := meterTable{caption: fmt.Sprintf("How close “%s” is to the meter, before any change", m.strategy),
		head: []string{"scope", "n", "p", "NMBE\n[%]", "CV(RMSE)\n[%]", "label"}, words: []bool{false, false, false, false, true}}
	for i := range m.Scores {
		s := &m.Scores[i]
		label := "-"
		if s.OK {
			label = labelText(&s.Score)
		}
		t.rows = append(t.rows, append(append([]string{string(s.Scope)}, scoreText(&s.Score, s.OK)...), label))
	}
	if rung := m.rung(meter.AsProgrammed); rung != nil {
		for k := range rung.Years {
			y, s := &m.Ladder.Years[k], &rung.Years[k]
			label, ok := "-", s.MeanM3 > 0
			if ok {
				label = labelText(s)
			}
			t.rows = append(t.rows, append(append([]string{"whole meter, held out: " + periodText(y.From, y.To-1)}, scoreText(s, ok)...),
				label))
		}
	}
	if m.afterName != "" {
		label := "-"
		if m.afterOK {
			label = labelText(&m.after)
		}
		t.rows = append(t.rows, append(append([]string{fmt.Sprintf("whole meter, after the change: “%s”", m.afterName)},
			scoreText(&m.after, m.afterOK)...), label))
	}
	t.notes = append(t.notes, "n: periods; p: numbers fitted to them. NMBE = 100 Σ(metered − simulated)/((n − p) × mean "+
		"metered): above 0, the replay is "+
		"too low. CV(RMSE) = 100 √(Σ(metered − simulated)²/(n − p))/mean metered.")
	for _, d := range meter.Scopes() {
		t.notes = append(t.notes, fmt.Sprintf("%s: %s.", d.Scope, d.Doc))
	}
	if len(m.Ladder.Years) > 0 {
		t.notes = append(t.notes, "A year held out is scored with the base use of the other years.")
	}
	var labels []string
	for _, d := range meter.Labels() {
		labels = append(labels, fmt.Sprintf("“%s”: %s", d.Label, d.Doc))
	}
	t.notes = append(t.notes, strings.Join(labels, ". ")+".")
	if m.FewWhole {
		t.notes = append(t.notes, fmt.Sprintf("Only %s: with fewer than %d, the statistics say little.",
			quantity.Count(len(m.Before), "period counts", "periods count"), meter.LeastPeriods))
	}
	s := m.supports.Text()
	t.notes = append(t.notes, "What this meter tests: "+s.Doc+". What it does not: "+s.Not+".")
	if m.afterName == "" {
		t.notes = append(t.notes, "The side of proposed strategies is not tested by reads before a change. A period in which one already "+
			"ran would test it "+
			"(changed and changed_to under the meter), or measured soil water (see: loamledger compare).")
	}
	return t
}

// rung returns the rung of a model; nil if there is none.
func (m *ComparedMeter) rung(model meter.Model) *meter.Rung {
	for i := range m.Ladder.Rungs {
		if m.Ladder.Rungs[i].Model == model {
			return &m.Ladder.Rungs[i]
		}
	}
	return nil
}

// meterLadder shows the baselines.
func (l *Study) meterLadder(m *ComparedMeter) meterTable {
	t := meterTable{caption: "Baselines, of the whole meter: each fitted to all years but one, and scored on that one",
		head:  []string{"baseline", "n", "p", "NMBE\n[%]", "CV(RMSE)\n[%]", "held out:\nn", "NMBE\n[%]", "CV(RMSE)\n[%]", "what it is"},
		words: []bool{false, false, false, false, false, false, false, true}}
	for i := range m.Ladder.Rungs {
		r := &m.Ladder.Rungs[i]
		name := string(r.Model)
		if i == m.Ladder.Chosen {
			name += " (chosen)"
		}
		held := []string{"-", "-", "-"}
		if r.HeldOK {
			held = []string{fmt.Sprint(r.Held.N), pct(r.Held.NMBE), pct(r.Held.CV)}
			if r.Missed > 0 {
				held[0] += fmt.Sprintf(", %d missed", r.Missed)
			}
		}
		t.rows = append(t.rows, append(append(append([]string{name}, scoreText(&r.Fit, r.FitOK)...), held...), r.Model.Doc().Doc))
	}
	if m.Ladder.Chosen < 0 {
		t.notes = append(t.notes, "None is chosen: a choice needs two years of reads before the change, so that one can be held out.")
	} else {
		t.notes = append(t.notes, "Chosen: the lowest CV(RMSE) on years held out. A timer that nobody changes does not follow the "+
			"weather, so a plain "+
			"mean of months is often the best baseline, and then it follows no weather.")
	}
	limit := meter.RegressionLimit(math.Inf(-1))
	t.notes = append(t.notes, fmt.Sprintf("For a regression of the whole meter the guideline has other limits than for a simulation: "+
		"CV(RMSE) %.0f%%, "+
		"or %.0f%% and %.0f%% with 12 and 60 months after the change (%s).", limit.CV, meter.RegressionLimit(12).CV, meter.RegressionLimit(61).CV,
		limit.Source))
	return t
}
