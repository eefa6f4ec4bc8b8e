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
	knowing   bool   // a strategy keeps a balance of its own
	varied    bool   // for other strategies than it was prepared for, and no references
	only      []bool // zones to replay; nil for all
}

// describe sets up what is known about the site without day records.
func (s *stage) describe(job *Job) {
	s.job, s.varied, s.only = job, false, nil
	site := &s.site
	if c := site.Calendar; c == nil || c.Start != job.Weather.Start || c.Days() != job.Weather.Days() {
		site.Calendar = sim.NewCalendar(job.Weather.Start, job.Weather.Days())
	}
	site.Zones, site.Weather, site.Limits, site.Forecast = job.Zones, job.Weather, job.Limits, job.Forecast
	site.Spin, site.StartShare = job.SpinUp(), 0
	if job.NoSpinUp {
		site.StartShare = job.StartShare
	}
	s.warmth.Fill(job.Weather, site.Spin)
}

// prepare computes the stage on n goroutines, zone by zone.
func (s *stage) prepare(job *Job, n int) {
	s.describe(job)
	zones, site := len(job.Zones), &s.site
	site.Growth, site.Known = grow(site.Growth, zones), grow(site.Known, zones)
	s.knowing = strategy.KeepsBalance(job.Strategies)
	site.Forcing, s.weather, s.shares, s.reference = grow(site.Forcing, zones), grow(s.weather, zones), grow(s.shares, zones),
		grow(s.reference, zones)
	s.dry = append(s.dry[:0], job.Zones...)
	if n = min(n, zones); n < 2 {
		for z := range job.Zones {
			s.zone(z)
		}
		return
	}
	var next atomic.Int64
	var wg sync.WaitGroup
	for range n {
		wg.Go(func() {
			for z := int(next.Add(1)) - 1; z < zones; z = int(next.Add(1)) - 1 {
				s.zone(z)
			}
		})
	}
	wg.Wait()
}

// vary sets the stage for other strategies on the same zones and weather.
func (s *stage) vary(job *Job, only []bool) {
	if strategy.KeepsBalance(job.Strategies) && !s.knowing {
		s.prepare(job, max(job.Workers, 1))
	}
	s.job, s.varied, s.only = job, true, only
	for z := range s.site.Growth {
		s.site.Growth[z].MoveMarks(&job.Zones[z], job.MarkShifts)
	}
}

// replays reports whether zone z is to be replayed.
func (s *stage) replays(z int) bool { return s.only == nil || s.only[z] }

// zone computes the shared data of zone z.
func (s *stage) zone(z int) {
	site, zone := &s.site, &s.job.Zones[z]
	site.Forcing[z] = site.Growth[z].Forcing(site.Forcing[z], zone, site.Weather, site.Calendar, &s.warmth, site.Spin)
	site.Known[z] = site.Known[z][:0]
	if s.knowing && zone.Seasonal() && s.warmth.Known() {
		site.Known[z] = sim.Forcing(site.Known[z], zone, site.Weather, site.Calendar)
	}
	site.Growth[z].MoveMarks(zone, s.job.MarkShifts)
	s.weather[z] = grow(s.weather[z], len(site.Calendar.Spans))
	for i, span := range site.Calendar.Spans {
		s.weather[z][i] = sim.WeatherSums(zone, site.Weather, site.Forcing[z], span)
	}
	s.shares[z] = sim.AppendShares(s.shares[z][:0], zone.Strips, zone.DULQ)
	s.reference[z] = strategy.ReferenceZone(*zone)
	s.dry[z].LeakMMDay = 0
}
