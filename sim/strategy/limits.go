package strategy

import (
	"loamledger/sim/clock"
	"loamledger/weather/cal"
)

// Limits are the rules and the plumbing a site lives under. They bind every
// strategy but the two references. The day of a run is the day on which its
// program starts, even where the run goes on after midnight. A run that is cut
// keeps its place in the timetable: its valve stays shut while its time passes.
type Limits struct {
	Always       Rule    // rules that always hold
	Stages       []Rule  // rules for a stretch of dates, such as drought stages; all that hold on a day apply
	Exempt       []bool  // by zone: drip or a permit frees it from every rule
	ExemptManual bool    // runs by hand are free from every rule
	CapacityLMin float64 // flow within which zones may run together [L/min]; 0: one zone at a time
	FlagOnly     bool    // apply what breaks a rule, and list it; else it is left out, and listed
}

// A Rule is one set of limits. Zero fields limit nothing.
type Rule struct {
	Name       string
	From, To   cal.Date // first and last day, for a stage
	Days       DayRule  // days on which watering may start
	Windows    []clock.Window
	MaxMinutes float64 // for a zone in one start
	Ban        bool    // no watering at all
	Exempt     []bool  // by zone: what this rule alone does not bind; nil for none
}

// holds reports whether the rule is in force on date d.
func (r *Rule) holds(d cal.Date) bool {
	return r.From == 0 && r.To == 0 || d >= r.From && d <= r.To
}

// binds reports whether the rule binds zone z.
func (r *Rule) binds(z int) bool { return z >= len(r.Exempt) || !r.Exempt[z] }

// inForce appends the rules in force on date d.
func (l *Limits) inForce(dst []*Rule, d cal.Date) []*Rule {
	dst = append(dst, &l.Always)
	for s := range l.Stages {
		if l.Stages[s].holds(d) {
			dst = append(dst, &l.Stages[s])
		}
	}
	return dst
}

// exempt reports whether a run of zone z is free from every rule.
func (l *Limits) exempt(z int, byHand bool) bool {
	return z < len(l.Exempt) && l.Exempt[z] || byHand && l.ExemptManual
}
