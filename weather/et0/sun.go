package et0

import (
	"math"

	"loamledger/weather/portable"
)

// SolarConstant is Gsc [MJ m⁻² min⁻¹]: [FAO56] eq. 21. [ASCE] eq. 21 prints
// 4.92 per hour, the same number.
const SolarConstant = 0.0820

// Radians returns an angle of deg degrees in radians.
//
// Source: [FAO56] eq. 22. NaN gives NaN.
func Radians(deg float64) float64 { return deg * math.Pi / 180 }

// DayOfYear returns the day of the year of day d of month m in year y, 1 to 366.
//
//	J = INT(275 M/9 − 30 + D) − 2; +2 if M < 3; +1 in a leap year if M > 2
//
// Source: [FAO56] annex 2, table 2.5.
func DayOfYear(y, m, d int) int {
	j := (275*m-270)/9 + d - 2
	if 275*m < 270 {
		j-- // INT rounds down; integer division rounds to zero.
	}
	if m < 3 {
		j += 2
	} else if y%4 == 0 && (y%100 != 0 || y%400 == 0) {
		j++
	}
	return j
}

// DayOfYearASCE returns the day of the year of day d of month m in year y.
//
//	J = D − 32 + INT(275 M/9) + 2 INT(3/(M+1)) + INT(M/100 − mod(Y,4)/4 + 0.975)
//
// Source: [ASCE] eq. 25. Correct only from 1901 to 2099.
func DayOfYearASCE(y, m, d int) int {
	return d - 32 + 275*m/9 + 2*(3/(m+1)) + int(math.Floor(float64(m)/100-float64(float64(y%4)/4)+0.975))
}

// InverseDistance returns dr, the inverse relative distance from earth to sun,
// on day of the year doy. The divisor stays 365 in leap years.
//
//	dr = 1 + 0.033 cos(2π J / 365)
//
// Source: [FAO56] eq. 23, [ASCE] eq. 23.
func InverseDistance(doy int) float64 {
	return 1 + float64(0.033*portable.Cos(2*math.Pi*float64(doy)/365))
}

// Declination returns δ, the sun's declination [rad], on day of the year doy.
//
//	δ = 0.409 sin(2π J / 365 − 1.39)
//
// Source: [FAO56] eq. 24, [ASCE] eq. 24.
func Declination(doy int) float64 { return 0.409 * portable.Sin(2*math.Pi*float64(doy)/365-1.39) }

// DeclinationCooper returns δ [rad] in an older form, for comparison only.
//
//	δ = 23.45° sin(2π (284 + J) / 365)
//
// Source: P. I. Cooper (1969), Solar Energy 12, 333-346 (from memory).
func DeclinationCooper(doy int) float64 {
	return Radians(23.45) * portable.Sin(2*math.Pi*float64(284+doy)/365)
}

// SunsetHourAngle returns ωs [rad] at latitude latRad for declination declRad.
// The argument is limited to -1..1, so that polar day gives π and polar night 0.
//
//	ωs = arccos(−tan φ tan δ)
//
// Source: [FAO56] eq. 25, [ASCE] eq. 27. NaN gives NaN.
func SunsetHourAngle(latRad, declRad float64) float64 {
	return portable.Acos(max(-1, min(1, -portable.Tan(latRad)*portable.Tan(declRad))))
}

// DaylightHours returns N [h] for a sunset hour angle [rad].
//
//	N = 24 ωs / π
//
// Source: [FAO56] eq. 34, [ASCE] eq. 38. NaN gives NaN.
func DaylightHours(sunsetRad float64) float64 { return 24 / math.Pi * sunsetRad }

// RadiationAboveAir returns Ra [MJ m⁻² d⁻¹], the solar radiation on a
// horizontal surface at the top of the atmosphere.
//
//	Ra = (24·60/π) Gsc dr (ωs sin φ sin δ + cos φ cos δ sin ωs)
//
// Source: [FAO56] eq. 21, [ASCE] eq. 21. Less accurate in winter beyond 55°.
// NaN gives NaN.
func RadiationAboveAir(latRad, declRad, sunsetRad, inverseDistance float64) float64 {
	return 24 * 60 / math.Pi * SolarConstant * inverseDistance *
		(float64(sunsetRad*portable.Sin(latRad)*portable.Sin(declRad)) +
			float64(portable.Cos(latRad)*portable.Cos(declRad)*portable.Sin(sunsetRad)))
}

// Ra returns Ra [MJ m⁻² d⁻¹] at latitude latDeg [°, south negative] on day of
// the year doy: eqs 21 to 25 in one. In polar night it is exactly 0.
func Ra(latDeg float64, doy int) float64 {
	phi, delta := Radians(latDeg), Declination(doy)
	return max(0, RadiationAboveAir(phi, delta, SunsetHourAngle(phi, delta), InverseDistance(doy)))
}

// A SunYear caches what depends only on latitude and day of the year.
type SunYear struct {
	LatDeg    float64
	RaMJ      [367]float64 // [MJ m⁻² d⁻¹] by day of the year; index 0 is not used
	DaylightH [367]float64 // [h] by day of the year
}

// NewSunYear computes days 1 to 366 at latitude latDeg [°, south negative].
func NewSunYear(latDeg float64) *SunYear {
	y := &SunYear{LatDeg: latDeg}
	phi := Radians(latDeg)
	for j := 1; j <= 366; j++ {
		y.RaMJ[j] = Ra(latDeg, j)
		y.DaylightH[j] = DaylightHours(SunsetHourAngle(phi, Declination(j)))
	}
	return y
}
