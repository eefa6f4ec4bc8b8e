package tune

import "loamledger/sim/timer"

// unstated is the timer assumed where none is stated: common practice, no source.
// A search uses one start of a program a day, so that any number is enough.
func unstated() timer.Profile {
	return timer.Profile{Programs: mostPrograms, Starts: 1, PercentStep: 0.05, MinMinutes: 1, Cycle: true}
}

// stated returns the timer that limits a search: p, or, if p has no programs, the
// unstated one with the step of percentages of p if it has one.
func stated(p timer.Profile) timer.Profile {
	if p.Programs > 0 {
		p.Programs = min(p.Programs, mostPrograms)
		return p
	}
	u := unstated()
	if p.PercentStep > 0 {
		u.PercentStep = p.PercentStep
	}
	return u
}
