// Package generate makes synthetic daily weather from monthly means: a chain of
// wet and dry days, rain amounts on wet days, and temperatures and radiation
// that are correlated with each other and from day to day, after [Richardson].
//
// # Units
//
// mm, °C, MJ m⁻² d⁻¹, m/s. Months are in order, January first.
//
// # Order of a day
//
// The year's wetness is drawn once a year. Each day is wet or dry by the
// month's two transition probabilities. Then follow an amount if wet, the
// correlated residuals of Tmax, Tmin and radiation around the means of that
// state, and wind and dew point.
//
// # Promises
//
// Every value is marked [weather.Synthetic]. Equal arguments give equal bytes
// on the same kind of machine; no clock and no other random source is read.
// Rain is never negative, Tmin never above Tmax, the dew point never above Tmin
// and radiation never above clear-sky radiation; values that had to be limited
// are counted. Values are rounded to 0.1, as in station files.
//
// # Sources
//
// The papers were not at hand: values and equations from them are from memory
// and say so.
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
