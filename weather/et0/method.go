package et0

import "strings"

// A Way is the kind of answer a day got.
type Way uint8

// The ways, best last but for the two that stand apart.
const (
	NoETo           Way = iota // no number: a temperature is missing
	HargreavesOnly             // from temperatures alone, eq. 52
	WithStandIns               // the full equation with one or two guesses in it
	FullEquation               // the full equation on what was measured
	SuppliedByInput            // read with the record, not computed
)

// A Humidity says what ea came from, best first after none.
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
	HumidityTmin // a guess
)

// A Radiation says what Rs came from.
type Radiation uint8

// The sources of Rs.
const (
	RadiationNone Radiation = iota
	RadiationMeasured
	RadiationSunshine
	RadiationRange // a guess
)

// A Wind says what u2 came from.
type Wind uint8

// The sources of u2.
const (
	WindNone Wind = iota
	WindMeasured
	WindDefault // a guess
)

// A Method is how one day's reference ET came about. Methods compare.
type Method struct {
	Way       Way
	Humidity  Humidity
	Radiation Radiation
	Wind      Wind
}

var (
	humidityWords  = [...]string{"", "vapour pressure", "dew point", "RHmax and RHmin", "RHmax", "RHmin", "RHmean", "dew point taken from Tmin"}
	radiationWords = [...]string{"", "measured radiation", "sunshine hours", "radiation from the temperature range"}
	windWords      = [...]string{"", "measured wind", "assumed wind"}
)

// String names the method in words for a person, guesses last in each group.
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
	if m.Way == WithStandIns {
		name = "full equation with stand-ins: "
	}
	return name + strings.Join([]string{radiationWords[m.Radiation], humidityWords[m.Humidity], windWords[m.Wind]}, ", ")
}

// A Guess is a set of stand-ins that guess rather than measure.
type Guess uint8

// The guesses; [GuessAll] is the temperature-only equation, since three
// guesses are no better than it by the day.
const (
	GuessHumidity  Guess = 1 << iota // ea from Tmin, eq. 48
	GuessRadiation                   // Rs from the temperature range, eq. 50
	GuessWind                        // the default wind
	GuessAll       = GuessHumidity | GuessRadiation | GuessWind
)

// Guess returns which guesses the method makes.
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

// String names the guesses in words for a person.
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

// A Count is on how many days a method was used.
type Count struct {
	Method Method
	Days   int
}
