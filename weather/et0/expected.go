package et0

import (
	"fmt"
	"math"

	"loamledger/weather"
)

// An Expected is the daily error of a set of estimates, measured on days with
// all inputs: estimated − full.
type Expected struct {
	Guess     Guess
	Days      int    // days of this record with these estimates
	Where     string // the full days on which the error was measured
	FullDays  int    // how many full days
	MeanMM    float64
	BiasMM    float64
	MeanAbsMM float64
	WorstMM   float64 // largest absolute error on one day
}

// String describes the expected error in words.
func (x Expected) String() string {
	return fmt.Sprintf("%v (%d days): bias %+.2f, mean absolute error %.2f, worst day %.1f mm, where the mean is %.2f mm; measured on %s",
		x.Guess, x.Days, x.BiasMM, x.MeanAbsMM, x.WorstMM, x.MeanMM, x.Where)
}

// minOwnFullDays is how many full days a record needs for its own error to be
// reported: all seasons.
const minOwnFullDays = 365

// expected returns the error of every set of estimates in use: on the record's
// own full days if there is a year of them, otherwise on two stations with all
// inputs.
func (e *engine) expected(s *weather.Series, c *columns, doys []int16, methods []Method, computed []float64) []Expected {
	var used [GuessAll + 1]int
	full := 0
	for _, m := range methods {
		used[m.Guess()]++
		if m.Way == FullEquation {
			full++
		}
	}
	var list []Expected
	for g := Guess(1); g <= GuessAll; g++ {
		if used[g] == 0 {
			continue
		}
		if full >= minOwnFullDays {
			x := e.measure(g, c, doys, methods, computed)
			x.Days, x.Where = used[g], fmt.Sprintf("the %d full days of this record", full)
			list = append(list, x)
			continue
		}
		for _, m := range measured {
			x := m.humid[g]
			if e.o.TdewOffsetC >= 1 && g != GuessAll {
				x = m.arid[g]
			}
			list = append(list, Expected{Guess: g, Days: used[g], Where: m.where, FullDays: m.days, MeanMM: m.meanMM, BiasMM: x.bias,
				MeanAbsMM: x.meanAbs, WorstMM: x.worst})
		}
	}
	return list
}

// measure makes the estimates g on every full day and compares.
func (e *engine) measure(g Guess, c *columns, doys []int16, methods []Method, computed []float64) Expected {
	x := Expected{Guess: g}
	var sum, bias, abs float64
	for i, m := range methods {
		if m.Way != FullEquation {
			continue
		}
		got, _ := e.day(c.day(i, int(doys[i])).hide(g))
		d := got - computed[i]
		sum, bias, abs = sum+computed[i], bias+d, abs+math.Abs(d)
		x.WorstMM = max(x.WorstMM, math.Abs(d))
		x.FullDays++
	}
	n := float64(x.FullDays)
	x.MeanMM, x.BiasMM, x.MeanAbsMM = sum/n, bias/n, abs/n
	return x
}

type errorMM struct{ bias, meanAbs, worst float64 }

// measured is the error of each set of estimates at two stations with all
// inputs, by the ASCE equation with kRs 0.16 and 2 m/s; humid has the dew point
// at Tmin, arid 2 °C below. Computed with this package from the published daily
// inputs of the two networks; a test repeats it.
var measured = [...]struct {
	where       string
	days        int
	meanMM      float64
	humid, arid [GuessAll + 1]errorMM
}{
	{
		where: "366 full days at Holyoke CO, 2020", days: 366, meanMM: 3.75,
		humid: [GuessAll + 1]errorMM{
			GuessHumidity:                  {-0.15, 0.31, 3.7},
			GuessRadiation:                 {0.15, 0.19, 1.8},
			GuessHumidity | GuessRadiation: {0.01, 0.37, 3.7},
			GuessWind:                      {-0.36, 0.52, 6.5},
			GuessHumidity | GuessWind:      {-0.45, 0.61, 7.2},
			GuessRadiation | GuessWind:     {-0.20, 0.54, 6.5},
			GuessAll:                       {-0.34, 0.69, 6.7},
		},
		arid: [GuessAll + 1]errorMM{
			GuessHumidity:                  {0.06, 0.28, 2.9},
			GuessRadiation:                 {0.15, 0.19, 1.8},
			GuessHumidity | GuessRadiation: {0.21, 0.40, 2.8},
			GuessWind:                      {-0.36, 0.52, 6.5},
			GuessHumidity | GuessWind:      {-0.30, 0.57, 7.0},
			GuessRadiation | GuessWind:     {-0.20, 0.54, 6.5},
			GuessAll:                       {-0.34, 0.69, 6.7},
		},
	},
	{
		where: "364 full days at Fallon NV, 2015", days: 364, meanMM: 3.63,
		humid: [GuessAll + 1]errorMM{
			GuessHumidity:                  {-0.19, 0.24, 1.7},
			GuessRadiation:                 {0.04, 0.16, 2.4},
			GuessHumidity | GuessRadiation: {-0.14, 0.31, 2.3},
			GuessWind:                      {0.39, 0.60, 2.3},
			GuessHumidity | GuessWind:      {0.16, 0.62, 3.1},
			GuessRadiation | GuessWind:     {0.43, 0.67, 2.5},
			GuessAll:                       {0.18, 0.62, 3.2},
		},
		arid: [GuessAll + 1]errorMM{
			GuessHumidity:                  {-0.08, 0.20, 1.3},
			GuessRadiation:                 {0.04, 0.16, 2.4},
			GuessHumidity | GuessRadiation: {-0.04, 0.28, 2.4},
			GuessWind:                      {0.39, 0.60, 2.3},
			GuessHumidity | GuessWind:      {0.31, 0.66, 2.9},
			GuessRadiation | GuessWind:     {0.43, 0.67, 2.5},
			GuessAll:                       {0.18, 0.62, 3.2},
		},
	},
}
