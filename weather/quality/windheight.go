package quality

import (
	"fmt"
	"math"

	"loamledger/weather"
	"loamledger/weather/et0"
)

const (
	heightOff   = 0.03 // ratio of computed to supplied ETo that makes the height doubtful
	heightBest  = 0.5  // share of the mean difference that another height must leave
	heightLeast = 0.05 // mean difference that is worth it [mm]
)

// windHeight compares supplied ETo with ETo for other heights of the
// anemometer: values alone do not tell a height.
func (k *checker) windHeight(r *et0.Result) {
	c := r.Compare
	if !k.s.Has(weather.Wind) || c.Basis != et0.FullEquation || c.N < minFullDays || math.Abs(c.Ratio-1) < heightOff ||
		c.MeanAbsMM < heightLeast {
		return
	}
	now := k.s.Station.WindHeightM
	best, at := c.MeanAbsMM, math.NaN()
	for _, h := range [...]float64{2, 3, 10} {
		if h == now || !known(now) && h == 2 {
			continue
		}
		other := *k.s
		other.Station.WindHeightM = h
		if o, err := et0.Daily(&other, et0.Options{IgnoreSupplied: true}); err == nil && o.Compare.MeanAbsMM < best {
			best, at = o.Compare.MeanAbsMM, h
		}
	}
	if !known(at) || best > heightBest*c.MeanAbsMM {
		return
	}
	height := "2 m, the default,"
	if known(now) {
		height = fmt.Sprintf("%g m", now)
	}
	k.column(weather.CodeWindHeightDoubtful, weather.Wind, c.N, "", ownThreshold,
		"supplied ETo agrees best with ETo computed for the height of the anemometer",
		"with %s the mean difference is %.2f mm a day, with %g m it is %.2f", height, c.MeanAbsMM, at, best)
}
