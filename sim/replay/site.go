package replay

import (
	"loamledger/sim"
	"loamledger/sim/strategy"
)

// SiteOf returns the site of a job as its strategies see it, for questions that
// need no replay.
func SiteOf(job *Job) *strategy.Site {
	var s stage
	s.prepare(job, 1)
	return &s.site
}

// OutlineOf returns the site of a job without what its zones need on each day, in
// which a large site is large: enough for questions about weather and calendar.
func OutlineOf(job *Job) *strategy.Site {
	return &strategy.Site{
		Zones: job.Zones, Weather: job.Weather, Calendar: sim.NewCalendar(job.Weather.Start, job.Weather.Days()),
		Limits: job.Limits, Forecast: job.Forecast, Spin: job.SpinUp(),
	}
}
