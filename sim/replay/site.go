package replay

import "loamledger/sim/strategy"

// Site returns the site of a job as its strategies see it, for what is told
// before a replay: whether programs fit, and what parts come to.
func Site(job *Job) *strategy.Site {
	var s stage
	s.prepare(job)
	return &s.site
}
