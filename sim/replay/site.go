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
	var c strategy.Compiler
	if st.SetAhead() && len(st.Stretches) == 0 { // it needs no day records
		s.describe(&alone)
		for z := range job.Zones {
			s.shares = append(s.shares, sim.Shares(job.Zones[z].Strips, job.Zones[z].DULQ))
		}
		c.Compile(&s.site, st, s.shares, make([]sim.Plan, len(job.Zones)))
		return len(c.Breaches) > 0
	}
	s.prepare(&alone, 1)
	if len(s.changed[0]) > 0 {
		w, t := worker{stage: &s, planned: new(planned)}, tally.Table{Breaches: make([][]sim.Breach, 1)}
		w.compileChanged(0, &t)
		return len(t.Breaches[0]) > 0
	}
	c.Compile(&s.site, st, s.shares, make([]sim.Plan, len(job.Zones)))
	return len(c.Breaches) > 0
}

// Overdraws lists the days on which controllers together draw more from a meter than it
// allows, under each strategy of the job: see [strategy.Compiler.Overdraws].
func Overdraws(job *Job) [][]strategy.Overdraw {
	out := make([][]strategy.Overdraw, len(job.Strategies))
	if !job.Wiring.Shared() {
		return out
	}
	var s stage
	s.prepare(job, 1)
	var c strategy.Compiler
	for k := range job.Strategies {
		if len(s.changed[k]) == 0 {
			out[k] = c.Overdraws(&s.site, &job.Strategies[k], s.shares)
			continue
		}
		for i := range s.changed[k] {
			p, to := &s.changed[k][i], job.Weather.Days()
			if i+1 < len(s.changed[k]) {
				to = s.changed[k][i+1].from
			}
			for _, o := range c.Overdraws(&p.site, &p.own, p.shares) {
				if day := int(o.Date - job.Weather.Start); day >= p.from && day < to {
					out[k] = append(out[k], o)
				}
			}
		}
	}
	return out
}

// ShallowDays returns, for each zone, the days on which plants need more water than
// its soil stores beyond RAW: see [sim.ShallowDays].
func ShallowDays(job *Job) []int {
	var s stage
	s.describe(job)
	s.warmth.Fill(job.Weather, s.site.Spin)
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
