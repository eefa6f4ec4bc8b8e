package study

import (
	"context"
	"slices"

	"loamledger/sim"
	"loamledger/sim/calibrate"
	"loamledger/sim/meter"
	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/weather/cal"
)

// A FlowMeaning is what a tuned flow scale is taken to mean when it is written as a
// scenario. A meter cannot tell.
type FlowMeaning string

// The meanings.
const (
	MeansFlow    FlowMeaning = "flow"
	MeansArea    FlowMeaning = "area"
	MeansRunTime FlowMeaning = "run-times"
)

// FlowMeanings lists the meanings, the default first.
func FlowMeanings() []FlowMeaning { return []FlowMeaning{MeansFlow, MeansArea, MeansRunTime} }

// CalibrateOptions are options of a calibration.
type CalibrateOptions struct {
	HoldFrom   cal.Date         // first day held out; 0 for the default
	Bounds     calibrate.Bounds // zero ranges for the defaults
	Confidence float64          // of intervals, as a share; 0 for the default
	Draws      int              // resamples; 0 for the default
	Seed       uint64
	Means      FlowMeaning // empty for the first
}

// A Calibration is the calibration of the strategy as found to one meter.
type Calibration struct {
	*calibrate.Result
	options CalibrateOptions
	metered *ComparedMeter
	job     *calibrate.Job
	scores  []calibrationScore
	levers  []leverage

	baseFitted bool // base use before the calibration is fitted to the reads
}

// A calibrationScore is the score of one scope on the fitted or the held-out periods,
// before and after.
type calibrationScore struct {
	scope             meter.Scope
	part              calibrate.Part
	before, after     meter.Score
	beforeOK, afterOK bool
}

// Calibrate fits the strategy as found to a meter that [Study.CompareMeters] has put
// beside it. The error is from ctx.
func (l *Study) Calibrate(ctx context.Context, m *ComparedMeter, o CalibrateOptions) (*Calibration, error) {
	if o.Means == "" {
		o.Means = FlowMeanings()[0]
	}
	c := &Calibration{options: o, metered: m}
	c.job = &calibrate.Job{
		Periods: m.Site.Periods, Dedicated: m.Only, Reporting: m.Use.Changed, HoldFrom: o.HoldFrom, Bounds: o.Bounds,
		Confidence: o.Confidence, Draws: o.Draws, Seed: o.Seed,
		Replay: func(ctx context.Context, a calibrate.Altered) (*calibrate.Use, error) {
			return l.throughMeter(ctx, m, a)
		},
	}
	c.job.Base = func(at []int) float64 {
		b, ok := m.Site.BaseOf(at)
		if !ok {
			return 0
		}
		c.baseFitted = b.Method.Doc().Fitted
		return b.M3Day
	}
	var err error
	if c.Result, err = c.job.Run(ctx); err != nil {
		return nil, err
	}
	c.score()
	c.levers, err = l.levers(ctx, c)
	return c, err
}

// throughMeter replays the strategy as found, altered, and returns the water through a
// meter.
func (l *Study) throughMeter(ctx context.Context, m *ComparedMeter, a calibrate.Altered) (*calibrate.Use, error) {
	job := l.Job
	job.Step, job.MarkShifts, job.Brief = nil, nil, true
	st := l.Job.Strategies[l.foundIndex()]
	if a.K != 1 {
		job.Zones, st.Stretches = alteredZones(job.Zones, st.Stretches, m.Zones, func(z *sim.Zone) { z.ScaleK(a.K) })
	}
	l.switchOff(&st, m, a.Off)
	job.Strategies = []strategy.Strategy{st}
	use := &calibrate.Use{Start: job.Weather.Start, RunM3: make([]float64, job.Weather.Days()), LeakM3: make([]float64, job.Weather.Days())}
	at := 0
	_, err := replay.Run(ctx, &job, func(s *replay.Sheet) error {
		if s.Strategy != st.Name {
			return nil
		}
		at++
		if !slices.Contains(m.Zones, at-1) {
			return nil
		}
		for i := range use.RunM3 {
			zone := s.On(i).Zone
			use.RunM3[i] += s.Volume(i)
			use.LeakM3[i] += float64(zone.LeakMMDay / 1000 * zone.AreaM2)
		}
		return nil
	})
	return use, err
}

// switchOff adds to a strategy that the zones of a meter are off in the given months of
// every year.
func (l *Study) switchOff(st *strategy.Strategy, m *ComparedMeter, off calibrate.Months) {
	parts := slices.Clone(st.Parts)
	for _, part := range l.suspensions(m, off) {
		parts = append(parts, part)
	}
	added := len(parts) - len(st.Parts)
	if added == 0 {
		return
	}
	st.Parts = parts
	if len(st.Terms) > 0 {
		st.Terms = append(slices.Clone(st.Terms), make([]strategy.Term, added)...)
	}
	st.Stretches = slices.Clone(st.Stretches)
	for k := range st.Stretches {
		if s := &st.Stretches[k]; s.Without != nil {
			s.Without = append(slices.Clone(s.Without), make([]bool, added)...)
		}
	}
}

