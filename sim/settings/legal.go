package settings

import (
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
	if !b.fits() {
		b.legalStarts(rules)
		b.cut()
	}
	for i := range b.sheet.Programs {
		slices.Sort(b.sheet.Programs[i].Starts)
	}
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
		before := DaysText(p.Days)
		p.Days = meet(p.Days, r.Days)
		b.note("Program %q: %s became %s, since %s allow %s only.", p.Name, before, DaysText(p.Days), ruleName(r), DaysText(r.Days))
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

// legalStarts puts programs into the window, one behind the other where they
// share a day.
func (b *maker) legalStarts(rules []*strategy.Rule) {
	open := 0.0
	var rule *strategy.Rule // the last in force that sets a window: a stage comes after what always holds
	for _, r := range rules {
		if len(r.Windows) > 0 {
			open, rule = widest(r.Windows), r
		}
	}
	if rule == nil {
		return
	}
	s := b.sheet
	var took []float64
	var t clock.Timetable
	for i := range s.Programs {
		p := &s.Programs[i]
		one := b.starts(i, b.top())
		one[0].AtMin = 0
		t.CapacityLMin = b.site.Limits.CapacityLMin
		t.Lay(one[:1])
		took = append(took, math.Ceil(t.Finish()-1e-9))
		if b.free(p, rule) {
			continue
		}
		at := open
		for j := range i {
			if b.shareDay(&p.Days, &s.Programs[j].Days) && !b.free(&s.Programs[j], rule) {
				at += took[j] * float64(len(s.Programs[j].Starts))
			}
		}
		moved := false
		for k := range p.Starts {
			to := (int(at) + k*int(took[i])) % clock.Day
			moved = moved || to != p.Starts[k]
			p.Starts[k] = to
		}
		if moved {
			b.note("Program %q: moved into the watering window, to start at %s.", p.Name, StartsText(p.Starts))
		}
	}
}

// widest returns when the longest of the windows opens.
func widest(windows []clock.Window) float64 {
	best, length := 0.0, -1.0
	for _, w := range windows {
		n := w.ToMin - w.FromMin
		if n <= 0 {
			n += clock.Day
		}
		if n > length {
			best, length = w.FromMin, n
		}
	}
	return best
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

// fits reports whether no valve is open outside the windows in force.
func (b *maker) fits() bool { return len(b.outside()) == 0 }

// An over is a zone of a program that runs outside the window.
type over struct {
	program, zone int
	fitMin        float64 // minutes at 100 % that fit on the worst day
	rule          string
}

// outside lays out the record and returns what runs outside the windows in
// force.
func (b *maker) outside() []over {
	var out []over
	rules := b.rules()
	b.walk(func(d *day) {
		for _, r := range rules {
			if len(r.Windows) > 0 {
				out = b.outsideOf(out, d, r)
			}
		}
	})
	return out
}

// outsideOf adds what of one day lies outside the windows of one rule.
func (b *maker) outsideOf(out []over, d *day, r *strategy.Rule) []over {
	type run struct{ start, zone int }
	left := map[run]float64{}
	var order []run
	for _, o := range d.table.Openings {
		if b.exempt(o.Zone, r) {
			continue
		}
		k := run{o.Start, o.Zone}
		if _, ok := left[k]; !ok {
			order = append(order, k)
		}
		left[k] += o.ToMin - o.FromMin - clock.Inside(o, r.Windows)
	}
	for _, k := range order {
		if left[k] <= 1e-9 {
			continue
		}
		program := d.owner[k.start]
		fit := b.sheet.Programs[program].Minutes[k.zone] - left[k]/d.share
		i := slices.IndexFunc(out, func(v over) bool { return v.program == program && v.zone == k.zone })
		if i < 0 {
			out = append(out, over{program, k.zone, fit, ruleName(r) + ": outside the watering window"})
		} else {
			out[i].fitMin = min(out[i].fitMin, fit)
		}
	}
	return out
}

// cut shortens what does not fit, until all fits.
func (b *maker) cut() {
	for range 1000 { // each round takes at least a minute from some zone
		list := b.outside()
		if len(list) == 0 {
			return
		}
		for _, o := range list {
			b.shorten(o.program, o.zone, math.Floor(o.fitMin+1e-9), o.rule)
		}
	}
}
