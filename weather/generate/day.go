package generate

import (
	"math"

	"loamledger/weather"
	"loamledger/weather/et0"
	"loamledger/weather/portable"
)

// leastRangeC is the minimum of Tmax − Tmin [°C].
const leastRangeC = 1

// mostWet keeps a very wet year from staying wet forever.
const mostWet = 0.98

// day generates day i of s from the residuals x.
func (k *maker) day(s *weather.Series, i int, x [3]float64) {
	d := s.Date(i)
	month, at := place(d)
	m := &k.p.month[month]
	if y := d.Year(); !k.started || y != k.year {
		k.newYear(y)
	}
	s.Set(weather.Rain, i, k.rain(m), weather.Synthetic)
	w := k.wet

	tmax := k.tmax[w][at] + float64(m.tmaxSD[w]*x[0])
	tmin := k.tmin[w][at] + float64(m.tminSD[w]*x[1])
	if apart := tmax - tmin; apart < leastRangeC {
		if k.rangeHeld == 0 || apart < k.worstC {
			k.worst, k.worstC = d, apart
		}
		k.rangeHeld++
		mean := float64((tmax + tmin) / 2)
		tmax, tmin = mean+float64(leastRangeC/2.0), mean-float64(leastRangeC/2.0)
	}
	tmax, tmin = tenth(tmax), tenth(tmin)
	s.Set(weather.Tmax, i, tmax, weather.Synthetic)
	s.Set(weather.Tmin, i, tmin, weather.Synthetic)

	if k.sun != nil {
		rs, held := k.sun.day(w, at, x[2])
		if held {
			k.rsHeld++
		}
		s.Set(weather.Rs, i, rs, weather.Synthetic)
	}
	if k.p.wind {
		s.Set(weather.Wind, i, k.breeze(at), weather.Synthetic)
	}
	if k.p.dew {
		dew := tmin - k.dryness(m.dewBelowC[w])
		driest := dewPointAt(leastHumidity, tmin)
		if i > 0 && k.p.dewLag != 0 {
			driest = min(max(driest, s.At(weather.Tdew, i-1)-mostDewFallC), tmin)
		}
		if dew < driest {
			dew = driest
			k.dewHeld++
		}
		s.Set(weather.Tdew, i, tenth(dew), weather.Synthetic)
	}
}

// dryness draws how far the dew point is below Tmin, a gamma variate of the given mean [°C].
// It is never negative, so the dew point is never above Tmin. Its normal score follows
// that of the day before.
func (k *maker) dryness(meanC float64) float64 {
	carry := k.p.dewLag
	if carry == 0 {
		return meanC / leastDewShape * gamma(k.dewRand, leastDewShape)
	}
	k.dewZ = float64(carry*k.dewZ) + float64(math.Sqrt(1-float64(carry*carry))*portable.Normal(k.dewRand))
	shape := dewShape(meanC)
	return meanC / shape * portable.GammaQuantile(shape, portable.NormalCDF(k.dewZ))
}

// dewShape returns the shape of the gamma distribution of the distance of the dew point
// from Tmin, if the dew point hangs together from day to day: that with a standard
// deviation of no more than mostDewSpreadC. With a constant shape, dry months would have
// weeks of air far too dry and far too humid.
func dewShape(meanC float64) float64 {
	return max(leastDewShape, (meanC/mostDewSpreadC)*(meanC/mostDewSpreadC))
}

const (
	// leastDewShape is common practice, no source.
	leastDewShape = 2
	// mostDewSpreadC is the standard deviation of the distance in dry months [°C]. Source: two
	// stations of a network in Arizona have 3.7 to 4.7 in months with a mean of 8 to 17, and no
	// more where it is larger.
	mostDewSpreadC = 4.2
)

// mostDewFallC is how much the dew point falls in a day at most, if it hangs together from
// day to day [°C]: an own threshold.
const mostDewFallC = 14

// leastHumidity is the least relative humidity at Tmin, a share: an own threshold.
const leastHumidity = 0.1

// dewPointAt returns the dew point [°C] of air with a relative humidity, a share, at
// a temperature [°C]: FAO-56 eq. 11, solved for the temperature.
func dewPointAt(humidity, tC float64) float64 {
	x := portable.Log(humidity * et0.SaturationVaporPressure(tC) / 0.6108)
	return 237.3 * x / (17.27 - x)
}

// newYear draws how wet year y is. Each factor has mean 1, and so does their product.
//
//	days = exp(σg/2 - σ²/8)
//	amounts = exp(σg/2 - 3σ²/8)
//
// Source: ours. Such generators are known to make years too similar
// (Katz and Parlange 1998, from memory).
func (k *maker) newYear(y int) {
	k.year = y
	sd, g := k.p.yearSpread, portable.Normal(k.yearRand)
	k.moreDays = portable.Exp(float64(sd*g/2) - float64(sd*sd/8))
	k.moreRain = portable.Exp(float64(sd*g/2) - float64(3*sd*sd/8))
}

// rain advances the chain by one day and returns the day's rain [mm].
func (k *maker) rain(m *monthParams) float64 {
	u := k.rainRand.Float64()
	// The share of wet days is wetAfterDry / (1 − persistence), so at constant
	// persistence it scales with wetAfterDry.
	carry := m.wetAfterWet - m.wetAfterDry
	fresh := min(m.wetAfterDry*k.moreDays, 1, max(m.wetAfterDry, mostWet))
	chance := fresh
	switch {
	case !k.started:
		chance = m.wetShare()
		k.started = true
	case k.wet == wetDay:
		chance = max(0, min(fresh+carry, max(m.wetAfterWet, mostWet)))
	}
	k.wet = dryDay
	if u < chance {
		k.wet = wetDay
	}
	if k.wet == dryDay {
		return 0
	}
	least := k.p.wetMM()
	if m.wetAfterDry == 0 { // a wet spell that continues into this month
		return tenthAtLeast(least)
	}
	mm := (least + float64(m.scaleMM*gamma(k.rainRand, m.shape))) * k.moreRain
	return tenthAtLeast(max(mm, least))
}

func (k *maker) breeze(at int) float64 {
	carry := k.p.windLag
	k.windZ = float64(carry*k.windZ) + float64(math.Sqrt(1-float64(carry*carry))*portable.Normal(k.windRand))
	v := portable.Log(1 + float64(k.p.windCV*k.p.windCV))
	const calm = 0.1 // [m/s], below which cup anemometers do not turn
	return max(calm, tenth(k.wind[at]*portable.Exp(float64(math.Sqrt(v)*k.windZ)-float64(v/2))))
}

func tenth(v float64) float64 { return math.Round(v*10) / 10 }

// tenthAtLeast rounds v to a tenth without going below a threshold that v
// itself meets: 0.25 becomes 0.3, so that a wet day stays wet.
func tenthAtLeast(v float64) float64 {
	const half = 1e-9 // 0.25*10 is exact, but 0.35*10 may be just below one half
	return math.Floor(float64(v*10)+0.5+half) / 10
}
