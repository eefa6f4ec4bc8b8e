package study

import (
	"context"
	"slices"

	"loamledger/scenarios"
	"loamledger/sim/meter"
	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/sim/tally"
	"loamledger/weather/cal"
)

// A MeterInput is a meter of the site with its reads.
type MeterInput struct {
	Name    string // empty for the only meter of a site that names none
	File    string // of the reads
	Said    bool   // what the meter serves is stated
	Only    bool   // it serves irrigation only
	Zones   []int
	Use     scenarios.MeterUse
	History *meter.History
}

// A ComparedMeter is a meter with the replay of the strategy as found beside it.
type ComparedMeter struct {
	*MeterInput
	strategy string // as found
	areaM2   float64
	Site     *meter.Site
	*meter.Comparison
	adjusted []meter.Adjustment
	Saving   *meter.Saving
	notes    []meter.Note
	supports meter.Support
	// requiredM3 is the theoretical requirement of the meter's zones a year, over the
	// days of the whole years before the change; 0 if there is none.
	requiredM3 float64
	// afterName is the strategy that has run since the change, and after the score of
	// its replay on the whole meter; afterOK is false if it is not known.
	afterName string
	after     meter.Score
	afterOK   bool
}

// flows are the volumes through every meter by day, of some strategies [m³].
type flows struct {
	of    map[string][][]float64 // by strategy, then meter, then day
	zones map[string]int         // sheets seen of each strategy
	meter []int                  // of each zone; -1 for none of those asked for
	eyes  map[string]bool        // strategies that look at soil or plants
}

// take adds the sheet of one zone.
func (f *flows) take(s *replay.Sheet) error {
	m3, wanted := f.of[s.Strategy]
	if !wanted {
		return nil
	}
	z := f.zones[s.Strategy]
	f.zones[s.Strategy]++
	if s.Plan.Gate != nil || s.Plan.Watcher != nil {
		f.eyes[s.Strategy] = true
	}
	if f.meter[z] < 0 {
		return nil
	}
	to := m3[f.meter[z]]
	for i := range to {
		zone := s.On(i).Zone
		to[i] += s.Volume(i) + float64(zone.LeakMMDay/1000*zone.AreaM2)
	}
	return nil
}

// CompareMeters replays the strategy as found and puts it beside every meter that has
// reads. The error is from ctx.
func (l *Study) CompareMeters(ctx context.Context, inputs []MeterInput) ([]*ComparedMeter, error) {
	if len(inputs) == 0 {
		return nil, nil
	}
	found := l.foundIndex()
	job := l.Job
	job.Step, job.MarkShifts, job.Brief = nil, nil, true
	job.Strategies = []strategy.Strategy{l.Job.Strategies[found]}
	f := &flows{of: map[string][][]float64{}, zones: map[string]int{}, eyes: map[string]bool{}, meter: make([]int, len(job.Zones))}
	for i := range f.meter {
		f.meter[i] = -1
	}
	for k := range inputs {
		for _, z := range inputs[k].Zones {
			f.meter[z] = k
		}
		if to := inputs[k].Use.ChangedTo; to >= 0 && !slices.ContainsFunc(job.Strategies, func(st strategy.Strategy) bool {
			return st.Name == l.Job.Strategies[to].Name
		}) {
			job.Strategies = append(job.Strategies, l.Job.Strategies[to])
		}
	}
	wanted := []string{tally.LeastWater}
	for i := range job.Strategies {
		wanted = append(wanted, job.Strategies[i].Name)
	}
	for _, name := range wanted {
		cols := make([][]float64, len(inputs))
		for k := range cols {
			cols[k] = make([]float64, job.Weather.Days())
		}
		f.of[name] = cols
	}
	if _, err := replay.Run(ctx, &job, f.take); err != nil {
		return nil, err
	}
	var out []*ComparedMeter
	for k := range inputs {
		out = append(out, l.metered(&inputs[k], f, k, found))
	}
	return out, nil
}

// foundIndex returns the index of the strategy as found.
func (l *Study) foundIndex() int {
	for i := range l.Job.Strategies {
		if l.Job.Strategies[i].Role == strategy.Baseline {
			return i
		}
	}
	return 0
}

// metered compares meter k.
func (l *Study) metered(in *MeterInput, f *flows, k, found int) *ComparedMeter {
	st := &l.Job.Strategies[found]
	m := &ComparedMeter{MeterInput: in, strategy: st.Name}
	for _, z := range in.Zones {
		m.areaM2 += l.Job.Zones[z].AreaM2
	}
	w := &l.Job.Weather
	days := &meter.Days{Start: w.Start, SimM3: f.of[st.Name][k]}
	for i := range w.Days() {
		days.NeedMM = append(days.NeedMM, tally.NetNeed(w.RainMM[i], w.EToMM[i]))
	}
	m.Site = &meter.Site{Periods: append([]meter.Period(nil), in.History.Periods...), Days: days, People: in.Use.People, South: l.Job.South,
		Only: in.Only, Wanted: in.Use.Base, Cycle: in.History.Cycle, Stated: in.Use.BaseM3Day}
	meter.Bounds(m.Site.Periods, days.Start, days.End(), in.Use.Changed)
	m.adjusted = meter.ApplyEvents(m.Site.Periods, in.Use.Events)
	m.Comparison = m.Site.Compare(in.Use.Changed)
	m.Saving = m.Site.Saving(m.Comparison, in.Use.Changed, in.Use.EventsStated)
	m.notes = m.Site.Notes(in.History, m.Comparison, m.Saving, m.areaM2, in.Said)
	m.supports = l.supports(st, f.eyes[st.Name])
	m.requiredM3 = m.required(f.of[tally.LeastWater][k], days.Start)
	if to := in.Use.ChangedTo; to >= 0 && len(m.Comparison.After) > 0 {
		m.afterName = l.Job.Strategies[to].Name
		m.after, m.afterOK = m.scoreAfter(f.of[m.afterName][k], days.Start)
	}
	return m
}

// supports says what the meter can test under the strategy as found.
func (l *Study) supports(st *strategy.Strategy, looks bool) meter.Support {
	_, needs, err := st.Plain()
	if err != nil {
		return meter.TestsSchedule
	}
	out := meter.TestsSchedule
	for _, e := range needs {
		switch e {
		case strategy.BalanceController, strategy.SoilSensor:
			looks = true
		default:
			out = meter.TestsHolds
		}
	}
	if looks {
		return meter.TestsNeed
	}
	return out
}

// required returns the requirement a year over the whole years before the change.
func (m *ComparedMeter) required(least []float64, start cal.Date) float64 {
	sum, days := 0.0, 0
	for _, y := range m.Site.Years(m.Before) {
		for _, i := range y.At {
			p := &m.Site.Periods[i]
			for d := p.From; d < p.To; d++ {
				sum += least[d-start]
			}
			days += p.Days()
		}
	}
	if days == 0 {
		return 0
	}
	return sum / float64(days) * 365.25
}

// scoreAfter scores the replay of the strategy that ran after the change on the whole
// meter, with the base use of before; nothing is fitted.
func (m *ComparedMeter) scoreAfter(sim []float64, start cal.Date) (meter.Score, bool) {
	var use, replayed []float64
	for _, i := range m.Comparison.After {
		p := &m.Site.Periods[i]
		sum := m.Pairs[i].BaseM3
		for d := p.From; d < p.To; d++ {
			sum += sim[d-start]
		}
		use, replayed = append(use, p.M3), append(replayed, sum)
	}
	sc, ok := meter.ScoreOf(use, replayed, 0)
	return sc, ok && m.Base >= 0
}
