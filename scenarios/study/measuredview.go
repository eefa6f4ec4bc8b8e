package study

import (
	"fmt"
	"math"
	"strings"

	"loamledger/sim/soilwater"
	"loamledger/weather/cal"
	"loamledger/weather/quantity"
)

// MeasuredViews shows a comparison with measured soil water. file and layout are
// of the measurements.
func (l *Study) MeasuredViews(m *Measured, file, layout string) []*View {
	head := &View{Head: append(l.measuredHead(m, file, layout), "")}
	const nothing = "Without a score there is no fit and no chart."
	switch m.NotScored {
	case tooFewDays:
		head.Notes = []string{fmt.Sprintf("Not scored: %s can be compared, and %d are needed.", quantity.Count(m.compared, "day", "days"),
			soilwater.LeastDays), nothing}
		return []*View{head}
	case tooLittleDrying:
		head.Notes = []string{fmt.Sprintf("Not scored: the soil dried by %s, too little to judge a replay. It takes %s.", l.depthUnit(m.rangeMM),
			l.depthUnit(m.leastMM)), nothing}
		return []*View{head}
	}
	views := []*View{head, l.scoreView(m), l.warmView(m), {Notes: l.misfitLines(m)}, l.useView(m)}
	switch {
	case m.Fit != nil:
		views = append(views, l.fitView(m))
	case len(m.options.Fit) > 0:
		views = append(views, &View{Notes: []string{"", fmt.Sprintf("Not fitted: a half of the record has fewer than %d days.", leastFitDays)}})
	}
	return append(views, &View{Notes: append(append([]string{""}, l.measuredNotes(m)...), Caution)})
}

// depthUnit writes a depth with its unit.
func (l *Study) depthUnit(mm float64) string {
	return depthText(mm, l.Scenario.Units) + " " + quantity.Label(quantity.Depth, l.Scenario.Units)
}

func (l *Study) length(m float64) string {
	return quantity.Format(m, quantity.Length, l.Scenario.Units)
}

// measuredHead says what is compared with what.
func (l *Study) measuredHead(m *Measured, file, layout string) []string {
	r := m.record
	var levels []string
	for i, level := range r.Levels {
		text := l.length(level.DepthM)
		if level.Sensors > 1 {
			text += fmt.Sprintf(" (%d sensors, mean spread %.3f", level.Sensors, level.SpreadMean)
			if level.PartDays > 0 {
				text += fmt.Sprintf(", %s with some of them", quantity.Count(level.PartDays, "day", "days"))
			}
			text += ")"
		}
		if m.thicknessMM[i] == 0 {
			text += " (below the root zone)"
		}
		levels = append(levels, text)
	}
	lines := l.Head()
	lines = lines[:len(lines)-1]
	lines = append(lines,
		fmt.Sprintf("Measured: %s, read as %s; %v to %v at %s", file, layout, r.Start, r.Start+cal.Date(r.Days-1), strings.Join(levels, ", ")),
		fmt.Sprintf("Days: %s compared; not compared: %s without a reading of every depth, %s with frozen soil%s, %s outside the weather record",
			quantity.Whole(m.compared), quantity.Whole(m.GapDays), quantity.Whole(m.FrozenDays), frozenBy(m), quantity.Whole(m.outside)),
		fmt.Sprintf("Zone %q under %q; %s", m.zone, m.strategy, l.soilText(m)))
	for i := range r.Levels {
		if from, days := r.Levels[i].Stuck(); days >= soilwater.StuckDays {
			lines = append(lines, fmt.Sprintf("Caution: the reading at %s is exactly the same on %d days in a row from %v: the sensor may be stuck.",
				l.length(r.Levels[i].DepthM), days, r.Start+cal.Date(from)))
		}
	}
	if m.reachM < m.rootDepthM-1e-9 {
		lines = append(lines, fmt.Sprintf("The sensors represent the soil down to %s, so that depth is compared instead of the root depth, %s.",
			l.length(m.reachM), l.length(m.rootDepthM)))
	}
	if m.NotScored == 0 && m.measuredFrom {
		lines = append(lines, fmt.Sprintf("The replay starts on %v from the measured depletion: the weather does not begin a year earlier.",
			m.startFrom))
	}
	return lines
}

