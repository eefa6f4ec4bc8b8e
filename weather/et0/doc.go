// Package et0 computes reference evapotranspiration by the day: one function
// per numbered equation, and [Daily], which runs them over a record and says
// of every day how it came to its number.
//
// # Units
//
// Temperature °C, vapour pressure kPa, radiation MJ m⁻² d⁻¹, wind m/s, height
// m, angles rad, evaporation mm/d. The unit is in each argument's name.
//
// # Promises
//
// The package reads no file, clock or random source. NaN means unknown: every
// equation gives NaN for a NaN argument. Equations hold nothing to a range
// unless the publication does; [Daily] does, and counts it.
//
// # Sources
//
// Equation numbers without a prefix are those of [FAO56]; those of [ASCE] say
// so. Appendix D of [ASCE] was not read itself: its clear-sky formula is taken
// from public code that cites the appendix by equation number.
//
// [FAO56]: Allen, Pereira, Raes and Smith (1998), Crop evapotranspiration, FAO
// Irrigation and Drainage Paper 56.
//
// [ASCE]: ASCE-EWRI (2005), The ASCE Standardized Reference Evapotranspiration
// Equation.
package et0
