package study

import (
	"context"

	"loamledger/sim"
	"loamledger/sim/calibrate"
	"loamledger/sim/replay"
	"loamledger/sim/strategy"
)

// A lever is a number of the scenario that is changed to see whether a meter shows it.
type lever struct {
	key string
	doc string // what is changed, and by how much
}

// An alteration is a lever with what it does to a zone.
type alteration struct {
	lever
	alter func(*sim.Zone)
}

// alterations are the levers: ten percent, or ten points of a loss.
func alterations() []alteration {
	return []alteration{
		{lever{"rate", "precipitation rate and flow +10%"}, func(z *sim.Zone) { z.PRMMH *= 1.1 }},
		{lever{"area", "watered area +10%, at the same rate"}, func(z *sim.Zone) { z.AreaM2 *= 1.1 }},
		{lever{"k", "plant coefficients +10%"}, func(z *sim.Zone) { z.ScaleK(1.1) }},
		{lever{"available-water", "available water of the root zone +10%"}, func(z *sim.Zone) { z.TAWMM *= 1.1 }},
		{lever{"uniformity", "uniformity -10%"}, func(z *sim.Zone) {
			if !z.WorkingStorage {
				z.DULQ = max(0.9*z.DULQ, 0.25)
			}
		}},
		{lever{"spray-loss", "10 points more lost in the air"}, func(z *sim.Zone) {
			z.LossShare = min(z.LossShare+0.1, (0.99+z.LossShare-z.OversprayShare-z.BrokenShare)/2)
		}},
	}
}

// levers lists the numbers that are changed.
func levers() (list []lever) {
	for _, v := range alterations() {
		list = append(list, v.lever)
	}
	return list
}

// A leverage is what the levers do to the water of one strategy through a meter, over the
// days of the periods that count.
type leverage struct {
	strategy string
	found    bool
	m3       float64   // without a change
	change   []float64 // relative, by lever; 0 is the same to the last digit
}

// levers replays every strategy with every lever.
func (l *Study) levers(ctx context.Context, c *Calibration) ([]leverage, error) {
	found := l.foundIndex()
	var out []leverage
	for s := range l.Job.Strategies {
		if l.Job.Strategies[s].Role != strategy.Cut {
			out = append(out, leverage{strategy: l.Job.Strategies[s].Name, found: s == found})
		}
	}
	plain, err := l.leveraged(ctx, c, func(*sim.Zone) {})
	if err != nil {
		return nil, err
	}
	for i := range out {
		out[i].m3 = plain[out[i].strategy]
	}
	for _, a := range alterations() {
		m3, err := l.leveraged(ctx, c, a.alter)
		if err != nil {
			return nil, err
		}
		for i := range out {
			change := 0.0
			if was, is := out[i].m3, m3[out[i].strategy]; is != was && was > 0 {
				change = is/was - 1
			}
			out[i].change = append(out[i].change, change)
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
		job.Zones, st.Stretches = alteredZones(l.Job.Zones, st.Stretches, c.metered.Zones, alter)
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
	for _, z := range c.metered.Zones {
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
