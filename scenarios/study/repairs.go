package study

import (
	"context"
	"fmt"
	"math"
	"strings"

	"loamledger/plots"
	"loamledger/scenarios/catalog"
	"loamledger/sim"
	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/weather/quantity"
)

// A RepairCode is one of the repairs.
type RepairCode string

// The repairs.
const (
	evenOut       RepairCode = "uniformity" // sprinklers as even as new ones
	stopLeaks     RepairCode = "leaks"      // no leak and no broken head
	aimHeads      RepairCode = "aim"        // no overspray
	lowerPressure RepairCode = "pressure"   // no more spray loss than usual
	holdPipes     RepairCode = "pipes"      // no filling and draining
	allRepairs    RepairCode = "all"        // all that were tried, together
)

// A repairRule is a repair that is tried on every zone that it applies to.
type repairRule struct {
	code RepairCode
	name string
	fix  func(z *sim.Zone, sprinkler string) bool // changes the zone; false if there is nothing to repair
	what string
	none string // what the scenario would have to state, if no zone has it
}

// repairRules is the one list of the repairs that are tried.
func repairRules() []repairRule {
	return []repairRule{
		{evenOut, "even out the sprinklers", func(z *sim.Zone, sprinkler string) bool {
			kind, known := catalog.FindSprinkler(sprinkler)
			if !known || !kind.NewDU.Known() || z.DULQ >= kind.NewDU.Value || z.DULQ <= 0 {
				return false
			}
			z.DULQ = kind.NewDU.Value
			return true
		}, "heads straight, matched and at the right pressure, as even as tests of new heads (" + newUniformities() + "); run times cut to match",
			"every zone whose kind of sprinkler has such a test is already as even"},
		{stopLeaks, "repair leaks and broken heads", func(z *sim.Zone, _ string) bool {
			found := z.LeakMMDay > 0 || z.BrokenShare > 0
			z.LeakMMDay, z.BrokenShare = 0, 0
			return found
		}, "no leak, no broken head; run times cut to match",
			"the scenario states none: walk the system with the water on, and enter leak and broken_heads"},
		{aimHeads, "turn heads back onto the zone", func(z *sim.Zone, _ string) bool {
			found := z.OversprayShare > 0
			z.OversprayShare = 0
			return found
		}, "no overspray; run times cut to match", "the scenario states none: look for wet pavement, and enter overspray"},
		{lowerPressure, "bring the pressure down to what heads are made for", func(z *sim.Zone, sprinkler string) bool {
			kind, known := catalog.FindSprinkler(sprinkler)
			if !known || !kind.Loss.Known() || z.LossShare <= kind.Loss.Value {
				return false
			}
			z.LossShare = kind.Loss.Value
			return true
		}, "less mist: spray loss as usual for the kind of sprinkler; run times cut to match",
			"the scenario states no spray loss above the usual: measure the pressure at the farthest head; mist is a sign that it is too high"},
		{holdPipes, "stop pipes from draining", func(z *sim.Zone, _ string) bool {
			found := z.FillDrainMM > 0
			z.FillDrainMM = 0
			return found
		}, "check valves, so that pipes stay full between cycles", "the scenario states none: look for water at the lowest head after a " +
			"run, and " +
			"enter fill_drain"},
	}
}

// newUniformities names the uniformity of new heads by kind, with its source.
func newUniformities() string {
	var texts []string
	source := ""
	for _, kind := range catalog.Sprinklers() {
		if kind.NewDU.Known() {
			texts = append(texts, fmt.Sprintf("%s %.0f%%", kind.Name, 100*kind.NewDU.Value))
			source = kind.NewDU.Source
		}
	}
	return strings.Join(texts, ", ") + "; " + source
}

// A Repair is what one repair would do to the baseline, alone. Figures are a year, the
// repaired less the baseline.
type Repair struct {
	Code    RepairCode `json:"code"`
	Name    string     `json:"name"`
	What    string     `json:"what"`
	Zones   []string   `json:"zones"` // none if there is nothing to repair
	M3      float64    `json:"water_m3_per_year"`
	Stress  float64    `json:"stress_days_zone_per_year"`
	Events  float64    `json:"runoff_events_per_year"`
	Saved   string     `json:"money_saved_per_year,omitempty"` // empty without rates
	Nothing string     `json:"nothing_to_repair,omitempty"`    // why no zone is repaired
}

