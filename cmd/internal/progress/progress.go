// Package progress shows a progress bar on a terminal.
package progress

import (
	"io"
	"time"

	"github.com/schollz/progressbar/v3"
)

// A Meter counts steps. Its methods are safe for concurrent use.
type Meter struct{ bar *progressbar.ProgressBar }

// New returns a meter that draws on w if show is set, and draws nothing
// otherwise. steps is the number of steps expected, -1 if unknown; what is the
// label.
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

// Step adds one step.
func (m *Meter) Step() {
	if m.bar != nil {
		_ = m.bar.Add(1) // a bar that cannot be drawn must not stop the run
	}
}

// Done clears the bar.
func (m *Meter) Done() {
	if m.bar != nil {
		_ = m.bar.Finish()
	}
}
