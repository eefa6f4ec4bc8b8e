package replay_test

import (
	"fmt"
	"math"

	"loamledger/sim"
	"loamledger/weather/cal"
)

// This file is a second, plain telling of the day, written from the equations
// and sharing no code with the engine: one strip after another, one cycle after
// another, nothing worked out ahead. It is slow on purpose.

// A modelRun is one start of a zone.
type modelRun struct{ minutes, cycle, soak float64 }

// A modelDay is what a day did to a zone, as means over its strips [mm].
type modelDay struct {
	minutes, gross, sprayLoss, irrRunoff          float64
	overspray, broken, fillDrain, leak            float64
	rainRunoff, rainEvaporated, percIrr, percRain float64
	etc, eta, ks, raw                             float64
	before, after, lowQuarter                     float64
	pastRAW                                       bool
	lowETa                                        float64 // of the driest quarter
	modelPlant
	modelStress
}

// A modelPlant is what grows on a day.
type modelPlant struct {
	k, a, t30           float64
	active, knowsT30    bool
	p                   float64
	tolerance, browning float64
}

// A modelStress is how a day is graded.
type modelStress struct {
	hasR7, dryWinter                bool
	r7Zone, r7Quarter               float64
	stressZone, stressQuarter       bool
	brownZone, brownQuarter, atEdge bool
}

// A model is the soil of one zone: the depletion of each strip.
type model struct {
	z  sim.Zone
	dr []float64
}

func newModel(z sim.Zone, startMM float64) *model {
	m := &model{z: z, dr: make([]float64, z.Strips)}
	for i := range m.dr {
		m.dr[i] = startMM
	}
	return m
}

// cycles counts the valve openings of a run.
func (r modelRun) cycles() (n int) {
	for left := r.minutes; left > 1e-6*r.cycle; n++ {
		if r.cycle <= 0 || left <= r.cycle {
			return n + 1
		}
		left -= r.cycle
	}
	return n
}

// share returns w_i = 1 − c + c(2i+1)/N with c = (1 − DU_LQ)/0.75.
func (m *model) share(i int) float64 {
	n := float64(m.z.Strips)
	if n == 1 {
		return 1
	}
	c := (1 - m.z.DULQ) / 0.75
	return 1 - c + c*(2*float64(i)+1)/n
}

// shed follows one start of a strip watered at rate [mm/h] through its cycles
// and returns what runs off [mm].
func (m *model) shed(rate float64, run modelRun) float64 {
	surface, off := 0.0, 0.0
	for left := run.minutes; left > 0; {
		t := left
		if run.cycle > 0 && t > run.cycle {
			t = run.cycle
		}
		left -= t
		surface += (rate - m.z.IntakeMMH) * t / 60
		if surface < 0 {
			surface = 0
		}
		if surface > m.z.SurfaceStorageMM {
			off += surface - m.z.SurfaceStorageMM
			surface = m.z.SurfaceStorageMM
		}
		if left > 0 { // a pause follows
			surface -= m.z.IntakeMMH * run.soak / 60
			if surface < 0 {
				surface = 0
			}
		}
	}
	return off
}

// curveRunoff is the NRCS method with initial abstraction 0.2 S, in inches as
// TR-55 prints it.
func curveRunoff(rainMM, cn float64) float64 {
	p := rainMM / 25.4
	s := 1000/cn - 10
	if p <= 0.2*s {
		return 0
	}
	return (p - 0.2*s) * (p - 0.2*s) / (p + 0.8*s) * 25.4
}

