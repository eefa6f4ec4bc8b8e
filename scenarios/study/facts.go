package study

import (
	"fmt"
	"slices"
	"sort"
	"strings"
	"unicode"

	"loamledger/plots"
	"loamledger/scenarios"
	"loamledger/scenarios/catalog"
	"loamledger/sim/tally"
	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/et0"
	"loamledger/weather/quantity"
)

// ChartData collects the data for the charts. metered are the meters with reads, if any.
func (l *Study) ChartData(t *tally.Table, s *Season, metered ...*ComparedMeter) *plots.Study {
	return &plots.Study{Site: l.Scenario.Site.Name, Station: l.stationName(), From: l.Weather.Start, To: l.Weather.End(),
		Units: l.chartUnits(), Table: t, Allowance: l.allowanceLine(t), Bills: l.billCharts(t),
		Metered:  l.meteredMonths(metered, len(l.Job.Zones)),
		Measures: l.Measures, Rules: l.verdictRules(), Next: l.next(), Traces: s.traces,
		Filled: l.Job.Weather.Filled}
}

// stationName is the station, or the file if it has no name, with a note if its
// weather is synthetic: it appears in every chart and in the report.
func (l *Study) stationName() string {
	switch n := l.Weather.SyntheticDays; {
	case n == 0:
		return l.plainStationName()
	case n < l.Weather.Days:
		return l.plainStationName() + " (partly synthetic weather)"
	}
	return l.plainStationName() + " (synthetic weather)"
}

// plainStationName names the station as people would: by its name or code, or
// by the file and its layout if neither has a letter.
func (l *Study) plainStationName() string {
	st, file := &l.Weather.Station, base(l.Weather.File)
	switch {
	case strings.ContainsFunc(st.Name, unicode.IsLetter):
		return st.Name
	case strings.ContainsFunc(st.ID, unicode.IsLetter):
		return "station " + st.ID + " (" + file + ")"
	case l.Weather.Layout == "" || l.Weather.Layout == "own": // the layout need not be named
		return file
	}
	return file + ", read as " + l.Layout
}

// bare removes the folders from the names of input files in a text, so that
// runs of the same files from different folders have the same text.
func (l *Study) bare(text string) string {
	files := slices.Clone(l.Files)
	sort.SliceStable(files, func(a, b int) bool { return len(files[a].Name) > len(files[b].Name) })
	var pairs []string
	for _, f := range files {
		pairs = append(pairs, f.Name, base(f.Name))
	}
	return strings.NewReplacer(pairs...).Replace(text)
}

// replanted reports, by strategy, whether zone z is not turf all the time.
func (l *Study) replanted(z int) []bool {
	var out []bool
	for s := range l.Job.Strategies {
		stack := l.stackOf(s)
		out = append(out, stack != nil && slices.ContainsFunc(stack.Stages, func(st scenarios.Stage) bool {
			return !st.Zones[z].PlantGroup.Turf() || st.Zones[z].AreaM2 == 0
		}))
	}
	return out
}

// joinSentences joins those that are not empty.
func joinSentences(list ...string) string {
	return strings.Join(slices.DeleteFunc(list, func(s string) bool { return s == "" }), " ")
}

// zoneKinds describes the zones as far as [plots.Alarms] needs it.
func (l *Study) zoneKinds() []plots.ZoneKind {
	kinds := make([]plots.ZoneKind, len(l.Scenario.Zones))
	for i := range kinds {
		z := &l.Scenario.Zones[i]
		kinds[i] = plots.ZoneKind{Turf: z.PlantGroup.Turf(), Spray: z.Sprinkler == catalog.Spray, Replanted: l.replanted(i)}
	}
	return kinds
}

// leftOut returns the minutes omitted from each strategy because of the limits, on
// the days that yearly figures cover; nil if the site has no limits or only flags breaches.
func (l *Study) leftOut(t *tally.Table) []float64 {
	if l.Scenario.Limits == nil || l.Scenario.Limits.FlagOnly {
		return nil
	}
	minutes, basis := make([]float64, t.NoWaterIndex()), t.Basis()
	for s := range minutes {
		if l.Applies(s) {
			continue
		}
		for i := range t.Breaches[s] {
			if b := &t.Breaches[s][i]; t.Covers(&basis, b.Date) {
				minutes[s] += b.Minutes
			}
		}
	}
	return minutes
}

// seeds says which random seed draws have, and where the others stand: those of habits, sensors, lives
// and forecasts.
func (l *Study) seeds() string {
	return fmt.Sprintf("%d for draws, others in the scenario", l.Scenario.Ranges.Seed)
}

// adviceFacts collects what advice depends on.
func (l *Study) adviceFacts(t *tally.Table) *plots.Facts {
	f := &plots.Facts{Weather: l.weatherFacts(), Kinds: l.zoneKinds(), Warnings: l.warningTexts(), About: l.about(t), Ranges: l.Ranges,
		Defaults: l.defaults()}
	if c := l.checks; c != nil {
		f.Results, f.Design, f.Marks, f.Cycles, f.Trials = c.cold, c.design, c.marks, c.cycles, c.changes
	}
	f.Results = append(slices.Clip(f.Results), l.moneyAlarms(t)...)
	return f
}