// suspensions returns the suspensions that leave the zones of a meter off in the given
// months of the record.
func (l *Study) suspensions(m *ComparedMeter, off calibrate.Months) (list []strategy.Suspend) {
	zones := make([]bool, len(l.Job.Zones))
	for _, z := range m.Zones {
		zones[z] = true
	}
	last := l.Job.Weather.Start + cal.Date(l.Job.Weather.Days()-1)
	for y := l.Job.Weather.Start.Year(); y <= last.Year(); y++ {
		for _, month := range off.List() {
			from, to := cal.Of(y, month, 1), cal.Of(y, month, cal.DaysIn(y, month))
			if n := len(list); n > 0 && list[n-1].To+1 == from {
				list[n-1].To = to
				continue
			}
			list = append(list, strategy.Suspend{From: from, To: to, Zones: zones})
		}
	}
	return list
}

// alteredZones returns copies of the zones of a site and of the stretches of a strategy,
// those of the given indices altered.
func alteredZones(zones []sim.Zone, stretches []strategy.Stretch, at []int, alter func(*sim.Zone)) ([]sim.Zone, []strategy.Stretch) {
	copied := func(zones []sim.Zone) []sim.Zone {
		zones = slices.Clone(zones)
		for _, z := range at {
			alter(&zones[z])
		}
		return zones
	}
	stretches = slices.Clone(stretches)
	for k := range stretches {
		stretches[k].Zones = copied(stretches[k].Zones)
	}
	return copied(zones), stretches
}

// constant returns the tuned constant part [m³/d], and its start value.
func (c *Calibration) constant() (before, after float64) {
	for i := range c.Params {
		if p := &c.Params[i]; p.Key == calibrate.Base || p.Key == calibrate.Leak {
			return p.Start, p.Value
		}
	}
	return 0, 0
}

// score scores the replay before and after, by scope and part.
func (c *Calibration) score() {
	before, after := c.constant()
	if c.metered.Only {
		before, after = 0, 0 // a leak is irrigation
	}
	for _, part := range []calibrate.Part{calibrate.Fitted, calibrate.Held} {
		own, p := 0, 0
		if part == calibrate.Fitted {
			if p = c.P; c.baseFitted {
				own = 1
			}
		}
		for _, doc := range meter.Scopes() {
			if c.metered.Only && doc.Scope == meter.Outdoor {
				continue // the same as the whole meter
			}
			one := calibrationScore{scope: doc.Scope, part: part}
			one.before, one.beforeOK = c.scoreOf(part, doc.Scope, before, own, func(r *calibrate.Row) float64 { return r.Before })
			one.after, one.afterOK = c.scoreOf(part, doc.Scope, after, p, func(r *calibrate.Row) float64 { return r.After })
			c.scores = append(c.scores, one)
		}
	}
}

func (c *Calibration) scoreOf(part calibrate.Part, scope meter.Scope, baseDay float64, p int,
	of func(*calibrate.Row) float64) (meter.Score, bool) {
	var m, s []float64
	for i := range c.Rows {
		r := &c.Rows[i]
		if r.Part != part {
			continue
		}
		base := float64(baseDay * float64(r.Days()))
		use, replayed := r.M3, of(r)
		if scope != meter.Whole {
			use, replayed = use-base, replayed-base
		}
		if scope == meter.Season && !(r.Irrigated > 0) {
			continue
		}
		m, s = append(m, use), append(s, replayed)
	}
	return meter.ScoreOf(m, s, p)
}

// judged is the scope by which a calibration is labeled: outdoor use, since a large base
// makes the whole meter look good for nothing.
func (c *Calibration) judged() meter.Scope {
	if c.metered.Only {
		return meter.Whole
	}
	return meter.Outdoor
}

// scoreAt returns the score of a part by the judged scope.
func (c *Calibration) scoreAt(part calibrate.Part) *calibrationScore {
	i := slices.IndexFunc(c.scores, func(s calibrationScore) bool { return s.part == part && s.scope == c.judged() })
	return &c.scores[i]
}

// label returns the label of the calibration: the worse of those of the fitted and the
// held-out periods. ok is false if neither can be scored.
func (c *Calibration) label() (worst meter.LabelDoc, ok bool) {
	for _, part := range []calibrate.Part{calibrate.Fitted, calibrate.Held} {
		s := c.scoreAt(part)
		if !s.afterOK {
			continue
		}
		if label := meter.LabelOf(&s.after); !ok || label.CV > worst.CV {
			worst, ok = label, true
		}
	}
	return worst, ok
}
