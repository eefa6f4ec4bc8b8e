package et0

import (
	"math"

	"loamledger/weather/portable"
)

// Albedo is the share of sunlight that the reference grass reflects:
// [FAO56] eq. 38, [ASCE] eq. 16.
const Albedo = 0.23

// The daily Stefan-Boltzmann constant [MJ K⁻⁴ m⁻² d⁻¹] as printed in the two
// publications.
const (
	SigmaFAO  = 4.903e-9 // [FAO56] eq. 39
	SigmaASCE = 4.901e-9 // [ASCE] eq. 17
)

// The default Ångström coefficients: [FAO56] eq. 35.
const (
	AngstromA = 0.25
	AngstromB = 0.50
)

// The coefficients of [RadiationFromRange]: [FAO56] eq. 50.
const (
	KRsInterior = 0.16 // where land mass dominates
	KRsCoast    = 0.19 // on or near the coast of a large land mass
)

// Evaporation returns the depth [mm/d] that energyMJ [MJ m⁻² d⁻¹] evaporates.
//
//	0.408 R
//
// Source: [FAO56] eq. 20. NaN gives NaN.
func Evaporation(energyMJ float64) float64 { return 0.408 * energyMJ }

// RadiationFromSunshine returns Rs [MJ m⁻² d⁻¹] from sunH hours of bright
// sunshine out of daylightH possible hours.
//
//	Rs = (as + bs n/N) Ra
//
// Source: [FAO56] eq. 35. daylightH must be above 0: in the polar night the
// result is NaN. NaN gives NaN.
func RadiationFromSunshine(sunH, daylightH, raMJ, a, b float64) float64 {
	return (a + b*sunH/daylightH) * raMJ
}

// ClearSkyRadiation returns Rso [MJ m⁻² d⁻¹] at elevation elevM [m].
//
//	Rso = (0.75 + 2e-5 z) Ra
//
// Source: [FAO56] eq. 37, [ASCE] eq. 19. NaN gives NaN.
func ClearSkyRadiation(raMJ, elevM float64) float64 { return (0.75 + float64(2e-5*elevM)) * raMJ }

// ClearSkyRadiationFull returns Rso [MJ m⁻² d⁻¹] from water vapor, pressure and
// the sun's height: for checking measured Rs, not for ETo. clearness is Kt, 1
// in clean air and down to 0.5 in dusty air.
//
//	Rso = (KB + KD) Ra
//	KB = 0.98 exp(−0.00146 P/(Kt s) − 0.075 (W/s)^0.4)
//	KD = min(0.35 − 0.36 KB, 0.18 + 0.82 KB)
//	W = 0.14 ea P + 2.1
//	s = sin(0.85 + 0.3 φ sin(2π J/365 − 1.39) − 0.42 φ²), at least 0.1
//
// Source: [ASCE] appendix D, eqs D.1 to D.6, from public code (see the package
// comment). FAO-56 annex 3 prints an older set. NaN gives NaN.
func ClearSkyRadiationFull(raMJ, eaKPa, pKPa, latRad float64, doy int, clearness float64) float64 {
	s := portable.Sin(0.85 + float64(0.3*latRad*portable.Sin(2*math.Pi*float64(doy)/365-1.39)) - float64(0.42*latRad*latRad))
	s = max(0.1, s)
	w := float64(0.14*eaKPa*pKPa) + 2.1
	kb := float64(0.98 * portable.Exp(-0.00146*pKPa/(clearness*s)-float64(0.075*portable.Pow(w/s, 0.4))))
	kd := min(0.35-float64(0.36*kb), 0.18+float64(0.82*kb))
	return (kb + kd) * raMJ
}

// NetShortwave returns Rns [MJ m⁻² d⁻¹].
//
//	Rns = (1 − 0.23) Rs
//
// Source: [FAO56] eq. 38, [ASCE] eq. 16. NaN gives NaN.
func NetShortwave(rsMJ float64) float64 { return float64((1 - Albedo) * rsMJ) }

