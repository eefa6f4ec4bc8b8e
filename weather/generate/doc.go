// Package generate invents daily weather from monthly figures: a chain of wet
// and dry days, amounts on the wet ones, and temperatures and radiation that
// hang together and carry over from day to day, after [Richardson].
//
// # Units
//
// mm, °C, MJ m⁻² d⁻¹, m/s. Months stand in order, January first.
//
// # Order of a day
//
// The year's wetness is drawn once a year. Each day: wet or dry by the month's
// two transition chances; an amount if wet; then the correlated residuals of
// Tmax, Tmin and radiation on the means of that state; then wind and dew point.
//
// # Promises
//
// Every value carries [weather.Invented]. Equal arguments give equal bytes on
// one kind of machine; no clock and no other random source is read. Rain is
// never negative, Tmin never above Tmax, the dew point never above Tmin and
// radiation never above a clear sky's; what had to be held is counted. Values
// are rounded to 0.1, as station files are.
//
// # Sources
//
// The papers were not at hand: what is taken from them is from memory, and
// says so where it stands.
//
// [Richardson]: C. W. Richardson (1981), Stochastic simulation of daily
// precipitation, temperature, and solar radiation, Water Resources Research
// 17(1), 182-190.
//
// [RichardsonWright]: C. W. Richardson and D. A. Wright (1984), a report of the
// US Department of Agriculture, ARS-8, with the matrices for general use.
//
// [Geng]: S. Geng, F. W. T. Penning de Vries and I. Supit (1986), A simple
// method for generating daily rainfall data, Agricultural and Forest
// Meteorology 36, 363-376.
package generate
