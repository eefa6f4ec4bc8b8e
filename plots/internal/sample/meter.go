package sample

import (
	"math"

	"loamledger/plots"
	"loamledger/weather/cal"
	"loamledger/weather/portable"
)

// Meter returns a replay next to monthly meter reads over the given number of years,
// of which the last follows a change, with one period that does not count.
func Meter(years int, u plots.Units) *plots.MeterView {
	v := &plots.MeterView{Site: "Juniper Court", Station: "Dry Fork", Meter: "house", Strategy: "as found", Units: u, Scored: true,
		N: 12*years - 13, NMBE: 3.2, CV: 11.6, Label: "calibrated", Changed: cal.Of(2000+years, 1, 1)}
	for i := range 12 * years {
		p := plots.MeterPeriod{From: cal.Of(2001, i+1, 1), To: cal.Of(2001, i+2, 1), Base: 0.6, Left: i == 5}
		if m := i % 12; m >= 3 && m <= 9 {
			p.Sim = 3 * portable.Sin(float64(m-2)/8*math.Pi)
		}
		p.Sim += p.Base
		p.Metered = p.Sim * (1.03 + float64(0.1*portable.Sin(float64(i))))
		if p.From >= v.Changed {
			p.Metered *= 0.8
		}
		v.Periods = append(v.Periods, p)
	}
	return v
}
