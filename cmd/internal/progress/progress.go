// Package progress shows how far a run is, on a terminal only.
package progress

import (
	"io"
	"time"

	"github.com/schollz/progressbar/v3"
)

// A Meter counts steps. Its methods may be called by several goroutines.
type Meter struct{ bar *progressbar.ProgressBar }

// New returns a meter of the given number of steps on w, or a silent one
// unless show is set.
func New(w io.Writer, show bool, steps int, what string) *Meter {
	if !show {
		return &Meter{}
	}
	return &Meter{progressbar.NewOptions(steps,
		progressbar.OptionSetWriter(w),
		progressbar.OptionSetDescription(what),
		progressbar.OptionThrottle(100*time.Millisecond),
		progressbar.OptionClearOnFinish(),
		progressbar.OptionSetWidth(30),
	)}
}

// Step counts one step.
func (m *Meter) Step() {
	if m.bar != nil {
		_ = m.bar.Add(1) // a progress bar that cannot draw is no reason to stop
	}
}

// Done takes the meter off the screen.
func (m *Meter) Done() {
	if m.bar != nil {
		_ = m.bar.Finish()
	}
}
