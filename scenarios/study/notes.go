package study

import (
	"fmt"

	"loamledger/plots"
	"loamledger/sim/tally"
	"loamledger/weather/quantity"
)

// Head says what is replayed, which programs do not fit, what is implausible
// and how the weather was prepared; the last line is empty.
func (l *Study) Head() []string {
	lines := []string{l.siteLine()}
	lines = append(lines, l.feasibilityLines()...)
	lines = append(lines, l.warningLines()...)
	return append(append(lines, l.weatherLines()...), "")
}

// siteLine says what is replayed.
func (l *Study) siteLine() string {
	sc, rec := l.Scenario, l.Weather
	zones := quantity.Count(len(sc.Zones), "zone", "zones")
	if devices := l.devicesText(); devices != "" {
		zones += ", " + devices
	}
	return fmt.Sprintf("%s: %s, %s, %v to %v (%s)", sc.Site.Name, zones,
		quantity.Count(len(sc.Strategies), "strategy", "strategies"),
		rec.Start, rec.End(), quantity.Count(rec.Days, "day", "days"))
}

// weatherLines say how the weather was prepared, and where forecasts are from.
func (l *Study) weatherLines() []string {
	lines := []string{fmt.Sprintf("Weather: %s, read as %s; %s", l.Weather.File, l.Layout, l.weatherLine())}
	lines = append(lines, l.heavyLines()...)
	if line := l.forecastLine(); line != "" {
		lines = append(lines, line)
	}
	return lines
}

// weatherLine describes how the weather was prepared in one line.
func (l *Study) weatherLine() string {
	rec := l.Weather
	line := "no days filled"
	if rec.FilledDays > 0 {
		line = quantity.Count(rec.FilledDays, "day", "days") + " filled"
	}
	if n := rec.SyntheticDays; n > 0 {
		line = fmt.Sprintf("synthetic weather on %s; %s", quantity.Count(n, "day", "days"), line)
	}
	n := len(rec.Findings)
	if l.Forecast != nil {
		n -= len(l.Forecast.found) // named with the forecasts
	}
	if n > 0 {
		line += ", " + quantity.Count(n, "finding", "findings") + " (see: " + l.weatherCommand() + ")"
	}
	return line
}

// forecastLine names the source of the forecasts; empty if there are none.
func (l *Study) forecastLine() string {
	f := l.Forecast
	if f == nil {
		return ""
	}
	if !f.inside {
		return fmt.Sprintf("Forecasts: %s; none is for a day of the record", f.source)
	}
	line := fmt.Sprintf("Forecasts: %s; on %s of %s days a forecast for the same day had been issued by the morning",
		f.source, quantity.Whole(f.days), quantity.Whole(l.Weather.Days))
	if n := len(f.found); n > 0 {
		line += "; " + quantity.Count(n, "finding", "findings") + " (see the HTML report)"
	}
	if f.aheadSource != "" {
		line += "; of the coming days: " + f.aheadSource
	}
	return line
}

// Notes explains the comparison of a replay; the first line is empty. The error
// is that of a part that cannot describe itself.
func (l *Study) Notes(t *tally.Table) ([]string, error) {
	lines := []string{""}
	add := func(format string, args ...any) { lines = append(lines, fmt.Sprintf(format, args...)) }
	ranked, basis := t.RankYears(), t.Basis()
	add("%s", basis.Sentence())
	if len(ranked.Years) == 0 {
		add("There is no median or dry year.")
	} else {
		add("M%s. Years are ranked by 0.8 ETo less effective rain at the station.", rankedText(&ranked)[1:])
	}
	if text := plots.MedianAboveDry(t, l.chartUnits()); text != "" {
		add("%s", text)
	}
	if !l.Job.NoSpinUp && l.Job.SpinUp() == 0 {
		add("Start: %s.", l.startText())
	}
	if years := l.Scenario.Weather.ExcludeYears; len(years) > 0 {
		add("Replayed, but omitted from every figure above: %s.", joinYears(years))
	}
	if line := l.limitsLine(t); line != "" {
		lines = append(lines, line)
	}
	if line := l.changesLine(t); line != "" {
		lines = append(lines, line)
	}
	lines = append(lines, l.termLines()...)
	lines = append(lines, l.baselineLines(t)...)
	add("Stress days are area-weighted zone means; runoff events are days with irrigation runoff, summed over zones.")
	for _, caution := range l.defaultIntakes() {
		add("Caution: %s.", caution.Text)
	}
	lines = append(lines, l.shallowLines()...)
	for _, alarm := range plots.Sentences(l.alarms(t)) {
		add("Implausible: %s", alarm)
	}
	lines = append(lines, landscapeLines(t)...)
	lines = append(lines, l.complianceLines(t)...)
	described, err := l.DescriptionLines()
	if err != nil {
		return nil, err
	}
	lines = append(lines, described...)
	winter := plots.Study{Units: l.chartUnits(), Table: t, Measures: l.Measures}
	if text := winter.WinterNote(); text != "" {
		lines = append(lines, text)
	}
	if n := len(l.Scenario.Zones); n > mostTraces {
		add("Depletion charts show the %d largest of %d zones.", mostTraces, n)
	}
	if n := len(l.Scenario.Defaults()); n > 0 {
		add("%s left to defaults; run.json and report.html list them with their sources.", quantity.Count(n, "value was", "values were"))
	}
	if more := l.checkLines(t); len(more) > 0 {
		lines = append(append(lines, more...), "")
	}
	return append(lines, Caution), nil
}

// chartUnits returns the scenario's units in the form the charts need.
func (l *Study) chartUnits() plots.Units {
	if l.Scenario.Units == quantity.US {
		return plots.US
	}
	return plots.SI
}
