package scenarios

import (
	"slices"

	"loamledger/sim/strategy"
	"loamledger/weather/cal"
)

// growDays is the length of a step of an establishment.
const growDays = 7

// makeChanges works out what the changes of a strategy leave of its zones, by date.
func (b *builder) makeChanges(st *strategy.Strategy, stack *Stack, where string) {
	c := &changer{builder: b, name: st.Name, where: where, changes: stack.Changes, terms: st.Terms, made: map[string]*changedZone{},
		listed: map[string]string{}}
	all := make([]int, len(stack.Changes))
	for i := range all {
		all[i] = i
	}
	faults := b.faults.Len()
	for i := range stack.Changes { // in order, so that errors and inputs come in order
		for z, is := range stack.Changes[i].Zones {
			if is && b.faults.Len() == faults {
				c.compare(z, i)
			}
		}
	}
	if b.faults.Len() > faults {
		return
	}
	mark := len(b.sc.Inputs)
	st.Stretches, stack.Stages = c.stages(all)
	if stack.Bare, _ = c.stages(nil); len(stack.Bare) == 1 {
		stack.Bare = nil // no part has dates
	}
	for i := range all {
		var e Effect
		e.Alone, _ = c.stages(all[i : i+1])
		e.UpTo, _ = c.stages(all[:i+1])
		stack.Effects = append(stack.Effects, e)
	}
	b.sc.Inputs = b.sc.Inputs[:mark]
}

// compare lists what change i alters in zone z after the changes before it.
func (c *changer) compare(z, i int) {
	made := make([]int, i+1)
	for k := range made {
		made[k] = k
	}
	before, after := c.zone(z, made[:i]), c.zone(z, made)
	if !after.ok {
		return
	}
	change := &c.changes[i]
	value := func(values []ZoneValue, key string) ZoneValue {
		for _, v := range values {
			if v.Key == key {
				return v
			}
		}
		return ZoneValue{Key: key}
	}
	for i := range c.params {
		key := c.params[i].Key
		a, b := value(before.values, key), value(after.values, key)
		if !sameTree(a.Node, b.Node) {
			change.Values = append(change.Values, Changed{Zone: z, Key: key, Before: a, After: b})
		}
	}
}

func sameTree(a, b *Node) bool {
	if a == nil || b == nil {
		return a == b
	}
	return a.Kind == b.Kind && a.Text == b.Text && slices.EqualFunc(a.Items, b.Items, sameTree) &&
		slices.EqualFunc(a.Entries, b.Entries, func(x, y Entry) bool { return x.Key == y.Key && sameTree(x.Value, y.Value) })
}

// stages returns the zones with the given changes made, and what becomes of run
// times, on each date on which something changes; the first stage is before all
// dates.
func (c *changer) stages(which []int) (list []strategy.Stretch, stages []Stage) {
	dates := []cal.Date{0}
	for _, i := range which {
		change := &c.changes[i]
		if change.From == 0 {
			continue
		}
		dates = append(dates, change.From)
		if change.RemovalDays > 0 {
			dates = append(dates, change.From-cal.Date(change.RemovalDays))
		}
		if e := change.Establish; e != nil {
			for d := growDays; d < e.Days; d += growDays {
				dates = append(dates, change.From+cal.Date(d))
			}
			dates = append(dates, change.From+cal.Date(e.Days))
		}
	}
	for i := range c.terms {
		dates = append(dates, c.terms[i].Dates()...)
	}
	slices.Sort(dates)
	for k, date := range slices.Compact(dates) {
		s, stage := c.stage(which, date, k == 0)
		if k > 0 {
			s.Roots = make([]float64, len(s.Zones))
			for z := range s.Roots {
				s.Roots[z] = 1
				if a, b := stages[k-1].Zones[z].RootDepthM, stage.Zones[z].RootDepthM; a > 0 && b > 0 {
					s.Roots[z] = b / a
				}
			}
		}
		list, stages = append(list, s), append(stages, stage)
	}
	return list, stages
}

