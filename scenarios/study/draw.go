package study

import (
	"cmp"
	"context"
	"math"
	"slices"
	"sort"
	"strings"

	"loamledger/plots"
	"loamledger/scenarios"
	"loamledger/sim/draw"
	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/sim/tally"
)

// usualDraws is the number of draws if neither the scenario nor the caller says.
const usualDraws = 1000

// DrawOptions say how draws are made.
type DrawOptions struct {
	Draws   int    // 0 for the scenario's number or [usualDraws]
	Keep    bool   // controllers keep the settings that follow from the stated values
	Workers int    // goroutines; results do not depend on it
	Step    func() // called after each draw, from any goroutine; nil for none
	// Lean omits what draws say with the other kind of settings.
	Lean bool
}

// others returns how many of n draws are made once more with the other kind of settings:
// a tenth, but enough for a tenth of them to mean something.
func others(n int) int { return min(n, max(n/10, 50)) }

// doubts lists what is in doubt about the scenario and the rates.
func (l *Study) doubts() []scenarios.Doubt { return slices.Concat(l.Scenario.Doubts, l.money.doubts()) }

// count returns the number of draws.
func (o *DrawOptions) count(sc *scenarios.Scenario) int {
	return cmp.Or(o.Draws, sc.Ranges.Draws, usualDraws)
}

// Steps returns how often Step is called.
func (o *DrawOptions) Steps(l *Study) int {
	n := o.count(l.Scenario)
	all := n + 2*len(causesOf(l.doubts(), draw.MostInputs).list) + 1
	if o.Lean {
		return all
	}
	return all + others(n)
}

// causes are the independent things in doubt, each with one of its doubts.
type causes struct {
	list []scenarios.Doubt
	at   map[string]int
	left int // more than can be drawn
}

// causesOf lists the causes of doubts, at most so many.
func causesOf(doubts []scenarios.Doubt, most int) causes {
	c := causes{at: map[string]int{}}
	more := map[string]bool{}
	for _, d := range doubts {
		i, known := c.at[d.Cause]
		switch {
		case known && (d.Given && !c.list[i].Given || d.Key == "plant.k_growing" && c.list[i].Key == "plant.k"):
			c.list[i] = d // it says more
		case known:
		case len(c.list) == most:
			more[d.Cause] = true
		default:
			c.at[d.Cause] = len(c.list)
			c.list = append(c.list, d)
		}
	}
	c.left = len(more)
	return c
}

// A drawing is draws under way.
type drawing struct {
	*Study
	ctx     context.Context
	options DrawOptions
	causes
	worlds  *replay.Worlds
	own     []bool  // by strategy: numbers of its own are in doubt; nil if none are
	pricer  *pricer // nil without rates
	figures []tally.Figure
	table   *tally.Table // of the replay
	basis   tally.Basis
	option  int
}

// A sample is what one draw comes to.
type sample struct {
	figures  []float64 // by strategy, then figure
	m3       []float64 // a year, by strategy
	stress   []float64 // days a year, by strategy
	judgment plots.Judgment
	bills    []float64 // a year, by strategy; nil without rates
	npv      []float64 // by strategy, NaN without a project; nil without projects
	prices   []float64 // by how much the numbers of the rates are off
	projects []*drawnProject
	water    *worldWater // of the first draws, whose bills are worked out in full, too
}

