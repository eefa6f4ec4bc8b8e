package replay

import (
	"context"
	"sync"

	"loamledger/sim/tally"
)

// A schedule distributes one run over several goroutines, zone by zone, and passes
// sheets on ordered by strategy and zone. Items are dealt in a fixed order, and an
// item waits only for earlier items, so there is no deadlock:
//
//   - the plans of a strategy wait for a set of plans to be free, that of the
//     strategy so many back as there are sets;
//   - a zone waits for its strategy's plans and, with a sink, for a place.
//
// Plans, or where zones can be planned one by one what their plans have in
// common, are worked out one set ahead, for that cannot be shared out by zone.
type schedule struct {
	items  []item
	sets   []planned
	places []place // of the zones under way; none without a sink

	mu       sync.Mutex
	changed  sync.Cond
	next     int    // of the items
	ready    []bool // by strategy: its plans are ready
	left     []int  // by strategy: zones not yet finished
	replayed []bool // by strategy and zone, in order
	handed   int    // zones that the sink has received, in that order
	err      error  // the first error; nothing starts after it
}

// An item is one zone under one strategy to replay or, with zone −1, the plans of
// a strategy to make.
type item struct{ strategy, zone int }

// prepare lays out a run of the given strategies and zones for n goroutines.
func (c *schedule) prepare(strategies, zones, n int, sink bool) {
	c.changed.L = &c.mu
	sets := max(n, 2)
	c.sets = grow(c.sets, sets)
	c.places = c.places[:0]
	if sink {
		c.places = grow(c.places, n+2)
	}
	c.items = c.items[:0]
	for s := range min(sets-1, strategies) {
		c.items = append(c.items, item{s, -1})
	}
	for s := range strategies {
		for z := range zones {
			c.items = append(c.items, item{s, z})
			// By now the zones are done with whose plans these take the place of.
			if ahead := s + sets - 1; ahead < strategies && z == min(n, zones)-1 {
				c.items = append(c.items, item{ahead, -1})
			}
		}
	}
	c.next, c.handed, c.err = 0, 0, nil
	c.ready, c.left, c.replayed = grow(c.ready, strategies), grow(c.left, strategies), grow(c.replayed, strategies*zones)
	clear(c.ready)
	clear(c.replayed)
	for s := range c.left {
		c.left[s] = zones
	}
}

func (c *schedule) setOf(s int) *planned { return &c.sets[s%len(c.sets)] }

func (c *schedule) placeOf(unit int) *place { return &c.places[unit%len(c.places)] }

// take waits until the next item may begin and returns it. ok is false if there is
// none or the run has failed.
func (c *schedule) take(zones int) (it item, ok bool) {
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.next == len(c.items) {
		return it, false
	}
	it = c.items[c.next]
	c.next++
	for c.err == nil && !c.mayBegin(it, zones) {
		c.changed.Wait()
	}
	return it, c.err == nil
}

func (c *schedule) mayBegin(it item, zones int) bool {
	if it.zone < 0 {
		before := it.strategy - len(c.sets)
		return before < 0 || c.left[before] == 0
	}
	return c.ready[it.strategy] && (len(c.places) == 0 || it.strategy*zones+it.zone-c.handed < len(c.places))
}

// did notes that an item is done or has failed, and reports whether it was the
// last of its strategy.
func (c *schedule) did(it item, zones int, err error) (last bool) {
	c.mu.Lock()
	defer c.mu.Unlock()
	defer c.changed.Broadcast()
	switch {
	case err != nil:
		c.fail(err)
	case it.zone < 0:
		c.ready[it.strategy] = true
	case len(c.places) > 0: // done with only when it has been handed on
		c.replayed[it.strategy*zones+it.zone] = true
	default:
		c.left[it.strategy]--
		return c.left[it.strategy] == 0
	}
	return false
}

func (c *schedule) fail(err error) {
	if c.err == nil {
		c.err = err
	}
}

// await waits until a zone has been replayed. It returns false if the run has failed.
func (c *schedule) await(unit int) bool {
	c.mu.Lock()
	defer c.mu.Unlock()
	for c.err == nil && !c.replayed[unit] {
		c.changed.Wait()
	}
	return c.err == nil
}

// passed notes that the sink has received the next zone, of strategy s, and reports
// whether it was the strategy's last.
func (c *schedule) passed(s int, err error) (last bool) {
	c.mu.Lock()
	defer c.mu.Unlock()
	defer c.changed.Broadcast()
	if err != nil {
		c.fail(err)
		return false
	}
	c.handed++
	c.left[s]--
	return c.left[s] == 0
}

// shared replays the job on the given workers. It passes sheets to the sink, if
// any, from the calling goroutine.
func (r *Runner) shared(ctx context.Context, workers []worker, sink func(*Sheet) error) error {
	c, job := &r.schedule, r.stage.job
	zones := len(job.Zones)
	c.prepare(len(r.table.Strategies), zones, len(workers), sink != nil)
	step := func(last bool) {
		if last && job.Step != nil {
			job.Step()
		}
	}
	var wg sync.WaitGroup
	for i := range workers {
		wg.Go(func() {
			for it, ok := c.take(zones); ok; it, ok = c.take(zones) {
				err := ctx.Err()
				if err == nil {
					workers[i].item(it, c, &r.table)
				}
				step(c.did(it, zones, err))
			}
		})
	}
	if sink != nil {
		for unit := range c.replayed {
			if !c.await(unit) {
				break
			}
			s, z := unit/zones, unit%zones
			place, set := c.placeOf(unit), c.setOf(s)
			plan := &place.plan
			if !set.apart && set.pieces == nil {
				plan = &set.plans[z]
			}
			sheet := r.stage.sheet(&r.table, s, z, plan, set.pieces, &place.trace)
			step(c.passed(s, sink(&sheet)))
		}
	}
	wg.Wait()
	return c.err
}

// item processes one item.
func (w *worker) item(it item, c *schedule, t *tally.Table) {
	w.planned = c.setOf(it.strategy)
	if it.zone < 0 {
		w.compile(it.strategy, t)
		return
	}
	if !w.replays(it.zone) {
		return
	}
	if len(c.places) == 0 {
		w.zone(it.strategy, it.zone, t, &w.own.plan, nil)
		return
	}
	place := c.placeOf(it.strategy*len(w.job.Zones) + it.zone)
	w.zone(it.strategy, it.zone, t, &place.plan, &place.trace)
}
