package et0

import "math"

// A Surface is a reference crop: the numerator constant Cn and the denominator
// constant Cd of the daily equation.
type Surface struct{ Cn, Cd float64 }

// Short returns the short-grass surface of ETo: [ASCE] table 1, daily, and
// [FAO56] eq. 6.
func Short() Surface { return Surface{Cn: 900, Cd: 0.34} }

// Tall returns the tall-alfalfa surface of ETr: [ASCE] table 1, daily.
func Tall() Surface { return Surface{Cn: 1600, Cd: 0.38} }

// RadiationTerm returns the part of reference ET [mm/d] due to net radiation.
//
//	0.408 Δ (Rn − G) / (Δ + γ (1 + Cd u2))
//
// Source: [FAO56] eq. 6, [ASCE] eq. 1. NaN gives NaN.
func (s Surface) RadiationTerm(slope, gamma, netMJ, soilHeatMJ, u2MS float64) float64 {
	return 0.408 * slope * (netMJ - soilHeatMJ) / (slope + float64(gamma*(1+float64(s.Cd*u2MS))))
}

// AerodynamicTerm returns the part of reference ET [mm/d] due to wind and dry
// air; deficitKPa is es − ea.
//
//	γ Cn/(T + 273) u2 (es − ea) / (Δ + γ (1 + Cd u2))
//
// Source: [FAO56] eq. 6, [ASCE] eq. 1. NaN gives NaN.
func (s Surface) AerodynamicTerm(slope, gamma, tmeanC, u2MS, deficitKPa float64) float64 {
	return gamma * s.Cn / (tmeanC + 273) * u2MS * deficitKPa / (slope + float64(gamma*(1+float64(s.Cd*u2MS))))
}

// ReferenceET returns the reference ET of the surface [mm/d], ETo for [Short]
// and ETr for [Tall]. It may be slightly below 0 on dark, cold days.
//
//	(0.408 Δ (Rn − G) + γ Cn/(T + 273) u2 (es − ea)) / (Δ + γ (1 + Cd u2))
//
// Source: [FAO56] eq. 6, [ASCE] eq. 1. slope and gamma [kPa/°C], netMJ and
// soilHeatMJ [MJ m⁻² d⁻¹], tmeanC [°C], u2MS [m/s], deficitKPa [kPa]. NaN gives NaN.
func (s Surface) ReferenceET(slope, gamma, netMJ, soilHeatMJ, tmeanC, u2MS, deficitKPa float64) float64 {
	radiation, wind := float64(0.408*slope*(netMJ-soilHeatMJ)), float64(gamma*s.Cn/(tmeanC+273)*u2MS*deficitKPa)
	return (radiation + wind) / (slope + float64(gamma*(1+float64(s.Cd*u2MS))))
}

// Hargreaves returns ETo [mm/d] from temperatures alone; raMM is Ra as
// evaporation [mm/d], which is [Evaporation] of Ra.
//
//	ETo = 0.0023 (Tmean + 17.8) (Tmax − Tmin)^0.5 Ra
//
// Source: [FAO56] eq. 52, which warns that it is too low in wind above 3 m/s
// and too high in humid air. tmaxC below tminC gives NaN, as does NaN; below a
// mean of -17.8 °C the result is negative.
func Hargreaves(tmaxC, tminC, raMM float64) float64 {
	return float64(0.0023 * (MeanTemperature(tmaxC, tminC) + 17.8) * math.Sqrt(tmaxC-tminC) * raMM)
}

// HargreavesSamani returns ETo [mm/d] from temperatures alone with a
// coefficient that depends on their range, for comparison; raMJ is Ra [MJ m⁻² d⁻¹].
//
//	ETo = 0.0135 C (Tmean + 17.8) (Tmax − Tmin)^0.5 Ra/2.45
//	C = 0.00185 (Tmax − Tmin)² − 0.0433 (Tmax − Tmin) + 0.4023
//
// Source: Samani (2000), as used in McMahon et al. (2013), Hydrology and Earth
// System Sciences 17, supplement. tmaxC below tminC gives NaN, as does NaN.
func HargreavesSamani(tmaxC, tminC, raMJ float64) float64 {
	r := tmaxC - tminC
	c := float64(0.00185*r*r) - float64(0.0433*r) + 0.4023
	return 0.0135 * c * (MeanTemperature(tmaxC, tminC) + 17.8) * math.Sqrt(r) * raMJ / 2.45
}
