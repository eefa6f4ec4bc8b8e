package forecast

import (
	"math"
	"math/rand/v2"

	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/portable"
)

// Synthetic makes forecasts of the days of s with the skill set by o, one
// issued each evening for each lead. etoMM is the ETo of the days [mm] or nil;
// Tmin is forecast if s has it, Tmax never.
//
// A day with an event is forecast as one with probability POD, a day without an
// event with probability pofd, calculated from POD, FAR and the share of event
// days in that month of the other years of s: a forecaster knows the climate,
// but not the year to come. The amount of a hit is the observed rain times a
// lognormal error, never below the threshold. The amount of a false alarm is
// drawn from the station's own events of the month in other years, with light
// ones more likely. Rain below the threshold is forecast, with such an error, with
// probability POD, and otherwise as no rain; a missed event is forecast as no
// rain. The stated chance of rain is the true one given such a forecast.
//
// Days with missing rain in s get no rain forecast, pofd is capped at 1, and a
// month that no other year has takes its climate from itself, which is
// hindsight; each is reported as a finding.
func Synthetic(s *weather.Series, etoMM []float64, o Options, seed uint64) (*Archive, []weather.Finding, error) {
	if err := o.check(); err != nil {
		return nil, nil, err
	}
	if etoMM != nil && len(etoMM) != s.Days {
		panic("forecast: ETo and the record differ in length")
	}
	if o.ThresholdMM == 0 {
		o.ThresholdMM = DefaultThresholdMM
	}
	k := &maker{o: &o, climates: newClimates(s, o.ThresholdMM)}
	r := rand.New(rand.NewPCG(seed, forecastStream))
	list := make([]Forecast, 0, s.Days*len(o.Leads))
	for i := range s.Days {
		valid := s.Date(i)
		y, m, _ := valid.YMD()
		eto := math.NaN()
		if etoMM != nil {
			eto = etoMM[i]
		}
		rain, tmin := s.At(weather.Rain, i), s.At(weather.Tmin, i)
		c, own := k.climates.of(y)
		if own[m-1] && !math.IsNaN(rain) {
			k.hindsight++
		}
		var e errs
		for lead := len(o.Leads); lead >= 1; lead-- {
			e.step(r, o.persistence, lead == len(o.Leads))
			f := Unknown(valid-cal.Date(lead), valid)
			if !math.IsNaN(rain) {
				f.RainMM, f.ProbabilityPct = k.rain(c, rain, lead, m-1, e)
			}
			growth := 1 + float64(growthPerDay*float64(lead-1))
			f.TminC = tmin + float64(o.tminSDC*growth*e.tmin)
			sd := o.etoSD * growth
			f.EToMM = eto * portable.Exp(float64(sd*e.eto)-float64(sd*sd/2))
			if math.IsNaN(f.RainMM) && math.IsNaN(f.TminC) && math.IsNaN(f.EToMM) {
				continue
			}
			list = append(list, f)
		}
	}
	return &Archive{list}, k.findings(s), nil // already in order: the longest lead, so the earliest issue, comes first
}

const (
	forecastStream = 0xe7037ed1a0b428db // any odd number does
	growthPerDay   = 0.15               // of the errors of Tmin and ETo
)

// errs are the standard normal errors of one lead for one day. All are drawn
// for every lead, so that omitting one quantity does not change another.
type errs struct{ event, amount, tmin, eto float64 }

// step advances from the errors of one lead to those of the next shorter one.
func (e *errs) step(r *rand.Rand, persistence float64, first bool) {
	fresh := math.Sqrt(1 - float64(persistence*persistence))
	if first {
		persistence, fresh = 0, 1
	}
	for _, v := range []*float64{&e.event, &e.amount, &e.tmin, &e.eto} {
		*v = float64(persistence**v) + float64(fresh*portable.Normal(r))
	}
}

// A maker makes forecasts and counts what it reports.
type maker struct {
	o         *Options
	climates  *climates
	held      [12]bool // months in which pofd was capped
	hindsight int      // days with rain whose month has no other year
}

// rain returns the amount and chance of rain of a forecast with the given
// errors, for a day in month m (from 0) of a year whose climate is c.
func (k *maker) rain(c *climate, observedMM float64, lead, m int, e errs) (mm, pct float64) {
	threshold := k.o.ThresholdMM
	skill, b := k.o.at(lead, m), c[m].baseRate()
	pofd := skill.pofd(b)
	if pofd == 1 && skill.FAR*skill.POD*b > (1-skill.FAR)*(1-b) {
		k.held[m] = true
	}
	u := portable.NormalCDF(e.event)
	said := float64(b*skill.POD) + float64((1-b)*pofd) // share of forecasts that announce an event
	came := observedMM >= threshold
	if came && u < skill.POD || !came && u < pofd {
		pct = 100 * (1 - skill.FAR) // of a month that never had an event in other years
		if said > 0 {
			pct = 100 * (b * skill.POD / said)
		}
		if !came {
			return c.falseAlarm(m, e), pct
		}
		return max(threshold, k.off(observedMM, e)), pct
	}
	if said < 1 {
		pct = 100 * (b * (1 - skill.POD) / (1 - said))
	}
	if came || u >= skill.POD {
		return 0, pct
	}
	if mm = k.off(observedMM, e); mm >= threshold {
		mm = threshold / 2 // an error must not create an event
	}
	return mm, pct
}

// off applies the amount error to rain, to a tenth of a millimeter.
func (k *maker) off(observedMM float64, e errs) float64 {
	sd := k.o.amountSD
	if sd == 0 {
		return observedMM
	}
	return math.Round(10*observedMM*portable.Exp(float64(sd*e.amount)-float64(sd*sd/2))) / 10
}

func (k *maker) findings(s *weather.Series) []weather.Finding {
	var out []weather.Finding
	if n := s.CountMissing(weather.Rain); n > 0 {
		out = append(out, weather.Finding{
			Code: weather.CodeForecastNoRain, What: "days with missing rain in the record, so no rain can be forecast", Column: weather.Rain.Key(),
			Count: n, Worst: s.Start, Action: "no rain forecast", Source: "common practice, no source",
		})
	}
	if k.hindsight > 0 {
		out = append(out, weather.Finding{
			Code: weather.CodeForecastHindsight, What: "days of synthetic forecasts whose rain climate is from their own year, because no " +
				"other year of the record has that month", Column: weather.Rain.Key(),
			Count: k.hindsight, Worst: s.Start, Action: "hindsight: false alarms and chances know the rain of that month; use a longer record",
			Source: "common practice, no source",
		})
	}
	months := 0
	for _, held := range k.held {
		if held {
			months++
		}
	}
	if months > 0 {
		out = append(out, weather.Finding{
			Code: weather.CodeForecastFARHeld, What: "months too wet for the requested POD and FAR: even a false alarm on every dry day is not " +
				"enough", Column: weather.Rain.Key(),
			Count: months, Worst: s.Start, Action: "a false alarm on every day without an event", Source: "the definitions of POD and FAR",
		})
	}
	return out
}