func frozenBy(m *Measured) string {
	if m.frozenByAir {
		return " (by air temperature)"
	}
	return ""
}

// soilText says where field capacity and wilting point come from.
func (l *Study) soilText(m *Measured) string {
	taw := l.depthUnit(m.TAWMM)
	switch m.options.Soil {
	case SoilOfScenario:
		text := "TAW " + taw + " from the scenario, field capacity from the record"
		if m.MeasuredTAW != m.TAWMM {
			text += "; measured days past RAW by the record’s own range, " + l.depthUnit(m.MeasuredTAW)
		}
		return text
	case SoilStated:
		return fmt.Sprintf("field capacity %.3f and wilting point %.3f as stated, TAW %s", m.options.FieldCapacity, m.options.WiltingPoint, taw)
	}
	return "field capacity and wilting point of each depth from the record, TAW " + taw
}

// seasonNames are the names of the seasons, in order.
var seasonNames = [soilwater.Seasons]string{"whole year", "spring", "summer", "fall", "winter"}

func (l *Study) scoreView(m *Measured) *View {
	unit := quantity.Label(quantity.Depth, l.Scenario.Units)
	g := &Grid{Columns: toTheRight(1, 7), Head: []string{"period", "days", "r", "bias\n" + unit, "bias\n% of TAW", "RMSE\n" + unit,
		"RMSE\n% of TAW"},
		Rule: 1}
	for season, s := range m.Scores {
		if math.IsNaN(s.RMSEMM) {
			g.add(seasonNames[season], s.Days, "-", "-", "-", "-", "-")
			continue
		}
		g.add(l.scoreRow(m, seasonNames[season], s)...)
	}
	return &View{Head: []string{"Depletion, simulated less measured (above 0: the replay is too dry):"}, Grid: g}
}

func (l *Study) scoreRow(m *Measured, name string, s soilwater.Score) []any {
	return []any{name, s.Days, ratio(s.R), depthText(s.BiasMM, l.Scenario.Units), fmt.Sprintf("%.1f", m.share(s.BiasMM)),
		depthText(s.RMSEMM, l.Scenario.Units), fmt.Sprintf("%.1f", m.share(s.RMSEMM))}
}

// share returns a depth in percent of the measured TAW.
func (m *Measured) share(mm float64) float64 { return 100 * mm / m.MeasuredTAW }

func (l *Study) warmView(m *Measured) *View {
	g := &Grid{Columns: toTheRight(1, 6), Head: []string{"year", "days", "past RAW\nsimulated", "past RAW\nmeasured", "onset\nsimulated",
		"onset\nmeasured"}}
	for i := range m.Warms {
		w := &m.Warms[i]
		mark := ""
		if !w.Complete() {
			mark = " *"
		}
		g.add(fmt.Sprint(w.Year)+mark, w.Days, w.SimPast, w.MeasuredPast, onset(w.SimOnset, w.SimOnsetOK), onset(w.MeasuredOnset,
			w.MeasuredOnsetOK))
	}
	span := "April to October"
	if m.Series.South {
		span = "October to April"
	}
	v := &View{Head: []string{"", "Days past RAW, " + span + ", on measured days; onset is the first of three in a row:"}, Grid: g}
	for i := range m.Warms {
		if !m.Warms[i].Complete() {
			v.Notes = []string{"* too few measured days to compare counts with other years"}
			break
		}
	}
	return v
}

func onset(d cal.Date, ok bool) string {
	if !ok {
		return "none"
	}
	return d.String()
}