// Blackbody returns σ T⁴ [MJ m⁻² d⁻¹] at tC [°C], with an offset of 273.16 to
// kelvin as in both publications.
//
// Source: [FAO56] table 2.8 for sigma = [SigmaFAO]. NaN gives NaN.
func Blackbody(tC, sigma float64) float64 {
	k := tC + 273.16
	k *= k
	return float64(sigma * k * k)
}

// RelativeShortwave returns Rs/Rso, at most 1. Without daylight it is 1, which
// keeps the cloud term at its clear-sky value.
//
// Source: [FAO56] eq. 39 for the limit; 1 in the dark is common practice, no
// source. NaN in rsMJ gives NaN if there is daylight.
func RelativeShortwave(rsMJ, rsoMJ float64) float64 {
	if rsoMJ <= 0 {
		return 1
	}
	return min(1, rsMJ/rsoMJ)
}

// HumidityTerm returns the share of longwave loss that the air's moisture lets
// through.
//
//	0.34 − 0.14 √ea
//
// Source: [FAO56] eq. 39. eaKPa must not be negative; NaN gives NaN.
func HumidityTerm(eaKPa float64) float64 { return 0.34 - float64(0.14*math.Sqrt(eaKPa)) }

// CloudTerm returns the share of longwave loss that clouds let through, for
// relative shortwave radiation from [RelativeShortwave].
//
//	1.35 Rs/Rso − 0.35
//
// Source: [FAO56] eq. 39. NaN gives NaN.
func CloudTerm(relativeShortwave float64) float64 { return float64(1.35*relativeShortwave) - 0.35 }

// CloudTermASCE is [CloudTerm] with Rs/Rso limited to 0.3..1.0, so that it is
// between 0.055 and 1.
//
// Source: [ASCE] eq. 18. NaN gives NaN.
func CloudTermASCE(relativeShortwave float64) float64 {
	return CloudTerm(max(0.3, min(1, relativeShortwave)))
}

// NetLongwave returns Rnl, the net longwave loss [MJ m⁻² d⁻¹], from the day's
// extremes [°C], ea [kPa], the cloud term of [CloudTerm] or [CloudTermASCE]
// and the constant of either publication.
//
//	Rnl = σ (Tmax,K⁴ + Tmin,K⁴)/2 (0.34 − 0.14 √ea) (1.35 Rs/Rso − 0.35)
//
// Source: [FAO56] eq. 39, [ASCE] eq. 17. NaN gives NaN.
func NetLongwave(tmaxC, tminC, eaKPa, cloudTerm, sigma float64) float64 {
	return float64((Blackbody(tmaxC, sigma) + Blackbody(tminC, sigma)) / 2 * HumidityTerm(eaKPa) * cloudTerm)
}

// NetRadiation returns Rn [MJ m⁻² d⁻¹] from net shortwave and net longwave.
//
// Source: [FAO56] eq. 40, [ASCE] eq. 15. NaN gives NaN.
func NetRadiation(rnsMJ, rnlMJ float64) float64 { return rnsMJ - rnlMJ }

// SoilHeatFromPreviousMonth returns G [MJ m⁻² d⁻¹] if the next month's
// temperature is unknown.
//
//	G = 0.14 (Ti − Ti−1)
//
// Source: [FAO56] eq. 44. NaN gives NaN.
func SoilHeatFromPreviousMonth(previousC, thisC float64) float64 { return 0.14 * (thisC - previousC) }

// RadiationFromRange returns Rs [MJ m⁻² d⁻¹] from the day's temperature range;
// kRs is 0.16 inland and 0.19 on coasts. The caller must limit it to
// [ClearSkyRadiation].
//
//	Rs = kRs √(Tmax − Tmin) Ra
//
// Source: [FAO56] eq. 50; not for islands. tmaxC below tminC gives NaN, as
// does NaN.
func RadiationFromRange(tmaxC, tminC, raMJ, kRs float64) float64 {
	return kRs * math.Sqrt(tmaxC-tminC) * raMJ
}
