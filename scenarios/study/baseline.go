package study

import (
	"fmt"
	"slices"

	"loamledger/scenarios"
	"loamledger/sim"
	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/sim/tally"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// cutName is what the baseline is called as the limits would cut it.
func cutName(baseline string) string { return baseline + ", if cut to the rules" }

// addCut adds to the job the baseline as the limits would cut it, if the baseline
// is exempt and breaks them: the two show what of a change is due to the rules.
func addCut(job *replay.Job, base int) {
	if job.Limits == nil || job.Limits.FlagOnly || !job.Strategies[base].Unbound || !replay.Breaks(job, &job.Strategies[base]) {
		return
	}
	cut := job.Strategies[base]
	cut.Name, cut.Unbound, cut.Role = cutName(cut.Name), false, strategy.Cut
	job.Strategies = append(job.Strategies, cut)
}

// yearsBefore returns the calendar years of a record from first to last to exclude
// so that only whole years after the limits begin count; none if these hold for the
// whole record. In the south, a year runs from July to June. If that leaves no year,
// the error is a [*diag.Error].
func yearsBefore(sc *scenarios.Scenario, first, last cal.Date, south bool) ([]int, error) {
	if sc.Limits == nil || sc.Limits.From <= first {
		return nil, nil
	}
	before := yearsStartingBefore(sc.Limits.From, first, last, south)
	record := tally.Table{Spans: sim.NewCalendar(first, int(last-first)+1).Spans, South: south,
		Excluded: slices.Concat(sc.Weather.ExcludeYears, before)}
	if len(record.WholeYears()) > 0 {
		return before, nil
	}
	return nil, &diag.Error{Code: diag.NoWholeYear, Pos: sc.Place("limits.from"),
		Msg: fmt.Sprintf("limits: no whole year of the record, %v to %v, begins on or after from, %v", first, last, sc.Limits.From),
		Fix: "remove from, so that the limits hold for the whole record, or give an earlier date or more weather"}
}

// limitsLine says from when the limits hold and which years the figures use; empty
// if the limits hold for the whole record.
func (l *Study) limitsLine(t *tally.Table) string {
	limits := l.Scenario.Limits
	if limits == nil || limits.From <= l.Weather.Start {
		return ""
	}
	used := t.RankYears().Years
	if len(used) == 0 {
		return ""
	}
	from, to := tally.YearName(slices.Min(used), t.South), tally.YearName(slices.Max(used), t.South)
	years := fmt.Sprintf("the whole years after it, %s to %s (%d)", from, to, len(used))
	if from == to {
		years = "the one whole year after it, " + from
	}
	return fmt.Sprintf("The limits hold from %v; all figures use %s.", limits.From, years)
}

// baselineLines name the baseline, say how it was chosen and, if limits would cut
// it, what it and the others come to against the cut one.
func (l *Study) baselineLines(t *tally.Table) (lines []string) {
	base := t.Strategies[t.Baseline]
	if t.Baseline+1 == t.NoWaterIndex() && t.Baseline == 0 {
		return nil // there is nothing to compare it with
	}
	if l.Scenario.BaselineGiven {
		lines = append(lines, fmt.Sprintf("Baseline: %s, named in the scenario.", base))
	} else {
		lines = append(lines, fmt.Sprintf("Baseline: %s, the first strategy; the scenario names none (key baseline).", base))
	}
	if t.Cut == 0 {
		return lines
	}
	rows := t.Compare()
	whole, cut := rows[t.Baseline].M3PerYear, rows[t.Cut].M3PerYear
	unit := quantity.Label(quantity.Volume, l.Scenario.Units)
	basis := t.Basis()
	lines = append(lines, fmt.Sprintf("It counts as it ran, %s %s %s, with what the limits forbid. "+
		"Cut to the limits it would use %s %s.",
		volumeText(whole, l.Scenario.Units), unit, basis.Words(), volumeText(cut, l.Scenario.Units), unit))
	if whole > 0 && cut > 0 {
		lines = append(lines, "Change against the baseline as it ran, and against it cut to the limits:")
	}
	for s := range t.NoWaterIndex() {
		if s != t.Baseline && !t.IsCut(s) && whole > 0 && cut > 0 {
			m3 := rows[s].M3PerYear
			lines = append(lines, fmt.Sprintf("  %s: %s; %s", t.Strategies[s], moreOrLess(m3/whole-1), moreOrLess(m3/cut-1)))
		}
	}
	return lines
}
