package et0

import (
	"math"
	"testing"

	"loamledger/weather"
)

// TestDayIsTheEquationsInARow holds the day, which shares exponentials between
// equations, to the numbered functions called one after the other, for every
// source of humidity and both standards. The functions have their published
// values in other tests.
func TestDayIsTheEquationsInARow(t *testing.T) {
	nan := math.NaN()
	const tmax, tmin, rs, wind, doy = 31.5, 14.2, 24.6, 2.7, 187
	bare := inputs{tmaxC: tmax, tminC: tmin, eaKPa: nan, tdewC: nan, rhmaxPct: nan, rhminPct: nan, rhmeanPct: nan, rsMJ: rs, sunH: nan,
		windMS: wind, doy: doy}
	st := weather.Station{LatDeg: 41.4, ElevM: 820, WindHeightM: 3}
	for _, standard := range []Standard{ASCE2005, FAO1998} {
		mean := VaporPressureFromRHmeanASCE(tmax, tmin, 52)
		if standard == FAO1998 {
			mean = VaporPressureFromRHmean(tmax, tmin, 52)
		}
		for _, c := range []struct {
			humidity Humidity
			set      func(*inputs)
			eaKPa    float64
		}{
			{HumidityEa, func(d *inputs) { d.eaKPa = 1.31 }, 1.31},
			{HumidityTdew, func(d *inputs) { d.tdewC = 11 }, VaporPressureFromDewPoint(11)},
			{HumidityRHboth, func(d *inputs) { d.rhmaxPct, d.rhminPct = 84, 29 }, VaporPressureFromRH(tmax, tmin, 84, 29)},
			{HumidityRHmax, func(d *inputs) { d.rhmaxPct = 84 }, VaporPressureFromRHmax(tmin, 84)},
			{HumidityRHmin, func(d *inputs) { d.rhminPct = 29 }, VaporPressureFromRHmin(tmax, 29)},
			{HumidityRHmean, func(d *inputs) { d.rhmeanPct = 52 }, mean},
			{HumidityTmin, func(*inputs) {}, VaporPressureFromTmin(tmin, 2)},
		} {
			d := bare
			c.set(&d)
			o := Options{Standard: standard, TdewOffsetC: 2}.withDefaults()
			got, m := newEngine(st, Short(), o).day(d)
			relative := RelativeShortwave(rs, ClearSkyRadiation(Ra(st.LatDeg, doy), st.ElevM))
			slope, cloud, sigma := SlopeASCE(MeanTemperature(tmax, tmin)), CloudTermASCE(relative), SigmaASCE
			if standard == FAO1998 {
				slope, cloud, sigma = Slope(MeanTemperature(tmax, tmin)), CloudTerm(relative), SigmaFAO
			}
			net := NetRadiation(NetShortwave(rs), NetLongwave(tmax, tmin, c.eaKPa, cloud, sigma))
			want := Short().ReferenceET(slope, PsychrometricConstant(Pressure(st.ElevM)), net, 0, MeanTemperature(tmax, tmin),
				WindAt2M(wind, 3), MeanSaturationVaporPressure(tmax, tmin)-c.eaKPa)
			if m.Humidity != c.humidity || math.Abs(got-want) > 1e-12 {
				t.Errorf("standard %d, %v: %.15g mm, the equations in a row give %.15g", standard, m, got, want)
			}
		}
	}
}
