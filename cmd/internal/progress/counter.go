package progress

import (
	"fmt"
	"io"
	"sync"
	"time"

	"loamledger/weather/quantity"
)

// A Counter counts things done of a known number and says how long the rest takes: as a
// bar on a terminal, elsewhere as a line each time Every has passed. Its methods are safe
// for concurrent use.
type Counter struct {
	meter *Meter
	w     io.Writer // nil for no lines
	what  string
	total int
	every time.Duration

	mu          sync.Mutex
	begun, last time.Time
	done, free  int // free were done before and took no time
}

// NewCounter begins to count to total. bar says that w is a terminal.
func NewCounter(w io.Writer, bar bool, total int, what string, every time.Duration) *Counter {
	now := time.Now()
	c := &Counter{meter: New(w, bar, total, what), what: what, total: total, every: every, begun: now, last: now}
	if !bar {
		c.w = w
	}
	return c
}

// Skip counts n that were done before.
func (c *Counter) Skip(n int) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.done, c.free = c.done+n, c.free+n
	for range n {
		c.meter.Step()
	}
}

// Step counts one more.
func (c *Counter) Step() {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.done++
	c.meter.Step()
	if now := time.Now(); c.w != nil && now.Sub(c.last) >= c.every {
		c.last = now
		fmt.Fprintln(c.w, c.line(now))
	}
}

// line says how much is done, how fast, and how long the rest takes.
func (c *Counter) line(now time.Time) string {
	own := c.done - c.free
	rate := float64(own) / now.Sub(c.begun).Seconds()
	left := time.Duration(float64(c.total-c.done) / rate * float64(time.Second))
	return fmt.Sprintf("%s: %s of %s, %.1f a second, about %v left", c.what, quantity.Whole(c.done), quantity.Whole(c.total), rate,
		left.Round(time.Second))
}

// Done clears the bar and returns how many were done here, and in what time.
func (c *Counter) Done() (n int, took time.Duration) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.meter.Done()
	return c.done - c.free, time.Since(c.begun)
}
