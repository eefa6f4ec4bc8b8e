package study

import (
	"strings"

	"loamledger/scenarios"
	"loamledger/sim/settings"
	"loamledger/sim/timer"
	"loamledger/sim/tune"
)

// TimerStated reports whether any controller has a timer to fit.
func (l *Study) TimerStated() bool {
	for c := range l.Scenario.Controllers {
		if l.timerOf(c) != nil {
			return true
		}
	}
	return false
}

// ControllerLine names the timer of one controller.
func (l *Study) ControllerLine(s *settings.Sheet, percentStep float64) string {
	if t := l.timerOf(l.controllerOf(s)); t != nil {
		return "Timer: " + t.String() + "."
	}
	return "Timer: " + timer.Unstated(percentStep) + "."
}

// TimerLine names the timer, or says what is assumed without one. percentStep is
// the step of the percentages in that case, as a share.
func (l *Study) TimerLine(percentStep float64) string {
	if t := l.Scenario.Timer; t != nil {
		return "Timer: " + t.String() + "."
	}
	where := "State yours with timer: in the scenario."
	if l.Live {
		where = "Question 7 asks for yours."
	}
	return "Timer: " + timer.Unstated(percentStep) + ". " + where
}

// warnOfTimer warns of strategies whose settings do not fit the scenario's timer.
// Those of a strategy with its own water balance are known only from a replay, so
// the settings command checks them.
func (l *Study) warnOfTimer() {
	if !l.TimerStated() {
		return
	}
	all := l.timerRefusals()
	for i, refused := range all {
		st := &l.Job.Strategies[i]
		if len(refused) == 0 {
			continue
		}
		w := scenarios.Warning{Code: scenarios.TimerMisfit, Strategy: st.Name, Pos: l.Scenario.Place("timer"), Value: float64(len(refused)),
			Unit: "settings"}
		if w.Pos.File == "" {
			w.Pos = l.Scenario.Place("timer.programs")
		}
		for c := range l.Scenario.Controllers {
			for _, key := range []string{"", ".programs", ".starts", ".percent_step", ".min_minutes", ".cycle"} {
				if w.Pos.File == "" && l.timerOf(c) != nil {
					w.Pos = l.Scenario.Place("controllers." + l.Scenario.Controllers[c].Name + ".timer" + key)
				}
			}
		}
		texts := settings.RefusalTexts(refused, l.ZoneNames())
		for k := range texts {
			texts[k] = strings.TrimSuffix(texts[k], ".")
		}
		what := someOf(texts) + "; the settings sheet has the nearest values that fit"
		w.Joint = "settings do not fit the timer: " + what
		l.Scenario.Warn(w, "strategy %q does not fit the timer: %s", st.Name, what)
	}
}

// tuneClocks returns the controllers that a search must fit, on a site with several.
func (l *Study) tuneClocks() (clocks []tune.Clock) {
	if len(l.Scenario.Controllers) < 2 {
		return nil
	}
	for c := range l.Scenario.Controllers {
		of := tune.Clock{Name: l.Scenario.Controllers[c].Name}
		if t := l.timerOf(c); t != nil {
			of.Timer = *t
		}
		clocks = append(clocks, of)
	}
	return clocks
}

// tuneTimer returns the timer that limits a search: the scenario's, or any with the
// asked step of percentages.
func (l *Study) tuneTimer(o *TuneOptions) timer.Profile {
	if t := l.Scenario.Timer; t != nil {
		return *t
	}
	return timer.Profile{PercentStep: o.PercentStep}
}
