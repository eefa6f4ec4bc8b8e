// Package soilwater compares a replay with measured soil water: it averages
// sensors, turns water content into depletion, scores the replay, looks for the
// likely reason of its largest error, and fits parameters on request.
//
// # Units
//
// Depths of water are [mm], water content is the share of the soil's volume
// [m³/m³], depths below ground are [m], temperatures [°C]. NaN means unknown.
//
// # Limits
//
// If field capacity and wilting point come from the scored record itself, the
// scores test the timing of the balance and the plant coefficient, not the soil.
package soilwater

import (
	"math"
	"slices"

	"loamledger/weather/cal"
)

// A Sensor is the readings of one sensor, one a day, NaN where it has none.
type Sensor struct {
	Name   string  // the column's heading
	DepthM float64 // below ground [m], above 0
	Theta  []float64
}

// A Record is measured soil water, one value a day and depth.
type Record struct {
	Start     cal.Date
	Days      int
	Levels    []Level   // from the surface down
	SoilTempC []float64 // of the soil at 10 cm; nil if not measured
}

// A Level is one depth with the mean over its sensors.
type Level struct {
	DepthM  float64
	Sensors int
	Theta   []float64
	// SpreadMean is the mean over days of the highest less the lowest reading, on
	// days with all sensors; NaN for a single sensor or if there is no such day.
	SpreadMean float64
	// PartDays is the number of days on which some but not all sensors read. Each
	// of the others then counts with its usual distance from the mean removed.
	PartDays int
}

// NewRecord averages sensors by depth. Sensors must have equal numbers of days.
func NewRecord(start cal.Date, sensors []Sensor, soilTempC []float64) *Record {
	r := &Record{Start: start, SoilTempC: soilTempC}
	byDepth := slices.Clone(sensors)
	slices.SortStableFunc(byDepth, func(a, b Sensor) int {
		switch {
		case a.DepthM < b.DepthM:
			return -1
		case a.DepthM > b.DepthM:
			return 1
		}
		return 0
	})
	for len(byDepth) > 0 {
		n := 1
		for n < len(byDepth) && byDepth[n].DepthM == byDepth[0].DepthM {
			n++
		}
		r.Levels = append(r.Levels, average(byDepth[:n]))
		r.Days = len(byDepth[0].Theta)
		byDepth = byDepth[n:]
	}
	return r
}

// average is the mean over sensors at one depth.
func average(sensors []Sensor) Level {
	days := len(sensors[0].Theta)
	l := Level{DepthM: sensors[0].DepthM, Sensors: len(sensors), Theta: make([]float64, days), SpreadMean: math.NaN()}
	offset, full, spread := make([]float64, len(sensors)), 0, 0.0
	for i := range days {
		low, high, sum := math.Inf(1), math.Inf(-1), 0.0
		for _, s := range sensors {
			low, high, sum = min(low, s.Theta[i]), max(high, s.Theta[i]), sum+s.Theta[i]
		}
		if math.IsNaN(sum) {
			continue
		}
		full++
		spread += high - low
		for k, s := range sensors {
			offset[k] += s.Theta[i] - sum/float64(len(sensors))
		}
	}
	if full > 0 && len(sensors) > 1 {
		l.SpreadMean = spread / float64(full)
	}
	for k := range offset {
		offset[k] /= float64(max(full, 1))
	}
	for i := range days {
		sum, n := 0.0, 0
		for k, s := range sensors {
			if !math.IsNaN(s.Theta[i]) {
				sum += s.Theta[i] - offset[k]
				n++
			}
		}
		l.Theta[i] = sum / float64(n) // NaN for none
		if n > 0 && n < len(sensors) {
			l.PartDays++
		}
	}
	return l
}

// Thicknesses returns the thickness [mm] that each level represents in a root
// zone of the given depth [m]: from halfway to the level above to halfway to the
// level below. The lowest level represents as much below itself as above, at most
// down to the root depth. Levels whose share begins below the root zone have 0.
// reachM is the depth down to which the levels represent the soil [m]; a root
// zone deeper than that is only partly measured.
func (r *Record) Thicknesses(rootDepthM float64) (mm []float64, reachM float64) {
	top := 0.0
	for i, l := range r.Levels {
		bottom := l.DepthM + (l.DepthM - top)
		if i+1 < len(r.Levels) {
			bottom = (l.DepthM + r.Levels[i+1].DepthM) / 2
		}
		mm = append(mm, math.Round(1e9*max(min(bottom, rootDepthM)-top, 0))/1e6) // 75 mm, not a rounding above it
		top = bottom
	}
	return mm, top
}

// quantile returns the share q of sorted values, between neighbors in
// proportion (the definition with h = (n − 1)q); NaN for none.
func quantile(sorted []float64, q float64) float64 {
	n := len(sorted)
	if n == 0 {
		return math.NaN()
	}
	h := float64(q * float64(n-1))
	i := int(h)
	if i >= n-1 {
		return sorted[n-1]
	}
	return sorted[i] + float64((h-float64(i))*(sorted[i+1]-sorted[i]))
}

// Quantile returns the share q of values in any order, without changing them.
func Quantile(values []float64, q float64) float64 {
	sorted := slices.DeleteFunc(slices.Clone(values), math.IsNaN)
	slices.Sort(sorted)
	return quantile(sorted, q)
}
