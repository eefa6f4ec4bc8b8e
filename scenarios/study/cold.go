package study

import (
	"fmt"
	"math"
	"strings"

	"loamledger/plots"
	"loamledger/scenarios"
	"loamledger/scenarios/catalog"
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

// coldWater adds up the water that strategies apply in the cold, from the sheets of
// a replay.
type coldWater struct {
	shares    []coldShare // by strategy
	zones, at int         // sheets come by strategy and zone
	tminC     []float64
	meanC     []float64 // of the month of each day
	belowC    []float64 // monthly mean below which the plants are dormant, by zone
}

// newColdWater returns nil if no day of the record is cold or the temperature is not
// known.
func newColdWater(l *Study) *coldWater {
	tmax, tmin := l.Weather.Data[weather.Tmax], l.Weather.Data[weather.Tmin]
	if tmax == nil || tmin == nil {
		return nil
	}
	c := &coldWater{shares: make([]coldShare, len(l.Job.Strategies)), zones: len(l.Job.Zones), tminC: tmin, meanC: make([]float64, len(tmin))}
	cold := false
	warmest := math.Inf(-1)
	for z := range l.Scenario.Zones {
		c.belowC = append(c.belowC, dormantBelowC(&l.Scenario.Zones[z]))
		warmest = max(warmest, c.belowC[z])
	}
	for _, span := range replay.SiteOf(&l.Job).Calendar.Spans {
		sum := 0.0
		for i := span.From; i < span.To; i++ {
			sum += float64((tmax[i] + tmin[i]) / 2)
			cold = cold || tmin[i] < 0
		}
		sum /= float64(span.To - span.From)
		cold = cold || sum < warmest
		for i := span.From; i < span.To; i++ {
			c.meanC[i] = sum
		}
	}
	if !cold {
		return nil
	}
	return c
}

// beside returns a sink that passes sheets to another, nil for none, and to c; c may
// be nil.
func (c *coldWater) beside(sink func(*replay.Sheet) error) func(*replay.Sheet) error {
	if c == nil {
		return sink
	}
	return func(s *replay.Sheet) error {
		c.take(s)
		if sink == nil {
			return nil
		}
		return sink(s)
	}
}

// take adds the water of a sheet.
func (c *coldWater) take(s *replay.Sheet) {
	k, z := c.at/c.zones, c.at%c.zones
	if c.at++; k >= len(c.shares) {
		return // a reference
	}
	sum, below := &c.shares[k], c.belowC[z]
	for i, dose := range s.Trace.Dose {
		if dose == 0 {
			continue
		}
		m3 := s.Volume(i)
		sum.all += m3
		if c.tminC[i] < 0 {
			sum.frozen += m3
		}
		if c.meanC[i] < below {
			sum.dormant += m3
		}
	}
}

// coldAlarms reports the strategies that water on freezing days or in months in
// which the plants are dormant, each with the share of its water. c may be nil.
func (l *Study) coldAlarms(c *coldWater) []plots.Alarm {
	if c == nil {
		return nil
	}
	zero := quantity.Format(0, quantity.Temperature, l.Scenario.Units)
	out := l.coldAlarm(c.shares, plots.WaterFrozen, func(c *coldShare) float64 { return c.frozen },
		"Share of water applied on freezing days, with a minimum below "+zero+": %s. End the season earlier or add a frost hold.")
	return append(out, l.coldAlarm(c.shares, plots.WaterDormant, func(c *coldShare) float64 { return c.dormant },
		"Share of water applied in months in which the plants are dormant: %s. Set a season, or water by hand in dry winters only.")...)
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
