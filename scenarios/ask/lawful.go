package ask

import (
	"fmt"
	"math"

	"loamledger/scenarios"
	"loamledger/sim"
	"loamledger/weather/cal"
	"loamledger/weather/quantity"
)

// A lawfulProgram is what a program needs to keep the rules: other days, or other
// start times.
type lawfulProgram struct {
	days   bool
	starts []float64 // [min after midnight]; nil if its own are allowed
}

// lawfulPrograms returns what the programs of today need to keep the rules; nil if
// they keep them. Otherwise the options next to today's would lose the water that is
// forbidden, and look thrifty for it.
func lawfulPrograms(sc *scenarios.Scenario) []lawfulProgram {
	if sc.Limits == nil {
		return nil
	}
	first := cal.Of(FirstYear, 1, 1)
	days := int(cal.Of(FirstYear+8, 1, 1) - first) // every date falls on every weekday
	calendar := sim.NewCalendar(first, days)
	rule := &sc.Limits.Always
	out, breaks := make([]lawfulProgram, len(sc.Programs)), false
	for i := range sc.Programs {
		p := &sc.Programs[i]
		for d := range days {
			if p.Days.Runs(calendar, d) && !rule.Days.Runs(calendar, d) {
				out[i].days = true
				break
			}
		}
		if len(rule.Windows) > 0 {
			out[i].starts = startsInside(p.Starts, p.Minutes, rule.Windows[0].FromMin, rule.Windows[0].ToMin)
		}
		breaks = breaks || out[i].days || out[i].starts != nil
	}
	if !breaks {
		return nil
	}
	return out
}

// onlyToday returns a scenario with only its first strategy, which rules do not bind.
func onlyToday(root *scenarios.Node) *scenarios.Node {
	out := *root
	out.Entries = nil
	for _, e := range root.Entries {
		if e.Key == "strategies" {
			e.Value = list(e.Value.Items[0])
		}
		out.Entries = append(out.Entries, e)
	}
	return &out
}

const dayMin = 24 * 60

// startsInside returns start times from which all runs end before a window does, one
// after the other from its beginning; nil if the given ones do.
func startsInside(starts []int, minutes []float64, from, to float64) []float64 {
	takes := 0.0
	for _, m := range minutes {
		takes += m
	}
	length := math.Mod(to-from+dayMin, dayMin)
	inside := true
	for _, s := range starts {
		inside = inside && math.Mod(float64(s)-from+dayMin, dayMin)+takes <= length
	}
	if inside {
		return nil
	}
	out := make([]float64, len(starts))
	for i := range out {
		out[i] = math.Mod(from+float64(float64(i)*5*math.Ceil(takes/5)), dayMin)
	}
	return out
}

// addLawful adds the programs of the options, if today's break the rules.
func (w *writer) addLawful(programs *scenarios.Node) {
	today := programs.Items
	for i, law := range w.lawful {
		g := group()
		w.put(g, "name", word(lawfulName(i)))
		for _, e := range today[i].Entries {
			switch {
			case e.Key == "days" && law.days:
				if n := w.days(once("rules", "days"), w.a.RuleDays); n != nil {
					w.put(g, e.Key, n)
				}
			case e.Key == "starts" && law.starts != nil:
				l := list()
				for _, s := range law.starts {
					l.Items = append(l.Items, word(fmt.Sprintf("%02d:%02d", int(s)/60, int(s)%60)))
				}
				w.put(g, e.Key, l)
			case e.Key != "name":
				g.Entries = append(g.Entries, e)
			}
		}
		w.comments[g] = []string{"The same minutes on days and at times that the rules allow."}
		programs.Items = append(programs.Items, g)
	}
	if w.lawful != nil {
		w.note(once("rules", "days"), Default{Text: "the same minutes on days and at times that the rules allow, for all options but today's",
			Source: "today's settings break the rules; " + ours, Grade: quantity.Guess})
	}
}

func lawfulName(i int) string { return programName(i) + " by the rules" }

// lawfulNames returns the list of the programs of the options; nil for today's.
func (w *writer) lawfulNames() *scenarios.Node {
	if w.lawful == nil {
		return nil
	}
	l := list()
	for i := range w.lawful {
		l.Items = append(l.Items, word(lawfulName(i)))
	}
	return l
}
