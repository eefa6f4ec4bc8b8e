package cli

import (
	"fmt"
	"io"
	"math"

	"loamledger/plots"
	"loamledger/sim/tally"
	"loamledger/weather/quantity"
)

// printHead says what was replayed.
func (l *loaded) printHead(w io.Writer) {
	sc, rec := l.Scenario, l.Weather
	fmt.Fprintf(w, "%s: %s, %s, %v to %v (%s days)\n", sc.Site.Name, countOf(len(sc.Zones), "zone", "zones"), countOf(len(sc.Strategies), "strategy", "strategies"),
		rec.Start, rec.End(), group(rec.Days))
	l.printFeasibility(w)
	l.printWarnings(w)
	fmt.Fprintf(w, "Weather: %s, read as %s; %s\n%s\n", rec.File, layoutTitle(rec.Layout), l.weatherLine(), l.forecastLine())
}

// weatherLine says what became of the weather in one line.
func (l *loaded) weatherLine() string {
	rec := l.Weather
	line := "no day filled"
	if rec.FilledDays > 0 {
		line = countOf(rec.FilledDays, "day", "days") + " filled"
	}
	if n := rec.InventedDays; n > 0 {
		line = fmt.Sprintf("invented weather on %s, observed nowhere; %s", countOf(n, "day", "days"), line)
	}
	if n := len(rec.Findings); n > 0 {
		line += ", " + countOf(n, "finding", "findings") + " (loamledger weather shows them)"
	}
	return line
}

// forecastLine says where forecasts come from; empty where there are none.
func (l *loaded) forecastLine() string {
	f := l.Forecast
	if f == nil {
		return ""
	}
	return fmt.Sprintf("Forecasts: %s; on %s of %s days one for the day itself had been issued before the morning\n", f.Source, group(f.Days), group(l.Weather.Days))
}

// printNotes says how to read the table.
func (l *loaded) printNotes(w io.Writer, t *tally.Table) error {
	ranked := t.RankYears()
	if len(ranked.Years) == 0 {
		fmt.Fprintln(w, "\n"+noWholeYear)
	} else {
		dry := fmt.Sprintf("1-in-10 dry year %d", ranked.Dry)
		if len(ranked.Years) < 9 {
			dry = fmt.Sprintf("dry year %d (the driest at hand: the record is short)", ranked.Dry)
		}
		fmt.Fprintf(w, "\nMedian year %d, %s, of %s ranked by what the least-water reference needs.\n", ranked.Median, dry, countOf(len(ranked.Years), "whole year", "whole years"))
	}
	if years := l.Job.ExcludeYears; len(years) > 0 {
		fmt.Fprintf(w, "Replayed, but left out of every figure above: %s.\n", joinYears(years))
	}
	fmt.Fprintln(w, "Stress days are means over zones by area; runoff events are days with irrigation runoff, summed over zones.")
	l.printShallow(w)
	for _, alarm := range plots.Sentences(l.alarms(t)) {
		fmt.Fprintf(w, "Hard to believe: %s\n", alarm)
	}
	printLandscape(w, t)
	l.printCompliance(w, t)
	if err := l.printDescriptions(w); err != nil {
		return err
	}
	if n := len(l.Scenario.Zones); n > mostTraces {
		fmt.Fprintf(w, "Depletion charts show the %d largest of %d zones.\n", mostTraces, n)
	}
	if n := len(l.Scenario.Defaults()); n > 0 {
		fmt.Fprintf(w, "%s not given and taken from the catalogue or assumed; run.json and report.html list them with their sources.\n", countOf(n, "value was", "values were"))
	}
	fmt.Fprintln(w, caution)
	return nil
}

// chartUnits returns the scenario's units as charts have them.
func (l *loaded) chartUnits() plots.Units {
	if l.Scenario.Units == quantity.US {
		return plots.US
	}
	return plots.SI
}

func countOf(n int, one, many string) string { return quantity.Count(n, one, many) }

func group(n int) string { return quantity.Whole(n) }

// moreOrLess says a change in words: a saving as less, a negative one as more.
func moreOrLess(share float64) string {
	v := math.Round(100 * share)
	switch {
	case math.IsNaN(share):
		return "-"
	case v == 0:
		return "the same"
	case v < 0:
		return fmt.Sprintf("%.0f %% less", -v)
	}
	return fmt.Sprintf("%.0f %% more", v)
}

func days(v float64) string {
	if math.IsNaN(v) {
		return "-"
	}
	return fmt.Sprintf("%.0f", v)
}

func ratio(v float64) string {
	if math.IsNaN(v) {
		return "-"
	}
	return fmt.Sprintf("%.2f", v)
}
