package replay

import (
	"sync"
	"sync/atomic"

	"loamledger/sim"
	"loamledger/sim/strategy"
)

// A stage is the data shared by all strategies of a job, computed once.
type stage struct {
	job       *Job
	site      strategy.Site
	shares    [][]float64  // of each zone
	weather   [][]sim.Sums // by zone, then span: sums that depend on weather alone
	reference []sim.Zone   // the zones of the least-water reference
	dry       []sim.Zone   // the zones of the no-watering reference: nothing leaks
	warmth    sim.Warmth
	knowing   bool // a strategy keeps a balance of its own
	// rowless is set if nobody wants daily rows. Coefficients and activities are then
	// dropped, zone by zone, once the days that need them are worked out.
	rowless bool
}

// prepare computes the stage on n goroutines, zone by zone.
func (s *stage) prepare(job *Job, n int) {
	days, zones := job.Weather.Days(), len(job.Zones)
	s.job = job
	site := &s.site
	if c := site.Calendar; c == nil || c.Start != job.Weather.Start || c.Days() != days {
		site.Calendar = sim.NewCalendar(job.Weather.Start, days)
	}
	site.Zones, site.Weather, site.Limits, site.Forecast = job.Zones, job.Weather, job.Limits, job.Forecast
	site.Spin, site.StartShare = job.SpinUp(), 0
	if job.NoSpinUp {
		site.StartShare = job.StartShare
	}
	s.warmth.Fill(job.Weather, site.Spin)
	site.Growth, site.Known = grow(site.Growth, zones), grow(site.Known, zones)
	s.knowing = strategy.KeepsBalance(job.Strategies)
	site.Forcing, s.weather, s.shares, s.reference = grow(site.Forcing, zones), grow(s.weather, zones), grow(s.shares, zones),
		grow(s.reference, zones)
	s.dry = append(s.dry[:0], job.Zones...)
	if n = min(n, zones); n < 2 {
		var spare columns
		for z := range job.Zones {
			s.zone(z, &spare)
		}
		return
	}
	var next atomic.Int64
	var wg sync.WaitGroup
	for range n {
		wg.Go(func() {
			var spare columns
			for z := int(next.Add(1)) - 1; z < zones; z = int(next.Add(1)) - 1 {
				s.zone(z, &spare)
			}
		})
	}
	wg.Wait()
}

// columns are memory for what only daily rows need, passed from zone to zone.
type columns struct{ k, activity []float64 }

// zone computes the shared data of zone z.
func (s *stage) zone(z int, spare *columns) {
	site, zone := &s.site, &s.job.Zones[z]
	g := &site.Growth[z]
	if s.rowless {
		g.K, g.Activity = spare.k, spare.activity
	}
	site.Forcing[z] = g.Forcing(site.Forcing[z], zone, site.Weather, site.Calendar, &s.warmth, site.Spin)
	if s.rowless {
		spare.k, spare.activity = g.K, g.Activity
		g.K, g.Activity = nil, nil
	}
	site.Known[z] = site.Known[z][:0]
	if s.knowing && zone.Seasonal() && s.warmth.Known() {
		site.Known[z] = sim.Forcing(site.Known[z], zone, site.Weather, site.Calendar)
	}
	s.weather[z] = grow(s.weather[z], len(site.Calendar.Spans))
	for i, span := range site.Calendar.Spans {
		s.weather[z][i] = sim.WeatherSums(zone, site.Weather, site.Forcing[z], span)
	}
	s.shares[z] = sim.AppendShares(s.shares[z][:0], zone.Strips, zone.DULQ)
	s.reference[z] = strategy.ReferenceZone(*zone)
	s.dry[z].LeakMMDay = 0
}
