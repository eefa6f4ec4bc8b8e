package et0

import (
	"fmt"

	"loamledger/weather"
)

// A Calibration is a set of factors for the temperature-only equation.
type Calibration struct {
	FullDays int         // days of the full equation used; 0 means no calibration
	Overall  float64     // ratio of full to temperature-only over all of them
	Monthly  [13]float64 // by month 1 to 12; Overall if a month has too few
}

const (
	minCalibrationDays  = 90 // own threshold: a season
	minCalibrationMonth = 30 // own threshold: one month
)

// String describes the calibration in words.
func (c Calibration) String() string {
	if c.FullDays == 0 {
		return "not calibrated"
	}
	return fmt.Sprintf("scaled by %.3f overall, or by a monthly factor in months with at least %d full days; from %d full days of this record",
		c.Overall, minCalibrationMonth, c.FullDays)
}

// calibrate scales the temperature-only days in computed to the record's own
// full days and returns the factors. [FAO56] ch. 3 recommends monthly or annual
// calibration; a ratio is its form without an intercept.
func (e *engine) calibrate(s *weather.Series, c *columns, doys []int16, methods []Method, computed []float64) Calibration {
	var full, simple [13]float64
	var days [13]int
	for i, m := range methods {
		if m.Way != FullEquation {
			continue
		}
		month := s.Date(i).Month()
		d := c.day(i, int(doys[i]))
		for _, k := range [2]int{0, month} {
			full[k] += computed[i]
			simple[k] += Hargreaves(d.tmaxC, d.tminC, Evaporation(e.sun.RaMJ[d.doy]))
			days[k]++
		}
	}
	if days[0] < minCalibrationDays || simple[0] <= 0 {
		return Calibration{}
	}
	k := Calibration{FullDays: days[0], Overall: full[0] / simple[0]}
	for m := 1; m <= 12; m++ {
		k.Monthly[m] = k.Overall
		if days[m] >= minCalibrationMonth && simple[m] > 0 && full[m] > 0 {
			k.Monthly[m] = full[m] / simple[m]
		}
	}
	for i, m := range methods {
		if m.Way == HargreavesOnly {
			computed[i] *= k.Monthly[s.Date(i).Month()]
		}
	}
	return k
}
