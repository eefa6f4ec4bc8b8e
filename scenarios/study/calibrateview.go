package study

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"loamledger/plots"
	"loamledger/sim/calibrate"
	"loamledger/sim/meter"
	"loamledger/sim/strategy"
	"loamledger/weather/quantity"
)

// CalibrationViews shows a calibration.
func (l *Study) CalibrationViews(c *Calibration) (views []View) {
	for _, t := range l.calibrationTables(c) {
		views = append(views, t.view(44))
	}
	return views
}

func (l *Study) calibrationTables(c *Calibration) []meterTable {
	head := meterTable{caption: l.calibrationTitle(c), notes: l.calibrationHead(c)}
	if c.Stopped != "" {
		return []meterTable{head, l.calibrationLevers(c)}
	}
	return []meterTable{head, l.calibrationParams(c), l.calibrationSteps(c), l.calibrationScores(c), l.calibrationPeriods(c),
		l.calibrationLevers(c), l.calibrationNotes(c)}
}

func (l *Study) calibrationTitle(c *Calibration) string {
	count := [4]int{}
	for i := range c.Rows {
		count[c.Rows[i].Part]++
	}
	text := fmt.Sprintf("%s, the replay of “%s”: %s fitted, %d held out", c.metered.title(), c.metered.strategy,
		quantity.Count(count[calibrate.Fitted], "period", "periods"), count[calibrate.Held])
	if c.metered.Use.Changed != 0 {
		text += fmt.Sprintf(", %d after the change of %s, which decide nothing", count[calibrate.Reporting], plots.DayText(c.metered.Use.Changed))
	}
	return text + fmt.Sprintf(", %d omitted", count[calibrate.Left])
}

// calibrationHead is the result in a few lines.
func (l *Study) calibrationHead(c *Calibration) (lines []string) {
	if c.Stopped != "" {
		i := slices.IndexFunc(calibrate.Reasons(), func(d calibrate.ReasonDoc) bool { return d.Reason == c.Stopped })
		return []string{"Nothing is tuned: " + calibrate.Reasons()[i].Doc + "."}
	}
	if label, ok := c.label(); ok {
		text := fmt.Sprintf("Label: %s (the worse of the fitted and the held-out periods, %s: %s).", label.Label, c.judged(), label.Doc)
		lines = append(lines, text)
	} else {
		lines = append(lines, "Label: none; neither part can be scored.")
	}
	fit, held := c.scoreAt(calibrate.Fitted), c.scoreAt(calibrate.Held)
	lines = append(lines, fmt.Sprintf("CV(RMSE) of %s: fitted periods %s untuned and %s tuned; held-out periods %s untuned and %s tuned. "+
		"NMBE tuned: %s fitted, %s held out.", c.judged(), cvText(fit.before, fit.beforeOK), cvText(fit.after, fit.afterOK),
		cvText(held.before, held.beforeOK), cvText(held.after, held.afterOK), nmbeText(fit.after, fit.afterOK),
		nmbeText(held.after, held.afterOK)))
	lines = append(lines, fmt.Sprintf("Tuned: %s (p, counted in the statistics of the fitted periods; a dated change counts twice).",
		quantity.Count(c.P, "number", "numbers")))
	if !c.Better() {
		lines = append(lines, "The held-out periods do not fit clearly better than untuned (by 5%): keep the scenario’s values.")
	}
	return lines
}

func cvText(s meter.Score, ok bool) string {
	if !ok {
		return "-"
	}
	return pct(s.CV) + "%"
}

func nmbeText(s meter.Score, ok bool) string {
	if !ok {
		return "-"
	}
	return pct(s.NMBE) + "%"
}

// paramName names a parameter, and value writes one of its values.
func (l *Study) paramName(p *calibrate.Param) string {
	switch p.Key {
	case calibrate.Base:
		return "base use [" + l.volUnit() + "/day]"
	case calibrate.Scale:
		return "flow or area, factor"
	case calibrate.Off:
		return strategy.MonthNames[p.Month-1] + ", every year"
	case calibrate.Change:
		return fmt.Sprintf("run times from %s, factor", plots.DayText(p.From))
	case calibrate.Leak:
		return "leak [" + l.volUnit() + "/day]"
	}
	return "plant coefficients, factor"
}

