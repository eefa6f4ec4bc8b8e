package study

import (
	"context"
	"fmt"
	"math"
	"strings"

	"loamledger/plots"
	"loamledger/scenarios"
	"loamledger/scenarios/catalog"
	"loamledger/sim"
	"loamledger/sim/replay"
	"loamledger/weather"
	"loamledger/weather/quantity"
)

// restC is the monthly mean temperature below which a plant without one of its
// own is taken as dormant [°C]: cool-season shoots stop growing near 40 °F in the
// soil (North Carolina State University, Turf Council, 2005).
const restC = 4

// leastColdShare is the share of a strategy's water that raises an alarm.
const leastColdShare = 0.005

// maxColdNamed is how many strategies a sentence names if all are in it.
const maxColdNamed = 3

// dormantBelowC returns the monthly mean temperature below which the plants of a
// zone are dormant [°C], −Inf if they never are.
func dormantBelowC(z *scenarios.Zone) float64 {
	if z.PlantGroup == catalog.Evergreen || z.PlantGroup == catalog.Desert {
		return math.Inf(-1)
	}
	if plant, ok := catalog.FindPlant(z.Plant); ok && plant.T0C.Known() {
		return plant.T0C.Value
	}
	return restC
}

// A coldShare is the water of one strategy, and how much of it was applied in the
// cold [m³].
type coldShare struct{ all, frozen, dormant float64 }

// coldAlarms reports the strategies that water on freezing days or in months in
// which the plants are dormant, each with the share of its water.
func (l *Study) coldAlarms(ctx context.Context, again *replay.Runner) ([]plots.Alarm, error) {
	tmax, tmin := l.Weather.Data[weather.Tmax], l.Weather.Data[weather.Tmin]
	if tmax == nil || tmin == nil {
		return nil, nil
	}
	calendar := sim.NewCalendar(l.Job.Weather.Start, l.Job.Weather.Days())
	mean := make([]float64, len(tmin)) // of the month of each day
	cold := false
	warmest := math.Inf(-1)
	for z := range l.Scenario.Zones {
		warmest = max(warmest, dormantBelowC(&l.Scenario.Zones[z]))
	}
	for _, span := range calendar.Spans {
		sum := 0.0
		for i := span.From; i < span.To; i++ {
			sum += (tmax[i] + tmin[i]) / 2
			cold = cold || tmin[i] < 0
		}
		sum /= float64(span.To - span.From)
		cold = cold || sum < warmest
		for i := span.From; i < span.To; i++ {
			mean[i] = sum
		}
	}
	if !cold {
		return nil, nil
	}
	shares := make([]coldShare, len(l.Job.Strategies))
	at, zones := 0, len(l.Job.Zones) // sheets come by strategy and zone
	_, err := l.rerun(ctx, again, l.Job.Strategies, func(s *replay.Sheet) error {
		k, z := at/zones, at%zones
		if at++; k >= len(shares) {
			return nil // a reference
		}
		below := dormantBelowC(&l.Scenario.Zones[z])
		for i, dose := range s.Trace.Dose {
			if dose == 0 {
				continue
			}
			m3 := s.Plan.Doses[dose].GrossMM / 1000 * s.Zone.AreaM2
			shares[k].all += m3
			if tmin[i] < 0 {
				shares[k].frozen += m3
			}
			if mean[i] < below {
				shares[k].dormant += m3
			}
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	zero := quantity.Format(0, quantity.Temperature, l.Scenario.Units)
	out := l.coldAlarm(shares, plots.WaterFrozen, func(c *coldShare) float64 { return c.frozen },
		"Share of water applied on freezing days, with a minimum below "+zero+": %s. End the season earlier or add a frost hold.")
	return append(out, l.coldAlarm(shares, plots.WaterDormant, func(c *coldShare) float64 { return c.dormant },
		"Share of water applied in months in which the plants are dormant: %s. Set a season, or water by hand in dry winters only.")...), nil
}

// coldAlarm makes the alarms of one kind; of picks the water they are about.
func (l *Study) coldAlarm(shares []coldShare, code plots.AlarmCode, of func(*coldShare) float64, format string) []plots.Alarm {
	var out []plots.Alarm
	var texts []string
	for k := range shares {
		share := of(&shares[k]) / shares[k].all
		if !(share >= leastColdShare) {
			continue
		}
		name := l.Job.Strategies[k].Name
		out = append(out, plots.Alarm{Code: code, Strategy: name, Value: share, Unit: "1"})
		texts = append(texts, fmt.Sprintf("“%s” %.0f%%", name, max(100*share, 1)))
	}
	who := strings.Join(texts, ", ")
	if len(out) == len(shares) && len(out) > maxColdNamed {
		low, high := out[0].Value, out[0].Value
		for i := range out {
			low, high = min(low, out[i].Value), max(high, out[i].Value)
		}
		who = fmt.Sprintf("%.0f%% to %.0f%%, under every option", max(100*low, 1), max(100*high, 1))
	}
	for i := range out {
		out[i].Text = fmt.Sprintf(format, who)
	}
	return out
}