// stage returns the zones on a date, with those changes made that are in force; with
// first before any date.
func (c *changer) stage(which []int, date cal.Date, first bool) (strategy.Stretch, Stage) {
	n := len(c.sc.Zones)
	s := strategy.Stretch{From: date, Run: make([]float64, n), Percent: make([]float64, n), Anew: make([]bool, n),
		Establishing: make([]bool, n)}
	stage := Stage{From: date, Zones: make([]Zone, n), Values: make([][]ZoneValue, n)}
	for i := range c.terms {
		s.Without = append(s.Without, !c.terms[i].In(date, first))
	}
	var made []int
	for _, i := range which {
		if from := c.changes[i].From; from == 0 || !first && from <= date {
			made = append(made, i)
		}
	}
	for z := range n {
		run, percent := 1.0, 1.0
		for k, i := range made {
			if c.changes[i].Zones[z] {
				r, p := c.changes[i].factor(&c.zone(z, made[:k]).Zone, &c.zone(z, made[:k+1]).Zone)
				run, percent = run*r, percent*p
			}
		}
		now := c.zone(z, made)
		zone := now.Zone
		for _, i := range which {
			change := &c.changes[i]
			if first || change.From == 0 || !change.Zones[z] {
				continue
			}
			dead, grows, since := change.Phase(z, date)
			s.Anew[z] = s.Anew[z] || since == 0 && change.planting || change.RemovalDays > 0 && since == -change.RemovalDays
			if dead {
				zone.die()
				run, percent = 0, 0
			}
			if grows {
				factor := change.Establish.of(&zone, since)
				run, percent = run*factor, percent*factor
				s.Establishing[z] = true
			}
		}
		s.Run[z], s.Percent[z] = run, percent
		stage.Zones[z], stage.Values[z] = zone, now.values
		s.Zones = append(s.Zones, zone.Zone)
	}
	return s, stage
}

// die leaves dead plants in a zone: little evaporates, and nothing is judged.
func (z *Zone) die() {
	for m := range z.K {
		z.K[m] = deadK
	}
	z.Season, z.Overseed = nil, nil
	z.ToleranceR7, z.BrowningR7 = 0, 0
}

// Ramp returns the share of its full value that a value has so many days after planting,
// from 0, which is first on the first day and 1 in the end. It is that of the middle of
// the week.
func (e *Establish) Ramp(first float64, since int) float64 {
	step := since / growDays * growDays
	share := min((float64(step)+float64(float64(min(growDays, e.Days-step))/2))/float64(e.Days), 1)
	return first + float64(share*(1-first))
}

// Phase says what becomes of plants in a zone on a date because of the change: dead, or
// the days since the planting of new ones that are not yet established, from 0.
func (c *Change) Phase(zone int, date cal.Date) (dead, grows bool, since int) {
	if c.From == 0 || !c.Zones[zone] {
		return false, false, 0
	}
	since = int(date - c.From)
	return since < 0 && since >= -c.RemovalDays, c.Establish != nil && since >= 0 && since < c.Establish.Days, since
}

// of makes a zone that of the step that begins so many days after planting, and
// returns the factor on run times. The values of a step are those of its middle.
func (e *Establish) of(z *Zone, since int) (minutes float64) {
	ramp := func(first float64) float64 { return e.Ramp(first, since) }
	if full := z.RootDepthM; full > 0 && e.rootDepthM < full {
		f := ramp(e.rootDepthM / full)
		z.RootDepthM *= f
		z.TAWMM = z.AWCMMPerM * z.RootDepthM
	}
	if f := ramp(e.KShare); f != 1 {
		z.scaleK(f)
	}
	z.ToleranceR7 = max(z.ToleranceR7, NewPlantTolerance)
	return ramp(e.Minutes)
}

func (z *Zone) scaleK(f float64) {
	own := z.Zone
	own.ScaleK(f)
	z.Zone = own
}
