package settings

import (
	"math"
	"slices"
	"sort"

	"loamledger/sim/clock"
	"loamledger/sim/strategy"
)

// legal changes whatever the rules in force forbid.
func (b *maker) legal() {
	rules := b.rules()
	for _, r := range rules {
		if r.Ban {
			b.note("%s forbids all watering on the date of this sheet; enter it when the ban ends.", r.Name)
			continue
		}
		b.legalDays(r)
		b.legalMinutes(r)
	}
	if len(b.outside()) > 0 {
		b.room(rules)
		moved := b.legalStarts(rules)
		b.cut()
		for _, i := range moved {
			if p := &b.sheet.Programs[i]; waters(p) {
				b.note("Program %q: moved into the watering window; now starts at %s.", p.Name, StartsText(p.Starts, b.units))
			}
		}
		if len(b.sheet.Misfits) == 0 {
			b.sheet.Room = nil
		}
	}
	// A program with nothing left would be entered as a start without a zone.
	b.sheet.Programs = slices.DeleteFunc(b.sheet.Programs, func(p strategy.Program) bool { return !waters(&p) })
	for i := range b.sheet.Programs {
		slices.Sort(b.sheet.Programs[i].Starts)
	}
}

// waters reports whether a program has run time for any zone.
func waters(p *strategy.Program) bool {
	return slices.ContainsFunc(p.Minutes, func(m float64) bool { return m > 0 })
}

// room notes the time needed on the busiest day and the time the windows allow.
func (b *maker) room(rules []*strategy.Rule) {
	rule := windowRule(rules)
	if rule == nil {
		return
	}
	room := &Room{Rule: ruleName(rule)}
	for _, w := range rule.Windows {
		room.HoldMin += length(w)
	}
	b.walk(func(d *day) {
		zones, need := map[int]bool{}, 0.0
		for _, o := range d.table.Openings {
			if !b.exempt(o.Zone, rule) {
				zones[o.Zone] = true
				need += o.ToMin - o.FromMin
			}
		}
		if need > room.NeedMin+1e-9 {
			room.Zones, room.NeedMin = len(zones), need
			// One program after another, without gaps.
			var all []clock.Start
			for k, program := range d.owner {
				if k == 0 || program != d.owner[k-1] {
					all = append(all, b.starts(program, d.share)...)
				}
			}
			for k := range all {
				all[k].AtMin = 0
			}
			t := clock.Timetable{Wiring: b.site.Wiring}
			t.Lay(all)
			room.TakeMin = t.Finish()
		}
	})
	b.sheet.Room = room
}

// windowRule returns the last rule in force that sets a window, or nil. Stages
// come after the permanent rule.
func windowRule(rules []*strategy.Rule) (rule *strategy.Rule) {
	for _, r := range rules {
		if len(r.Windows) > 0 {
			rule = r
		}
	}
	return rule
}

// length returns the length of a window [min].
func length(w clock.Window) float64 {
	n := w.ToMin - w.FromMin
	if n <= 0 {
		n += clock.Day
	}
	return n
}

// rules returns the rules in force on the date of the sheet.
func (b *maker) rules() []*strategy.Rule {
	l := b.site.Limits
	rules := []*strategy.Rule{&l.Always}
	if !b.binds(&l.Always) {
		rules = nil
	}
	for i := range l.Stages {
		r := &l.Stages[i]
		if r.From == 0 && r.To == 0 || b.asOf >= r.From && b.asOf <= r.To {
			if !b.binds(r) {
				continue
			}
			rules = append(rules, r)
		}
	}
	return rules
}

// free reports whether rule r applies to no zone of a program.
func (b *maker) free(p *strategy.Program, r *strategy.Rule) bool {
	for z := range p.Minutes {
		if p.Minutes[z] > 0 && !b.exempt(z, r) {
			return false
		}
	}
	return true
}

// exempt reports whether zone z is exempt from rule r.
func (b *maker) exempt(z int, r *strategy.Rule) bool {
	l := b.site.Limits
	return z < len(l.Exempt) && l.Exempt[z] || z < len(r.Exempt) && r.Exempt[z]
}

func (b *maker) legalDays(r *strategy.Rule) {
	for i := range b.sheet.Programs {
		p := &b.sheet.Programs[i]
		if b.free(p, r) || b.within(&p.Days, &r.Days) {
			continue
		}
		before := strategy.DaysText(p.Days)
		p.Days = meet(p.Days, r.Days)
		b.note("Program %q: days changed from %s to %s (%s: %s only).", p.Name, before, strategy.DaysText(p.Days), ruleName(r),
			strategy.DaysText(r.Days))
	}
}

func ruleName(r *strategy.Rule) string {
	if r.Name == "" {
		return "local rules"
	}
	return r.Name
}

// within reports whether every day of the record on which a runs is also a day
// of rule r.
func (b *maker) within(a, r *strategy.DayRule) bool {
	c := b.site.Calendar
	for i := range c.Days() {
		if a.Runs(c, i) && !r.Runs(c, i) {
			return false
		}
	}
	return true
}