// Facts collects what the report says about the inputs; date is printed in it, 0 for
// that of the scenario, if it has one.
func (l *Study) Facts(t *tally.Table, date cal.Date) *plots.Facts {
	f := l.adviceFacts(t)
	f.Version, f.RunDate, f.Seed = l.Program, date, l.seeds()
	f.Cautions, f.LeftOut, f.Start = l.intakeLines(), l.leftOut(t), l.startText()
	f.BaselineNamed, f.Since = l.Scenario.BaselineGiven, joinSentences(l.limitsLine(t), l.changesLine(t), l.lifeLine(t))
	f.YearETo, f.OtherETo, f.KSets = l.yearETo(), l.otherETo(), l.kSets()
	f.Cost, f.Money, f.Allowance, f.Within = l.costFact(t), l.moneyPart(t), l.allowancePart(t), l.allowanceFact(t)
	f.Skill, f.SkillFact = l.skillPart(), l.skillFact()
	f.Devices, f.DeviceFact = l.devicePart(t), l.deviceFact()
	if c := l.checks; c != nil {
		f.Lives = c.lives
	}
	if sentences := l.compliance(t); len(sentences) > 0 {
		f.Legal = strings.Join(sentences, ". ") + ". Only the limits in the scenario were checked; ask your water provider for the " +
			"rules in force."
	}
	f.Prepared, f.Act = l.prepared(), l.actFact()
	if p := l.Scenario.Prepared; date == 0 && p != nil && p.Date != nil {
		f.RunDate = *p.Date
	}
	f.Meter = l.meterNames()
	for _, file := range l.sources() {
		f.Files = append(f.Files, plots.InputFile{Name: file.Name, SHA256: file.SHA256})
	}
	return f
}

func (l *Study) weatherFacts() plots.WeatherFacts {
	f, rec := l.weatherGist(), l.Weather
	for c := range weather.Columns {
		if !rec.Has(c) {
			continue
		}
		for m := range weather.Marks {
			if n := rec.CountMark(c, m); m.Filled() && m != weather.Synthetic && n > 0 { // the report counts synthetic days separately
				f.Fills = append(f.Fills, plots.Fill{Column: c.Label(), How: m.String(), Count: n})
			}
		}
	}
	return f
}

// weatherGist is weatherFacts without the counts of filled values, which take the longest.
func (l *Study) weatherGist() plots.WeatherFacts {
	rec := l.Weather
	f := plots.WeatherFacts{File: base(rec.File), Layout: l.Layout, Days: rec.Days, FilledDays: rec.FilledDays,
		SyntheticDays: rec.SyntheticDays, Snow: plots.Snow{DaysPerYear: rec.Snow.DaysPerYear(), MMPerYear: rec.Snow.MMPerYear(),
			Share: rec.Snow.Share()}}
	for _, a := range rec.Assumptions {
		f.Assumptions = append(f.Assumptions, l.bare(a))
	}
	for _, found := range rec.Findings {
		found.Detail, found.Action, found.File = l.bare(found.Detail), l.bare(found.Action), l.bare(found.File)
		f.Findings = append(f.Findings, found)
	}
	f.Heavy = l.frontFindings(f.Findings)
	if line := l.forecastLine(); line != "" {
		f.Assumptions = append(slices.Clip(f.Assumptions), strings.TrimSpace(line))
	}
	var methods []string
	for _, c := range rec.ET.Counts {
		methods = append(methods, fmt.Sprintf("%v on %s", c.Method, quantity.Count(c.Days, "day", "days")))
	}
	f.EToMethod = strings.Join(methods, "; ")
	f.EToError = likelyError(rec.ET.Expected)
	for i := range rec.ET.Expected {
		if e := &rec.ET.Expected[i]; i == 0 || e.Guess != rec.ET.Expected[i-1].Guess { // each guess is measured at several places
			f.EToErrorDays += e.Days
		}
	}
	return f
}

// likelyError gives the likely error of estimates in reference ET, in percent
// of its mean: each set of assumptions once, over all places where the error
// was measured.
func likelyError(list []et0.Expected) string {
	var texts []string
	for i := 0; i < len(list); {
		first := &list[i]
		var bias, daily [2]float64
		var where []string
		for j := i; i < len(list) && list[i].Guess == first.Guess; i++ {
			e := &list[i]
			b, d := 100*e.BiasMM/e.MeanMM, 100*e.MeanAbsMM/e.MeanMM
			if i == j {
				bias, daily = [2]float64{b, b}, [2]float64{d, d}
			}
			bias = [2]float64{min(bias[0], b), max(bias[1], b)}
			daily = [2]float64{min(daily[0], d), max(daily[1], d)}
			where = append(where, e.Where)
		}
		texts = append(texts, fmt.Sprintf("%v (%s): mean error %s%%, single-day error %s%%, measured on %s",
			first.Guess, quantity.Count(first.Days, "day", "days"), span(bias, "%+.0f"), span(daily, "%.0f"), strings.Join(where, " and ")))
	}
	return strings.Join(texts, "; ")
}

// span writes a range, or one number where both ends round to it.
func span(v [2]float64, format string) string {
	low, high := fmt.Sprintf(format, v[0]), fmt.Sprintf(format, v[1])
	if low == high {
		return low
	}
	return low + " to " + high
}