// repairs replays the baseline with each repair alone, and with all together if there
// are several. The run times of programs are cut by what a repaired zone needs less,
// so that its plants get the same water. An error is from ctx.
func (l *Study) repairs(ctx context.Context) ([]Repair, error) {
	base := l.Job.Strategies[l.Scenario.Baseline]
	own, job := *l, l.Job
	job.Strategies, job.MarkShifts, job.Step, job.Brief = []strategy.Strategy{base}, nil, nil, true
	var out []Repair
	all := repairTry{zones: l.Job.Zones, hit: make([]bool, len(l.Job.Zones))}
	tried := 0
	if len(base.Stretches) > 0 { // it changes zones itself, by date
		return nil, nil
	}
	for _, rule := range repairRules() {
		one := repairTry{zones: l.Job.Zones, hit: make([]bool, len(l.Job.Zones))}
		if !one.apply(&rule, l) {
			out = append(out, Repair{Code: rule.code, Name: rule.name, What: rule.what, Nothing: rule.none})
			continue
		}
		all.apply(&rule, l)
		tried++
		job.Strategies = append(job.Strategies, one.strategy(&base, l, rule.code))
		out = append(out, Repair{Code: rule.code, Name: rule.name, What: rule.what, Zones: one.names(l)})
	}
	if tried == 0 {
		return out, nil
	}
	if tried > 1 {
		job.Strategies = append(job.Strategies, all.strategy(&base, l, allRepairs))
		out = append(out, Repair{Code: allRepairs, Name: "all of these", What: "they overlap, so that together they save less than their sum",
			Zones: all.names(l)})
	}
	own.Job = job
	if l.money != nil {
		m := *l.money
		m.bills, m.sums, m.table = nil, nil, nil
		own.money = &m
	}
	use := newMeterUse(&own)
	var r replay.Runner
	if _, err := r.Run(ctx, &job, use.beside(nil)); err != nil {
		return nil, err
	}
	t := r.Keep()
	t.Baseline = 0
	if use != nil {
		own.money.work(use, l.Weather.Start, t)
	}
	rows, basis, k := t.Compare(), t.Basis(), 0
	for i := range out {
		if len(out[i].Zones) == 0 {
			continue
		}
		k++
		out[i].M3 = rows[k].M3PerYear - rows[0].M3PerYear
		out[i].Stress = rows[k].StressPerYear - rows[0].StressPerYear
		out[i].Events = rows[k].RunoffEvents - rows[0].RunoffEvents
		if use != nil {
			_, mean, _ := own.money.savings(k, &basis)
			out[i].Saved = mean.Text()
		}
	}
	return out, nil
}

// A repairTry is a site under repair.
type repairTry struct {
	zones []sim.Zone
	hit   []bool
}

// apply repairs every zone that a rule applies to; false if there is none.
func (r *repairTry) apply(rule *repairRule, l *Study) (any bool) {
	zones := make([]sim.Zone, len(r.zones))
	for i := range zones {
		zones[i] = r.zones[i]
		if rule.fix(&zones[i], l.Scenario.Zones[i].Sprinkler) {
			r.hit[i], any = true, true
		}
	}
	r.zones = zones
	return any
}

// strategy returns the baseline on the repaired site.
func (r *repairTry) strategy(base *strategy.Strategy, l *Study, code RepairCode) strategy.Strategy {
	out := *base
	out.Name = base.Name + ", " + string(code)
	run := make([]float64, len(r.zones))
	for i := range run {
		run[i] = 1
		if was := l.Job.Zones[i].AppliedToNeeded(); was > 0 && !math.IsInf(was, 0) {
			run[i] = r.zones[i].AppliedToNeeded() / was
		}
	}
	out.Stretches = []strategy.Stretch{{From: l.Weather.Start, Zones: r.zones, Run: run, Percent: run}}
	return out
}

func (r *repairTry) names(l *Study) (names []string) {
	for i, hit := range r.hit {
		if hit {
			names = append(names, l.Scenario.Zones[i].Name)
		}
	}
	return names
}

// repairView shows what the repairs are worth; nil for none.
func (l *Study) repairView(repairs []Repair) *View {
	if len(repairs) == 0 {
		return nil
	}
	u := l.chartUnits()
	g := &Grid{Head: []string{"repair", "zones",
		"water\n[" + quantity.Label(quantity.Volume, l.Scenario.Units) + "]\na " +
			"year", "stress days\na year", "runoff events\na year"}}
	if l.money != nil {
		g.Head = append(g.Head, "saved a year\n["+l.money.rates.Currency+"]")
	}
	g.Columns = toTheRight(2, len(g.Head))
	g.Columns[0].Width, g.Columns[1].Width = 30, 30
	v := &View{Head: []string{"", fmt.Sprintf("Repairs of the system under “%s”, each alone, replayed on the same weather. A "+
		"repair cuts run times by "+
		"what the zone then needs less; compare its price with what it saves.", l.Job.Strategies[l.Scenario.Baseline].Name), ""}, Grid: g}
	for i := range repairs {
		r := &repairs[i]
		if len(r.Zones) == 0 {
			v.Notes = append(v.Notes, fmt.Sprintf("Not tried: %s; %s.", r.Name, r.Nothing))
			continue
		}
		row := []any{r.Name, someOrAll(r.Zones, len(l.Scenario.Zones)), u.SignedVolume(r.M3), plots.SignedTenths(r.Stress),
			plots.SignedTenths(r.Events)}
		if l.money != nil {
			row = append(row, r.Saved)
		}
		g.add(row...)
		v.Notes = append(v.Notes, fmt.Sprintf("To %s: %s.", r.Name, r.What))
	}
	if len(g.Rows) == 0 {
		v.Grid = nil
	}
	v.Notes = append(v.Notes, "A strategy with changes: and a cost replays a repair of your own, with its payback under money: projects.")
	return v
}

// someOrAll names a few zones, or says that it is all of them.
func someOrAll(names []string, all int) string {
	if len(names) == all {
		return "all zones"
	}
	if n := len(names); n > 4 {
		return fmt.Sprintf("%s and %s", names[0], quantity.Count(n-1, "more zone", "more zones"))
	}
	return strings.Join(names, ", ")
}
