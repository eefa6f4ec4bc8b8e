package study

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"loamledger/plots"
	"loamledger/scenarios"
	"loamledger/sim"
	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/sim/tally"
	"loamledger/weather/cal"
	"loamledger/weather/quantity"
)

// stackOf returns the stack of strategy s of the job, nil for one that the study added.
func (l *Study) stackOf(s int) *scenarios.Stack {
	for i := range l.Scenario.Stacks {
		if l.Scenario.Stacks[i].Name == l.Job.Strategies[s].Name {
			return &l.Scenario.Stacks[i]
		}
	}
	return nil
}

// After returns the study as it is after the last change of a strategy, which is its
// only strategy: settings are entered, and searched for, on the site as it then is. A
// strategy that changes no zones leaves the study as it is.
func (l *Study) After(st *strategy.Strategy) (*Study, *strategy.Strategy) {
	if len(st.Stretches) == 0 {
		return l, st
	}
	own, sc := *l, *l.Scenario
	for i := range sc.Stacks {
		stages := sc.Stacks[i].Stages
		if sc.Stacks[i].Name == st.Name && len(stages) > 0 {
			sc.Zones, sc.ZoneValues = stages[len(stages)-1].Zones, stages[len(stages)-1].Values
		}
	}
	settled, zones := st.Settled(l.Job.Zones)
	own.Scenario, own.Job.Zones, own.Job.Strategies = &sc, zones, []strategy.Strategy{settled}
	sc.Strategies, sc.Baseline = own.Job.Strategies, 0
	return &own, &own.Job.Strategies[0]
}

// AfterLine says that the site is taken as it is after the changes of a strategy; empty
// if it changes no zones.
func (l *Study) AfterLine(st *strategy.Strategy) string {
	if len(st.Stretches) == 0 {
		return ""
	}
	if stack := l.ChangesOf(st); len(stack) == 0 {
		return fmt.Sprintf("The parts of “%s” are those in force after their last date.", st.Name)
	}
	text := fmt.Sprintf("The site is taken as it is after the changes of “%s”", st.Name)
	for i := range l.Scenario.Stacks {
		if stack := &l.Scenario.Stacks[i]; stack.Name == st.Name {
			var names []string
			for k := range stack.Changes {
				names = append(names, stack.Changes[k].Name+" ("+l.zonesText(stack.Changes[k].Zones)+")")
			}
			text += ": " + strings.Join(names, ", ")
		}
	}
	return text + "."
}

// ChangesOf returns the changes of a strategy.
func (l *Study) ChangesOf(st *strategy.Strategy) []scenarios.Change {
	for i := range l.Scenario.Stacks {
		if l.Scenario.Stacks[i].Name == st.Name {
			return l.Scenario.Stacks[i].Changes
		}
	}
	return nil
}

// changedUntil returns the first day after which no strategy changes zones any more;
// 0 if none does within the record after its first day.
func changedUntil(sc *scenarios.Scenario, first, last cal.Date) (until cal.Date) {
	for i := range sc.Stacks {
		for k := range sc.Stacks[i].Changes {
			c := &sc.Stacks[i].Changes[k]
			if c.From > first && c.From <= last && !c.Nothing() {
				until = max(until, c.Until())
			}
		}
	}
	if until <= first {
		return 0
	}
	return until
}

// warnOfIdleChanges warns of changes that change nothing: those that begin after the
// record, and those that restate what is there.
func warnOfIdleChanges(sc *scenarios.Scenario, last cal.Date) {
	for i := range sc.Stacks {
		for k := range sc.Stacks[i].Changes {
			c := &sc.Stacks[i].Changes[k]
			if c.Nothing() {
				sc.Warn(scenarios.Warning{Code: scenarios.IdleChange, Strategy: sc.Stacks[i].Name},
					"strategy %q: change %q restates what is there and has no effect", sc.Stacks[i].Name, c.Name)
				continue
			}
			if c.From > last {
				at := sc.Place(fmt.Sprintf("strategies.%s.changes.%d.from", sc.Stacks[i].Name, k+1))
				sc.Warn(scenarios.Warning{Code: scenarios.AfterRecord, Pos: at, Strategy: sc.Stacks[i].Name, Value: float64(c.From - last),
					Unit: "d"},
					"strategy %q: change %q begins on %v, after the record ends on %v, and has no effect", sc.Stacks[i].Name, c.Name, c.From, last)
			}
		}
	}
}

