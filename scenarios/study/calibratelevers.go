package study

import (
	"context"

	"loamledger/sim"
	"loamledger/sim/calibrate"
	"loamledger/sim/replay"
	"loamledger/sim/strategy"
)

// A Lever is a number of the scenario that is changed to see whether a meter shows it.
type Lever struct {
	Key string
	Doc string // what is changed, and by how much
}

// An alteration is a lever with what it does to a zone.
type alteration struct {
	Lever
	alter func(*sim.Zone)
}

// alterations are the levers: ten percent, or ten points of a loss.
func alterations() []alteration {
	return []alteration{
		{Lever{"rate", "precipitation rate and flow +10%"}, func(z *sim.Zone) { z.PRMMH *= 1.1 }},
		{Lever{"area", "watered area +10%, at the same rate"}, func(z *sim.Zone) { z.AreaM2 *= 1.1 }},
		{Lever{"k", "plant coefficients +10%"}, func(z *sim.Zone) { z.ScaleK(1.1) }},
		{Lever{"available-water", "available water of the root zone +10%"}, func(z *sim.Zone) { z.TAWMM *= 1.1 }},
		{Lever{"uniformity", "uniformity -10%"}, func(z *sim.Zone) {
			if !z.WorkingStorage {
				z.DULQ = max(0.9*z.DULQ, 0.25)
			}
		}},
		{Lever{"spray-loss", "10 points more lost in the air"}, func(z *sim.Zone) {
			z.LossShare = min(z.LossShare+0.1, (0.99+z.LossShare-z.OversprayShare-z.BrokenShare)/2)
		}},
	}
}

// Levers lists the numbers that are changed.
func Levers() (list []Lever) {
	for _, v := range alterations() {
		list = append(list, v.Lever)
	}
	return list
}

// A Leverage is what the levers do to the water of one strategy through a meter, over the
// days of the periods that count.
type Leverage struct {
	Strategy string
	Found    bool
	M3       float64   // without a change
	Change   []float64 // relative, by lever; 0 is the same to the last digit
}

// levers replays every strategy with every lever.
func (l *Study) levers(ctx context.Context, c *Calibration) ([]Leverage, error) {
	found := l.foundIndex()
	var out []Leverage
	for s := range l.Job.Strategies {
		if l.Job.Strategies[s].Role != strategy.Cut {
			out = append(out, Leverage{Strategy: l.Job.Strategies[s].Name, Found: s == found})
		}
	}
	plain, err := l.leveraged(ctx, c, func(*sim.Zone) {})
	if err != nil {
		return nil, err
	}
	for i := range out {
		out[i].M3 = plain[out[i].Strategy]
	}
	for _, a := range alterations() {
		m3, err := l.leveraged(ctx, c, a.alter)
		if err != nil {
			return nil, err
		}
		for i := range out {
			change := 0.0
			if was, is := out[i].M3, m3[out[i].Strategy]; is != was && was > 0 {
				change = is/was - 1
			}
			out[i].Change = append(out[i].Change, change)
		}
	}
	return out, nil
}

// leveraged returns the water of every strategy through the meter in the periods that
// count, with the zones of the meter altered [m³].
func (l *Study) leveraged(ctx context.Context, c *Calibration, alter func(*sim.Zone)) (map[string]float64, error) {
	job := l.Job
	job.Step, job.MarkShifts, job.Brief = nil, nil, true
	job.Strategies = nil
	for s := range l.Job.Strategies {
		st := l.Job.Strategies[s]
		if st.Role == strategy.Cut {
			continue
		}
		job.Zones, st.Stretches = alteredZones(l.Job.Zones, st.Stretches, c.Metered.Zones, alter)
		job.Strategies = append(job.Strategies, st)
	}
	counts := make([]bool, job.Weather.Days())
	for i := range c.Rows {
		if r := &c.Rows[i]; r.Part == calibrate.Fitted || r.Part == calibrate.Held {
			for d := r.From; d < r.To; d++ {
				counts[d-job.Weather.Start] = true
			}
		}
	}
	of := make([]bool, len(job.Zones))
	for _, z := range c.Metered.Zones {
		of[z] = true
	}
	out := map[string]float64{}
	at := 0
	_, err := replay.Run(ctx, &job, func(s *replay.Sheet) error {
		if at++; !of[(at-1)%len(of)] {
			return nil
		}
		for i := range counts {
			if counts[i] {
				out[s.Strategy] += s.Volume(i)
			}
		}
		return nil
	})
	return out, err
}
