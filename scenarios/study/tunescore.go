package study

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"loamledger/plots"
	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/sim/tune"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// A tuneScore is the outcome of a setting in years, or with inputs, other than those
// it was tuned to. Marks are those of the plants, without the reserve.
type tuneScore struct {
	key, name string
	outcome   *tune.Outcome
}

// scores replays a setting in the held-out years and at the ends of the ranges.
func (l *Study) scores(ctx context.Context, of *Tuning, t *Tuned) (out []tuneScore, err error) {
	add := func(key, name string, job *replay.Job, st *strategy.Strategy, years func(int) bool) {
		if err != nil {
			return
		}
		var o *tune.Outcome
		o, err = tune.Check(ctx, job, st, of.plain(), tune.Options{Season: t.season.parts(), Years: years})
		out = append(out, tuneScore{key, name, o})
	}
	if of.heldOut {
		add("tuned_years", "odd years, tuned", l.tuneJob(), &t.Strategy, tune.Odd)
		add("held_out_years", "even years, held out", l.tuneJob(), &t.Strategy, tune.Even)
	}
	for _, e := range l.ends() {
		job := l.tuneJob()
		job.Zones = l.zonesAt(&e)
		st := believing(&t.Strategy, &e)
		add(e.key, e.name, job, &st, nil)
	}
	return out, err
}

// A TuneReasonCode says why a setting is not proposed.
type TuneReasonCode string

// The codes.
const (
	tuneImplausible TuneReasonCode = "implausible"   // an alarm of a replay
	tuneUnwatered   TuneReasonCode = "unwatered"     // a zone gets no water
	tuneBreaks      TuneReasonCode = "breaks-limits" // it asks for what the permanent rule forbids
	tuneMisses      TuneReasonCode = "misses-goal"   // a zone is not within the goal
	tuneStarves     TuneReasonCode = "starves"       // a zone misses the goal by more than the verdict of a replay accepts
	tuneBeaten      TuneReasonCode = "beaten"        // the baseline uses less water with less stress
)

// A TuneReason is one reason.
type TuneReason struct {
	Code TuneReasonCode `json:"code"`
	Zone string         `json:"zone,omitempty"`
	Text string         `json:"text"`
}

// implausible returns the alarms that a replay of a setting beside the baseline
// raises, except those about its saving, which noSaving reports; cold says that one
// is about cold days.
func (l *Study) implausible(ctx context.Context, st *strategy.Strategy) (reasons []TuneReason, noSaving, cold bool, err error) {
	both := *l
	both.Job.Step, both.checks = nil, nil
	both.Job.Strategies = []strategy.Strategy{*st}
	if len(l.Job.Strategies) > 0 {
		both.Job.Strategies = []strategy.Strategy{l.baselineAlone(), *st}
	}
	water := newColdWater(&both)
	table, err := replay.Run(ctx, &both.Job, water.beside(nil))
	if err != nil {
		return nil, false, false, err
	}
	list := plots.Alarms(table, both.chartUnits(), both.zoneKinds())
	for _, a := range slices.Concat(list, both.coldAlarms(water)) {
		if a.Strategy != st.Name {
			continue
		}
		switch a.Code {
		case plots.SavingDepth, plots.SavingShare:
			noSaving = true
		case plots.WaterFrozen, plots.WaterDormant:
			cold = true
			fallthrough
		default:
			reasons = append(reasons, TuneReason{tuneImplausible, a.Zone, a.Text})
		}
	}
	return reasons, noSaving, cold, nil
}

