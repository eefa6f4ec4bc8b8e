package quality

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"loamledger/weather"
	"loamledger/weather/et0"
	"loamledger/weather/portable"
)

// An envelope predicts a figure of rain from figures of the climate: the sum of
// the coefficients times the inputs, within far standard deviations.
type envelope struct {
	code   weather.Code
	what   string
	unit   string
	of     func(c *climate) float64   // the figure, on the scale of the fit
	back   func(v float64) float64    // and back to its unit
	inputs func(c *climate) []float64 // the first is 1
	coef   []float64
	spread float64 // standard deviation of the residuals
}

const (
	envelopeYears = 0.95 // years of rain that the figures need
	envelopeFar   = 3.5  // standard deviations that are reported
	envelopeFrom  = "least squares over 16 stations of 1 to 86 years, 28 to 52° north, named in the test that repeats the fit; own " +
		"threshold of 3.5 standard deviations"
)

// A climate is what a record says of a place.
type climate struct {
	years     float64 // of days with rain
	yearMM    float64 // mean yearly rain
	wettestMM float64
	wetShare  float64 // share of days with 1 mm or more
	season    float64 // length of the mean vector of monthly rain, 0 for even rain and 1 for one month
	demandMM  float64 // yearly ETo of Hargreaves: latitude, temperature and its daily range in one figure
	latDeg    float64 // without its sign
	wettest   int     // index of the wettest day
}

func logit(p float64) float64 { return portable.Log(p / (1 - p)) }

func logistic(v float64) float64 { return 1 / (1 + portable.Exp(-v)) }

// envelopes returns what is checked, with the coefficients of the fit.
func envelopes() []envelope {
	return []envelope{
		{weather.CodeRainYear, "yearly rain", "mm", func(c *climate) float64 { return portable.Log(c.yearMM) }, portable.Exp,
			func(c *climate) []float64 { return []float64{1, portable.Log(c.demandMM)} }, []float64{18.50, -1.727}, 0.846},
		{weather.CodeRainWettestDay, "rain of the wettest day", "mm", func(c *climate) float64 { return portable.Log(c.wettestMM) }, portable.Exp,
			func(c *climate) []float64 { return []float64{1, portable.Log(c.yearMM), portable.Log(c.years)} }, []float64{1.538, 0.3636, 0.2521},
			0.473},
		{weather.CodeRainWetShare, "share of days with 1 mm or more", "", func(c *climate) float64 { return logit(c.wetShare) }, logistic,
			func(c *climate) []float64 { return []float64{1, portable.Log(c.yearMM), c.latDeg} }, []float64{-8.140, 0.9182, 0.02059}, 0.213},
		{weather.CodeRainSeason, "concentration of rain in part of the year", "", func(c *climate) float64 { return logit(c.season) }, logistic,
			func(c *climate) []float64 { return []float64{1, c.latDeg} }, []float64{1.169, -0.06649}, 1.103},
	}
}

// climateOf returns the climate of a record, and whether it has what the
// envelopes need.
func (k *checker) climateOf() (climate, bool) {
	sun := k.sun()
	if sun == nil || !k.s.Has(weather.Rain) || !k.s.Has(weather.Tmax) || !k.s.Has(weather.Tmin) {
		return climate{}, false
	}
	c := climate{latDeg: math.Abs(k.s.Station.LatDeg)}
	days, wet, sum, demand, warm := 0, 0, 0.0, 0.0, 0
	var month [13]float64
	var of [13]int
	for i, v := range k.s.Data[weather.Rain] {
		if h := et0.Hargreaves(k.s.Data[weather.Tmax][i], k.s.Data[weather.Tmin][i], et0.Evaporation(sun.RaMJ[k.days.doy[i]])); h > -1 {
			demand += max(0, h)
			warm++
		}
		if !known(v) {
			continue
		}
		days++
		sum += v
		month[k.days.month[i]] += v
		of[k.days.month[i]]++
		if v >= wetMM {
			wet++
		}
		if v > c.wettestMM {
			c.wettestMM, c.wettest = v, i
		}
	}
	c.years = float64(days) / 365.25
	if c.years < envelopeYears || float64(warm) < envelopeYears*365 || slices.Contains(of[1:], 0) {
		return c, false
	}
	x, y, total := 0.0, 0.0, 0.0
	for m := 1; m <= 12; m++ {
		v := month[m] / float64(of[m])
		a := 2 * math.Pi * (float64(m) - 0.5) / 12
		x, y, total = x+float64(v*portable.Cos(a)), y+float64(v*portable.Sin(a)), total+v
	}
	c.yearMM, c.wetShare, c.season = sum/c.years, float64(wet)/float64(days), portable.Hypot(x, y)/total
	c.demandMM = demand / float64(warm) * 365.25
	least := 0.5 / float64(days) // so that none and all have a logit
	c.wetShare, c.season = min(max(c.wetShare, least), 1-least), min(max(c.season, least), 1-least)
	return c, c.yearMM > 0 && c.demandMM > 0
}

// predict returns the figure that the climate suggests, on the scale of the fit.
func (e *envelope) predict(c *climate) float64 {
	sum := 0.0
	for j, v := range e.inputs(c) {
		sum += float64(e.coef[j] * v)
	}
	return sum
}

// rainEnvelopes reports figures of rain that the climate makes unlikely.
func (k *checker) rainEnvelopes() {
	c, ok := k.climateOf()
	if !ok {
		return
	}
	for _, e := range envelopes() {
		v, want := e.of(&c), e.predict(&c)
		if e.code == weather.CodeRainSeason && v < want { // even rain is never odd
			continue
		}
		if math.Abs(v-want) <= envelopeFar*e.spread {
			continue
		}
		low, high := e.back(want-float64(envelopeFar*e.spread)), e.back(want+float64(envelopeFar*e.spread))
		detail := strings.TrimSpace(fmt.Sprintf("%.3g %s", e.back(v), e.unit)) + "; " + twoDigits(low) + " to " + twoDigits(high) + " expected"
		if e.code == weather.CodeRainWettestDay {
			t := tally{rule: rule{code: e.code, column: weather.Rain, what: e.what + " is within what the climate of the record suggests",
				action: kept, source: envelopeFrom}}
			t.hit(c.wettest, 0)
			t.detail = detail
			k.tell(&t)
			continue
		}
		k.column(e.code, weather.Rain, k.s.Days-k.s.CountMissing(weather.Rain), "", envelopeFrom,
			e.what+" is within what the climate of the record suggests", "%s", detail)
	}
}

// twoDigits writes a number with two significant digits and without an exponent.
func twoDigits(v float64) string {
	if math.Abs(v) < 99.5 {
		return fmt.Sprintf("%.2g", v)
	}
	return fmt.Sprintf("%.0f", 10*math.Round(v/10))
}