// Draw replays the study with numbers drawn from the ranges of its inputs. t is the
// table of [Study.Replay], whose bills must be those of the study. An error is from ctx,
// or says that numbers within the ranges do not fit together.
func (l *Study) Draw(ctx context.Context, t *tally.Table, o DrawOptions) (*plots.Ranges, error) {
	d := &drawing{Study: l, ctx: ctx, options: o, table: t, basis: t.Basis(), causes: causesOf(l.doubts(), draw.MostInputs)}
	d.figures = d.basis.Figures(tally.FrontFigures(l.measures()))
	d.option = l.verdictData(t).Option()
	d.worlds = replay.NewWorlds(&l.Job, t)
	d.worlds.Anew = !o.Keep
	d.own = d.ownNumbers()
	n, seed := o.count(l.Scenario), l.Scenario.Ranges.Seed
	d.pricer = newPricer(d, n)
	d.worlds.Monthly = d.pricer != nil
	points := draw.Points(n, len(d.list), seed)
	at := func(i int) func(*scenarios.Doubt) float64 {
		return func(of *scenarios.Doubt) float64 {
			if k, is := d.at[of.Cause]; is {
				return of.Range.At(points[i][k])
			}
			return of.Range.Mode
		}
	}
	samples, err := d.run(n, checkedDraws, at)
	if err != nil {
		return nil, err
	}
	r := &plots.Ranges{Draws: n, Seed: seed, Inputs: len(d.list), Left: d.left, Option: d.option, Anew: !o.Keep,
		Priced: d.pricer != nil && len(d.pricer.doubts) == 0, General: l.Scenario.General()}
	d.summarize(r, samples)
	d.summarizeMoney(r, samples)
	if err := d.swings(r); err != nil {
		return nil, err
	}
	if err := d.middle(r); err != nil {
		return nil, err
	}
	d.settle(r, samples, points)
	r.Years, l.Ranges = d.years(), r
	if o.Lean {
		return r, nil
	}
	d.worlds = replay.NewWorlds(&l.Job, t)
	d.worlds.Anew = o.Keep
	d.worlds.Monthly = d.pricer != nil
	again, err := d.run(others(n), 0, at)
	if err != nil {
		return nil, err
	}
	r.Other = &plots.OtherSettings{Draws: len(again), Saving: draw.SpreadOf(column(again, d.saving))}
	for i := range again {
		if again[i].judgment.Worth[d.option] {
			r.Other.Worth++
		}
	}
	return r, nil
}

// run replays n worlds; pick returns what chooses the values of a world. The water of the
// first kept ones is kept.
func (d *drawing) run(n, kept int, pick func(i int) func(*scenarios.Doubt) float64) ([]sample, error) {
	samples := make([]sample, n)
	err := d.worlds.Run(d.ctx, n, max(d.options.Workers, 1), func(i int, w *replay.World) error {
		sc, err := d.Scenario.Drawn(pick(i))
		if err != nil {
			return err
		}
		w.Zones, w.ETo, w.Rain = sc.SimZones(), sc.Ranges.ETo, sc.Ranges.Rain
		w.Strategies, w.Own = d.drawnStrategies(sc), d.own
		if d.pricer != nil {
			samples[i].prices, samples[i].projects = d.pricer.off(pick(i)), d.projectsOf(sc)
		}
		return nil
	}, func(i int, w *replay.World, t *tally.Table) {
		s := &samples[i]
		d.fill(s, t)
		if d.pricer != nil {
			water := d.pricer.water(w, t)
			d.price(s, water)
			if i < kept {
				s.water = water
			}
		}
		if d.options.Step != nil {
			d.options.Step()
		}
	})
	return samples, err
}

// ownNumbers says which strategies of the job have numbers of their own in doubt; nil if
// none has.
func (d *drawing) ownNumbers() []bool {
	out, some := make([]bool, len(d.Job.Strategies)), false
	for i := range out {
		from := &d.Scenario.Strategies[d.strategyOf(i)]
		prefixes := []string{"strategies." + from.Name + "."}
		for _, part := range from.Parts {
			if programs, is := part.(strategy.Programs); is {
				for k := range programs.List {
					prefixes = append(prefixes, "programs."+programs.List[k].Name+".")
				}
			}
		}
		for k := range d.Scenario.Doubts {
			of := &d.Scenario.Doubts[k]
			out[i] = out[i] || of.Zone == "" && slices.ContainsFunc(prefixes, func(p string) bool { return strings.HasPrefix(of.Input, p) })
		}
		some = some || out[i]
	}
	if !some {
		return nil
	}
	return out
}

// strategyOf returns the strategy of the scenario that strategy i of the job is.
func (d *drawing) strategyOf(i int) int {
	if i >= len(d.Scenario.Strategies) { // the baseline as the rules would cut it
		return d.Scenario.Baseline
	}
	return i
}

