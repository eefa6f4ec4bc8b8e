package strategy

import (
	"loamledger/sim/clock"
	"loamledger/weather/cal"
)

// Limits are the rules of a site. They bind every strategy except the two references
// and those that are [Strategy.Unbound]. The day of a run is the day on which its program starts, even if
// it continues after midnight. A shortened run keeps its place in the timetable:
// its valve stays closed for the rest of its time.
type Limits struct {
	From         cal.Date // first day of all rules; 0 for the whole record
	Always       Rule     // rules that hold from then on
	Stages       []Rule   // temporary rules, such as drought stages; all rules in force on a day apply
	Exempt       []bool   // by zone: exempt from every rule, as for drip or by permit
	ExemptManual bool     // manual runs are exempt from every rule
	FlagOnly     bool     // apply what breaks a rule and list it; otherwise omit and list it
}

// A Rule is one set of limits. Zero fields set no limit.
type Rule struct {
	Name       string
	From, To   cal.Date // first and last day, for a stage
	Days       DayRule  // days on which watering can start
	Windows    []clock.Window
	MaxMinutes float64 // maximum run time of a zone per start [min]
	Ban        bool    // no watering at all
	Exempt     []bool  // by zone: exempt from this rule; nil for none
}

// holds reports whether the rule is in force on date d.
func (r *Rule) holds(d cal.Date) bool {
	return r.From == 0 && r.To == 0 || d >= r.From && d <= r.To
}

// binds reports whether the rule applies to zone z.
func (r *Rule) binds(z int) bool { return z >= len(r.Exempt) || !r.Exempt[z] }

// inForce appends the rules in force on date d.
func (l *Limits) inForce(dst []*Rule, d cal.Date) []*Rule {
	if l.From != 0 && d < l.From {
		return dst
	}
	dst = append(dst, &l.Always)
	for s := range l.Stages {
		if l.Stages[s].holds(d) {
			dst = append(dst, &l.Stages[s])
		}
	}
	return dst
}

// exempt reports whether a run of zone z is exempt from every rule.
func (l *Limits) exempt(z int, byHand bool) bool {
	return z < len(l.Exempt) && l.Exempt[z] || byHand && l.ExemptManual
}
