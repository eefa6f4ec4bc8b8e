package replay

import "loamledger/sim/strategy"

// SiteOf returns the site of a job as its strategies see it: for what can be
// asked of a strategy without a replay.
func SiteOf(job *Job) *strategy.Site {
	var s stage
	s.prepare(job, 1)
	return &s.site
}
