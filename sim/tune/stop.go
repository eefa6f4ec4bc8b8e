package tune

import "errors"

// errStopped is returned by a replay after the context of a search has ended. The
// search then returns the best it has found.
var errStopped = errors.New("the search was interrupted")

// halted returns nil for errStopped, after which a search goes on with what it
// knows, and any other error as it is.
func (s *search) halted(err error) error {
	if errors.Is(err, errStopped) {
		return nil
	}
	return err
}

// none returns the error of the context if the search was stopped before anything
// was known about a zone: cost is that of the best of all zones.
func (s *search) none(c cost) error {
	if s.stopped && c.over >= 1e9 {
		return s.ctx.Err()
	}
	return nil
}