func (l *Study) misfitLines(m *Measured) []string {
	f := &m.Misfit
	return []string{"",
		fmt.Sprintf("Largest misfit: %v, simulated %s, measured %s; it grew from %v.", f.Date, l.depthUnit(f.SimMM),
			l.depthUnit(f.MeasuredMM), f.Since),
		"Likely reason: " + f.Reason.Words() + "."}
}

func (l *Study) useView(m *Measured) *View {
	if len(m.useBins) == 0 {
		return &View{Notes: []string{fmt.Sprintf("Too few dry spells to compare measured water use with Ks: %d of three days.", len(m.uses))}}
	}
	p := m.meanP()
	g := &Grid{Columns: toTheRight(1, 5), Head: []string{"depletion\n% of TAW", "dry spells", "measured use\n/ ETc, median",
		"half are\nbetween", "Ks"}}
	for _, b := range m.useBins {
		g.add(fmt.Sprintf("%.0f to %.0f", 100*b.From, 100*b.To), b.Windows, ratio(b.Median), ratio(b.Q25)+" and "+ratio(b.Q75),
			ratio(ksLine(float64((b.From+b.To)/2), p)))
	}
	return &View{Head: []string{"", "Water use in dry spells of three days:"}, Grid: g}
}

// meanP returns the mean stress fraction on the days of dry spells.
func (m *Measured) meanP() float64 {
	sum := 0.0
	for _, use := range m.uses {
		sum += m.Series.RAWMM[use.Date] / m.Series.TAWMM
	}
	return sum / float64(len(m.uses))
}

// ksLine returns Ks at a relative depletion.
func ksLine(relative, p float64) float64 { return min(max((1-relative)/(1-p), 0), 1) }

func (l *Study) fitView(m *Measured) *View {
	f := m.Fit
	halves := [2]string{"odd months", "even months"}
	note := "The halves are months of the same years, which are alike: measure another year to be sure."
	if f.byYears {
		halves, note = [2]string{"odd years", "even years"}, ""
	}
	g := &Grid{Columns: toTheRight(1, 7), Head: []string{"half", "days", "r", "bias", "bias\n% of TAW", "RMSE", "RMSE\n% of TAW"}}
	for i, half := range halves {
		what := [2]string{" (fitted)", " (held out)"}[i]
		g.add(l.scoreRow(m, half+what+", before", f.Before[i])...)
		g.add(l.scoreRow(m, half+what+", after", f.After[i])...)
	}
	v := &View{Head: []string{""}, Grid: g}
	for _, p := range f.fitted {
		line := fmt.Sprintf("Fitted %s: %.3g instead of %.3g, bounds %.3g to %.3g", p.Key, p.After, p.Before, p.Low, p.High)
		if p.Key == FitAWC {
			sys := l.Scenario.Units
			c := func(v float64) float64 { return quantity.Convert(v, quantity.Capacity, sys) }
			line = fmt.Sprintf("Fitted %s: %.3g %s instead of %.3g, bounds %.3g to %.3g", p.Key, c(p.After), quantity.Label(quantity.Capacity, sys),
				c(p.Before), c(p.Low), c(p.High))
		}
		if p.AtBound {
			line += "; at a bound, so something else is wrong"
		}
		v.Head = append(v.Head, line)
	}
	if note != "" {
		v.Notes = append(v.Notes, note)
	}
	if f.lines == nil {
		v.Notes = append(v.Notes, "The error of the held-out half does not fall by 5%: keep the scenario’s values.")
		return v
	}
	v.Notes = append(append(v.Notes, "Lines to paste into the zone, keeping its other keys:"), f.lines...)
	return v
}

// measuredNotes says what the figures mean.
func (l *Study) measuredNotes(m *Measured) []string {
	notes := []string{"A measured day is a mean over the day, a simulated one is its end: up to a day of the difference is timing."}
	if m.options.Soil == SoilOfRecord {
		notes = append(notes, "Field capacity and wilting point come from the scored record, so the scores test timing and K, not the soil.")
	}
	return notes
}