func (l *Study) paramValue(p *calibrate.Param, v float64) string {
	switch {
	case math.IsNaN(v):
		return "-"
	case p.Key == calibrate.Base || p.Key == calibrate.Leak:
		return l.rate(v)
	case p.Key == calibrate.Off && v == 0:
		return "off"
	case p.Key == calibrate.Off:
		return "on"
	}
	return fixedNumber(v, 3)
}

// calibrationParams lists every parameter in the order of tuning.
func (l *Study) calibrationParams(c *Calibration) meterTable {
	t := meterTable{caption: "Parameters in the order they are tuned. An interval is at " + pct0(c.Confidence) + " confidence.",
		head: []string{"parameter", "untuned", "tuned", "interval", "bounds", "note"}, words: []bool{false, false, false, false, true}}
	losses := func() {
		t.rows = append(t.rows, []string{"spray loss, overspray, broken heads", "-", "-", "-", "-", "not tuned: no meter shows where water goes"})
	}
	for i := range c.Params {
		p := &c.Params[i]
		if p.Key == calibrate.K {
			losses()
		}
		tuned, interval := l.paramValue(p, p.Value), "-"
		if !math.IsNaN(p.Interval[0]) {
			interval = l.paramValue(p, p.Interval[0]) + " to " + l.paramValue(p, p.Interval[1])
		}
		bounds, note := l.paramValue(p, p.Low)+" to "+l.paramValue(p, p.High), l.paramNote(c, p)
		if !p.Tuned {
			tuned = "-"
		}
		if p.Key == calibrate.Off {
			bounds = "on, off"
		}
		t.rows = append(t.rows, []string{l.paramName(p), l.paramValue(p, p.Start), tuned, interval, bounds, note})
	}
	if p := c.param(calibrate.Scale); p != nil {
		text := fmt.Sprintf("Bounds: %s (%s)", p.Source, p.Grade)
		for _, key := range []calibrate.Key{calibrate.Base, calibrate.Leak} {
			if q := c.param(key); q != nil {
				text += fmt.Sprintf("; of %s: %s (%s)", key, q.Source, q.Grade)
			}
		}
		t.notes = append(t.notes, text+".")
	}
	if c.Draws > 0 {
		t.notes = append(t.notes, fmt.Sprintf("Intervals: quantiles of %s resamples, in which every period keeps its modeled use and gets "+
			"its own "+
			"error with a random sign, and schedule and values are found anew; widened by Student’s t.", quantity.Whole(c.Draws)))
	}
	if !math.IsNaN(c.Other.Scale) {
		t.notes = append(t.notes, fmt.Sprintf("Fitted to the held-out periods instead, the factor of flow is %s and the constant part %s %s/day.",
			fixedNumber(c.Other.Scale, 3), l.rate(c.Other.Constant), l.volUnit()))
	}
	return t
}

func pct0(share float64) string { return fixedNumber(100*share, 0) + "%" }

// param returns the first parameter of a key; nil for none.
func (c *Calibration) param(key calibrate.Key) *calibrate.Param {
	for i := range c.Params {
		if c.Params[i].Key == key {
			return &c.Params[i]
		}
	}
	return nil
}

// paramNote says what is to be known of a parameter.
func (l *Study) paramNote(c *Calibration, p *calibrate.Param) string {
	switch {
	case p.Key == calibrate.K && !c.Plants:
		return "not tuned: the metered water does not depend on plants"
	case !p.Tuned && p.Key == calibrate.Base:
		return "not tuned: the replay is the same every day"
	case !p.Tuned:
		return "not tuned: it does not earn its place"
	}
	var notes []string
	if p.AtBound {
		notes = append(notes, "AT A BOUND: something else is wrong")
	}
	if !math.IsNaN(p.Support) {
		notes = append(notes, pct0(p.Support)+" of the resamples choose it, too")
	}
	return strings.Join(notes, "; ")
}

