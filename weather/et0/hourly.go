package et0

import (
	"math"

	"loamledger/weather/portable"
)

// SeasonalAngle returns b [rad] of the seasonal correction on day doy.
//
//	b = 2π (J − 81) / 364
//
// Source: [FAO56] eq. 33.
func SeasonalAngle(doy int) float64 { return 2 * math.Pi * float64(doy-81) / 364 }

// SeasonalCorrection returns Sc [h], how far solar time is ahead of clock time
// on day doy.
//
//	Sc = 0.1645 sin 2b − 0.1255 cos b − 0.025 sin b
//
// Source: [FAO56] eq. 32.
func SeasonalCorrection(doy int) float64 {
	b := SeasonalAngle(doy)
	return float64(0.1645*portable.Sin(2*b)) - float64(0.1255*portable.Cos(b)) - float64(0.025*portable.Sin(b))
}

// SolarTimeAngle returns ω [rad] at the midpoint of a period, clockH in
// standard time. Longitudes are degrees west of Greenwich, of the time zone and
// of the site.
//
//	ω = π/12 ((t + 0.06667 (Lz − Lm) + Sc) − 12)
//
// Source: [FAO56] eq. 31. NaN gives NaN.
func SolarTimeAngle(clockH, zoneWestDeg, westDeg float64, doy int) float64 {
	return math.Pi / 12 * (clockH + float64(0.06667*(zoneWestDeg-westDeg)) + SeasonalCorrection(doy) - 12)
}

// RadiationAboveAirInPeriod returns Ra [MJ m⁻²] of a period of lengthH hours
// whose midpoint has solar time angle midRad; 0 while the sun is down.
//
//	Ra = (12·60/π) Gsc dr ((ω2 − ω1) sin φ sin δ + cos φ cos δ (sin ω2 − sin ω1))
//
// Source: [FAO56] eqs 28 to 30, with the angles limited to sunrise and sunset.
// NaN gives NaN.
func RadiationAboveAirInPeriod(latRad float64, doy int, midRad, lengthH float64) float64 {
	delta := Declination(doy)
	sunset := SunsetHourAngle(latRad, delta)
	w1 := max(-sunset, min(sunset, midRad-math.Pi*lengthH/24))
	w2 := max(-sunset, min(sunset, midRad+math.Pi*lengthH/24))
	return max(0, 12*60/math.Pi*SolarConstant*InverseDistance(doy)*
		(float64((w2-w1)*portable.Sin(latRad)*portable.Sin(delta))+
			float64(portable.Cos(latRad)*portable.Cos(delta)*(portable.Sin(w2)-portable.Sin(w1)))))
}

// NetLongwaveHourly returns Rnl [MJ m⁻² h⁻¹] at the hour's mean temperature.
//
// Source: [FAO56] eq. 39 with σ/24. NaN gives NaN.
func NetLongwaveHourly(tC, eaKPa, cloudTerm float64) float64 {
	return Blackbody(tC, SigmaFAO/24) * HumidityTerm(eaKPa) * cloudTerm
}

// SoilHeatByDay returns G [MJ m⁻² h⁻¹] of an hour of daylight.
//
// Source: [FAO56] eq. 45. NaN gives NaN.
func SoilHeatByDay(netMJ float64) float64 { return 0.1 * netMJ }

// SoilHeatByNight returns G [MJ m⁻² h⁻¹] of an hour of darkness.
//
// Source: [FAO56] eq. 46. NaN gives NaN.
func SoilHeatByNight(netMJ float64) float64 { return 0.5 * netMJ }

// VaporPressureHourly returns ea [kPa] from the hour's mean humidity and
// temperature.
//
// Source: [FAO56] eq. 54. NaN gives NaN.
func VaporPressureHourly(tC, rhPct float64) float64 {
	return SaturationVaporPressure(tC) * rhPct / 100
}

// EToHourly returns ETo [mm/h] of the short surface.
//
//	(0.408 Δ (Rn − G) + γ 37/(T + 273) u2 (e° − ea)) / (Δ + γ (1 + 0.34 u2))
//
// Source: [FAO56] eq. 53. netMJ and soilHeatMJ [MJ m⁻² h⁻¹]. NaN gives NaN.
func EToHourly(slope, gamma, netMJ, soilHeatMJ, tC, u2MS, deficitKPa float64) float64 {
	return Surface{37, 0.34}.ReferenceET(slope, gamma, netMJ, soilHeatMJ, tC, u2MS, deficitKPa)
}
