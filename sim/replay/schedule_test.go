package replay

import (
	"context"
	"errors"
	"testing"
)

// A schedule is dealt out with any number of sets and places, and ends however
// many goroutines there are and wherever the run fails.
func TestScheduleEnds(t *testing.T) {
	job := &Job{Zones: inventZones(3, 4), Weather: inventWeather(1, 400), Strategies: inventStrategies(3)}
	all := len(job.Zones) * (len(job.Strategies) + 2)
	fault := errors.New("disk full")
	for workers := 1; workers <= 12; workers++ {
		job.Workers = workers
		steps := make(chan struct{}, all)
		job.Step = func() { steps <- struct{}{} }
		var r Runner // used again, as after a failed run
		for stop := range all + 1 {
			seen := 0
			_, err := r.Run(context.Background(), job, func(*Sheet) error {
				if seen == stop {
					return fault
				}
				seen++
				return nil
			})
			if stop < all && !errors.Is(err, fault) {
				t.Fatalf("%d goroutines, failing at sheet %d: error %v", workers, stop, err)
			}
			if stop == all && (err != nil || seen != all) {
				t.Fatalf("%d goroutines: error %v after %d of %d sheets", workers, err, seen, all)
			}
			n := len(steps)
			for range n {
				<-steps
			}
			if want := seen / len(job.Zones); n != want {
				t.Fatalf("%d goroutines, failing at sheet %d: %d strategies told as done, want %d", workers, stop, n, want)
			}
		}
	}
}

func TestScheduleIsInterrupted(t *testing.T) {
	job := &Job{Zones: inventZones(3, 4), Weather: inventWeather(1, 400), Strategies: inventStrategies(3)}
	for _, workers := range []int{1, 2, 5} {
		for _, sink := range []func(*Sheet) error{nil, func(*Sheet) error { return nil }} {
			ctx, stop := context.WithCancel(context.Background())
			job.Workers, job.Step = workers, stop // after the first strategy
			_, err := Run(ctx, job, sink)
			if !errors.Is(err, context.Canceled) {
				t.Errorf("%d goroutines: error %v, want that of the context", workers, err)
			}
		}
	}
}