// calibrationSteps shows what each stage gains.
func (l *Study) calibrationSteps(c *Calibration) meterTable {
	t := meterTable{caption: "Stage by stage; after each, the values before are fitted again together with it.",
		head:  []string{"stage", "numbers tuned", "error of a period\n[" + l.volUnit() + "]", "criterion", "kept"},
		words: []bool{false, false, false, true}}
	for i := range c.Steps {
		s := &c.Steps[i]
		kept := "no: it does not earn its place"
		if s.Kept {
			kept = "yes"
		}
		criterion := "-"
		if !math.IsInf(s.EBIC, 0) {
			criterion = fixedNumber(s.EBIC, 1)
		}
		doc := calibrate.Keys()[slices.IndexFunc(calibrate.Keys(), func(d calibrate.KeyDoc) bool { return d.Key == s.Key })].Doc
		t.rows = append(t.rows, []string{doc, fmt.Sprint(s.P), l.vol(s.M3), criterion, kept})
	}
	t.notes = []string{"Error: root mean square over the fitted periods. Criterion: the extended Bayesian information criterion of the " +
		"weighted " +
		"fit, corrected for few periods (Chen and Chen 2008, McQuarrie 1999); a stage is kept if it falls."}
	if !c.Searched {
		t.notes = append(t.notes, fmt.Sprintf("The schedule was not searched: that takes %d fitted periods.", calibrate.EnoughPeriods))
	}
	return t
}

// calibrationScores is the table of statistics.
func (l *Study) calibrationScores(c *Calibration) meterTable {
	t := meterTable{caption: "Statistics. NMBE above 0: the replay is too low.",
		head: []string{"scope", "part", "n", "p", "NMBE\nuntuned [%]", "NMBE\ntuned [%]", "CV(RMSE)\nuntuned [%]", "CV(RMSE)\ntuned [%]",
			"label tuned"},
		words: []bool{true, false, false, false, false, false, false, true}}
	number := func(v float64, ok bool) string {
		if !ok {
			return "-"
		}
		return pct(v)
	}
	for i := range c.scores {
		s := &c.scores[i]
		label := "-"
		if s.afterOK {
			label = string(meter.LabelOf(&s.after).Label)
		}
		t.rows = append(t.rows, []string{string(s.scope), s.part.Key(), fmt.Sprint(s.after.N), fmt.Sprint(s.after.P),
			number(s.before.NMBE, s.beforeOK),
			number(s.after.NMBE, s.afterOK), number(s.before.CV, s.beforeOK), number(s.after.CV, s.afterOK), label})
	}
	for _, d := range meter.Labels() {
		ours := ""
		if d.Ours {
			ours = " (ours)"
		}
		t.notes = append(t.notes, fmt.Sprintf("%s%s: %s.", d.Label, ours, d.Doc))
	}
	return t
}

// calibrationPeriods lists the periods.
func (l *Study) calibrationPeriods(c *Calibration) meterTable {
	unit := l.volUnit()
	t := meterTable{caption: "Period by period, whole meter: the strategy as found throughout",
		head: []string{"period", "part", "metered\n[" + unit + "]", "untuned\n[" + unit + "]",
			"tuned\n[" + unit + "]", "metered less\ntuned [" + unit + "]"}, words: []bool{true, false, false, false, false}}
	for i := range c.Rows {
		r := &c.Rows[i]
		part := r.Part.Key()
		if r.Part == calibrate.Left {
			part += ": " + string(r.Why)
		}
		before, after, off := "-", "-", "-"
		if !math.IsNaN(r.After) {
			before, after, off = l.vol(r.Before), l.vol(r.After), l.vol(r.M3-r.After)
		}
		t.rows = append(t.rows, []string{periodText(r.From, r.To), part, l.vol(r.M3), before, after, off})
	}
	return t
}
