package replay

import (
	"loamledger/sim"
	"loamledger/sim/strategy"
	"loamledger/sim/tally"
)

// SiteOf returns the site of a job as its strategies see it, without day records,
// for questions that need neither them nor a replay.
func SiteOf(job *Job) *strategy.Site {
	var s stage
	s.describe(job)
	return &s.site
}

// Breaks reports whether a strategy, alone at the job's site, requests what the
// limits forbid.
func Breaks(job *Job, st *strategy.Strategy) bool {
	var s stage
	alone := *job
	alone.Strategies = []strategy.Strategy{*st}
	s.prepare(&alone, 1)
	if len(s.changed[0]) > 0 {
		w, t := worker{stage: &s, planned: new(planned)}, tally.Table{Breaches: make([][]sim.Breach, 1)}
		w.compileChanged(0, &t)
		return len(t.Breaches[0]) > 0
	}
	var c strategy.Compiler
	c.Compile(&s.site, st, s.shares, make([]sim.Plan, len(job.Zones)))
	return len(c.Breaches) > 0
}

// ShallowDays returns, for each zone, the days on which plants need more water than
// its soil stores beyond RAW: see [sim.ShallowDays].
func ShallowDays(job *Job) []int {
	var s stage
	s.describe(job)
	var g sim.Growth
	var days []sim.Day
	out := make([]int, len(job.Zones))
	for z := range out {
		zone := &job.Zones[z]
		days = g.Forcing(days, zone, s.site.Weather, s.site.Calendar, &s.warmth, s.site.Spin)
		out[z] = sim.ShallowDays(zone, days)
	}
	return out
}

// RankYears orders the whole years of a job: see [tally.Table.RankYears].
func RankYears(job *Job) tally.Ranked {
	t := tally.Table{Spans: sim.NewCalendar(job.Weather.Start, job.Weather.Days()).Spans, South: job.South, Excluded: job.ExcludeYears}
	t.DrynessMM = tally.AppendDryness(nil, t.Spans, &job.Weather)
	return t.RankYears()
}