// drawnStrategies returns the strategies of the job with the changed zones, and the numbers,
// of a drawn scenario; nil if no draw changes them.
func (d *drawing) drawnStrategies(sc *scenarios.Scenario) []strategy.Strategy {
	if d.own == nil && !slices.ContainsFunc(d.Job.Strategies, func(st strategy.Strategy) bool { return len(st.Stretches) > 0 }) {
		return nil
	}
	list := slices.Clone(d.Job.Strategies)
	for i := range list {
		from := &sc.Strategies[d.strategyOf(i)]
		list[i].Stretches = from.Stretches
		if d.own != nil && d.own[i] {
			list[i].Parts = from.Parts
		}
	}
	return list
}

// fill takes what is kept of one draw from its table.
func (d *drawing) fill(s *sample, t *tally.Table) {
	n := len(d.Job.Strategies)
	cells := t.Cells()
	s.figures, s.m3, s.stress = make([]float64, 0, n*len(d.figures)), make([]float64, n), make([]float64, n)
	for st := range n {
		for f := range d.figures {
			s.figures = append(s.figures, cells.Site(d.figures[f].Measure, st, d.figures[f].Over))
		}
	}
	for st, row := range cells.Compare()[:n] {
		s.m3[st], s.stress[st] = row.M3PerYear, row.StressPerYear
	}
	s.judgment = (&plots.Study{Table: t, Measures: d.measures(), Rules: d.verdictRules()}).Judge()
}

// column returns one number of every sample.
func column(samples []sample, of func(*sample) float64) []float64 {
	out := make([]float64, len(samples))
	for i := range samples {
		out[i] = of(&samples[i])
	}
	return out
}

// saving returns the water that the option saves in a sample, a year [m³]; without an
// option, the water that the baseline uses.
func (d *drawing) saving(s *sample) float64 {
	if d.option == d.table.Baseline {
		return s.m3[d.option]
	}
	return s.m3[d.table.Baseline] - s.m3[d.option]
}

// summarize fills spreads and counts of draws.
func (d *drawing) summarize(r *plots.Ranges, samples []sample) {
	n, base, cells := len(d.Job.Strategies), d.table.Baseline, d.table.Cells()
	for f := range d.figures {
		spread := plots.FigureSpread{Figure: d.figures[f]}
		for st := range n {
			spread.Of = append(spread.Of, draw.SpreadOf(column(samples, func(s *sample) float64 { return s.figures[st*len(d.figures)+f] })))
			spread.Point = append(spread.Point, cells.Site(d.figures[f].Measure, st, d.figures[f].Over))
		}
		r.Spreads = append(r.Spreads, spread)
	}
	m3 := func(st int) []float64 { return column(samples, func(s *sample) float64 { return s.m3[st] }) }
	stress := func(st int) []float64 { return column(samples, func(s *sample) float64 { return s.stress[st] }) }
	for st := range n {
		o := plots.OptionDraws{Less: draw.Less(m3(st), m3(base)), Calmer: draw.Less(stress(st), stress(base))}
		for i := range samples {
			if j := &samples[i].judgment; j.Worth[st] {
				o.Worth++
			}
			if samples[i].judgment.Strategy == st {
				o.Best++
			}
		}
		r.Options = append(r.Options, o)
	}
	r.Saving = draw.SpreadOf(column(samples, d.saving))
	r.Change = draw.SpreadOf(column(samples, func(s *sample) float64 { return s.m3[d.option]/s.m3[base] - 1 }))
}

