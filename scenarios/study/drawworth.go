package study

import (
	"math"

	"loamledger/plots"
	"loamledger/scenarios"
	"loamledger/sim/draw"
	"loamledger/sim/tally"
)

// price fills in the bills of a draw, and what projects are worth in it.
func (d *drawing) price(s *sample, water *worldWater) {
	s.bills = d.pricer.bills(water, s.prices)
	for st := range d.Job.Strategies {
		for f := range d.figures {
			if d.figures[f].Measure.Key == billKey && d.figures[f].Over == tally.PerYear {
				s.figures[st*len(d.figures)+f] = s.bills[st]
			}
		}
	}
	if s.projects == nil {
		return
	}
	for st, p := range s.projects {
		worth := math.NaN()
		if p != nil {
			worth = p.npv(s.bills[d.table.Baseline] - s.bills[st])
		}
		s.npv = append(s.npv, worth)
	}
}

// billSaving returns the money that the option saves in a sample, a year; without an
// option, the bill of the baseline; NaN without rates.
func (d *drawing) billSaving(s *sample) float64 {
	switch {
	case s.bills == nil:
		return math.NaN()
	case d.option == d.table.Baseline:
		return s.bills[d.option]
	}
	return s.bills[d.table.Baseline] - s.bills[d.option]
}

// summarizeMoney fills in the spread of bills and of what projects are worth, and by how
// much bills that are worked out in full differ.
func (d *drawing) summarizeMoney(r *plots.Ranges, samples []sample) {
	if d.pricer == nil {
		return
	}
	saved := draw.SpreadOf(column(samples, d.billSaving))
	r.Bill, r.Currency = &saved, d.money.rates.Currency
	r.IdlePrices = len(d.money.rates.Doubts) - len(d.pricer.doubts)
	r.AllFull = d.pricer.full
	for i := range samples {
		s := &samples[i]
		if s.water == nil || r.AllFull {
			continue
		}
		r.FullBills++
		for st, full := range d.pricer.inFull(s.water, s.prices) {
			r.BillOff = max(r.BillOff, math.Abs(full-s.bills[st]))
		}
		s.water = nil
	}
	for st := range d.Job.Strategies {
		if samples[0].npv == nil || math.IsNaN(samples[0].npv[st]) {
			continue
		}
		worth := plots.WorthDraws{Strategy: st, NPV: draw.SpreadOf(column(samples, func(s *sample) float64 { return s.npv[st] }))}
		for i := range samples {
			if samples[i].npv[st] > 0 {
				worth.Pays++
			}
		}
		r.Worths = append(r.Worths, worth)
	}
}

// offCenter is the share of a range by which the replay's value may be off the middle of
// the draws before it is said.
const offCenter = 0.02

// middleOf returns the middle of the draws of a doubt.
func middleOf(of *scenarios.Doubt) float64 {
	if of.Range.Flat {
		return of.Range.Mode
	}
	return of.Range.At(0.5)
}

// middle lists the inputs whose value in the replay is not the middle of their draws, and
// replays all inputs in the middle of their draws.
func (d *drawing) middle(r *plots.Ranges) error {
	for k := range d.list {
		of := &d.list[k]
		middle := middleOf(of)
		if of.Range.Flat { // of an even number of whole ones, between the middle two
			middle = of.Range.Mean()
		}
		if math.Abs(middle-of.Replay) > offCenter*(of.Range.High-of.Range.Low) {
			r.Off = append(r.Off, plots.OffCenter{What: causeText(of), Range: of.Text(d.Scenario.Units),
				Replay: of.Value(of.Replay, d.Scenario.Units), Middle: of.Value(middle, d.Scenario.Units)})
		}
	}
	samples, err := d.run(1, 0, func(int) func(*scenarios.Doubt) float64 {
		return func(of *scenarios.Doubt) float64 { return middleOf(of) }
	})
	if err != nil {
		return err
	}
	s := &samples[0]
	r.Middle = &plots.MiddleReplay{SavingM3: d.saving(s), Worth: s.judgment.Worth[d.option], Named: s.judgment.Strategy}
	r.Middle.ReplayM3 = d.replaySaving()
	own := d.verdictData(d.table).Judge()
	r.Middle.ReplayNamed, r.Middle.ReplayWorth = own.Strategy, own.Worth[d.option]
	return nil
}

// replaySaving returns the water that the option saves in the replay, as
// [drawing.saving] does of a sample.
func (d *drawing) replaySaving() float64 {
	rows := d.table.Compare()
	if d.option == d.table.Baseline {
		return rows[d.option].M3PerYear
	}
	return rows[d.table.Baseline].M3PerYear - rows[d.option].M3PerYear
}
