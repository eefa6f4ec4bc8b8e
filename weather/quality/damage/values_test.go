package damage

import (
	"math/rand/v2"

	"loamledger/weather"
	"loamledger/weather/cal"
)

// Damages of values. They take the days as made up and return them as the file
// has them.

type values = func(rng *rand.Rand, days []day) ([]day, int)

// each damages every day for which is returns true.
func each(is func(i int, d day) bool, do func(d *day)) values {
	return func(_ *rand.Rand, days []day) ([]day, int) {
		for i := range days {
			if is == nil || is(i, days[i]) {
				do(&days[i])
			}
		}
		return days, -1
	}
}

// all damages every day; the first line is named.
func all(do func(d *day)) values {
	return func(rng *rand.Rand, days []day) ([]day, int) {
		days, _ = each(nil, do)(rng, days)
		return days, 0
	}
}

// from damages every day from a seeded one in the middle third on.
func from(do func(d *day)) values {
	return func(rng *rand.Rand, days []day) ([]day, int) {
		at := len(days)/3 + rng.IntN(len(days)/3)
		days, _ = each(func(i int, _ day) bool { return i >= at }, do)(rng, days)
		return days, at
	}
}

// one damages a seeded day for which is returns true.
func one(is func(d day) bool, do func(d *day)) values {
	return func(rng *rand.Rand, days []day) ([]day, int) {
		for {
			if i := len(days)/5 + rng.IntN(3*len(days)/5); is == nil || is(days[i]) {
				do(&days[i])
				return days, i
			}
		}
	}
}

// span damages a number of days in a row from a seeded one on.
func span(n int, do func(d *day)) values {
	return func(rng *rand.Rand, days []day) ([]day, int) {
		at := rng.IntN(len(days) - n)
		days, _ = each(func(i int, _ day) bool { return i >= at && i < at+n }, do)(rng, days)
		return days, -1
	}
}

// gather sums rain until the gauge is read.
func gather(read func(d day) bool) values {
	return func(_ *rand.Rand, days []day) ([]day, int) {
		sum := 0.0
		for i := range days {
			sum += days[i].rain
			days[i].rain = 0
			if read(days[i]) {
				days[i].rain, sum = sum, 0
			}
		}
		return days, -1
	}
}

// toDate sums rain until restart returns true.
func toDate(restart func(d day) bool) values {
	return func(_ *rand.Rand, days []day) ([]day, int) {
		sum := 0.0
		for i := range days {
			if restart(days[i]) {
				sum = 0
			}
			sum += days[i].rain
			days[i].rain = sum
		}
		return days, -1
	}
}

func winter(d day) bool { m := monthOf(d.date); return m == 12 || m <= 2 }
func summer(d day) bool { m := monthOf(d.date); return m >= 6 && m <= 8 }
func dry(d day) bool    { return d.rain == 0 }

// anyLine forgets the line.
func anyLine(v values) values {
	return func(rng *rand.Rand, days []day) ([]day, int) {
		days, _ = v(rng, days)
		return days, -1
	}
}

