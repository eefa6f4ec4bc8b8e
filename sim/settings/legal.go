package settings

import (
	"cmp"
	"math"
	"slices"

	"loamledger/sim/clock"
	"loamledger/sim/strategy"
)

// legal changes what the rules in force do not allow.
func (b *maker) legal() {
	rules := b.rules()
	for _, r := range rules {
		if r.Ban {
			b.note("%s forbids all watering on the day of the sheet; enter it once that has ended.", r.Name)
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
				b.note("Program %q: moved into the watering window, to start at %s.", p.Name, strategy.StartsText(p.Starts))
			}
		}
		if len(b.sheet.Misfits) == 0 {
			b.sheet.Room = nil
		}
	}
	// What nothing is left of would be entered as a start without a zone.
	b.sheet.Programs = slices.DeleteFunc(b.sheet.Programs, func(p strategy.Program) bool { return !waters(&p) })
	for i := range b.sheet.Programs {
		slices.Sort(b.sheet.Programs[i].Starts)
	}
}

// waters reports whether a program has minutes for any zone.
func waters(p *strategy.Program) bool {
	return slices.ContainsFunc(p.Minutes, func(m float64) bool { return m > 0 })
}

// room notes what the fullest day asks for and the windows hold.
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
			// One program after the other, without a gap between them.
			var all []clock.Start
			for k, program := range d.owner {
				if k == 0 || program != d.owner[k-1] {
					all = append(all, b.starts(program, d.share)...)
				}
			}
			for k := range all {
				all[k].AtMin = 0
			}
			t := clock.Timetable{CapacityLMin: b.site.Limits.CapacityLMin}
			t.Lay(all)
			room.TakeMin = t.Finish()
		}
	})
	b.sheet.Room = room
}

// windowRule returns the last of the rules in force that sets a window: a stage
// comes after what always holds. Nil where none does.
func windowRule(rules []*strategy.Rule) (rule *strategy.Rule) {
	for _, r := range rules {
		if len(r.Windows) > 0 {
			rule = r
		}
	}
	return rule
}

// length returns how long a window is open [min].
func length(w clock.Window) float64 {
	n := w.ToMin - w.FromMin
	if n <= 0 {
		n += clock.Day
	}
	return n
}

// rules returns the rules in force on the day of the sheet.
func (b *maker) rules() []*strategy.Rule {
	l := b.site.Limits
	rules := []*strategy.Rule{&l.Always}
	for i := range l.Stages {
		r := &l.Stages[i]
		if r.From == 0 && r.To == 0 || b.asOf >= r.From && b.asOf <= r.To {
			rules = append(rules, r)
		}
	}
	return rules
}

// free reports whether rule r binds no zone of a program.
func (b *maker) free(p *strategy.Program, r *strategy.Rule) bool {
	for z := range p.Minutes {
		if p.Minutes[z] > 0 && !b.exempt(z, r) {
			return false
		}
	}
	return true
}

// exempt reports whether rule r does not bind zone z.
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
		b.note("Program %q: %s became %s, since %s allow %s only.", p.Name, before, strategy.DaysText(p.Days), ruleName(r),
			strategy.DaysText(r.Days))
	}
}

func ruleName(r *strategy.Rule) string {
	if r.Name == "" {
		return "local rules"
	}
	return r.Name
}

// within reports whether a holds on no day of the record, or of four years from
// its start, on which b does not.
func (b *maker) within(a, r *strategy.DayRule) bool {
	c := b.site.Calendar
	for i := range c.Days() {
		if a.Runs(c, i) && !r.Runs(c, i) {
			return false
		}
	}
	return true
}

// meet returns the days on which both hold, where a controller can be told
// them; else the days of the rule.
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
	if r.MostMinutes <= 0 {
		return
	}
	top := b.top()
	for i := range b.sheet.Programs {
		p := &b.sheet.Programs[i]
		for z := range p.Minutes {
			if b.exempt(z, r) || p.Minutes[z]*top <= r.MostMinutes+1e-9 {
				continue
			}
			b.shorten(i, z, math.Floor(r.MostMinutes/top+1e-9), ruleName(r)+": longer than a zone may run")
		}
	}
}

// top is the greatest share of the minutes that ever runs.
func (b *maker) top() float64 {
	top := slices.Max(b.sheet.Percent[:]) * b.most
	if top <= 0 {
		return 1
	}
	return top
}

// shorten cuts the minutes of a zone and lists it.
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

// legalStarts puts programs into the longest window, one behind the other where
// they share a day, and returns which it moved. A start that would come after
// the window has closed is dropped; a program for which no start is left loses
// its minutes, and its zones are listed.
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
		var busy []clock.Window // after the window opens, on days that it shares
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
			each, at = 0, 0 // zones that are exempt stay
		}
		was, n := slices.Clone(p.Starts), len(p.Starts)
		p.Starts = p.Starts[:0]
		for k := range n {
			if off := at + float64(k)*each; off < room {
				p.Starts = append(p.Starts, int(open+off)%clock.Day)
			}
		}
		if len(p.Starts) < n {
			b.note("Program %q: of %d starts %d come before the watering window closes; the others are not on the sheet.", p.Name, n, len(p.Starts))
		}
		if !slices.Equal(was, p.Starts) {
			moved = append(moved, i)
		}
		from[i], took[i] = at, each*float64(len(p.Starts))
	}
	return moved
}

// firstFree returns the earliest time, from 0, at which so many minutes overlap
// none of the stretches that are busy.
func firstFree(busy []clock.Window, minutes float64) float64 {
	slices.SortFunc(busy, func(x, y clock.Window) int { return cmp.Compare(x.FromMin, y.FromMin) })
	at := 0.0
	for _, w := range busy {
		if w.FromMin < at+minutes && w.ToMin > at {
			at = w.ToMin
		}
	}
	return at
}

// widest returns when the longest of the windows opens, and how long it is open.
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
