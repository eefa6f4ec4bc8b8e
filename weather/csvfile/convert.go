package csvfile

import (
	"math"

	"loamledger/weather/quantity"
)

var nan = math.NaN()

// Conversions to the units of the columns. A division by a power of ten
// rounds correctly; multiplication by its inverse does not.

func tenths(v float64) float64        { return v / 10 }
func fahrenheit(v float64) float64    { return (v - 32) * 5 / 9 }
func inches(v float64) float64        { return v * quantity.InchMM }
func mph(v float64) float64           { return v * 0.44704 } // a mile is 1609.344 m
func kmh(v float64) float64           { return v / 3.6 }
func knots(v float64) float64         { return v * 1852 / 3600 }
func kmPerDay(v float64) float64      { return v / 86.4 }
func milesPerDay(v float64) float64   { return v * 1609.344 / 86400 }
func kilowattHours(v float64) float64 { return v * 3.6 }
func watts(v float64) float64         { return v * 0.0864 }   // a mean over 24 h
func langleys(v float64) float64      { return v * 0.041868 } // of the international steam table calorie
func joulesPerCM2(v float64) float64  { return v / 100 }
func hectopascals(v float64) float64  { return v / 10 }
func pascals(v float64) float64       { return v / 1000 }
func minutes(v float64) float64       { return v / 60 }
func seconds(v float64) float64       { return v / 3600 }
func centimeters(v float64) float64   { return v * 10 }
func kelvin(v float64) float64        { return v - 273.15 }
