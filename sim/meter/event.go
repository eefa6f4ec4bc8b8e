package meter

import (
	"slices"

	"loamledger/weather/cal"
)

// An EventKind is a kind of event that is not routine.
type EventKind string

// The kinds of events.
const (
	MainBreak   EventKind = "main-break"
	leakEvent   EventKind = "leak"
	PoolFill    EventKind = "pool-fill"
	newPlanting EventKind = "new-planting"
	restriction EventKind = "restriction"
	vacancy     EventKind = "vacancy"
	moreUse     EventKind = "other-use"
	otherEvent  EventKind = "other"
)

// An EventDoc describes a kind of event.
type EventDoc struct {
	Kind EventKind
	doc  string
}

var eventKinds = [...]EventDoc{
	{MainBreak, "a broken pipe behind the meter"},
	{leakEvent, "a leak that was found and repaired"},
	{PoolFill, "a pool was filled"},
	{newPlanting, "new sod or plants were watered in"},
	{restriction, "a drought stage or ban limited watering"},
	{vacancy, "nobody lived there"},
	{moreUse, "something else ran through the meter, such as a building site"},
	{otherEvent, "anything else; the reason says what"},
}

// EventKinds returns the kinds of events. The slice is the caller's.
func EventKinds() []EventDoc { return slices.Clone(eventKinds[:]) }

// An Event is something not routine that the meter saw.
type Event struct {
	Kind     EventKind
	From, To cal.Date // first and last day
	// Adjust is set if AdjustM3 is taken off the use of these days, by days. Otherwise
	// every period that has one of them is left out.
	Adjust   bool
	AdjustM3 float64 // below 0 for use that is missing
	Reason   string
}

// An Adjustment is what one event did to one period.
type Adjustment struct {
	Event, period int
	M3            float64 // taken off its use; 0 if the period is left out
}

// ApplyEvents leaves out periods or takes off use as the events say, and returns
// what was done. The periods are changed.
func ApplyEvents(periods []Period, events []Event) (done []Adjustment) {
	for e := range events {
		ev := &events[e]
		length := float64(ev.To - ev.From + 1)
		for i := range periods {
			p := &periods[i]
			days := float64(min(p.To, ev.To+1) - max(p.From, ev.From))
			if days <= 0 {
				continue
			}
			a := Adjustment{Event: e, period: i}
			switch {
			case ev.Adjust:
				a.M3 = ev.AdjustM3 * days / length
				p.M3 -= a.M3
			case p.Left:
				continue
			default:
				p.Left, p.Why = true, InEvent
			}
			done = append(done, a)
		}
	}
	return done
}
