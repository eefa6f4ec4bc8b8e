package tune

import (
	"context"
	"math"
	"slices"

	"loamledger/sim"
	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/sim/tally"
)

// A search is a search in progress.
type search struct {
	ctx      context.Context
	runner   replay.Runner
	job      replay.Job       // with the limits of the search: see relaxed
	limits   *strategy.Limits // of the site
	zones    []sim.Zone       // actual zones; those of job may need more water
	goal     Goal
	space    Space
	progress func(int)
	tried    int
	begun    bool // an end of ctx from now on stops the search but is no error
	stopped  bool
	told     float64 // share of the plants' need in the search that a balance assumes; 0 for all
	most     float64 // highest factor on the run times of a program
	err      error

	ranked    tally.Ranked // the years that count
	spanYear  []int
	spanMonth []int
	use       []bool // by span: in a year that counts
	judged    []bool // by span: in a year no drier than the dry year
	leastMM   []float64
	needM3    [12]float64 // need by the least-water reference: the highest of each calendar month in any judged year
	dryOnly   []measured  // by zone, without watering

	inSeason  [12]bool // months whose stress counts
	design    func(mm float64) float64
	season    []strategy.Part
	intervals []Interval
	freeDays  bool               // the caller left the patterns of days to the search
	days      []strategy.DayRule // to try, with the zones that may use each, and those whose plants suit it
	may       [][]bool
	within    [][]bool
	clocks    []Clock // of a site with several controllers
	open      []hours // by zone
}

// A measured is the result of one setting for one zone.
type measured struct {
	stress   int // of the whole zone
	brown    int // of the driest quarter
	runoff   float64
	grossMM  float64
	breaches int
	off      dry  // the days that do not count
	unknown  bool // not measured before the search was stopped
}

// A cost ranks settings: first by the amount over the goal, then by water.
type cost struct{ over, m3 float64 }

func (c cost) less(d cost) bool {
	if math.Abs(c.over-d.over) > 1e-9 {
		return c.over < d.over
	}
	return c.m3 < d.m3-1e-9
}

func (c cost) plus(d cost) cost { return cost{c.over + d.over, c.m3 + d.m3} }

func newSearch(ctx context.Context, job *replay.Job, goal Goal, o Options) (*search, error) {
	s := &search{ctx: ctx, job: *job, limits: job.Limits, zones: job.Zones, goal: goal, progress: o.Progress,
		design: o.Design, season: o.Season, intervals: o.Intervals, freeDays: len(o.Space.Days) == 0, clocks: o.Clocks}
	s.open = s.openOf()
	s.job.Zones = s.raised(job.Zones)
	s.job.Strategies, s.job.Step, s.job.Brief = nil, nil, false // the search reads months
	s.job.Limits = nil
	table, err := s.runner.Run(ctx, &s.job, nil)
	if err != nil {
		return nil, err
	}
	years := table.WholeYears()
	if o.Years != nil {
		years = slices.DeleteFunc(years, func(y int) bool { return !o.Years(y) })
	}
	if len(years) == 0 {
		return nil, ErrNoYear
	}
	s.ranked = table.RankOf(years)
	judged := s.ranked.Years[:slices.Index(s.ranked.Years, s.ranked.Dry)+1]
	s.inSeason = countedMonths(o.Season)
	need := make([]float64, len(table.Spans))
	for i := range table.Spans {
		y := table.YearOf(&table.Spans[i])
		s.spanYear, s.spanMonth = append(s.spanYear, y), append(s.spanMonth, table.Spans[i].Month)
		s.use = append(s.use, slices.Contains(years, y))
		s.judged = append(s.judged, slices.Contains(judged, y))
	}
	for z := range job.Zones {
		months := table.Outcomes[table.LeastWaterIndex()][z].Months
		all, _, _ := s.sumsOf(months)
		s.leastMM = append(s.leastMM, all.GrossMM/float64(len(years)))
		for i := range months {
			need[i] += float64(months[i].GrossMM / 1000 * job.Zones[z].AreaM2)
		}
		s.dryOnly = append(s.dryOnly, s.measured(table.Outcomes[table.NoWaterIndex()][z].Months))
	}
	for i, span := range table.Spans {
		if s.judged[i] {
			s.needM3[span.Month-1] = max(s.needM3[span.Month-1], need[i])
		}
	}
	s.space = o.Space.filled(s)
	s.patterns(o.Own)
	s.job.Limits = relaxed(job.Limits)
	return s, nil
}