// excludeChanging excludes the years before the last dated change is complete, so that
// yearly figures compare what the strategies are in the end, on the same years. If no
// whole year follows, all years stay, with a warning.
func (l *Study) excludeChanging() {
	sc := l.Scenario
	first, last := l.Weather.Start, l.Weather.End()
	warnOfIdleChanges(sc, last)
	until := changedUntil(sc, first, last)
	if until == 0 {
		return
	}
	south := l.south()
	excluded := slices.Concat(l.Job.ExcludeYears, yearsStartingBefore(until, first, last, south))
	record := tally.Table{Spans: sim.NewCalendar(first, int(last-first)+1).Spans, South: south, Excluded: excluded}
	if len(record.WholeYears()) == 0 {
		sc.Warn(scenarios.Warning{Code: scenarios.ChangeInRecord},
			"no whole year of the record follows the last dated change, complete on %v: yearly figures mix the time before and after it", until)
		return
	}
	l.Job.ExcludeYears = excluded
	l.changedFrom = until
}

// yearsStartingBefore returns the calendar years from first to last whose year begins
// before a date.
func yearsStartingBefore(date, first, last cal.Date, south bool) (before []int) {
	from, _, _ := first.YMD()
	to, _, _ := last.YMD()
	for y := from; y <= to; y++ {
		if begin, _ := tally.YearSpan(y, south); begin < date {
			before = append(before, y)
		}
	}
	return before
}

// changesLine says from when yearly figures count because of dated changes; empty
// without any.
func (l *Study) changesLine(t *tally.Table) string {
	if l.changedFrom == 0 {
		return ""
	}
	years := slices.Sorted(slices.Values(t.RankYears().Years))
	if len(years) == 0 {
		return ""
	}
	if len(years) == 1 {
		return fmt.Sprintf("Dated changes are complete on %v; all figures use the only whole year after it, %s.", l.changedFrom,
			tally.YearName(years[0], t.South))
	}
	return fmt.Sprintf("Dated changes are complete on %v; all figures use the whole years after it, %s to %s (%d).", l.changedFrom,
		tally.YearName(years[0], t.South), tally.YearName(years[len(years)-1], t.South), len(years))
}

// An establishment adds up the water of zones whose new plants are being established.
type establishment struct {
	job       *replay.Job
	zones, at int
	m3        []float64 // by strategy
	days      []int
	thirsty   []int // stress days of the zones under way, all added up
}

func newEstablishment(job *replay.Job) *establishment {
	n := len(job.Strategies)
	return &establishment{job: job, zones: len(job.Zones), m3: make([]float64, n), days: make([]int, n), thirsty: make([]int, n)}
}

// beside returns a sink that passes sheets to another, nil for none, and to e. Without
// an establishment it is that sink.
func (e *establishment) beside(sink func(*replay.Sheet) error) func(*replay.Sheet) error {
	if !slices.ContainsFunc(e.job.Strategies, establishes) {
		return sink
	}
	return func(s *replay.Sheet) error {
		e.take(s)
		if sink == nil {
			return nil
		}
		return sink(s)
	}
}

func establishes(st strategy.Strategy) bool {
	return slices.ContainsFunc(st.Stretches, func(s strategy.Stretch) bool { return slices.Contains(s.Establishing, true) })
}

func (e *establishment) take(s *replay.Sheet) {
	k, z := e.at/e.zones, e.at%e.zones
	if e.at++; k >= len(e.job.Strategies) {
		return
	}
	list := e.job.Strategies[k].Stretches
	days := 0
	for i := range list {
		if !list[i].Establishing[z] {
			continue
		}
		from, to := list[i].From, s.Weather.Start+cal.Date(s.Days())
		if i+1 < len(list) {
			to = min(to, list[i+1].From)
		}
		for d := max(from, s.Weather.Start); d < to; d++ {
			days++
			e.m3[k] += s.Volume(int(d - s.Weather.Start))
			if s.Grade(int(d - s.Weather.Start)).StressZone {
				e.thirsty[k]++
			}
		}
	}
	e.days[k] = max(e.days[k], days)
}

