package et0

import "loamledger/weather/portable"

// Pressure returns the air pressure [kPa] at elevation elevM [m].
//
//	P = 101.3 ((293 − 0.0065 z) / 293)^5.26
//
// Source: [FAO56] eq. 7, [ASCE] eq. 3. elevM must be below 45,000; NaN gives NaN.
func Pressure(elevM float64) float64 {
	return 101.3 * portable.Pow((293-float64(0.0065*elevM))/293, 5.26)
}

// PsychrometricConstant returns γ [kPa/°C] at air pressure pKPa [kPa].
//
//	γ = 0.665e-3 P
//
// Source: [FAO56] eq. 8 in its rounded form, [ASCE] eq. 4. NaN gives NaN.
func PsychrometricConstant(pKPa float64) float64 { return 0.665e-3 * pKPa }

// PsychrometricConstantUnrounded returns γ [kPa/°C] from the terms whose
// rounded product is 0.665e-3.
//
//	γ = cp P / (ε λ), cp = 1.013e-3 MJ kg⁻¹ °C⁻¹, ε = 0.622, λ = 2.45 MJ/kg
//
// Source: [FAO56] eq. 8, first form. NaN gives NaN.
func PsychrometricConstantUnrounded(pKPa float64) float64 {
	return 1.013e-3 * pKPa / (0.622 * 2.45)
}

// MeanTemperature returns the mean of the day's extremes [°C], which the daily
// equations require, not the mean of hourly readings.
//
// Source: [FAO56] eq. 9, [ASCE] eq. 2. NaN gives NaN.
func MeanTemperature(tmaxC, tminC float64) float64 { return float64((tmaxC + tminC) / 2) }

// WindFactor returns the factor that converts wind speed at heightM [m] above
// short grass to 2 m.
//
//	4.87 / ln(67.8 z − 5.42)
//
// Source: [FAO56] eq. 47, [ASCE] eq. 33. heightM must be above 0.1, otherwise
// the result is NaN, infinite or negative; NaN gives NaN.
func WindFactor(heightM float64) float64 { return 4.87 / portable.Log(float64(67.8*heightM)-5.42) }

// WindAt2M returns the wind speed [m/s] at 2 m from windMS [m/s] at heightM [m].
//
// Source and domain: see [WindFactor].
func WindAt2M(windMS, heightM float64) float64 { return windMS * WindFactor(heightM) }
