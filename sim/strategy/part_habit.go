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
		Doc:       "a person who changes the percentage a few times a year, late, and turns minutes up when plants suffer",
		Example:   "habit: {edits: 3, min_delay: 14 days, max_delay: 42 days, seed: 1, raise_by: 20 %}",
		Params:    (*Habit).params,
		Sheet:     (*Habit).sheet,
		Copy:      Replaced[Habit],
		Lines:     (*Habit).lines,
		YAML:      FromParams,
		Conflicts: (*Habit).conflicts,
		Warnings:  NoWarnings[Habit],
		Record:    (*Habit).record,
	}.Kind()
}

func (p *Habit) params() []Param {
	return []Param{
		{Key: "target", Field: AsTwelveSharesOrNone(&p.Target), Word: "the record's mean ETo by month", Min: 0, Max: 10,
			Doc: "twelve percentages the person has in mind", Source: "assumption of this program", Grade: quantity.Guess, Off: true},
		{Key: "edits", Field: AsNumber(&p.Edits), Default: 3, Min: 0, Max: 12,
			Doc: "changes of the percentage a year, evenly spaced; 0 is set and forget", Source: "two or three a year: trade experience, no source", Grade: quantity.Guess},
		{Key: "min_delay", Field: AsQuantity(&p.MinDelay, quantity.Days), Default: 14, Min: 0, Max: 365,
			Doc: "least delay of a change", Source: "two to six weeks: assumption of this program", Grade: quantity.Guess},
		{Key: "max_delay", Field: AsQuantity(&p.MaxDelay, quantity.Days), Default: 42, Min: 0, Max: 365,
			Doc: "greatest delay of a change", Source: "two to six weeks: assumption of this program", Grade: quantity.Guess},
		{Key: "seed", Field: AsNumber(&p.Seed), Default: 1, Min: 0, Max: 1 << 53,
			Doc: "seed of the delays", Source: "assumption of this program", Grade: quantity.Guess, Off: true},
		{Key: "raise_by", Field: AsQuantity(&p.RaiseBy, quantity.Fraction), Default: 0, Min: 0, Max: 1,
			Doc: "how much minutes are turned up when stress is seen", Source: "assumption of this program: no reaction", Grade: quantity.Guess, Off: true},
		{Key: "steps", Field: AsNumber(&p.Steps), Default: 3, Min: 1, Max: 10,
			Doc: "how many times in a row they may be turned up", Source: "assumption of this program", Grade: quantity.Guess, Off: true},
		{Key: "visible_below", Field: AsQuantity(&p.VisibleBelowKs, quantity.Fraction), Default: 0.7, Min: 0.05, Max: 1,
			Doc: "stress is seen when plants draw less than this share of their need", Source: "assumption of this program", Grade: quantity.Guess, Off: true},
		{Key: "raise_after", Field: AsQuantity(&p.RaiseAfter, quantity.Days), Default: 7, Min: 1, Max: 90,
			Doc: "days in a row of seen stress before minutes go up", Source: "assumption of this program", Grade: quantity.Guess, Off: true},
		{Key: "lower_after", Field: AsQuantity(&p.LowerAfter, quantity.Days), Default: 60, Min: 1, Max: 365,
			Doc: "days in a row without before they go down again", Source: "assumption of this program", Grade: quantity.Guess, Off: true},
	}
}

// Habit is a person. The percentage is changed Edits times a year, evenly
// spaced from the year's first day, each change to what the month asks for and
// MinDelay to MaxDelay days late. When plants suffer visibly, minutes go up
// by Up, and later down again: see [sim.Watcher].
type Habit struct {
	Target                 *[12]float64 // nil for the record's mean ETo by month, largest = 1
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

// Apply multiplies the draft's factors and gives it a watcher.
func (h Habit) Apply(d *Draft) {
	if h.Edits > 0 {
		h.edit(d)
	}
	if h.RaiseBy > 0 {
		d.Watch = &watch{up: h.RaiseBy, steps: h.Steps, watcher: sim.Watcher{SeenKs: h.VisibleBelowKs, AfterDays: h.RaiseAfter, CalmDays: h.LowerAfter}}
	}
}

func (h Habit) edit(d *Draft) {
	towards := h.Target
	if towards == nil {
		m := MonthlyFromETo(d.Site)
		towards = &m
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
	// The percentage found at the start is that of the last edit before the
	// month it falls into, whose own edit is due as it would have been.
	started := int(c.Month[0]) - 1
	current := towards[month(h.Edits-1)]
	for e := range h.Edits {
		switch m := month(e); {
		case m < started:
			current = towards[m]
		case m == started && c.Dom[0] > 1:
			due = append(due, change{lateness() + 1 - int(c.Dom[0]), towards[m]})
		}
	}
	for i := range scale {
		k := d.Site.Source(i)
		if c.Dom[k] == 1 {
			for e := range h.Edits {
				if month(e) == int(c.Month[k])-1 {
					due = append(due, change{i + lateness(), towards[month(e)]})
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
		Note: "What a person does out of habit is not on the sheet: it takes for granted that each change is made on its day."}
}

func (p *Habit) lines([]string, quantity.System) []string {
	text := fmt.Sprintf("A person changes the percentage %d times a year, %d to %d days late", p.Edits, p.MinDelay, p.MaxDelay)
	if p.RaiseBy > 0 {
		text += fmt.Sprintf(", and adds %.0f %% when plants suffer, up to %d times", 100*p.RaiseBy, p.Steps)
	}
	return []string{text}
}

func (p *Habit) conflicts(Given) Conflicts {
	return contradiction(p.MaxDelay < p.MinDelay, diag.WrongOrder,
		"write max_delay of at least min_delay", "habit: the greatest delay of %d days is less than the least of %d", p.MaxDelay, p.MinDelay)
}

// record tells what the person has in mind, where the record says it.
func (p *Habit) record(site *Site) string {
	if p.Edits == 0 || p.Target != nil {
		return ""
	}
	return "the percentages that the late changes aim at, from the record's mean ETo, January first: " + percents(MonthlyFromETo(site))
}
