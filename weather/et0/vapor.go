package et0

import "loamledger/weather/portable"

// SaturationVaporPressure returns e°(T), the vapor pressure of saturated air
// [kPa], at air temperature tC [°C].
//
//	e°(T) = 0.6108 exp(17.27 T / (T + 237.3))
//
// Source: [FAO56] eq. 11, [ASCE] eq. 7. tC must be above -237.3; NaN gives NaN.
func SaturationVaporPressure(tC float64) float64 {
	return float64(0.6108 * portable.Exp(17.27*tC/(tC+237.3)))
}

// MeanSaturationVaporPressure returns es [kPa], the mean of e° at the day's
// two extremes. e° of the mean temperature would be too low.
//
//	es = (e°(Tmax) + e°(Tmin)) / 2
//
// Source: [FAO56] eq. 12, [ASCE] eq. 6. NaN gives NaN.
func MeanSaturationVaporPressure(tmaxC, tminC float64) float64 {
	return (SaturationVaporPressure(tmaxC) + SaturationVaporPressure(tminC)) / 2
}

// Slope returns Δ, the slope of the saturation curve [kPa/°C] at tC [°C].
//
//	Δ = 4098 e°(T) / (T + 237.3)²
//
// Source: [FAO56] eq. 13. tC must be above -237.3; NaN gives NaN.
func Slope(tC float64) float64 {
	return 4098 * SaturationVaporPressure(tC) / ((tC + 237.3) * (tC + 237.3))
}

// SlopeASCE returns Δ [kPa/°C] at tC [°C] with the product of the constants
// rounded, as printed in the standard.
//
//	Δ = 2503 exp(17.27 T / (T + 237.3)) / (T + 237.3)²
//
// Source: [ASCE] eq. 5. tC must be above -237.3; NaN gives NaN.
func SlopeASCE(tC float64) float64 {
	return 2503 * portable.Exp(17.27*tC/(tC+237.3)) / ((tC + 237.3) * (tC + 237.3))
}

// RelativeHumidity returns RH [%] of air with vapor pressure eaKPa [kPa] at
// temperature tC [°C].
//
// Source: [FAO56] eq. 10. NaN gives NaN.
func RelativeHumidity(eaKPa, tC float64) float64 {
	return 100 * eaKPa / SaturationVaporPressure(tC)
}

// VaporPressureFromDewPoint returns ea [kPa] from the day's mean dew point
// tdewC [°C].
//
// Source: [FAO56] eq. 14, [ASCE] eq. 8. NaN gives NaN.
func VaporPressureFromDewPoint(tdewC float64) float64 { return SaturationVaporPressure(tdewC) }

// The psychrometer coefficients of [FAO56] eq. 16 [1/°C].
const (
	PsychrometerAspirated = 0.000662 // ventilated, about 5 m/s
	PsychrometerNatural   = 0.000800 // naturally ventilated, about 1 m/s
	PsychrometerIndoor    = 0.001200 // not ventilated, indoors
)

// VaporPressureFromWetBulb returns ea [kPa] from dry and wet bulb readings
// tdryC and twetC [°C], the pressure pKPa [kPa] and the instrument's
// coefficient per °C.
//
//	ea = e°(Twet) − a P (Tdry − Twet)
//
// Source: [FAO56] eqs 15 and 16, [ASCE] eqs 9 and 10. NaN gives NaN.
func VaporPressureFromWetBulb(tdryC, twetC, pKPa, coefficient float64) float64 {
	return SaturationVaporPressure(twetC) - float64(coefficient*pKPa*(tdryC-twetC))
}

// VaporPressureFromRH returns ea [kPa] from the day's extremes of temperature
// [°C] and relative humidity [%]. The highest humidity is paired with the lowest temperature.
//
//	ea = (e°(Tmin) RHmax + e°(Tmax) RHmin) / 200
//
// Source: [FAO56] eq. 17, [ASCE] eq. 11. NaN gives NaN.
func VaporPressureFromRH(tmaxC, tminC, rhmaxPct, rhminPct float64) float64 {
	return (float64(SaturationVaporPressure(tminC)*rhmaxPct) + float64(SaturationVaporPressure(tmaxC)*rhminPct)) / 200
}

// VaporPressureFromRHmax returns ea [kPa] from the highest humidity rhmaxPct
// [%] and the lowest temperature tminC [°C].
//
// Source: [FAO56] eq. 18, [ASCE] eq. 12. NaN gives NaN.
func VaporPressureFromRHmax(tminC, rhmaxPct float64) float64 {
	return SaturationVaporPressure(tminC) * rhmaxPct / 100
}

// VaporPressureFromRHmin returns ea [kPa] from the lowest humidity rhminPct
// [%] and the highest temperature tmaxC [°C].
//
// Source: [ASCE] eq. 13. NaN gives NaN.
func VaporPressureFromRHmin(tmaxC, rhminPct float64) float64 {
	return SaturationVaporPressure(tmaxC) * rhminPct / 100
}

// VaporPressureFromRHmean returns ea [kPa] from the mean humidity rhmeanPct
// [%] in the form of [FAO56], which [ASCE] does not recommend.
//
//	ea = RHmean/100 (e°(Tmax) + e°(Tmin)) / 2
//
// Source: [FAO56] eq. 19. NaN gives NaN.
func VaporPressureFromRHmean(tmaxC, tminC, rhmeanPct float64) float64 {
	return MeanSaturationVaporPressure(tmaxC, tminC) * rhmeanPct / 100
}

// VaporPressureFromRHmeanASCE returns ea [kPa] from the mean humidity
// rhmeanPct [%] at the mean temperature.
//
//	ea = RHmean/100 e°(Tmean)
//
// Source: [ASCE] eq. 14. NaN gives NaN.
func VaporPressureFromRHmeanASCE(tmaxC, tminC, rhmeanPct float64) float64 {
	return SaturationVaporPressure(MeanTemperature(tmaxC, tminC)) * rhmeanPct / 100
}

// VaporPressureFromTmin returns ea [kPa] if humidity is unknown, assuming the
// dew point is offsetC [°C] below the lowest temperature: 0 in humid and
// subhumid places, 2 in arid and semiarid ones.
//
//	ea = e°(Tmin − Ko)
//
// Source: [FAO56] eq. 48 for Ko = 0 and eq. 6-6 of annex 6. NaN gives NaN.
func VaporPressureFromTmin(tminC, offsetC float64) float64 {
	return SaturationVaporPressure(tminC - offsetC)
}
