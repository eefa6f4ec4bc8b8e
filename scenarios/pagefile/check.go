package pagefile

import (
	"context"
	"errors"
	"fmt"

	"loamledger/scenarios/study"
	"loamledger/sim/settings"
)

// Next is what the report's first page says beside the options.
type Next struct {
	Answer        string   `json:"answer"`
	Measure       string   `json:"measure"` // the one thing to measure first
	Uncertainties []string `json:"uncertainties"`
	Steps         []string `json:"steps"`
	WhyNot        string   `json:"why_not"`
	Ranges        string   `json:"ranges"` // what draws say
	Draws         int      `json:"draws"`
}

// check replays the scenario with other numbers and makes the checks of a command.
func (e *Engine) check(ctx context.Context, set map[string]float64, reply *Reply) error {
	if err := e.change(set); err != nil {
		return err
	}
	sc, err := e.read(e.nowDoc, e.now)
	if err != nil {
		return err
	}
	if e.checked, err = e.set(sc, e.now); err != nil {
		return err
	}
	if e.table, err = e.checked.Replay(ctx, nil); err != nil {
		return err
	}
	e.show(reply)
	return nil
}

// show makes the cards and the words beside them of what was checked.
func (e *Engine) show(reply *Reply) {
	l := e.checked
	reply.Cards = l.Cards(e.table)
	reply.Assumed = assumed(l)
	a := l.Advice(e.table)
	for s := range reply.Cards.Cards {
		reply.Cards.Cards[s].Measure = a.Next[s]
	}
	reply.Next = &Next{Answer: a.Answer, Measure: a.Measure, Uncertainties: a.Uncertainties, Steps: a.Steps,
		WhyNot: a.WhyNot, Ranges: a.Ranges}
	if l.Ranges != nil {
		reply.Next.Draws = l.Ranges.Draws
		reply.Cards.Answer = a.Answer
	}
}

// Ranges are the spreads of the figures of the cards: by strategy, then key.
type Ranges struct {
	Draws int                 `json:"draws"`
	Of    []map[string]Spread `json:"of"`
}

// A Spread is the tenth and the nine tenths of the draws.
type Spread struct {
	Low  *float64 `json:"low"`
	High *float64 `json:"high"`
	Text string   `json:"text"`
	Same bool     `json:"same,omitempty"` // both are written alike
}

// draw draws from the ranges of the inputs of what was checked.
func (e *Engine) draw(ctx context.Context, draws int, reply *Reply) error {
	if e.checked == nil {
		return errors.New("nothing is checked")
	}
	o := study.DrawOptions{Draws: draws, Workers: 1, Lean: true}
	done, all := 0, o.Steps(e.checked)
	o.Step = func() {
		done++
		if e.Step != nil {
			e.Step(done, all)
		}
	}
	r, err := e.checked.Draw(ctx, e.table, o)
	if err != nil {
		return err
	}
	e.show(reply)
	reply.Ranges = &Ranges{Draws: r.Draws}
	for s := range e.checked.Job.Strategies {
		of := map[string]Spread{}
		for i := range r.Spreads {
			low, high := r.Spreads[i].Of[s].P10, r.Spreads[i].Of[s].P90
			f := &r.Spreads[i].Figure
			text := e.checked.SpreadText(f, low, high)
			of[f.Key()] = Spread{study.Number(low), study.Number(high), text, text == e.checked.SpreadText(f, low, low)}
		}
		reply.Ranges.Of = append(reply.Ranges.Of, of)
	}
	return nil
}

// percentStep is the step of percentages of a timer that the scenario does not state.
const percentStep = 0.05

// sheet makes the settings of a strategy of what was checked.
func (e *Engine) sheet(ctx context.Context, at int, reply *Reply) error {
	if e.checked == nil || at < 0 || at >= len(e.checked.Job.Strategies) {
		return errors.New("nothing is checked")
	}
	whole := *e.checked
	whole.Job.Brief = false // settings are made of the months of each zone
	l := &whole
	s, err := l.Sheet(ctx, &l.Job.Strategies[at], &study.SheetOptions{PercentStep: percentStep})
	switch {
	case errors.Is(err, settings.ErrNothing), errors.Is(err, study.ErrNoWater):
		reply.SheetIs = []string{fmt.Sprintf("There is nothing to enter: %v.", err)}
		return nil
	case err != nil:
		return err
	}
	record, err := l.SheetRecord(s)
	if err != nil {
		return err
	}
	for i, entry := range s.Sheet.Entries() { // times as people write them
		for k, at := range entry.Program.Starts {
			record.Entries[i].Starts[k] = settings.ClockText(float64(at), l.Scenario.Units)
		}
	}
	reply.Sheet = record
	reply.Unfit = append(settings.RefusalTexts(s.Refused, l.ZoneNames()), settings.MisfitTexts(s.Sheet)...)
	for _, d := range s.Dry {
		reply.Unfit = append(reply.Unfit, d.Text(s.Sheet))
	}
	reply.SheetIs = append(reply.SheetIs, l.TimerLine(percentStep), l.EffectLine(s))
	return nil
}
