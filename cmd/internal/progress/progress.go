// Package progress shows a progress bar on a terminal, and a few lines elsewhere.
package progress

import (
	"fmt"
	"io"
	"sync"
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

// Lines writes lines on long work to an output that is not a terminal, such as a log:
// one at the begin, one at the end, and one each time Every has passed. Its methods
// are safe for concurrent use.
type Lines struct {
	w     io.Writer
	what  string
	every time.Duration

	mu   sync.Mutex
	last time.Time
	n    int
}

// NewLines writes the first line.
func NewLines(w io.Writer, what string, every time.Duration) *Lines {
	fmt.Fprintf(w, "%s\n", what)
	return &Lines{w: w, what: what, every: every, last: time.Now()}
}

// At reports how much is done.
func (l *Lines) At(n int) {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.n = n
	if now := time.Now(); now.Sub(l.last) >= l.every {
		l.last = now
		fmt.Fprintf(l.w, "%s: %d zone replays so far\n", l.what, n)
	}
}

// Done writes the last line.
func (l *Lines) Done() {
	l.mu.Lock()
	defer l.mu.Unlock()
	fmt.Fprintf(l.w, "%s: ended after %d zone replays\n", l.what, l.n)
}