// tryChanges replays each strategy that changes zones without its changes, with each
// alone, and with each added to those before it.
func (l *Study) tryChanges(ctx context.Context, r *replay.Runner, e *establishment) ([]plots.ChangeTrial, error) {
	var out []plots.ChangeTrial
	for s := range l.Job.Strategies {
		st := &l.Job.Strategies[s]
		stack := l.stackOf(s)
		if stack == nil || len(stack.Effects) == 0 || len(st.Stretches) == 0 {
			continue
		}
		bare := st.Unchanged()
		bare.Stretches = stack.Bare
		list := []strategy.Strategy{bare}
		for _, of := range []func(*scenarios.Effect) []strategy.Stretch{
			func(e *scenarios.Effect) []strategy.Stretch { return e.Alone },
			func(e *scenarios.Effect) []strategy.Stretch { return e.UpTo },
		} {
			for i := range stack.Effects {
				one := st.Unchanged()
				one.Stretches = of(&stack.Effects[i])
				list = append(list, one)
			}
		}
		if _, err := r.Vary(ctx, list, nil); err != nil {
			return nil, err
		}
		out = append(out, plots.ChangeTrial{Strategy: s, Changes: l.changeFacts(stack), Table: r.Keep(), EstablishM3: e.m3[s],
			EstablishDays: e.days[s], EstablishStress: e.thirsty[s]})
	}
	return out, nil
}

func (l *Study) changeFacts(stack *scenarios.Stack) (out []plots.ChangeFact) {
	for i := range stack.Changes {
		c := &stack.Changes[i]
		f := plots.ChangeFact{Name: c.Name, Zones: l.zonesText(c.Zones), Cost: c.Cost, What: l.whatTexts(c)}
		if c.From != 0 {
			f.From = c.From.String()
		}
		out = append(out, f)
	}
	return out
}

// zonesText names zones, or says that it is all of them.
func (l *Study) zonesText(zones []bool) string {
	if !slices.Contains(zones, false) {
		return "all zones"
	}
	var names []string
	for z, is := range zones {
		if is {
			names = append(names, l.Scenario.Zones[z].Name)
		}
	}
	return strings.Join(names, ", ")
}

// whatTexts writes each value that a change alters. Values that are the same in all its
// zones are written once.
func (l *Study) whatTexts(c *scenarios.Change) []string {
	sys := l.Scenario.Units
	text := func(v *scenarios.ZoneValue) string {
		if v.Node == nil {
			return "none"
		}
		return v.Text(sys)
	}
	var out []string
	where := map[string][]string{}
	for i := range c.Values {
		v := &c.Values[i]
		line := fmt.Sprintf("%s %s → %s", strings.ReplaceAll(v.Key, "_", " "), text(&v.Before), text(&v.After))
		if where[line] == nil {
			out = append(out, line)
		}
		where[line] = append(where[line], l.Scenario.Zones[v.Zone].Name)
	}
	zones := 0
	for _, is := range c.Zones {
		if is {
			zones++
		}
	}
	for i, line := range out {
		if n := len(where[line]); n < zones {
			out[i] = strings.Join(where[line], ", ") + ": " + line
		}
	}
	if c.Taken {
		out = append(out, "removed from irrigation")
	} else {
		out = append(out, "minutes: "+c.MinutesText())
	}
	if c.RemovalDays > 0 {
		out = append(out, "old plants dead for "+quantity.Count(c.RemovalDays, "day", "days")+" before")
	}
	if e := c.Establish; e != nil {
		out = append(out, "established in "+quantity.Count(e.Days, "day", "days")+", run times at first "+
			quantity.Format(e.Minutes, quantity.Fraction, sys))
	}
	return out
}

// ChangeGrids compare what the changes of each strategy do; none without changes.
func (l *Study) ChangeGrids(t *tally.Table) (grids []*Grid) {
	if l.checks == nil {
		return nil
	}
	data := l.verdictData(t)
	for i := range l.checks.changes {
		c := &l.checks.changes[i]
		grids = append(grids, namedRows("changes of “"+t.Strategies[c.Strategy]+"”", data.ChangeHead(), data.ChangeRows(c), headWidth))
	}
	return grids
}

