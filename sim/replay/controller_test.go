package replay_test

import (
	"math"

	"loamledger/sim"
	"loamledger/sim/strategy"
	"loamledger/weather/cal"
)

// A setting is a strategy in the plainest form: what is set, nil for what is
// not. It can be made into the engine's stack of parts, and it can be followed
// morning by morning by a controller that shares no code with them.
type setting struct {
	name     string
	programs []strategy.Program
	monthly  *strategy.Monthly
	et       *strategy.ETPercent
	rain     *strategy.RainHold
	freeze   *strategy.FrostHold
	refill   *strategy.Refill
	sensor   *strategy.Sensor
	round    float64
}

// strategy returns the stack of parts, late stages first, since order between
// stages must not matter.
func (s *setting) strategy() strategy.Strategy {
	st := strategy.Strategy{Name: s.name}
	add := func(p strategy.Part) { st.Parts = append(st.Parts, p) }
	if s.sensor != nil {
		add(*s.sensor)
	}
	if s.programs != nil {
		add(strategy.Programs{List: s.programs})
	}
	if s.refill != nil {
		add(s.refill)
	}
	if s.monthly != nil {
		add(*s.monthly)
	}
	if s.et != nil {
		add(*s.et)
	}
	if s.round > 0 {
		add(strategy.Round{StepMin: s.round})
	}
	if s.rain != nil {
		add(*s.rain)
	}
	if s.freeze != nil {
		add(*s.freeze)
	}
	return st
}

// A controller follows a setting on one zone.
type controller struct {
	s        *setting
	zone     int
	z        sim.Zone
	believed float64 // depletion by the refill's own balance [mm]
}

func newController(s *setting, zone int, z sim.Zone, startMM float64) *controller {
	return &controller{s: s, zone: zone, z: z, believed: startMM}
}

// runsOn tells whether a day rule holds, from the calendar alone.
func runsOn(r strategy.DayRule, d cal.Date) bool {
	_, _, day := d.YMD()
	switch r.Kind {
	case strategy.Weekdays:
		return r.Weekdays[d.Weekday()]
	case strategy.OddDays:
		return day%2 != 0
	case strategy.EvenDays:
		return day%2 == 0
	case strategy.Interval:
		for step := r.From; ; { // walk from the given day, back or forth
			if step == d {
				return true
			}
			if d > step {
				if step += cal.Date(r.Every); step > d {
					return false
				}
			} else if step -= cal.Date(r.Every); step < d {
				return false
			}
		}
	}
	return true
}

// morning decides. rain, eto and tmin end with yesterday; dr is only for the
// soil sensor.
func (c *controller) morning(today cal.Date, rain, eto, tmin, dr []float64) ([]modelRun, string) {
	s := c.s
	refills := s.refill != nil && s.refill.Zones[c.zone]
	var runs []modelRun
	if refills {
		if runsOn(s.refill.Days, today) {
			runs = append(runs, modelRun{0, s.refill.CycleMin, s.refill.SoakMin})
		}
	} else {
		for _, p := range s.programs {
			if p.Minutes[c.zone] > 0 && runsOn(p.Days, today) && (p.From == 0 || p.From <= today) && (p.To == 0 || p.To >= today) {
				minutes := p.Minutes[c.zone]
				if p.RampTo > 0 && today > p.From {
					// Evenly from the program's minutes on its first day to
					// RampTo times as many on its last.
					minutes += minutes * (p.RampTo - 1) * float64(today-p.From) / float64(p.To-p.From)
				}
				for range p.Starts {
					runs = append(runs, modelRun{minutes, p.Cycle, p.Soak})
				}
			}
		}
	}
	if len(runs) == 0 {
		return nil, "not scheduled"
	}
	if s.rain != nil {
		for back := 1; back <= s.rain.DryOut && back <= len(rain); back++ {
			if fell := rain[len(rain)-back]; fell > 0 && fell >= s.rain.AtLeastMM {
				return nil, "held: rain"
			}
		}
	}
	if s.freeze != nil && len(tmin) > 0 && tmin[len(tmin)-1] < s.freeze.BelowC {
		return nil, "held: frost"
	}
	factor := 1.0
	if s.monthly != nil {
		factor *= s.monthly.Share[today.Month()-1]
	}
	if s.et != nil && len(eto) > 0 {
		days, sum := 0, 0.0
		for k := len(eto) - 1; k >= 0 && days < s.et.Days; k-- {
			sum += eto[k]
			if s.et.SubtractRain {
				sum -= rain[k]
			}
			days++
		}
		factor *= math.Max(s.et.Min, math.Min(s.et.Max, sum/float64(days)/s.et.DesignEToMM))
	}
	perMM := 0.0
	if refills {
		if c.believed <= 0 || c.believed < s.refill.MAD*c.z.TAWMM {
			return nil, "not due"
		}
		more := 1 + s.refill.Extra
		if s.refill.Extra < 0 {
			if more = 1; c.z.Strips > 1 {
				more = 1 / (0.4 + 0.6*c.z.DULQ)
			}
		}
		perMM = 60 * more / (c.z.PRMMH * (1 - c.z.LossShare))
		runs[0].minutes = c.believed * perMM
	}
	kept := runs[:0]
	total := 0.0
	for _, r := range runs {
		r.minutes *= factor
		if s.round > 0 {
			r.minutes = math.Floor(r.minutes/s.round+0.5+1e-9) * s.round // ties go up, noise or not
		}
		if r.minutes > 0 {
			kept = append(kept, r)
			total += r.minutes
		}
	}
	if len(kept) == 0 {
		return nil, "scaled to zero"
	}
	why := "watered"
	if refills {
		why = "refilled"
		c.believed = math.Max(0, c.believed-total/perMM)
	}
	if g := s.sensor; g != nil && g.Zones[c.zone] {
		reading := 0.0
		switch g.Placement {
		case "driest":
			reading = dr[0]
		case "wettest":
			reading = dr[len(dr)-1]
		default:
			for _, d := range dr {
				reading += d / float64(len(dr))
			}
		}
		if reading < g.PermitAt*c.z.TAWMM {
			return nil, "sensor wet" // the refill does not know: its belief stands as if watered
		}
	}
	return kept, why
}

// evening lets the refill's own balance see the day: one even bucket in which
// all watering has entered. Its plants use what the calendar says.
func (c *controller) evening(today cal.Date, rain, eto float64) {
	bucket := c.z
	bucket.Strips, bucket.DULQ = 1, 1
	b := newModel(bucket, c.believed)
	b.step(calendarPlant(&c.z, today), rain, eto, nil)
	c.believed = b.dr[0]
}
