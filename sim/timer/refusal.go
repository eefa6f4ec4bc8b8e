package timer

import (
	"fmt"
	"slices"

	"loamledger/sim"
	"loamledger/sim/strategy"
	"loamledger/weather/quantity"
)

// A Reason is the reason why settings do not fit a timer. It is stable: scripts
// use it, never the words of a text.
type Reason string

// The reasons. [Reasons] explains each.
const (
	TooManyPrograms Reason = "too-many-programs"
	TooManyStarts   Reason = "too-many-starts"
	NoCycle         Reason = "no-cycle-and-soak"
	PercentOffStep  Reason = "percent-off-step"
	RunTooShort     Reason = "run-too-short"
)

// A ReasonDoc describes a reason.
type ReasonDoc struct {
	Reason Reason
	Doc    string
}

// reasons is the one list of reasons.
var reasons = [...]ReasonDoc{
	{TooManyPrograms, "more programs than the timer has"},
	{TooManyStarts, "more start times in a program than the timer has"},
	{NoCycle, "cycles and soaks on a timer without them"},
	{PercentOffStep, "a percentage between the steps of the timer"},
	{RunTooShort, "a run time below the shortest that can be entered"},
}

// Reasons returns the description of every reason. The slice is the caller's.
func Reasons() []ReasonDoc { return slices.Clone(reasons[:]) }

// A Refusal is one thing that does not fit a timer. Asked and Has are in the unit
// of the reason: programs; start times; the most cycles of a zone, Has being the 1
// of a single run; shares; minutes.
type Refusal struct {
	Reason     Reason
	Program    string // empty if it is about all programs
	Zone       int    // index of the zone; -1 if it is not about one
	Month      int    // 1 to 12; 0 if it is not about one
	Asked, Has float64
	// Nearest is what fits instead, in words; empty until it is known.
	Nearest string
}

// Text describes what does not fit, without the nearest thing that does. zones are
// the names of the zones.
func (r *Refusal) Text(zones []string) string {
	switch r.Reason {
	case TooManyPrograms:
		return fmt.Sprintf("%s; the timer has %.0f", quantity.Count(int(r.Asked), "program", "programs"), r.Has)
	case TooManyStarts:
		return fmt.Sprintf("program %q has %s; the timer has %.0f", r.Program, quantity.Count(int(r.Asked), "start time", "start times"), r.Has)
	case NoCycle:
		return fmt.Sprintf("program %q runs in up to %.0f cycles; the timer has no cycle and soak", r.Program, r.Asked)
	case PercentOffStep:
		return fmt.Sprintf("%s at %s%%; the timer moves in steps of %.0f%%", strategy.MonthNames[r.Month-1], number(100*r.Asked), 100*r.Has)
	case RunTooShort:
		return fmt.Sprintf("a run of %s min for %s in program %q; the timer's shortest run is %.0f min", number(r.Asked), zones[r.Zone],
			r.Program,
			r.Has)
	}
	return string(r.Reason)
}

func number(v float64) string { return quantity.Number(v, 1) }

// Check lists what of a set of programs and monthly percentages does not fit the
// timer: programs first, then each program's starts, cycles and run times, then
// the months. top is the highest share of the run times that ever runs, which sets
// the number of cycles.
func (p *Profile) Check(programs []strategy.Program, percent [12]float64, top float64) []Refusal {
	var out []Refusal
	if n := len(programs); n > p.Programs {
		out = append(out, Refusal{Reason: TooManyPrograms, Zone: -1, Asked: float64(n), Has: float64(p.Programs)})
	}
	for i := range programs {
		prog := &programs[i]
		if n := len(prog.Starts); n > p.Starts {
			out = append(out, Refusal{Reason: TooManyStarts, Program: prog.Name, Zone: -1, Asked: float64(n), Has: float64(p.Starts)})
		}
		if n := cycles(prog, top); n > 1 && !p.Cycle {
			out = append(out, Refusal{Reason: NoCycle, Program: prog.Name, Zone: -1, Asked: float64(n), Has: 1})
		}
		for z, m := range prog.Minutes {
			if m > 0 && m < p.MinMinutes-1e-9 {
				out = append(out, Refusal{Reason: RunTooShort, Program: prog.Name, Zone: z, Asked: m, Has: p.MinMinutes})
			}
		}
	}
	for m, share := range percent {
		if !p.onStep(share) {
			out = append(out, Refusal{Reason: PercentOffStep, Zone: -1, Month: m + 1, Asked: share, Has: p.PercentStep})
		}
	}
	return out
}

// cycles returns the largest number of cycles of a zone in a program at a share of
// its run times, at least 1.
func cycles(p *strategy.Program, share float64) int {
	most := 1
	for _, m := range p.Minutes {
		most = max(most, sim.Run{Minutes: m * share, CycleMin: p.Cycle}.Cycles())
	}
	return most
}
