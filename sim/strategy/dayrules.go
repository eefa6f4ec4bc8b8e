package strategy

import "loamledger/sim"

// weekDays is the length of a week [d].
const weekDays = 7

// Meets reports whether there can be a day that satisfies both rules, whatever the
// dates of the record.
func (r *DayRule) Meets(o *DayRule) bool {
	switch {
	case r.Kind == Weekdays && o.Kind == Weekdays:
		for d := range r.Weekdays {
			if r.Weekdays[d] && o.Weekdays[d] {
				return true
			}
		}
		return false
	case r.Kind == OddDays && o.Kind == EvenDays, r.Kind == EvenDays && o.Kind == OddDays:
		return false
	case r.Kind == Interval && o.Kind == Interval:
		return (int(r.From)-int(o.From))%gcd(r.Every, o.Every) == 0
	case r.Kind == Interval && o.Kind == Weekdays:
		return r.meetsWeekday(o)
	case r.Kind == Weekdays && o.Kind == Interval:
		return o.meetsWeekday(r)
	}
	return true
}

// meetsWeekday reports whether an interval ever falls on the weekdays of o.
func (r *DayRule) meetsWeekday(o *DayRule) bool {
	for k := range weekDays { // after seven intervals, its weekdays repeat
		d := int(r.From) + k*r.Every
		if o.Weekdays[(int(r.From.Weekday())+d-int(r.From))%weekDays] {
			return true
		}
	}
	return false
}

// Gap returns the smallest number of days between two days that satisfy the rule, at
// least 1. The 31st and the 1st are both odd.
func (r *DayRule) Gap() int {
	switch r.Kind {
	case EvenDays:
		return 2
	case Interval:
		return r.Every
	case Weekdays:
		gap, last := weekDays, -1
		for d := range 2 * weekDays {
			if !r.Weekdays[d%weekDays] {
				continue
			}
			if last >= 0 {
				gap = min(gap, d-last)
			}
			last = d
		}
		return gap
	}
	return 1
}

func gcd(a, b int) int {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// Meets reports whether there can be a day on which both programs run.
func (p *Program) Meets(o *Program) bool {
	if p.To != 0 && o.From > p.To || o.To != 0 && p.From > o.To {
		return false
	}
	return p.Days.Meets(&o.Days)
}

// ExemptFromRules reports whether the permanent rules do not bind zone z.
func (l *Limits) ExemptFromRules(z int) bool { return l.exempt(z, false) || !l.Always.binds(z) }

// FullMinutes returns the run time of a refill of zone z, in the zone as the strategy
// assumes it, at the depletion that triggers it [min].
func (r *Refill) FullMinutes(zone *sim.Zone) float64 {
	assumed := r.Assumed.of(*zone)
	return r.MAD * assumed.TAWMM * or(r.Share, 1) * r.perMM(&assumed)
}