// meet returns the days in both rules if a controller can be set to them, else
// the days of the rule.
func meet(a, rule strategy.DayRule) strategy.DayRule {
	switch {
	case rule.Kind == strategy.AnyDay:
		return a
	case a.Kind == strategy.Weekdays && rule.Kind == strategy.Weekdays:
		both, n := a, 0
		for d := range both.Weekdays {
			if both.Weekdays[d] = a.Weekdays[d] && rule.Weekdays[d]; both.Weekdays[d] {
				n++
			}
		}
		if n > 0 {
			return both
		}
	}
	return rule
}

func (b *maker) legalMinutes(r *strategy.Rule) {
	if r.MaxMinutes <= 0 {
		return
	}
	top := b.top()
	for i := range b.sheet.Programs {
		p := &b.sheet.Programs[i]
		for z := range p.Minutes {
			if b.exempt(z, r) || p.Minutes[z]*top <= r.MaxMinutes+1e-9 {
				continue
			}
			b.shorten(i, z, math.Floor(r.MaxMinutes/top+1e-9), ruleName(r)+": over the maximum run time")
		}
	}
}

// top returns the highest share of the run times that ever runs.
func (b *maker) top() float64 {
	top := slices.Max(b.sheet.Percent[:]) * b.most
	if top <= 0 {
		return 1
	}
	return top
}

// shorten cuts the run time of a zone and lists the zone as a misfit.
func (b *maker) shorten(program, z int, to float64, rule string) {
	s := b.sheet
	p := &s.Programs[program]
	k := slices.IndexFunc(s.Misfits, func(m Misfit) bool { return m.Zone == z && m.Program == p.Name })
	if k < 0 {
		s.Misfits = append(s.Misfits, Misfit{Zone: z, Program: p.Name, AskedMin: p.Minutes[z], Rule: rule, WorstPart: b.top()})
		k = len(s.Misfits) - 1
	}
	p.Minutes[z] = max(to, 0)
	s.Misfits[k].FitMin = p.Minutes[z]
}

// legalStarts moves programs into the longest window, one after another if they
// share a day, and returns the ones it moved. It removes starts that would come
// after the window closes. A program with no start left loses its run times, and
// its zones are listed as misfits.
func (b *maker) legalStarts(rules []*strategy.Rule) (moved []int) {
	rule := windowRule(rules)
	if rule == nil {
		return nil
	}
	open, room := widest(rule.Windows)
	s := b.sheet
	from, took := make([]float64, len(s.Programs)), make([]float64, len(s.Programs)) // of all starts of a program
	for i := range s.Programs {
		p := &s.Programs[i]
		each := b.takes(i)
		if b.free(p, rule) {
			continue
		}
		var busy []clock.Window // after the window opens, on shared days
		for j := range i {
			if took[j] > 0 && b.shareDay(&p.Days, &s.Programs[j].Days) {
				busy = append(busy, clock.Window{FromMin: from[j], ToMin: from[j] + took[j]})
			}
		}
		at := firstFree(busy, each*float64(len(p.Starts)))
		if at >= room {
			for z, m := range p.Minutes {
				if m > 0 && !b.exempt(z, rule) {
					b.shorten(i, z, 0, ruleName(rule)+": the watering window is full")
				}
			}
			each, at = 0, 0 // exempt zones stay
		}
		was, n := slices.Clone(p.Starts), len(p.Starts)
		p.Starts = p.Starts[:0]
		for k := range n {
			if off := at + float64(float64(k)*each); off < room {
				p.Starts = append(p.Starts, int(open+off)%clock.Day)
			}
		}
		if len(p.Starts) < n {
			b.note("Program %q: only %d of %d starts begin before the watering window closes; the others are omitted.", p.Name, len(p.Starts), n)
		}
		if !slices.Equal(was, p.Starts) {
			moved = append(moved, i)
		}
		from[i], took[i] = at, each*float64(len(p.Starts))
	}
	return moved
}

// firstFree returns the earliest time, from 0, at which a run of the given
// minutes overlaps no busy stretch.
func firstFree(busy []clock.Window, minutes float64) float64 {
	sort.SliceStable(busy, func(x, y int) bool { return busy[x].FromMin < busy[y].FromMin })
	at := 0.0
	for _, w := range busy {
		if w.FromMin < at+minutes && w.ToMin > at {
			at = w.ToMin
		}
	}
	return at
}

// widest returns the opening time and the length of the longest window.
func widest(windows []clock.Window) (open, room float64) {
	for _, w := range windows {
		if n := length(w); n > room {
			open, room = w.FromMin, n
		}
	}
	return open, room
}

func (b *maker) shareDay(a, r *strategy.DayRule) bool {
	c := b.site.Calendar
	for i := range c.Days() {
		if a.Runs(c, i) && r.Runs(c, i) {
			return true
		}
	}
	return false
}
