package study

import (
	"fmt"
	"math"

	"loamledger/plots"
	"loamledger/sim/bill"
	"loamledger/sim/tally"
	"loamledger/weather/cal"
	"loamledger/weather/quantity"
)

// needError is a rough budget of the error of the need-based side of a saving, as a
// share (one standard deviation): area 5%, plant factor 7%, efficiency 12%, ETo 6% and
// rain 5%, the root of their squares. No source: our assumption, stated wherever it is
// used.
var needError = math.Sqrt(0.05*0.05 + 0.07*0.07 + 0.12*0.12 + 0.06*0.06 + 0.05*0.05)

// fractionalError returns the error of a saving of the given share of the baseline as a
// share of the saving, at 68% confidence, if the baseline is metered: the error is that
// of the water still used.
func fractionalError(saved float64) float64 { return (1 - saved) * needError / saved }

// tooUncertain is the share of a saving above which its error is too large to call the
// saving shown: half of it at 68% confidence (ASHRAE Guideline 14; from memory).
const tooUncertain = 0.5

// verification is a plan to measure the saving of strategy s after the change: terms and
// texts. metered says how the replay compares with meter reads, empty if it was not compared.
func (l *Study) verification(t *tally.Table, s int, from cal.Date, metered string) []plots.Item {
	rows := t.Compare()
	base, own := t.Strategies[t.Baseline], t.Strategies[s]
	site := quantity.Count(len(t.Zones), "zone", "zones") + " of " + l.Scenario.Site.Name
	meter := "one meter, not named in the scenario; if it also serves buildings, their use is subtracted"
	if names := l.meterNames(); names != "" {
		meter = names
	}
	price := "none: no rates are given, so savings are in water only"
	if m := l.money; m != nil {
		price = "whole bills by the rates “" + l.bare(m.rates.File) + "”"
		if m.hasDay {
			price += ", with the prices of " + plots.DayText(m.prices) + " before and after"
		}
	}
	fit := "none: no metered use was compared with the replay, so this is an uncalibrated estimate"
	if m := l.money; m != nil && m.check == bill.Checked {
		fit = "the rates reproduce real bills; the replay itself was not compared with metered use"
	}
	if metered != "" {
		fit = metered
	}
	first, last, ok := l.seasonOf(t, s)
	season := "all year"
	if ok {
		season = fmt.Sprintf("%02d-%02d to %02d-%02d, every year", first.month, first.day, last.month, last.day)
	}
	who := "not stated: name who reads the meter, who sets the controller, and who checks the result"
	if p := l.Scenario.Prepared; p != nil {
		who = l.prepared().Of() + " prepared this plan; name who reads the meter and who sets the controller"
	}
	purpose := fmt.Sprintf("to measure what “%s” saves against “%s” once it is in use. Until then, all savings are "+
		"estimates.", own, base)
	if s == t.Baseline {
		purpose = fmt.Sprintf("to record the use under “%s”, since no option is recommended yet, so that a later change can be "+
			"measured.", base)
	}
	return []plots.Item{
		{Term: "Purpose", Text: purpose},
		{Term: "Boundary", Text: site + ", watered through " + meter + "."},
		{Term: "Method", Text: "saving = use of the baseline, replayed on the weather after the change, less metered use after the " +
			"change, with " +
			"corrections for single events. This is calibrated simulation; with a meter that serves only irrigation, compare by meter."},
		{Term: "Baseline", Text: fmt.Sprintf("“%s”, %s: %s. Keep its program sheet as it is, with the date of each change.", base,
			plots.DatesText(l.Weather.Start, l.Weather.End()), l.chartUnits().VolumeText(rows[t.Baseline].M3PerYear)+" "+l.basisWords(t))},
		{Term: "Measured", Text: "water by the meter, read on the first of each month in season; flow of each zone by the meter, once a year; " +
			"uniformity of the largest zone by catch cans, before and after."},
		{Term: "Assumed", Text: quantity.Count(len(l.defaults()), "default", "defaults") + ", listed under Defaults with their sources; " +
			"each stays as " +
			"it is for the whole period, or the baseline is replayed with the new value too."},
		{Term: "Use indoors", Text: "if the meter also serves buildings: the mean of the two or three lowest winter periods, and a " +
			"second method " +
			"beside it, such as persons; report both."},
		{Term: "Weather", Text: fmt.Sprintf("station %s before and after. Never correct by reference ET alone where it rains.", l.stationName())},
		{Term: "Fit", Text: fit + ". Before the change, compare at least 12 read periods; a mean error within 5% and a CV(RMSE) within " +
			"15% by month " +
			"are usual for calibration (ASHRAE Guideline 14; from memory)."},
		{Term: "Expected error", Text: l.expectedError(rows, t.Baseline, s)},
		{Term: "Period", Text: "season " + season + "; first report after 12 months, second after 24. Start on " + plots.DayText(from) + " or " +
			"with the season."},
		{Term: "Who", Text: who + "."},
		{Term: "Prices", Text: price + "."},
		{Term: "Single events", Text: "main breaks, pools filled, new planting, drought stages, vacancy: write each down with its date; " +
			"remove or correct " +
			"it, and say why."},
		{Term: "Quality checks", Text: "reads in order and in one unit; estimated reads marked; the controller’s programs photographed " +
			"at each change; " +
			"gaps of the weather counted; negative savings reported like all others."},
		{Term: "Version", Text: "loamledger " + l.Program + "; random seeds: " + l.seeds() + ". run.json repeats the replay to the bit."},
	}
}

// basisWords is what follows a yearly figure.
func (l *Study) basisWords(t *tally.Table) string {
	b := t.Basis()
	return b.Words()
}

// expectedError says how well the saving can be measured.
func (l *Study) expectedError(rows []tally.Row, base, s int) string {
	saved := -rows[s].Change
	budget := fmt.Sprintf("a rough budget (ours, no source: area 5%%, plant coefficient 7%%, efficiency 12%%, reference ET 6%%, rain "+
		"5%%; together "+
		"%.0f%%, one standard deviation)", 100*needError)
	switch {
	case s == base || math.IsNaN(saved) || saved <= 0:
		return "not worked out: nothing is saved against the baseline."
	case fractionalError(saved) > tooUncertain:
		return fmt.Sprintf("an estimated saving of %.0f%% is off by %.0f%% of itself at 68%% confidence, by %s. That is over half of the "+
			"saving: too "+
			"close to call until flow, area and uniformity are measured.", 100*saved, 100*fractionalError(saved), budget)
	}
	return fmt.Sprintf("an estimated saving of %.0f%% is off by %.0f%% of itself at 68%% confidence, by %s. That is under half of the saving.",
		100*saved, 100*fractionalError(saved), budget)
}
