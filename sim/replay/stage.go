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
	courses   []course
	before    []course    // of the run before, which a zone with the same key takes over
	same      bool        // the weather is that of the run before
	courseOf  []int       // by zone
	shares    [][]float64 // of each zone
	reference []sim.Zone  // the zones of the least-water reference
	dry       []sim.Zone  // the zones of the no-watering reference: nothing leaks
	warmth    sim.Warmth
	knowing   bool        // a strategy keeps a balance of its own
	changed   [][]stretch // by strategy; none for one without changes
	varied    bool        // for other strategies than it was prepared for, and no references
	only      []bool      // zones to replay; nil for all
	decided   bool        // no decision is worked out from it
}

// A course is what weather alone decides on each day for all zones with the same
// plants, soil and rain rule. On large sites, many have the same.
type course struct {
	key     sim.DayKey
	zone    *sim.Zone // the first of them
	forcing []sim.Day
	growth  sim.Growth
	known   []sim.Day  // as [strategy.Site.Known]
	weather []sim.Sums // by span: sums that depend on weather alone
	made    bool       // it is computed
}

// describe sets up what is known about the site without day records.
func (s *stage) describe(job *Job) {
	s.job, s.varied, s.only = job, false, nil
	site := &s.site
	if c := site.Calendar; c == nil || c.Start != job.Weather.Start || c.Days() != job.Weather.Days() {
		site.Calendar = sim.NewCalendar(job.Weather.Start, job.Weather.Days())
	}
	site.Zones, site.Weather, site.Limits, site.Forecast = job.Zones, job.Weather, job.Limits, job.Forecast
	site.Wiring = job.Wiring
	site.Spin, site.StartShare = job.SpinUp(), 0
	if job.NoSpinUp {
		site.StartShare = job.StartShare
	}
}

// prepare computes the stage on n goroutines, course by course.
func (s *stage) prepare(job *Job, n int) {
	s.describe(job)
	zones, site := len(job.Zones), &s.site
	if !s.same {
		s.warmth.Fill(job.Weather, site.Spin)
	}
	s.knowing = !s.decided && strategy.KeepsBalance(job.Strategies)
	s.findCourses()
	s.compute(min(n, len(s.courses)))
	site.Growth, site.Known, site.Forcing = grow(site.Growth, zones), grow(site.Known, zones), grow(site.Forcing, zones)
	s.shares, s.reference = grow(s.shares, zones), grow(s.reference, zones)
	s.dry = append(s.dry[:0], job.Zones...)
	s.layOutChanged()
	for z := range job.Zones {
		zone, c := &job.Zones[z], &s.courses[s.courseOf[z]]
		site.Forcing[z], site.Known[z] = c.forcing, c.known
		site.Growth[z].Share(&c.growth, zone)
		site.Growth[z].MoveMarks(zone, job.MarkShifts)
		s.shares[z] = sim.AppendShares(s.shares[z][:0], zone.Strips, zone.DULQ)
		s.reference[z] = strategy.ReferenceZone(*zone)
		s.dry[z].LeakMMDay = 0
	}
}

// findCourses finds the zones that share a course.
func (s *stage) findCourses() {
	spare := s.before[:0] // what nobody took over is room for others
	if s.before, s.courseOf = s.courses, s.courseOf[:0]; !s.same {
		s.before, spare = nil, s.courses[:0]
	}
	s.courses = spare
	for z := range s.job.Zones {
		s.courseOf = append(s.courseOf, s.findCourse(&s.job.Zones[z]))
	}
}

// findCourse returns the course of a zone, which is not made yet if no zone before had it.
func (s *stage) findCourse(zone *sim.Zone) (at int) {
	key := zone.DayKey()
	for at < len(s.courses) && s.courses[at].key != key {
		at++
	}
	if at < len(s.courses) {
		return at
	}
	s.courses = grow(s.courses, at+1)
	c := &s.courses[at]
	c.made = false
	for k := range s.before {
		if was := &s.before[k]; was.made && was.key == key {
			*c, *was = *was, *c
			break
		}
	}
	c.key, c.zone = key, zone
	return at
}

// compute computes the courses on n goroutines.
func (s *stage) compute(n int) {
	if n < 2 {
		for i := range s.courses {
			s.course(&s.courses[i])
		}
		return
	}
	var next atomic.Int64
	var wg sync.WaitGroup
	for range n {
		wg.Go(func() {
			for i := int(next.Add(1)) - 1; i < len(s.courses); i = int(next.Add(1)) - 1 {
				s.course(&s.courses[i])
			}
		})
	}
	wg.Wait()
}

// course computes one course, unless it is made.
func (s *stage) course(c *course) {
	if c.made {
		return
	}
	c.made = true
	site, zone := &s.site, c.zone
	c.forcing = c.growth.Forcing(c.forcing, zone, site.Weather, site.Calendar, &s.warmth, site.Spin)
	c.known = c.known[:0]
	if s.knowing && zone.Seasonal() && s.warmth.Known() {
		c.known = sim.Forcing(c.known, zone, site.Weather, site.Calendar)
	}
	c.weather = grow(c.weather, len(site.Calendar.Spans))
	for i, span := range site.Calendar.Spans {
		c.weather[i] = sim.WeatherSums(zone, site.Weather, c.forcing, span)
	}
}

// vary sets the stage for other strategies on the same zones and weather.
func (s *stage) vary(job *Job, only []bool) {
	if strategy.KeepsBalance(job.Strategies) && !s.knowing {
		s.prepare(job, max(job.Workers, 1))
	}
	s.job, s.varied, s.only = job, true, only
	s.layOutChanged()
	for z := range s.site.Growth {
		s.site.Growth[z].MoveMarks(&job.Zones[z], job.MarkShifts)
	}
}

// resume sets the stage for a job with the zones and the weather that it was prepared for.
func (s *stage) resume(job *Job) {
	s.job, s.varied, s.only = job, false, nil
	s.layOutChanged()
	for z := range s.site.Growth {
		s.site.Growth[z].MoveMarks(&job.Zones[z], job.MarkShifts)
	}
}

// replays reports whether zone z is to be replayed.
func (s *stage) replays(z int) bool { return s.only == nil || s.only[z] }
