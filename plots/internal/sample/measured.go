package sample

import (
	"math"

	"loamledger/plots"
	"loamledger/weather/cal"
	"loamledger/weather/portable"
)

// Measured returns a replay next to measured soil water over the given number of
// years, with a gap each winter.
func Measured(years int, u plots.Units) *plots.MeasuredView {
	v := &plots.MeasuredView{Site: "Juniper Court", Station: "Dry Fork", Zone: "front lawn", Strategy: "no watering", Units: u,
		Start: cal.Of(2001, 1, 1), TAWMM: 80, R: 0.93, BiasMM: -4, RMSEMM: 9, P: 0.42}
	for i := range int(cal.Of(2001+years, 1, 1) - v.Start) {
		day := float64(i % 365)
		sim := 40 - float64(38*portable.Cos(day/365*2*math.Pi)) - 12*math.Mod(day, 40)/40
		v.SimMM = append(v.SimMM, max(sim, 0))
		v.MeasuredMM = append(v.MeasuredMM, max(sim+float64(8*portable.Sin(day/9)), 0))
		if day < 40 {
			v.MeasuredMM[i] = math.NaN()
		}
		rain := 0.0
		if i%11 == 3 {
			rain = float64(i%37) * 0.8
		}
		v.RainMM, v.RAWMM, v.MeasuredRAW = append(v.RainMM, rain), append(v.RAWMM, 32+float64(4*portable.Sin(day/50))), append(v.MeasuredRAW, 33)
	}
	for i := range 90 {
		x := float64(i%30) / 28
		v.UseAt, v.Use = append(v.UseAt, x), append(v.Use, min(1, 1.6*(1.05-x))+float64(0.5*portable.Sin(float64(i))))
	}
	for b := range 9 {
		x := (float64(b) + 0.5) / 10
		v.MedianAt, v.Median = append(v.MedianAt, x), append(v.Median, min(0.9, 1.6*(1-x)))
	}
	return v
}