// step takes the zone through one day and returns the day and the worst
// residual of the law of balance over its strips [mm].
func (m *model) step(plant modelPlant, rain, eto float64, runs []modelRun) (d modelDay, residual float64) {
	d.modelPlant = plant
	z := &m.z
	n := len(m.dr)
	mean := 1 / float64(n)
	for _, r := range runs {
		d.minutes += r.minutes
	}
	run := d.minutes * z.PRMMH / 60
	d.sprayLoss, d.overspray, d.broken = run*z.LossShare, run*z.OversprayShare, run*z.BrokenShare
	d.leak = z.LeakMMDay // whether or not the zone runs
	d.gross = run + d.leak

	in := rain // the part of the rain that enters
	switch {
	case rain < 0.2*eto && !z.Rain.KeepLight:
		d.rainEvaporated, in = rain, 0
	case z.Rain.Method == sim.FixedShare:
		d.rainRunoff = rain * (1 - z.Rain.EffectiveShare)
		in = rain - d.rainRunoff
	default:
		d.rainRunoff = curveRunoff(rain, z.Rain.CN)
		in = rain - d.rainRunoff
	}

	d.etc = plant.k * eto
	p := plant.p
	if !z.PConstant {
		p += 0.04 * (5 - d.etc)
		p = math.Max(0.1, math.Min(0.8, p))
	}
	d.raw = p * z.TAWMM

	quarter := n / 4
	if n == 1 {
		quarter = 1
	}
	for i, dr := range m.dr {
		before := dr
		w := m.share(i)
		applied, off, filled := 0.0, 0.0, 0.0
		for _, r := range runs {
			if r.minutes <= 0 {
				continue
			}
			// Pipes fill and drain at each cycle; what that takes is missing at
			// the heads, evenly over the run and at most all of it.
			reach := z.PRMMH * (1 - z.LossShare - z.OversprayShare - z.BrokenShare)
			pipes := math.Min(z.FillDrainMM*float64(r.cycles()), reach*r.minutes/60)
			filled += pipes
			rate := (reach - pipes*60/r.minutes) * w
			applied += rate * r.minutes / 60
			off += m.shed(rate, r)
		}
		percIrr, percRain := 0.0, 0.0
		dr -= applied - off
		if dr < 0 {
			percIrr, dr = -dr, 0
		}
		dr -= in
		if dr < 0 {
			percRain, dr = -dr, 0
		}
		low := i < quarter
		if low {
			d.lowQuarter += dr / float64(quarter)
		}
		ks := 1.0
		if dr > d.raw {
			ks = (z.TAWMM - dr) / ((1 - p) * z.TAWMM)
		}
		eta := math.Min(ks*d.etc, z.TAWMM-dr)
		dr += eta
		m.dr[i] = dr
		if low {
			d.lowETa += eta / float64(quarter)
		}

		d.irrRunoff += off * mean
		d.percIrr += percIrr * mean
		d.percRain += percRain * mean
		d.eta += eta * mean
		d.ks += ks * mean
		d.before += before * mean
		d.after += dr * mean

		d.fillDrain += filled * w * mean
		r := run*w + rain - run*w*(z.LossShare+z.OversprayShare+z.BrokenShare) - filled*w - off -
			d.rainRunoff - d.rainEvaporated - percIrr - percRain - eta - (before - dr)
		// Depletion is held to 0..TAW, eq. 86; anything else is a broken day.
		if dr < 0 || dr > z.TAWMM*(1+1e-15) {
			r = math.Inf(1)
		}
		residual = math.Max(residual, math.Abs(r))
	}
	d.pastRAW = d.lowQuarter > d.raw
	return d, residual
}

// A modelWeather is a record as the model walks it: the spin-up days, which
// are the first days of the record once more, and the record.
type modelWeather struct {
	date            []cal.Date
	rain, eto, tmin []float64
	mean            []float64 // (Tmax + Tmin)/2; nil without temperatures
	spin            int
}

func walk(w sim.Weather, noSpinUp bool) modelWeather {
	n := len(w.RainMM)
	var m modelWeather
	if !noSpinUp && n >= 365 { // a shorter record starts from a full root zone
		m.spin = 365
	}
	for i := range m.spin + n {
		k := i
		if i >= m.spin {
			k = i - m.spin
		}
		m.date = append(m.date, w.Start+cal.Date(k))
		m.rain, m.eto, m.tmin = append(m.rain, w.RainMM[k]), append(m.eto, w.EToMM[k]), append(m.tmin, w.TminC[k])
		if w.TmaxC != nil {
			m.mean = append(m.mean, (w.TmaxC[k]+w.TminC[k])/2)
		}
	}
	return m
}

// modelReplay replays zone z of a site under a setting and returns the days of
// the record with the reasons given for them.
func modelReplay(zone int, z sim.Zone, s *setting, w modelWeather, startShare float64) ([]modelDay, []string, error) {
	m := newModel(z, startShare*z.TAWMM)
	c := newController(s, zone, z, startShare*z.TAWMM)
	g := &modelGarden{z: z}
	var days []modelDay
	var reasons []string
	for i := range w.date {
		// The controller is handed the past alone, so it cannot peek.
		runs, why := c.morning(w.date[i], w.rain[:i], w.eto[:i], w.tmin[:i], m.dr)
		d, residual := m.step(g.day(&w, i), w.rain[i], w.eto[i], runs)
		if residual > 1e-9 {
			return nil, nil, fmt.Errorf("day %v of zone %q: a strip is off balance by %g mm", w.date[i], z.Name, residual)
		}
		c.evening(w.date[i], w.rain[i], w.eto[i])
		if i >= w.spin {
			grade(append(days, d), z.TAWMM, &d)
			days, reasons = append(days, d), append(reasons, why)
		}
	}
	return days, reasons, nil
}
