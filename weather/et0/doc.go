// Package et0 computes daily reference evapotranspiration. It has one function
// per numbered equation, and [Daily], which runs them over a record and reports
// the method used on each day.
//
// # Units
//
// Temperature °C, vapor pressure kPa, radiation MJ m⁻² d⁻¹, wind m/s, height
// m, angles rad, evaporation mm/d. The unit is in each argument's name.
//
// # Promises
//
// The package reads no file, clock or random source. NaN means unknown: every
// equation gives NaN for a NaN argument. Equations limit a value only if the
// publication does; [Daily] limits values and counts them.
//
// # Sources
//
// Equation numbers without a prefix are those of [FAO56]; those of [ASCE] say
// so. Appendix D of [ASCE] was not read directly: its clear-sky formula is from
// public code that cites the appendix by equation number.
//
// [FAO56]: Allen, Pereira, Raes and Smith (1998), Crop evapotranspiration, FAO
// Irrigation and Drainage Paper 56.
//
// [ASCE]: ASCE-EWRI (2005), The ASCE Standardized Reference Evapotranspiration
// Equation.
package et0