// against returns what else speaks against a setting.
func (l *Study) against(o *TuneOptions, of *Tuning, t *Tuned) (out []TuneReason) {
	for z := range t.All.Zones {
		zone, name := &t.All.Zones[z], l.Job.Zones[z].Name
		if !zone.Watered() && !o.Unwatered {
			text := name + " gets no water: none of what the site allows reaches it"
			if t.Outcome.Zones[z].Binds == "" {
				text = name + " gets no water: it needs none to meet the goal"
			}
			out = append(out, TuneReason{tuneUnwatered, name, text})
		}
	}
	if t.All.Breaches > 0 {
		out = append(out, TuneReason{tuneBreaks, "", fmt.Sprintf("the limits of the site forbid %s that it asks for",
			quantity.Count(t.All.Breaches, "run", "runs"))})
	}
	for z := range t.All.Zones {
		name := l.Job.Zones[z].Name
		if text := l.starves(of, t, z); text != "" {
			out = append(out, TuneReason{tuneStarves, name, name + text})
		}
		switch tuned, all := t.Outcome.Zones[z].Binds, t.All.Zones[z].Binds; {
		case tuned != "":
			out = append(out, TuneReason{tuneMisses, name, name + " misses the goal: " + tuned})
		case all != "":
			out = append(out, TuneReason{tuneMisses, name, name + " meets the goal in the years tuned on, but not in all: " + all})
		}
	}
	if now := of.now; now != nil && now.Breaches == 0 && now.M3PerYear < t.All.M3PerYear-1e-9 && l.stress(now) < l.stress(t.All)-1e-9 {
		out = append(out, TuneReason{tuneBeaten, "", "the baseline uses less water and has fewer stress days: keep it"})
	}
	return out
}

// starves says whether zone z misses the goal, is worse off than under the
// baseline, and beyond what the verdict of a replay accepts; empty if not.
func (l *Study) starves(of *Tuning, t *Tuned, z int) string {
	zone := &t.All.Zones[z]
	if zone.Binds == "" {
		return ""
	}
	stress, brown := l.Scenario.Verdict.StressDays, l.Scenario.Verdict.BrowningDays
	if of.now != nil {
		stress, brown = max(stress, of.now.Zones[z].StressDays), brown+of.now.Zones[z].BrowningDays
	}
	stress, brown = max(stress, of.goal.StressDays), max(brown, of.goal.BrowningDays)
	switch {
	case zone.StressDays > stress:
		return fmt.Sprintf(" would have %s in a year, where %d are acceptable", quantity.Count(zone.StressDays, "stress day", "stress days"),
			stress)
	case zone.BrowningDays > brown:
		return fmt.Sprintf(" would have %s in a year in its driest quarter, where %d are acceptable",
			quantity.Count(zone.BrowningDays, "browning day", "browning days"), brown)
	}
	return ""
}

// stress returns the area-weighted mean of the zones' stress days.
func (l *Study) stress(o *tune.Outcome) float64 {
	days, area := 0.0, 0.0
	for z := range o.Zones {
		a := l.Job.Zones[z].AreaM2
		days += float64(a * float64(o.Zones[z].StressDays))
		area += a
	}
	return days / area
}

// Unwatered names the zones that a setting leaves without water, once each.
func (l *Study) Unwatered(t *Tuning) (zones []int) {
	for z := range l.Job.Zones {
		if slices.ContainsFunc(t.Kinds, func(k Tuned) bool { return !k.All.Zones[z].Watered() }) {
			zones = append(zones, z)
		}
	}
	return zones
}

// texts joins the reasons of one code, or all if code is empty.
func texts(list []TuneReason) string {
	var out []string
	for _, r := range list {
		if !slices.Contains(out, r.Text) {
			out = append(out, strings.TrimSuffix(r.Text, "."))
		}
	}
	return someOf(out)
}

// WhyUnwatered says why zone z gets no water.
func (l *Study) WhyUnwatered(t *Tuning, z int) string {
	for i := range t.Kinds {
		if k := &t.Kinds[i]; !k.All.Zones[z].Watered() && k.Outcome.Zones[z].Binds != "" {
			return "nothing that the limits of the site allow reaches it"
		}
	}
	return "it needs none to meet the goal"
}

// NothingProposed is the error if no setting is proposed.
func (l *Study) NothingProposed(t *Tuning) error {
	var why []string
	for i := range t.Kinds {
		why = append(why, t.Kinds[i].Kind.Words()+": "+texts(t.Kinds[i].against))
	}
	return &diag.Error{Code: diag.NeverWaters, Pos: diag.Pos{File: l.Scenario.File}, Msg: "no setting found can be proposed: " + someOf(why),
		Fix: "allow more with --stress-days, --browning-days or --runoff-events, or change the limits of the site"}
}
