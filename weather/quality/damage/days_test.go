// Package damage has only tests: it damages weather files in every layout, as
// real files are damaged, and wants each damage refused or reported.
package damage

import (
	"math"
	"math/rand/v2"

	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/et0"
)

// A day is a row of made-up weather, in the units of weather's columns.
type day struct {
	date                                         cal.Date
	tmax, tmin, rain, rhmax, rhmin, tdew, rs, ws float64
}

// firstYear is the year in which it begins: two years without a leap day follow.
const firstYear = 2009

// latitude is that of the made-up weather [°].
const latitude = 40

// temperate returns years of made-up weather at 40° N from 2009 on, with wet
// spells, warm and cold spells and cloud. Each seed gives another record.
func temperate(years int, seed uint64) []day {
	rng := rand.New(rand.NewPCG(21, seed))
	start := cal.Of(firstYear, 1, 1)
	sun := et0.NewSunYear(latitude)
	out := make([]day, int(cal.Of(firstYear+years, 1, 1)-start))
	wet, spell := false, 0.0
	for i := range out {
		d := &out[i]
		d.date = start + cal.Date(i)
		doy := d.date.YearDay()
		if wet {
			wet = rng.Float64() < 0.5
		} else {
			wet = rng.Float64() < 0.22
		}
		spell = 0.7*spell + 2.5*rng.NormFloat64()
		mean, half, clear := 12-11*math.Cos(2*math.Pi*float64(doy-22)/365)+spell, 4+3*rng.Float64(), 0.55+0.2*rng.Float64()
		if wet {
			half, clear = 2.5+2*rng.Float64(), 0.2+0.3*rng.Float64()
			d.rain = math.Round(10*(0.3+9*rng.ExpFloat64())) / 10
		}
		d.tmax, d.tmin, d.tdew = mean+half, mean-half, mean-half-2*rng.Float64()
		ea := et0.SaturationVaporPressure(d.tdew)
		d.rhmax, d.rhmin = et0.RelativeHumidity(ea, d.tmin), et0.RelativeHumidity(ea, d.tmax)
		d.rs, d.ws = clear*sun.RaMJ[doy], 1.2+2.5*rng.Float64()
	}
	return out
}

// set changes one value of a day; it is how the place of a value in a file is
// found.
func (d *day) set(c weather.Column, v float64) {
	switch c {
	case weather.Tmax:
		d.tmax = v
	case weather.Tmin:
		d.tmin = v
	case weather.Rain:
		d.rain = v
	case weather.RHmax:
		d.rhmax = v
	case weather.RHmin:
		d.rhmin = v
	case weather.Tdew:
		d.tdew = v
	case weather.Rs:
		d.rs = v
	case weather.Wind:
		d.ws = v
	}
}

func (d *day) rhmean() float64 { return (d.rhmax + d.rhmin) / 2 }

// ea is the vapor pressure [kPa].
func (d *day) ea() float64 { return et0.SaturationVaporPressure(d.tdew) }

func fahrenheit(c float64) float64 { return c*1.8 + 32 }
func monthOf(d cal.Date) int       { _, m, _ := d.YMD(); return m }
func dayOf(d cal.Date) int         { _, _, n := d.YMD(); return n }