// swings replays each cause by itself at its tenth and its nine tenths.
func (d *drawing) swings(r *plots.Ranges) error {
	ends := [2]float64{0.1, 0.9}
	samples, err := d.run(2*len(d.list), 0, func(i int) func(*scenarios.Doubt) float64 {
		cause := d.list[i/2].Cause
		return func(of *scenarios.Doubt) float64 {
			if of.Cause == cause {
				return of.Range.At(ends[i%2])
			}
			return of.Replay
		}
	})
	if err != nil {
		return err
	}
	for k := range d.list {
		of := &d.list[k]
		low, high := &samples[2*k], &samples[2*k+1]
		r.Swings = append(r.Swings, plots.Swing{What: causeText(of), Given: of.Given,
			Low: of.Value(of.Range.At(ends[0]), d.Scenario.Units), High: of.Value(of.Range.At(ends[1]), d.Scenario.Units),
			SavingM3: [2]float64{d.saving(low), d.saving(high)}, Stress: [2]float64{low.stress[d.option], high.stress[d.option]},
			Bill: [2]float64{d.billSaving(low), d.billSaving(high)}})
	}
	width := func(v [2]float64) float64 { return math.Abs(v[1] - v[0]) }
	sort.SliceStable(r.Swings, func(i, j int) bool {
		a, b := &r.Swings[i], &r.Swings[j]
		return cmp.Or(cmp.Compare(width(b.SavingM3), width(a.SavingM3)), cmp.Compare(width(b.Stress), width(a.Stress)),
			cmp.Compare(width(b.Bill), width(a.Bill))) < 0
	})
	return nil
}

// settle finds what would shrink the spread the most if it became known.
func (d *drawing) settle(r *plots.Ranges, samples []sample, points [][]float64) {
	var result []float64
	r.Target, result = d.open(r, samples, d.option)
	r.Settle = d.settling(result, points, false)
	if d.pricer != nil {
		r.SettleBill = d.settling(column(samples, d.billSaving), points, true)
	}
	for st := range r.Options {
		o := &r.Options[st]
		o.Target, result = d.open(r, samples, st)
		list := d.settling(result, points, false)
		if i := slices.IndexFunc(list, func(s plots.Settling) bool { return s.How != "" }); i >= 0 {
			o.First = &list[i]
		}
	}
}

// noise is the share of the water below which a spread is that of rounded sums.
const noise = 1e-6

// open returns what is open about a strategy, and that number of each sample: whether it is
// better, if the draws are divided on it; else its saving; else its stress days.
func (d *drawing) open(r *plots.Ranges, samples []sample, option int) (plots.Target, []float64) {
	base := d.table.Baseline
	if option != base && r.DividedOn(option) {
		return plots.OfAnswer, column(samples, func(s *sample) float64 {
			if s.judgment.Worth[option] {
				return 1
			}
			return 0
		})
	}
	saving := column(samples, func(s *sample) float64 {
		if option == base {
			return s.m3[base]
		}
		return s.m3[base] - s.m3[option]
	})
	water := draw.SpreadOf(column(samples, func(s *sample) float64 { return s.m3[base] })).P50
	if spread := draw.SpreadOf(saving); spread.Width() > noise*math.Abs(water) {
		return plots.OfSaving, saving
	}
	return plots.OfStress, column(samples, func(s *sample) float64 { return s.stress[option] })
}

// settling lists the causes that explain a result, the most first; those that move only
// money if asked.
func (d *drawing) settling(result []float64, points [][]float64, money bool) (out []plots.Settling) {
	input := make([]float64, len(points))
	for k := range d.list {
		if onlyMoney(&d.list[k]) && !money {
			continue
		}
		for i := range points {
			input[i] = points[i][k]
		}
		if share := draw.Explained(input, result); share > draw.ChanceShare(len(points)) {
			out = append(out, plots.Settling{What: causeText(&d.list[k]), How: howToMeasure(&d.list[k]), Price: onlyMoney(&d.list[k]), Share: share})
		}
	}
	sort.SliceStable(out, func(a, b int) bool { return cmp.Less(out[b].Share, out[a].Share) })
	return out
}

// resamplings is the number of series that the bootstrap draws.
const resamplings = 2000

// years returns how much the saving differs from year to year; nil if no year is whole.
func (d *drawing) years() *plots.YearSpread {
	if !d.basis.Yearly() {
		return nil
	}
	var saved []float64
	for _, y := range d.basis.Years {
		v := d.table.VolumeInYear(d.option, y)
		if d.option != d.table.Baseline {
			v = d.table.VolumeInYear(d.table.Baseline, y) - v
		}
		saved = append(saved, v)
	}
	return &plots.YearSpread{Years: len(saved), Single: draw.SpreadOf(saved), BlockLen: draw.BlockLength(len(saved)),
		Mean: draw.SpreadOf(draw.BlockMeans(saved, resamplings, d.Scenario.Ranges.Seed))}
}