// namedRows is a grid whose rows begin with a name, under a heading for the names;
// width is that of the other headings.
func namedRows(names string, head []string, rows [][]string, width int) *Grid {
	g := &Grid{Head: append([]string{names}, head...)}
	g.Columns = toTheRight(1, len(g.Head))
	for k := range g.Columns {
		g.Columns[k].HeadWidth = width
	}
	g.Columns[0].Width, g.Columns[0].HeadWidth = 30, 30
	for _, row := range rows {
		cells := make([]any, len(row))
		for k := range row {
			cells[k] = row[k]
		}
		g.add(cells...)
	}
	return g
}

// changeLines say what the strategies change, what it costs and how the changes
// interact; the first line is empty. None without changes.
func (l *Study) changeLines(t *tally.Table) (lines []string) {
	if l.checks == nil || len(l.checks.changes) == 0 {
		return nil
	}
	data := l.verdictData(t)
	for i := range l.checks.changes {
		c := &l.checks.changes[i]
		lines = append(lines, "", fmt.Sprintf("“%s” changes:", t.Strategies[c.Strategy]))
		for k := range c.Changes {
			f := &c.Changes[k]
			line := fmt.Sprintf("  %s, %s", f.Name, f.Zones)
			if f.From != "" {
				line += ", from " + f.From
			}
			lines = append(lines, line+": "+strings.Join(f.What, "; "))
		}
		for _, text := range []string{c.CostText(), data.InteractionText(c), data.EstablishText(c)} {
			if text != "" {
				lines = append(lines, text)
			}
		}
	}
	return lines
}

// A ChangesRecord is what the changes of a strategy do, for scripts. Effects are
// differences of yearly figures of the site.
type ChangesRecord struct {
	Strategy      string             `json:"strategy"`
	Changes       []OneChangeRecord  `json:"changes"`
	Sum           ChangeEffectRecord `json:"sum_of_each_alone"`
	Together      ChangeEffectRecord `json:"together"`
	Interaction   ChangeEffectRecord `json:"interaction"`
	Cost          *float64           `json:"cost"` // the stated costs; nil if none is
	NoCost        int                `json:"changes_without_cost"`
	EstablishM3   float64            `json:"establishment_m3,omitempty"`
	EstablishDays int                `json:"establishment_days,omitempty"`
	// EstablishStress counts the stress days of zones with new plants in that time, all zones
	// added up; they are judged by the tolerance of new plants.
	EstablishStress *int `json:"establishment_stress_days,omitempty"`
}

// A OneChangeRecord is one change.
type OneChangeRecord struct {
	Name  string             `json:"name"`
	Zones string             `json:"zones"`
	From  string             `json:"from,omitempty"`
	Cost  *float64           `json:"cost"`
	What  []string           `json:"what"`
	Alone ChangeEffectRecord `json:"alone"`
	Added ChangeEffectRecord `json:"added_in_order"`
}

// A ChangeEffectRecord is one effect.
type ChangeEffectRecord struct {
	M3     float64 `json:"volume_m3_per_year"`
	Stress float64 `json:"stress_days_zone_per_year"`
	Events float64 `json:"runoff_events_per_year"`
}

// changeRecords returns the effects of changes for scripts.
func (l *Study) changeRecords(t *tally.Table) (out []ChangesRecord) {
	record := func(e plots.ChangeEffect) ChangeEffectRecord { return ChangeEffectRecord(e) }
	for i := range l.checks.changes {
		c := &l.checks.changes[i]
		e := c.Effects()
		r := ChangesRecord{Strategy: t.Strategies[c.Strategy], Sum: record(e.Sum), Together: record(e.Together),
			Interaction: record(e.Interaction),
			EstablishM3: c.EstablishM3, EstablishDays: c.EstablishDays}
		if c.EstablishDays > 0 {
			r.EstablishStress = &c.EstablishStress
		}
		var sum float64
		if sum, r.NoCost = c.TotalCost(); r.NoCost < len(c.Changes) {
			r.Cost = &sum
		}
		for k := range c.Changes {
			f := &c.Changes[k]
			r.Changes = append(r.Changes, OneChangeRecord{Name: f.Name, Zones: f.Zones, From: f.From, Cost: Number(f.Cost), What: f.What,
				Alone: record(e.Alone[k]), Added: record(e.Added[k])})
		}
		out = append(out, r)
	}
	return out
}
