package generate

import (
	"fmt"
	"math/rand/v2"

	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/portable"
)

// Generate makes synthetic weather for the given number of days from start.
// Equal arguments give equal values. Values that had to be limited are in the
// findings. Invalid parameters, such as a probability above 1, are an error.
func Generate(p Params, st weather.Station, start cal.Date, days int, seed uint64) (*weather.Record, error) {
	if days < 1 {
		return nil, errDays
	}
	if err := p.check(); err != nil {
		return nil, err
	}
	m0, m1 := p.m0, p.m1
	if m0 == (matrix{}) && m1 == (matrix{}) {
		m0, m1 = publishedM0(), publishedM1()
	}
	carry, fresh, err := carry(m0, m1)
	if err != nil {
		return nil, err
	}
	root, err := m0.root()
	if err != nil {
		return nil, err
	}
	cols := []weather.Column{weather.Tmax, weather.Tmin, weather.Rain}
	if p.radiation {
		cols = append(cols, weather.Rs)
	}
	if p.wind {
		cols = append(cols, weather.Wind)
	}
	if p.dew {
		cols = append(cols, weather.Tdew)
	}
	rec := &weather.Record{Series: *weather.NewSeries(st, start, days, cols...), Layout: "synthetic"}
	rec.Assumptions = append(rec.Assumptions, p.Assumptions...)

	k := newMaker(&p, st, seed)
	x := root.apply(k.normals())
	for i := range days {
		if i > 0 {
			old, e := carry.apply(x), fresh.apply(k.normals())
			x = [3]float64{old[0] + e[0], old[1] + e[1], old[2] + e[2]}
		}
		k.day(&rec.Series, i, x)
	}
	rec.Findings = k.findings(days, start)
	return rec, nil
}

// A maker holds precomputed values, the state from day to day and one stream of
// random numbers per purpose, so that adding or removing a column does not
// change the others.
type maker struct {
	p *Params

	rainRand, tempRand, windRand, dewRand, yearRand *rand.Rand

	tmax, tmin [2][yearDays]float64
	sun        *sunshine // nil without radiation
	wind       [yearDays]float64

	started            bool
	wet                int
	year               int
	moreDays, moreRain float64 // this year's factors on wet days and amounts
	windZ, dewZ        float64

	rangeHeld, rsHeld, dewHeld int
	worst                      cal.Date
	worstC                     float64
}

// streams are the second halves of the seeds; any distinct odd numbers work.
const (
	rainStream = 0x9e3779b97f4a7c15
	tempStream = 0xbf58476d1ce4e5b9
	windStream = 0x94d049bb133111eb
	dewStream  = 0xd6e8feb86659fd93
	yearStream = 0xa0761d6478bd642f
)

func newMaker(p *Params, st weather.Station, seed uint64) *maker {
	stream := func(s uint64) *rand.Rand { return rand.New(rand.NewPCG(seed, s)) }
	k := &maker{
		p:        p,
		rainRand: stream(rainStream), tempRand: stream(tempStream), windRand: stream(windStream),
		dewRand: stream(dewStream), yearRand: stream(yearStream),
		moreDays: 1, moreRain: 1,
	}
	for s := range 2 {
		k.tmax[s] = curve(p.monthly(func(m *monthParams) float64 { return m.tmaxC[s] }))
		k.tmin[s] = curve(p.monthly(func(m *monthParams) float64 { return m.tminC[s] }))
	}
	if p.radiation {
		k.sun = newSunshine(p, st)
	}
	if p.wind {
		k.wind = curve(p.monthly(func(m *monthParams) float64 { return m.windMS }))
		k.windZ = portable.Normal(k.windRand)
	}
	if p.dew && p.dewLag != 0 {
		k.dewZ = portable.Normal(k.dewRand)
	}
	return k
}

func (p *Params) monthly(get func(*monthParams) float64) (v [12]float64) {
	for m := range p.month {
		v[m] = get(&p.month[m])
	}
	return v
}

func (k *maker) normals() [3]float64 {
	return [3]float64{portable.Normal(k.tempRand), portable.Normal(k.tempRand), portable.Normal(k.tempRand)}
}

func (k *maker) findings(days int, start cal.Date) []weather.Finding {
	out := []weather.Finding{{
		Code: weather.CodeSyntheticDays, What: "synthetic weather from a random generator, not observed",
		Count: days, Worst: start, Action: "every value is marked as synthetic", Source: "Richardson (1981)",
	}}
	if k.rangeHeld > 0 {
		out = append(out, weather.Finding{
			Code: weather.CodeSyntheticRangeHeld, What: fmt.Sprintf("generated Tmax was less than %d °C above Tmin", leastRangeC),
			Column: weather.Tmax.Key(), Count: k.rangeHeld, Worst: k.worst,
			Detail: fmt.Sprintf("drawn %.1f °C apart", k.worstC),
			Action: fmt.Sprintf("both moved to %d °C apart around their mean", leastRangeC), Source: "common practice, no source",
		})
	}
	if k.rsHeld > 0 {
		out = append(out, weather.Finding{
			Code: weather.CodeSyntheticRadiationHeld, What: "generated radiation was below 5% of that at the top of the atmosphere",
			Column: weather.Rs.Key(), Count: k.rsHeld, Worst: start,
			Action: "limited; the distribution is set so that its mean does not change", Source: "common practice, no source",
		})
	}
	if k.dewHeld > 0 {
		out = append(out, weather.Finding{
			Code: weather.CodeSyntheticDewHeld, What: fmt.Sprintf("generated air had a relative humidity below %.0f%% at Tmin, or a dew point "+
				"more than %d °C below that of the day before", 100*leastHumidity, mostDewFallC),
			Column: weather.Tdew.Key(), Count: k.dewHeld, Worst: start,
			Action: "dew point raised to that", Source: "own threshold",
		})
	}
	if k.sun != nil && k.sun.moved > 0 {
		out = append(out, weather.Finding{
			Code:   weather.CodeSyntheticRadiationNormals,
			What:   "the monthly radiation is more than is possible at this latitude and elevation on some days of the year",
			Column: weather.Rs.Key(), Count: k.sun.moved, Worst: start,
			Action: "the mean of those days of the year limited to what is possible", Source: "FAO-56 eq. 21 and 37",
		})
	}
	return out
}
