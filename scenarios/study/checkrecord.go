package study

import (
	"context"
	"slices"

	"loamledger/plots"
	"loamledger/scenarios"
	"loamledger/sim/replay"
	"loamledger/sim/tally"
	"loamledger/weather/quantity"
)

// A CheckRecord is the JSON record of a scenario without errors.
type CheckRecord struct {
	Ready      bool   `json:"ready"`
	Verdict    string `json:"verdict"`
	Scenario   string `json:"scenario"`
	Site       string `json:"site"`
	Zones      int    `json:"zones"`
	Strategies int    `json:"strategies"`
	// Controllers and Meters are how many the site has.
	Controllers int             `json:"controllers"`
	Meters      int             `json:"meters"`
	Weather     WeatherRecord   `json:"weather"`
	Timer       *TimerRecord    `json:"timer"` // nil if the scenario does not state it
	Warnings    []WarningRecord `json:"warnings"`
}

// Foresee replays the strategies in memory, for the alarms that a replay would
// raise. An error is from ctx.
func (l *Study) Foresee(ctx context.Context) (*tally.Table, error) {
	job := l.Job
	job.Step = nil
	water := newColdWater(l)
	var r replay.Runner
	t, err := r.Run(ctx, &job, water.beside(nil))
	if err != nil {
		return nil, err
	}
	l.checks = &checks{cold: l.coldAlarms(water)}
	return t, nil
}

// Checked returns the record of a scenario without errors, for scripts. t is of
// [Study.Foresee].
func (l *Study) Checked(t *tally.Table) *CheckRecord {
	sc := l.Scenario
	return &CheckRecord{
		Ready: true, Verdict: l.readiness(t), Scenario: sc.File, Site: sc.Site.Name, Zones: len(sc.Zones), Strategies: len(sc.Strategies),
		Controllers: len(sc.Controllers), Meters: len(sc.Meters),
		Weather: l.WeatherRecord(), Warnings: l.Warnings(t), Timer: timerRecord(sc.Timer),
	}
}

// readiness is the verdict on a scenario without errors. Warnings are about inputs;
// implausible results are counted apart, since they may be what the comparison is for.
func (l *Study) readiness(t *tally.Table) string {
	text := "Ready for a replay: no errors, no warnings"
	if n := len(l.feasibilityLines()) + len(l.Scenario.Warnings) + len(l.shallow()); n > 0 {
		text = "Ready for a replay: no errors, " + quantity.Count(n, "warning", "warnings")
	}
	if n := len(plots.Sentences(l.alarms(t))); n > 0 {
		text += "; " + quantity.Count(n, "implausible result", "implausible results")
	}
	return text + "."
}

// ReadyLines is the text about a scenario without errors: the verdict, what is
// probably wrong, what a replay will say of the results, and the defaults. t is of
// [Study.Foresee].
func (l *Study) ReadyLines(t *tally.Table, percentStep float64) []string {
	lines := []string{base(l.Scenario.File) + ": " + l.readiness(t)}
	add := func(head string, texts []string) {
		for _, text := range texts {
			lines = append(lines, head+text)
		}
	}
	add("", l.feasibilityLines())
	add("", l.warningLines())
	add("Warning: ", l.shallowLines())
	lines = append(append(lines, "", l.siteLine()), l.weatherLines()...)
	if len(l.Scenario.Controllers) == 1 {
		lines = append(lines, l.TimerLine(percentStep))
	}
	lines = append(lines, l.deviceLines()...)
	lines = slices.Concat(lines, readingLines(l.Scenario))
	results := len(lines)
	add("Implausible: ", plots.Sentences(l.alarms(t)))
	add("Limits: ", sentences(l.breaches(t)))
	add("Caution: ", sentences(l.defaultIntakes()))
	if len(lines) > results {
		lines = slices.Insert(lines, results, "", "A replay will also say:")
	}
	if defaults := l.defaultLines(); len(defaults) > 0 {
		lines = append(append(lines, ""), defaults...)
	}
	return lines
}

// sentences returns the texts of warnings, each once.
func sentences(list []scenarios.Warning) (out []string) {
	for i := range list {
		if text := list[i].Text + "."; !slices.Contains(out, text) {
			out = append(out, text)
		}
	}
	return out
}
