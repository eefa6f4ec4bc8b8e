package replay

import "loamledger/sim/strategy"

// SiteOf returns the site of a job as its strategies see it, for questions that
// need no replay.
func SiteOf(job *Job) *strategy.Site {
	var s stage
	s.prepare(job, 1)
	return &s.site
}
