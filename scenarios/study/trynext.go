package study

import (
	"context"
	"math"
	"slices"

	"loamledger/plots"
	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/sim/tally"
)

// nextFactors are the factors on run time that are tried in zones that fall short,
// and maxNext is for how many options.
var nextFactors = [...]float64{1.1, 1.2, 1.35, 1.5, 1.75, 2, 2.5, 3}

const maxNext = 4

// next returns what would make an option ready; nil if that is not known.
func (l *Study) next() *plots.NextTry {
	if l.checks == nil {
		return nil
	}
	return l.checks.next
}

// tryNext replays the options closest to being recommended with more run time in
// the zones that fall short, if none is ready. It returns the first that the verdict
// would then name, with the least factor for each zone; nil if there is none.
func (l *Study) tryNext(ctx context.Context, r *replay.Runner, t *tally.Table) (*plots.NextTry, error) {
	data := &plots.Study{Units: l.chartUnits(), Table: t, Measures: l.Measures, Rules: l.verdictRules()}
	if data.Verdict().Try == "" {
		return nil, nil
	}
	near := data.Nearest()
	for _, s := range near[:min(maxNext, len(near))] {
		st, short := &l.Job.Strategies[s], data.ShortZones(s)
		factors, found, err := l.enough(ctx, r, data, s, short)
		if err != nil || !found {
			if err != nil {
				return nil, err
			}
			continue
		}
		more, entered := st.WithRunTimes(factors)
		tried, err := r.Vary(ctx, []strategy.Strategy{more}, nil)
		if err != nil {
			return nil, err
		}
		after := l.withStrategy(data, s, tried, 0)
		if !after.Named(s) {
			continue
		}
		next := &plots.NextTry{Strategy: s, Change: after.Table.Compare()[s].Change}
		for _, e := range entered {
			next.Enter = append(next.Enter, plots.NextEntry{Zone: t.Zones[e.Zone].Name, Program: e.Program,
				Now: minutesNow(st, &e), Enter: e.Minutes})
		}
		for z := range factors {
			if entered == nil && factors[z] != 1 {
				next.Enter = append(next.Enter, plots.NextEntry{Zone: t.Zones[z].Name, PercentTime: math.Round(100 * factors[z])})
			}
		}
		return next, nil
	}
	return nil, nil
}

// enough returns the least factor with which each zone no longer falls short; not
// found if the highest is not enough for one.
func (l *Study) enough(ctx context.Context, r *replay.Runner, data *plots.Study, s int, short []bool) (factors []float64, found bool,
	err error) {
	var list []strategy.Strategy
	for _, f := range nextFactors {
		factors = make([]float64, len(short))
		for z := range factors {
			factors[z] = 1
			if short[z] {
				factors[z] = f
			}
		}
		more, _ := l.Job.Strategies[s].WithRunTimes(factors)
		list = append(list, more)
	}
	tried, err := r.Vary(ctx, list, nil)
	if err != nil {
		return nil, false, err
	}
	open := slices.Clone(short)
	for k, f := range nextFactors {
		still := l.withStrategy(data, s, tried, k).ShortZones(s)
		for z := range open {
			if open[z] && !still[z] {
				factors[z], open[z] = f, false
			}
		}
	}
	return factors, !slices.Contains(open, true), nil
}

// withStrategy returns the study with strategy s replaced by the k-th of another table.
func (l *Study) withStrategy(data *plots.Study, s int, other *tally.Table, k int) *plots.Study {
	at, out := *data.Table, *data
	at.Outcomes, at.Breaches = slices.Clone(at.Outcomes), slices.Clone(at.Breaches)
	at.Outcomes[s], at.Breaches[s] = slices.Clone(other.Outcomes[k]), slices.Clone(other.Breaches[k])
	out.Table = &at
	return &out
}

// minutesNow returns the run time that an entry replaces.
func minutesNow(st *strategy.Strategy, e *strategy.RunTime) float64 {
	for _, p := range st.Parts {
		if p, ok := p.(strategy.Programs); ok {
			for i := range p.List {
				if p.List[i].Name == e.Program {
					return p.List[i].Minutes[e.Zone]
				}
			}
		}
	}
	return 0
}
