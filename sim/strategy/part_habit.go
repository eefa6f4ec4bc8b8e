package strategy

import (
	"fmt"
	"math/rand/v2"

	"loamledger/sim"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

func habitKind() Kind {
	return Spec[Habit]{
		Key:       "habit",
		Doc:       "a person who changes the percentage a few times a year, late, and raises run times when plants look stressed",
		Example:   "habit: {edits: 3, min_delay: 14 days, max_delay: 42 days, seed: 1, raise_by: 20%}",
		Params:    (*Habit).params,
		Sheet:     (*Habit).sheet,
		Copy:      replaced[Habit],
		Lines:     (*Habit).lines,
		Plain:     (*Habit).plain,
		YAML:      FromParams,
		Conflicts: (*Habit).conflicts,
		Warnings:  noWarnings[Habit],
		Record:    (*Habit).record,
	}.Kind()
}

func (p *Habit) params() []Param {
	return []Param{
		{Key: "target", Field: asTwelveSharesOrNone(&p.Target), Word: "the record's mean ETo by month", Min: 0, Max: 10,
			Doc: "twelve percentages that the person aims for", Source: "assumption by loamledger", Grade: quantity.Guess, Off: true},
		{Key: "edits", Field: asNumber(&p.Edits), Default: 3, Min: 0, Max: 12,
			Doc: "changes a year, evenly spaced; 0 means set and forget", Source: "two or three a year: trade experience, no source",
			Grade: quantity.Guess},
		{Key: "min_delay", Field: AsQuantity(&p.MinDelay, quantity.Days), Default: 14, Min: 0, Max: 365,
			Doc: "minimum delay of a change", Source: "two to six weeks: assumption by loamledger", Grade: quantity.Guess},
		{Key: "max_delay", Field: AsQuantity(&p.MaxDelay, quantity.Days), Default: 42, Min: 0, Max: 365,
			Doc: "maximum delay of a change", Source: "two to six weeks: assumption by loamledger", Grade: quantity.Guess},
		{Key: "seed", Field: asNumber(&p.Seed), Default: 1, Min: 0, Max: 1 << 53,
			Doc: "random seed for the delays", Source: "assumption by loamledger", Grade: quantity.Guess, Off: true},
		{Key: "raise_by", Field: AsQuantity(&p.RaiseBy, quantity.Fraction), Default: 0, Min: 0, Max: 1,
			Doc: "increase in run times when stress is visible", Source: "assumption by loamledger: no reaction", Grade: quantity.Guess, Off: true},
		{Key: "steps", Field: asNumber(&p.Steps), Default: 3, Min: 1, Max: 10,
			Doc: "maximum number of increases", Source: "assumption by loamledger", Grade: quantity.Guess, Off: true},
		{Key: "visible_below", Field: AsQuantity(&p.VisibleBelowKs, quantity.Fraction), Default: 0.7, Min: 0.05, Max: 1,
			Doc: "stress is visible if plants use less than this share of their need", Source: "assumption by loamledger",
			Grade: quantity.Guess, Off: true},
		{Key: "raise_after", Field: AsQuantity(&p.RaiseAfter, quantity.Days), Default: 7, Min: 1, Max: 90,
			Doc: "days in a row with visible stress before an increase", Source: "assumption by loamledger", Grade: quantity.Guess, Off: true},
		{Key: "lower_after", Field: AsQuantity(&p.LowerAfter, quantity.Days), Default: 60, Min: 1, Max: 365,
			Doc: "days in a row without visible stress before a decrease", Source: "assumption by loamledger", Grade: quantity.Guess, Off: true},
	}
}

// Habit is a person who changes the percentage Edits times a year, evenly spaced
// from the first day of the year. Each change sets the target of its month,
// MinDelay to MaxDelay days late. When plants look stressed, the person raises run
// times by RaiseBy, and lowers them later; see [sim.Watcher].
type Habit struct {
	Target                 *[12]float64 // nil for the record's mean ETo by month, highest = 1
	Edits                  int
	MinDelay, MaxDelay     int // [d]
	Seed                   uint64
	RaiseBy                float64
	Steps                  int
	VisibleBelowKs         float64
	RaiseAfter, LowerAfter int // [d]
}

// Kind returns the kind of the part.
func (Habit) Kind() Kind { return habitKind() }

// Stage returns [Scale].
func (Habit) Stage() Stage { return Scale }

// Apply multiplies the draft's factors and sets its watcher.
func (h Habit) Apply(d *Draft) {
	if h.Edits > 0 {
		h.edit(d)
	}
	if h.RaiseBy > 0 {
		d.watch = &watch{up: h.RaiseBy, steps: h.Steps, watcher: sim.Watcher{SeenKs: h.VisibleBelowKs, AfterDays: h.RaiseAfter,
			CalmDays: h.LowerAfter}}
	}
}

func (h Habit) edit(d *Draft) {
	target := h.Target
	if target == nil {
		m := monthlyFromETo(d.Site)
		target = &m
	}
	r := rand.New(rand.NewPCG(h.Seed, 0x6861626974))
	scale, c := d.scale(), d.Site.Calendar
	gap := 12.0 / float64(h.Edits)
	month := func(edit int) int { return int(float64(edit)*gap) % 12 }
	lateness := func() int {
		if h.MaxDelay > h.MinDelay {
			return h.MinDelay + r.IntN(h.MaxDelay-h.MinDelay+1)
		}
		return h.MinDelay
	}
	type change struct {
		at    int
		share float64
	}
	var due []change
	// The record starts with the percentage of the last edit before its first
	// month. An edit of that month is still due.
	started := int(c.Month[0]) - 1
	current := target[month(h.Edits-1)]
	for e := range h.Edits {
		switch m := month(e); {
		case m < started:
			current = target[m]
		case m == started && c.Dom[0] > 1:
			due = append(due, change{lateness() + 1 - int(c.Dom[0]), target[m]})
		}
	}
	for i := range scale {
		k := d.Site.Source(i)
		if c.Dom[k] == 1 {
			for e := range h.Edits {
				if month(e) == int(c.Month[k])-1 {
					due = append(due, change{i + lateness(), target[month(e)]})
				}
			}
		}
		for len(due) > 0 && due[0].at <= i {
			current, due = due[0].share, due[1:]
		}
		scale[i] *= current
	}
}

func (p *Habit) sheet(*Site) SheetEntry {
	return SheetEntry{Use: NotEntered,
		Note: "The habits of a person are not on the sheet; it assumes that each change is made on time."}
}

func (p *Habit) lines([]string, quantity.System) []string {
	text := fmt.Sprintf("A person changes the percentage %d times a year, %d to %d days late", p.Edits, p.MinDelay, p.MaxDelay)
	if p.RaiseBy > 0 {
		text += fmt.Sprintf(", and adds %.0f%% when plants look stressed, up to %d times", 100*p.RaiseBy, p.Steps)
	}
	return []string{text}
}

func (p *Habit) conflicts(Given) Conflicts {
	return contradiction(p.MaxDelay < p.MinDelay, diag.WrongOrder,
		"write a max_delay of at least min_delay", "habit: max_delay of %d days is below min_delay of %d", p.MaxDelay, p.MinDelay)
}

// record reports a target that is derived from the record.
func (p *Habit) record(site *Site) string {
	if p.Edits == 0 || p.Target != nil {
		return ""
	}
	return "target percentages of the late changes, from the record's mean ETo, starting with January: " + percents(monthlyFromETo(site))
}

func (p *Habit) plain() Plain { return Plain{Text: "a person adjusts run times now and then"} }