// valueFaults lists the damages of values.
func valueFaults() []fault {
	const tmax, tmin, rain, rhmax, rhmin = weather.Tmax, weather.Tmin, weather.Rain, weather.RHmax, weather.RHmin
	const dew, rs, wind = weather.Tdew, weather.Rs, weather.Wind
	var list []fault
	add := func(name string, years int, do values, slack int, codes []weather.Code, needs ...weather.Column) {
		list = append(list, fault{name: name, years: years, needs: needs, days: do, codes: codes, slack: slack})
	}
	is := func(codes ...weather.Code) []weather.Code { return codes }
	bothF := func(d *day) { d.tmax, d.tmin = fahrenheit(d.tmax), fahrenheit(d.tmin) }

	broken := is(weather.CodeUnitBreak)
	add("rain in inches from a day on", 4, anyLine(from(func(d *day) { d.rain /= 25.4 })), 0, broken, rain)
	add("rain in tenths from a day on", 4, anyLine(from(func(d *day) { d.rain *= 10 })), 0, broken, rain)
	add("winter rows in °F", 4, each(func(_ int, d day) bool { return winter(d) }, bothF), 0, broken, tmax, tmin)
	add("temperatures in °F from a day on", 4, from(bothF), 3, broken, tmax, tmin)
	add("Tmax alone in °F from a day on", 4, from(func(d *day) { d.tmax = fahrenheit(d.tmax) }), 3, broken, tmax)
	add("wind in km/h from a day on", 4, anyLine(from(func(d *day) { d.ws *= 3.6 })), 0, broken, wind)
	add("wind in mph from a day on", 4, anyLine(from(func(d *day) { d.ws *= 2.237 })), 0, broken, wind)
	add("radiation in W/m² from a day on", 4, anyLine(from(func(d *day) { d.rs /= 0.0864 })), 0, broken, rs)
	add("humidity as a fraction from a day on", 4, from(func(d *day) { d.rhmax /= 100; d.rhmin /= 100 }), 3, broken, rhmax, rhmin)

	dead := is(weather.CodeGaugeDead)
	add("a gauge that dies for two of four years", 4, anyLine(span(730, func(d *day) { d.rain = 0 })), 0, dead, rain)
	add("a gauge that dies for a year of eight", 8, anyLine(span(365, func(d *day) { d.rain = 0 })), 0, dead, rain)
	add("no rain at all", 4, all(func(d *day) { d.rain = 0 }), 0, dead, rain)
	total := is(weather.CodeRainRunningTotal)
	add("month-to-date rain", 4, toDate(func(d day) bool { return dayOf(d.date) == 1 }), 0, total, rain)
	add("year-to-date rain", 4, toDate(func(d day) bool { return d.date.YearDay() == 1 }), 0, total, rain)
	add("a running total of all days", 2, toDate(func(day) bool { return false }), 0, total, rain)
	gathered := is(weather.CodeRainAccumulated)
	add("rain read every other day", 4, gather(func(d day) bool { return int(d.date)%2 == 0 }), 0, gathered, rain)
	add("rain read every fourth day", 4, gather(func(d day) bool { return int(d.date)%4 == 0 }), 0, gathered, rain)

	add("humidity as a fraction", 4, all(func(d *day) { d.rhmax /= 100; d.rhmin /= 100 }), 0, is(weather.CodeHumidityUnit), rhmax, rhmin)
	for _, u := range []struct {
		name   string
		factor float64
	}{
		{"radiation in W/m²", 1 / 0.0864}, {"radiation in kJ/m²", 1000}, {"radiation in J/cm²", 100}, {"radiation in langleys", 1 / 0.041868},
		{"radiation in kWh/m²", 1 / 3.6}, {"hourly radiation summed twice", 2},
	} {
		add(u.name, 4, all(func(d *day) { d.rs *= u.factor }), 0, is(weather.CodeRadiationUnit, weather.CodeMissingHours), rs)
	}
	add("dates half a year late", 4, all(func(d *day) { d.date += 182 }), 0, is(weather.CodeDatesShifted), tmax, tmin)
	add("dates forty years ahead", 4, anyLine(all(func(d *day) { d.date += 14610 })), 0, is(weather.CodeDatesAhead))
	add("day and month swapped up to the 12th", 4, each(nil, func(d *day) {
		if y, m, n := d.date.YMD(); n <= 12 {
			d.date = cal.Of(y, n, m)
		}
	}), 0, is(weather.CodeDatesSwapped), tmax, tmin)
	add("two stations glued", 4, anyLine(from(func(d *day) { d.tmax += 7; d.tmin += 7; d.ws *= 1.7 })), 0,
		is(weather.CodeLevelJump), tmax, wind)
	lone := is(weather.CodeRainLoneDay)
	add("a day of 150 mm", 4, one(nil, func(d *day) { d.rain = 150 }), 0, lone, rain)
	add("a day of 500 mm", 4, one(nil, func(d *day) { d.rain = 500 }), 0, lone, rain)
	add("a wettest day of 550 mm", 4, one(nil, func(d *day) { d.rain = 550 }), 0,
		is(weather.CodeRainWettestDay, weather.CodeRainLoneDay), rain)
	add("all rain in inches", 4, anyLine(all(func(d *day) { d.rain /= 25.4 })), 0, is(weather.CodeRainUnit), rain)
	add("all rain in tenths", 4, anyLine(all(func(d *day) { d.rain *= 10 })), 0, is(weather.CodeRainUnit), rain)
	add("all wind in km/h", 4, all(func(d *day) { d.ws *= 5.5 }), 0, is(weather.CodeWindUnit), wind)
	add("all temperatures in °F", 4, all(bothF), 0, is(weather.CodeTemperatureUnit), tmax, tmin)
	add("dew points in °F", 4, all(func(d *day) { d.tdew = fahrenheit(d.tdew) }), 0, is(weather.CodeDewPointUnit), dew)

	odd := is(weather.CodeOddValue)
	add("a Tmax of 58", 4, one(nil, func(d *day) { d.tmax = 58 }), 0, odd, tmax)
	add("a Tmin of −30", 4, one(func(d day) bool { return !winter(d) }, func(d *day) { d.tmin = -30 }), 0, odd, tmin)
	add("a winter day of 35", 4, one(winter, func(d *day) { d.tmax = 35 }), 0, odd, tmax)
	add("a wind of 20 m/s", 4, one(nil, func(d *day) { d.ws = 20 }), 0, odd, wind)
	add("a summer Tmax without its decimal point", 4, one(summer, func(d *day) { d.tmax *= 10 }), 0,
		is(weather.CodePastLimits, weather.CodeOddCell, weather.CodeMissingHours), tmax)
	add("Tmax and Tmin of a day swapped", 4, one(nil, func(d *day) { d.tmax, d.tmin = d.tmin, d.tmax }), 0,
		is(weather.CodeTmaxBelowTmin), tmax, tmin)
	add("negative rain", 4, one(func(d day) bool { return d.rain > 1 }, func(d *day) { d.rain = -d.rain }), 0,
		is(weather.CodePastLimits), rain)
	add("negative wind", 4, one(nil, func(d *day) { d.ws = -d.ws }), 0, is(weather.CodePastLimits), wind)
	add("more radiation than above the air", 4, one(nil, func(d *day) { d.rs = 60 }), 0,
		is(weather.CodeRadiationAboveAir, weather.CodePastLimits, weather.CodeOddCell), rs)
	add("no radiation on a day", 4, one(nil, func(d *day) { d.rs = 0 }), 0, is(weather.CodeRadiationNone, weather.CodeDarkDay), rs)
	add("humidity of 140%", 4, one(nil, func(d *day) { d.rhmax, d.rhmin = 140, 130 }), 0,
		is(weather.CodePastLimits, weather.CodeHumidityAbove100, weather.CodeRHAbove100), rhmax, rhmin)
	add("dew point above Tmax", 4, one(nil, func(d *day) { d.tdew = d.tmax + 5 }), 0, is(weather.CodeDewPointAboveTmax), dew)
	add("a sensor stuck for two months", 4, anyLine(span(60, func(d *day) { d.tmax, d.tmin = 17.1, 6.2 })), 0,
		is(weather.CodeFlatLine, weather.CodeFlatLineLong), tmax, tmin)
	add("a frozen anemometer", 4, anyLine(span(40, func(d *day) { d.ws = 0 })), 0,
		is(weather.CodeWindCalm, weather.CodeFlatLine, weather.CodeFlatLineLong), wind)

	add("rain of one day in 60", 4, each(func(i int, _ day) bool { return i%60 != 0 }, func(d *day) { d.rain = 0 }), 0,
		is(weather.CodeRainYear), rain)
	add("drizzle every day", 4, each(nil, func(d *day) { d.rain += 1 + float64(int(d.date)%7)/10 }), 0, is(weather.CodeRainWetShare), rain)
	add("rain in June alone", 4, each(func(_ int, d day) bool { return monthOf(d.date) != 6 }, func(d *day) { d.rain = 0 }), 0,
		is(weather.CodeRainSeason), rain)
	for _, y := range []struct {
		years int
		name  string
	}{{4, "4 years"}, {8, "8 years"}, {12, "12 years"}} {
		add("all rain of "+y.name+" on Mondays", y.years, gather(func(d day) bool { return d.date.Weekday() == 1 }), 0,
			is(weather.CodeRainOneWeekday), rain)
		add("no gauge reading on weekends for "+y.name, y.years, gather(func(d day) bool { return d.date.Weekday()%6 != 0 }), 0,
			is(weather.CodeGaugeWeekday), rain)
	}
	// What no reader can see.
	add("a Tmax wrong by 1 °C", 4, one(nil, func(d *day) { d.tmax++ }), 0, nil, tmax)
	add("a rain day lost", 4, one(func(d day) bool { return d.rain > 5 }, func(d *day) { d.rain = 0 }), 0, nil, rain)
	add("a day of 20 mm that did not fall", 4, one(dry, func(d *day) { d.rain = 20 }), 0, nil, rain)
	add("dates one day late", 4, anyLine(all(func(d *day) { d.date++ })), 0, nil)
	add("a gauge that catches 10% too little", 4, anyLine(all(func(d *day) { d.rain *= 0.9 })), 0, nil, rain)
	add("an anemometer that reads 10% too low", 4, anyLine(all(func(d *day) { d.ws *= 0.9 })), 0, nil, wind)
	return list
}
