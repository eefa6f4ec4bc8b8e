package et0

import (
	"math"

	"loamledger/weather"
)

// engine caches what station, standard and options determine for every day.
type engine struct {
	surface    Surface
	asce       bool
	sigma      float64
	gamma      float64
	clearShare float64 // Rso / Ra
	windFactor float64
	o          Options
	sun        *SunYear
}

func newEngine(st weather.Station, surface Surface, o Options) *engine {
	e := &engine{
		surface:    surface,
		asce:       o.Standard == ASCE2005,
		sigma:      SigmaASCE,
		gamma:      PsychrometricConstant(Pressure(st.ElevM)),
		clearShare: ClearSkyRadiation(1, st.ElevM),
		windFactor: 1,
		o:          o,
		sun:        NewSunYear(st.LatDeg),
	}
	if !e.asce {
		e.sigma = SigmaFAO
	}
	if !math.IsNaN(st.WindHeightM) && st.WindHeightM != 2 {
		e.windFactor = WindFactor(st.WindHeightM)
	}
	return e
}

// inputs is one day of the record, NaN if unknown.
type inputs struct {
	tmaxC, tminC                                float64
	eaKPa, tdewC, rhmaxPct, rhminPct, rhmeanPct float64
	rsMJ, sunH, windMS                          float64
	doy                                         int
}

// columns reads days of a series without checking each time whether a column exists.
type columns [weather.Columns][]float64

func columnsOf(s *weather.Series) *columns {
	var missing []float64
	c := columns(s.Data)
	for i := range c {
		if c[i] != nil {
			continue
		}
		if missing == nil {
			missing = make([]float64, s.Days)
			for j := range missing {
				missing[j] = math.NaN()
			}
		}
		c[i] = missing
	}
	return &c
}

func (c *columns) day(i, doy int) inputs {
	return inputs{
		tmaxC: c[weather.Tmax][i], tminC: c[weather.Tmin][i],
		eaKPa: c[weather.Ea][i], tdewC: c[weather.Tdew][i],
		rhmaxPct: c[weather.RHmax][i], rhminPct: c[weather.RHmin][i], rhmeanPct: c[weather.RHmean][i],
		rsMJ: c[weather.Rs][i], sunH: c[weather.Sun][i], windMS: c[weather.Wind][i],
		doy: doy,
	}
}

// hide returns the day without the values that the estimates g would replace.
func (d inputs) hide(g Guess) inputs {
	nan := math.NaN()
	if g&GuessHumidity != 0 {
		d.eaKPa, d.tdewC, d.rhmaxPct, d.rhminPct, d.rhmeanPct = nan, nan, nan, nan, nan
	}
	if g&GuessRadiation != 0 {
		d.rsMJ, d.sunH = nan, nan
	}
	if g&GuessWind != 0 {
		d.windMS = nan
	}
	return d
}

// day returns the reference ET [mm] of one day and its method. The value may be
// slightly below 0; it is NaN only if the Way is [NoETo].
func (e *engine) day(d inputs) (float64, Method) {
	if !(d.tmaxC >= d.tminC) {
		return math.NaN(), Method{}
	}
	m := Method{Way: FullEquation}
	ra := e.sun.RaMJ[d.doy]
	rso := e.clearShare * ra
	m.Humidity, m.Radiation, m.Wind = humidityOf(d), radiationOf(d, e.sun.DaylightH[d.doy]), WindMeasured
	if !(d.windMS >= 0) {
		m.Wind = WindDefault
	}
	switch g := m.Guess(); {
	case g == GuessAll && e.surface == Tall():
		return math.NaN(), Method{}
	case g == GuessAll:
		return number(Hargreaves(d.tmaxC, d.tminC, Evaporation(ra)), Method{Way: HargreavesOnly})
	case g != 0:
		m.Way = WithEstimates
	}

	tmean := MeanTemperature(d.tmaxC, d.tminC)
	e0max, e0min := SaturationVaporPressure(d.tmaxC), SaturationVaporPressure(d.tminC)
	es := float64((e0max + e0min) / 2)
	e0mean := SaturationVaporPressure(tmean)
	var ea float64
	switch m.Humidity {
	case HumidityEa:
		ea = d.eaKPa
	case HumidityTdew:
		ea = VaporPressureFromDewPoint(d.tdewC)
	case HumidityRHboth:
		ea = (float64(e0min*d.rhmaxPct) + float64(e0max*d.rhminPct)) / 200 // Eq. 17, with e° already computed.
	case HumidityRHmax:
		ea = e0min * d.rhmaxPct / 100 // Eq. 18.
	case HumidityRHmin:
		ea = e0max * d.rhminPct / 100 // ASCE eq. 13.
	case HumidityRHmean:
		ea = es * d.rhmeanPct / 100 // Eq. 19.
		if e.asce {
			ea = e0mean * d.rhmeanPct / 100 // ASCE eq. 14.
		}
	default:
		ea = VaporPressureFromTmin(d.tminC, e.o.TdewOffsetC)
	}

	rs := d.rsMJ
	switch m.Radiation {
	case RadiationSunshine:
		n := e.sun.DaylightH[d.doy]
		rs = RadiationFromSunshine(min(d.sunH, n), n, ra, AngstromA, AngstromB)
		if n <= 0 {
			rs = 0
		}
	case RadiationRange:
		rs = min(rso, RadiationFromRange(d.tmaxC, d.tminC, ra, e.o.KRs))
	}

	u2 := e.o.DefaultWindMS
	if m.Wind == WindMeasured {
		u2 = d.windMS * e.windFactor
	}

	w := tmean + 237.3
	slope := 4098 * e0mean / (w * w)
	relative := RelativeShortwave(rs, rso)
	cloud := CloudTerm(relative)
	if e.asce {
		slope = 2503 / 0.6108 * e0mean / (w * w) // ASCE eq. 5, with e° already computed.
		cloud = CloudTermASCE(relative)
	}
	net := NetRadiation(NetShortwave(rs), NetLongwave(d.tmaxC, d.tminC, ea, cloud, e.sigma))
	return number(e.surface.ReferenceET(slope, e.gamma, net, 0, tmean, u2, max(0, es-ea)), m)
}

// number sets the method to [NoETo] if the result is NaN or infinite. Extreme
// inputs, which the quality checks drop, can cause that.
func number(etMM float64, m Method) (float64, Method) {
	if math.IsNaN(etMM) || math.IsInf(etMM, 0) {
		return math.NaN(), Method{}
	}
	return etMM, m
}

// humidityOf selects the best source of ea that the day has.
func humidityOf(d inputs) Humidity {
	switch {
	case d.eaKPa >= 0:
		return HumidityEa
	case !math.IsNaN(d.tdewC):
		return HumidityTdew
	case d.rhmaxPct >= 0 && d.rhminPct >= 0:
		return HumidityRHboth
	case d.rhmaxPct >= 0:
		return HumidityRHmax
	case d.rhminPct >= 0:
		return HumidityRHmin
	case d.rhmeanPct >= 0:
		return HumidityRHmean
	}
	return HumidityTmin
}

func radiationOf(d inputs, daylightH float64) Radiation {
	switch {
	case d.rsMJ >= 0:
		return RadiationMeasured
	case d.sunH >= 0 && daylightH >= 0:
		return RadiationSunshine
	}
	return RadiationRange
}
