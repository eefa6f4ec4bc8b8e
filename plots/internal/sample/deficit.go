package sample

import (
	"fmt"
	"math"

	"loamledger/plots"
	"loamledger/sim/tally"
	"loamledger/weather/cal"
	"loamledger/weather/portable"
)

// Deficit returns made-up curves of water use and stress days for any number of
// zones: smooth, for looking at, not realistic.
func Deficit(o Options) *plots.DeficitView {
	v := &plots.DeficitView{
		Site: "Juniper Court", Station: station, From: cal.Of(2012, 1, 1), To: cal.Of(2021, 12, 31),
		Units: o.Units, Strategy: "as found", DryYear: 2018,
		Basis: tally.Basis{Years: []int{2012, 2013, 2014, 2015, 2016, 2017, 2018, 2019, 2020, 2021}, Days: 3653, All: 3653},
	}
	if o.LongNames {
		v.Strategy = longPrefix + "01 (as found)"
	}
	for i := 1; i <= 15; i++ {
		v.Shares = append(v.Shares, float64(i)/10)
	}
	n := len(v.Shares)
	v.Whole = plots.DeficitCurve{M3PerYear: make([]float64, n), StressDays: make([]float64, n)}
	for z := range o.Zones {
		d := plots.DeficitCurve{
			Name: zoneNames[z%len(zoneNames)], AreaM2: 20 + float64(60*float64(z%7)),
			M3PerYear: make([]float64, n), StressDays: make([]float64, n),
		}
		if o.LongNames {
			d.Name = fmt.Sprintf("%s along the northern boundary fence behind the old pump house, part %d", d.Name, z+1)
		}
		depth := 0.3 + float64(0.09*float64(z%6)) // of water [m]
		d.LeastM3 = 0.42 * d.AreaM2
		for i, share := range v.Shares {
			d.M3PerYear[i] = depth * share * d.AreaM2
			d.StressDays[i] = math.Round(170 / (1 + portable.Exp(11*(float64(depth*share)-0.35))))
			v.Whole.M3PerYear[i] += d.M3PerYear[i]
			v.Whole.StressDays[i] += float64(d.StressDays[i] * d.AreaM2)
		}
		v.Whole.AreaM2 += d.AreaM2
		v.Whole.LeastM3 += d.LeastM3
		v.Zones = append(v.Zones, d)
	}
	for i := range v.Whole.StressDays {
		v.Whole.StressDays[i] /= v.Whole.AreaM2
	}
	return v
}