// reserve raises plant water needs in the search by a share.
func (s *search) reserve(share float64) error {
	if share == 0 {
		return nil
	}
	s.told = 1 / (1 + share)
	s.job.Zones = slices.Clone(s.job.Zones)
	for z := range s.job.Zones {
		s.job.Zones[z].ScaleK(1 + share)
	}
	got, err := s.measure([]strategy.Strategy{{}})
	if err != nil {
		return err
	}
	s.dryOnly = got[0]
	return nil
}

// kindLimits adapts the limits of the search to a kind: a water balance sets its
// own run times, which the rules may cut.
func (s *search) kindLimits(kind Kind) {
	s.most = 1
	if l := s.limits; kind == Refill && s.timed() {
		r := *l
		r.Always = withinHours(r.Always)
		r.Stages = slices.Clone(l.Stages)
		for i := range r.Stages {
			if temporary(r.Stages[i]) {
				r.Stages[i].Windows = nil
				continue
			}
			r.Stages[i] = withinHours(r.Stages[i])
		}
		s.job.Limits = &r
	}
}

// relaxed returns the limits that apply to a single zone: all except the windows
// and the shared flow, which are fitted at the end. It returns nil if only the
// permanent rule remains, since the space obeys that.
func relaxed(l *strategy.Limits) *strategy.Limits {
	if l == nil || !slices.ContainsFunc(l.Stages, temporary) {
		return nil
	}
	r := *l
	r.Always.Windows = nil
	r.Stages = slices.DeleteFunc(slices.Clone(l.Stages), func(r strategy.Rule) bool { return !temporary(r) })
	for i := range r.Stages {
		r.Stages[i].Windows = nil
	}
	return &r
}

// measure replays strategies on all zones.
func (s *search) measure(list []strategy.Strategy) ([][]measured, error) {
	return s.measureUnder(s.job.Limits, s.job.Zones, list)
}

func (s *search) measureUnder(limits *strategy.Limits, zones []sim.Zone, list []strategy.Strategy) ([][]measured, error) {
	out := make([][]measured, len(list))
	err := s.replay(limits, zones, list, func(i int, t *tally.Table, k int) {
		for z := range zones {
			out[i] = append(out[i], s.measured(t.Outcomes[k][z].Months))
		}
		if limits != nil && !slices.ContainsFunc(limits.Stages, temporary) {
			for _, b := range t.Breaches[k] {
				out[i][b.Zone].breaches++
			}
		}
	})
	return out, err
}

// replay replays strategies in batches and visits each: strategy i of the list is
// number k of a table.
func (s *search) replay(limits *strategy.Limits, zones []sim.Zone, list []strategy.Strategy,
	visit func(i int, t *tally.Table, k int)) error {
	const mostSums = 200_000 // limits the memory of one table
	job := s.job
	job.Limits, job.Zones = limits, zones
	if len(zones) != len(s.zones) {
		job.Wiring = nil // zones by themselves wait for no other
	}
	chunk := max(mostSums/(len(s.use)*len(job.Zones)), 8)
	for from := 0; from < len(list); from += chunk {
		job.Strategies = list[from:min(from+chunk, len(list))]
		table, err := s.runner.Run(s.ctx, &job, nil)
		if err != nil && s.begun && s.ctx.Err() != nil {
			s.stopped = true
			return errStopped
		}
		if err != nil {
			return err
		}
		for k := range job.Strategies {
			visit(from+k, table, k)
		}
		s.tried += len(job.Strategies) * len(job.Zones)
		if s.progress != nil {
			s.progress(s.tried)
		}
	}
	return nil
}

// measured returns the measures of one outcome from its months.
func (s *search) measured(months []sim.Sums) measured {
	all, in, out := s.sumsOf(months)
	n := float64(len(s.ranked.Years))
	return measured{stress: in.stress, brown: in.brown, off: out, runoff: float64(all.RunoffEvents) / n, grossMM: all.GrossMM / n}
}
