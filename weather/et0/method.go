package et0

import "strings"

// A Way is how a day's reference ET was obtained.
type Way uint8

// The ways, best last, except NoETo and SuppliedByInput.
const (
	NoETo           Way = iota // no value: a temperature is missing
	HargreavesOnly             // from temperatures alone, eq. 52
	WithEstimates              // the full equation with one or two estimates
	FullEquation               // the full equation on measured values
	SuppliedByInput            // from the record, not computed
)

// A Humidity is the source of ea, best first after none.
type Humidity uint8

// The sources of ea in the order of preference of [ASCE] table 3.
const (
	HumidityNone Humidity = iota
	HumidityEa
	HumidityTdew
	HumidityRHboth
	HumidityRHmax
	HumidityRHmin
	HumidityRHmean
	HumidityTmin // an estimate
)

// A Radiation is the source of Rs.
type Radiation uint8

// The sources of Rs.
const (
	RadiationNone Radiation = iota
	RadiationMeasured
	RadiationSunshine
	RadiationRange // an estimate
)

// A Wind is the source of u2.
type Wind uint8

// The sources of u2.
const (
	WindNone Wind = iota
	WindMeasured
	WindDefault // an estimate
)

// A Method is how one day's reference ET was obtained. Methods are comparable.
type Method struct {
	Way       Way
	Humidity  Humidity
	Radiation Radiation
	Wind      Wind
}

var (
	humidityWords  = [...]string{"", "vapor pressure", "dew point", "RHmax and RHmin", "RHmax", "RHmin", "RHmean", "dew point from Tmin"}
	radiationWords = [...]string{"", "measured radiation", "sunshine hours", "radiation from the temperature range"}
	windWords      = [...]string{"", "measured wind", "assumed wind"}
)

// String names the method in words.
func (m Method) String() string {
	switch m.Way {
	case NoETo:
		return "none: a temperature is missing"
	case HargreavesOnly:
		return "temperatures alone (Hargreaves)"
	case SuppliedByInput:
		return "supplied with the record"
	}
	name := "full equation: "
	if m.Way == WithEstimates {
		name = "full equation with estimates: "
	}
	return name + strings.Join([]string{radiationWords[m.Radiation], humidityWords[m.Humidity], windWords[m.Wind]}, ", ")
}

// A Guess is a set of estimates that replace measured inputs.
type Guess uint8

// The estimates; [GuessAll] is the temperature-only equation, since the full
// equation with three estimates is no better.
const (
	GuessHumidity  Guess = 1 << iota // ea from Tmin, eq. 48
	GuessRadiation                   // Rs from the temperature range, eq. 50
	GuessWind                        // the default wind
	GuessAll       = GuessHumidity | GuessRadiation | GuessWind
)

// Guess returns which estimates the method uses.
func (m Method) Guess() (g Guess) {
	switch m.Way {
	case NoETo, SuppliedByInput:
		return 0
	case HargreavesOnly:
		return GuessAll
	}
	if m.Humidity == HumidityTmin {
		g |= GuessHumidity
	}
	if m.Radiation == RadiationRange {
		g |= GuessRadiation
	}
	if m.Wind == WindDefault {
		g |= GuessWind
	}
	return g
}

// String names the estimates in words.
func (g Guess) String() string {
	if g == GuessAll {
		return "temperatures alone (Hargreaves)"
	}
	var parts []string
	if g&GuessHumidity != 0 {
		parts = append(parts, "humidity from Tmin")
	}
	if g&GuessRadiation != 0 {
		parts = append(parts, "radiation from the temperature range")
	}
	if g&GuessWind != 0 {
		parts = append(parts, "assumed wind")
	}
	return strings.Join(parts, ", ")
}

// A Count is the number of days a method was used.
type Count struct {
	Method Method
	Days   int
}
