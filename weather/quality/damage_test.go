package quality_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/csvfile"
	"loamledger/weather/et0"
	"loamledger/weather/quality"
)

// A day is a row of made-up weather, in the units of weather's columns.
type day struct {
	date                                         cal.Date
	tmax, tmin, rain, rhmax, rhmin, tdew, rs, ws float64
}

// temperate returns years of made-up weather at 40° N, with wet spells, warm
// and cold spells and cloud.
func temperate(years int) []day {
	rng := rand.New(rand.NewPCG(21, 34))
	start := cal.Of(2008, 1, 1)
	sun := et0.NewSunYear(40)
	out := make([]day, int(cal.Of(2008+years, 1, 1)-start))
	wet, spell := false, 0.0
	for i := range out {
		d := &out[i]
		d.date = start + cal.Date(i)
		doy := d.date.YearDay()
		if wet {
			wet = rng.Float64() < 0.5
		} else {
			wet = rng.Float64() < 0.22
		}
		spell = 0.7*spell + 2.5*rng.NormFloat64()
		mean, half, clear := 12-11*math.Cos(2*math.Pi*float64(doy-22)/365)+spell, 4+3*rng.Float64(), 0.55+0.2*rng.Float64()
		if wet {
			half, clear = 2.5+2*rng.Float64(), 0.2+0.3*rng.Float64()
			d.rain = math.Round(10*(0.3+9*rng.ExpFloat64())) / 10
		}
		d.tmax, d.tmin, d.tdew = mean+half, mean-half, mean-half-2*rng.Float64()
		ea := et0.SaturationVaporPressure(d.tdew)
		d.rhmax, d.rhmin = et0.RelativeHumidity(ea, d.tmin), et0.RelativeHumidity(ea, d.tmax)
		d.rs, d.ws = clear*sun.RaMJ[doy], 1.2+2.5*rng.Float64()
	}
	return out
}

// layouts write rows in four layouts, the first line of data at the line given.
var layouts = []struct {
	name, head string
	first      int
	o          csvfile.Options
	dew        bool
	row        func(d day) string
}{
	{"own", "date,tmax_c,tmin_c,rain_mm,rhmax_pct,rhmin_pct,rhmean_pct,tdew_c,rs_mj_m2,wind_m_s\n", 2, csvfile.Options{}, true,
		func(d day) string {
			return fmt.Sprintf("%v,%.1f,%.1f,%.2f,%.3f,%.3f,%.3f,%.1f,%.2f,%.2f\n", d.date, d.tmax, d.tmin, d.rain, d.rhmax, d.rhmin,
				(d.rhmax+d.rhmin)/2, d.tdew, d.rs, d.ws)
		}},
	{"azmet", "meta_station_id,meta_station_name,datetime,date_doy,temp_air_maxC,temp_air_minC,temp_air_meanC,relative_humidity_max," +
		"relative_humidity_min,relative_humidity_mean,vp_deficit_mean,sol_rad_total,precip_total_mm,wind_spd_mean_mps,wind_spd_max_mps," +
		"vp_actual_mean,dwpt_mean,eto_azmet,heat_units_3413C,eto_pen_mon\n", 2, csvfile.Options{}, true,
		func(d day) string {
			return fmt.Sprintf("az90,Q,%v,1,%.1f,%.1f,NA,%.3f,%.3f,%.3f,NA,%.2f,%.2f,%.2f,NA,NA,%.1f,NA,NA,NA\n", d.date, d.tmax, d.tmin,
				d.rhmax, d.rhmin, (d.rhmax+d.rhmin)/2, d.rs, d.rain, d.ws, d.tdew)
		}},
	{"siar", "IdProvincia,IdEstacion,Fecha,Año,Dia,Temp Media (ºC),Temp Max (ºC),Temp Mínima (ºC),Humedad Media (%),Velviento (m/s)," +
		"Radiación (MJ/m2),Precipitación (mm),EtPMon\n", 2, csvfile.Options{}, false,
		func(d day) string {
			y, m, n := d.date.YMD()
			return fmt.Sprintf("99,7,%02d/%02d/%d,%d,%d,,%.1f,%.1f,%.3f,%.2f,%.2f,%.2f,\n", n, m, y, y, d.date.YearDay(), d.tmax, d.tmin,
				(d.rhmax+d.rhmin)/2, d.ws, d.rs, d.rain)
		}},
	{"declared", "day;hi;lo;rain;rh1;rh2;dew;sun;wind\n", 2, csvfile.Options{Declared: &csvfile.Declared{Name: "garden", Delimiter: ";",
		Date: "day", DateForm: "YYYY-MM-DD", Columns: map[string]csvfile.DeclaredColumn{
			"tmax": {Column: "hi", Unit: "C"}, "tmin": {Column: "lo", Unit: "C"}, "rain": {Column: "rain", Unit: "mm"},
			"rhmax": {Column: "rh1", Unit: "%"}, "rhmin": {Column: "rh2", Unit: "%"}, "tdew": {Column: "dew", Unit: "C"},
			"rs": {Column: "sun", Unit: "MJ/m2"}, "wind": {Column: "wind", Unit: "m/s"}}}}, true,
		func(d day) string {
			return fmt.Sprintf("%v;%.1f;%.1f;%.2f;%.3f;%.3f;%.1f;%.2f;%.2f\n", d.date, d.tmax, d.tmin, d.rain, d.rhmax, d.rhmin, d.tdew, d.rs, d.ws)
		}},
}

// A damage changes rows as real files are wrong.
type damage struct {
	name  string
	years int
	do    func(days []day) []day
	code  weather.Code
	at    int // index of the day whose line is reported; −1 for any
	dew   bool
}

// each returns a damage of every row for which is returns true.
func each(is func(i int, d day) bool, do func(d *day)) func([]day) []day {
	return func(days []day) []day {
		for i := range days {
			if is(i, days[i]) {
				do(&days[i])
			}
		}
		return days
	}
}

func all(int, day) bool                        { return true }
func after(n int) func(int, day) bool          { return func(i int, _ day) bool { return i >= n } }
func one(n int) func(int, day) bool            { return func(i int, _ day) bool { return i == n } }
func f(v float64) float64                      { return v*1.8 + 32 }
func rs(factor float64) func(days []day) []day { return each(all, func(d *day) { d.rs *= factor }) }

// gather sums rain until the gauge is read.
func gather(read func(d day) bool) func([]day) []day {
	return func(days []day) []day {
		sum := 0.0
		for i := range days {
			sum += days[i].rain
			days[i].rain = 0
			if read(days[i]) {
				days[i].rain, sum = sum, 0
			}
		}
		return days
	}
}

// toDate sums rain until restart returns true.
func toDate(restart func(d day) bool) func([]day) []day {
	return func(days []day) []day {
		sum := 0.0
		for i := range days {
			if restart(days[i]) {
				sum = 0
			}
			sum += days[i].rain
			days[i].rain = sum
		}
		return days
	}
}

func monthOf(d cal.Date) int { _, m, _ := d.YMD(); return m }
func dayOf(d cal.Date) int   { _, _, n := d.YMD(); return n }

func damages() []damage {
	winter := func(_ int, d day) bool { m := monthOf(d.date); return m == 12 || m <= 2 }
	list := []damage{
		{"the second half in inches", 4, each(after(731), func(d *day) { d.rain /= 25.4 }), weather.CodeUnitBreak, -1, false},
		{"winter rows in °F", 4, each(winter, func(d *day) { d.tmax, d.tmin = f(d.tmax), f(d.tmin) }), weather.CodeUnitBreak, -1, false},
		{"the second half in °F", 4, each(after(731), func(d *day) { d.tmax, d.tmin = f(d.tmax), f(d.tmin) }),
			weather.CodeUnitBreak, 731, false},
		{"Tmax alone in °F from a day on", 4, each(after(731), func(d *day) { d.tmax = f(d.tmax) }), weather.CodeUnitBreak, 731, false},
		{"wind from m/s to km/h", 4, each(after(731), func(d *day) { d.ws *= 3.6 }), weather.CodeUnitBreak, -1, false},
		{"wind from m/s to mph", 4, each(after(731), func(d *day) { d.ws *= 2.237 }), weather.CodeUnitBreak, -1, false},
		{"radiation to W/m² from a day on", 4, each(after(900), func(d *day) { d.rs /= 0.0864 }), weather.CodeUnitBreak, -1, false},
		{"humidity to a fraction from a day on", 4, each(after(900), func(d *day) { d.rhmax /= 100; d.rhmin /= 100 }), weather.CodeUnitBreak, 900,
			false},
		{"a gauge that dies for two of four years", 4, each(after(731), func(d *day) { d.rain = 0 }), weather.CodeGaugeDead, -1, false},
		{"a gauge that dies for a year of eight", 8, each(func(i int, _ day) bool { return i >= 900 && i < 1265 }, func(d *day) { d.rain = 0 }),
			weather.CodeGaugeDead, -1, false},
		{"no rain at all", 4, each(all, func(d *day) { d.rain = 0 }), weather.CodeGaugeDead, 0, false},
		{"month-to-date rain", 4, toDate(func(d day) bool { return dayOf(d.date) == 1 }), weather.CodeRainRunningTotal, -1, false},
		{"year-to-date rain", 4, toDate(func(d day) bool { return d.date.YearDay() == 1 }), weather.CodeRainRunningTotal, -1, false},
		{"a running total of all days", 2, toDate(func(day) bool { return false }), weather.CodeRainRunningTotal, -1, false},
		{"rain read every other day", 4, gather(func(d day) bool { return int(d.date)%2 == 0 }), weather.CodeRainAccumulated, -1, false},
		{"rain read every fourth day", 4, gather(func(d day) bool { return int(d.date)%4 == 0 }), weather.CodeRainAccumulated, -1, false},
		{"humidity as a fraction", 4, each(all, func(d *day) { d.rhmax /= 100; d.rhmin /= 100 }), weather.CodeHumidityUnit, 0, false},
		{"radiation in W/m²", 4, rs(1 / 0.0864), weather.CodeRadiationUnit, 0, false},
		{"radiation in kJ/m²", 4, rs(1000), weather.CodeRadiationUnit, 0, false},
		{"radiation in J/cm²", 4, rs(100), weather.CodeRadiationUnit, 0, false},
		{"radiation in langleys", 4, rs(1 / 0.041868), weather.CodeRadiationUnit, 0, false},
		{"radiation in kWh/m²", 4, rs(1 / 3.6), weather.CodeRadiationUnit, 0, false},
		{"hourly radiation summed twice", 4, rs(2), weather.CodeRadiationUnit, 0, false},
		{"dates half a year late", 4, each(all, func(d *day) { d.date += 182 }), weather.CodeDatesShifted, 0, false},
		{"dates forty years ahead", 4, each(all, func(d *day) { d.date += 14610 }), weather.CodeDatesAhead, -1, false},
		{"day and month swapped up to the 12th", 4, each(all, func(d *day) {
			if y, m, n := d.date.YMD(); n <= 12 {
				d.date = cal.Of(y, n, m)
			}
		}), weather.CodeDatesSwapped, -1, false},
		{"two stations glued", 4, each(after(731), func(d *day) { d.tmax += 7; d.tmin += 7; d.ws *= 1.7 }), weather.CodeLevelJump, -1, false},
		{"a day of 150 mm", 4, each(one(1000), func(d *day) { d.rain = 150 }), weather.CodeRainLoneDay, 1000, false},
		{"a day of 500 mm", 4, each(one(1000), func(d *day) { d.rain = 500 }), weather.CodeRainLoneDay, 1000, false},
		{"all rain in inches", 4, each(all, func(d *day) { d.rain /= 25.4 }), weather.CodeRainUnit, -1, false},
		{"all rain in tenths", 4, each(all, func(d *day) { d.rain *= 10 }), weather.CodeRainUnit, -1, false},
		{"all wind in km/h", 4, each(all, func(d *day) { d.ws *= 5.5 }), weather.CodeWindUnit, 0, false},
		{"all temperatures in °F", 4, each(all, func(d *day) { d.tmax, d.tmin = f(d.tmax), f(d.tmin) }), weather.CodeTemperatureUnit, 0, false},
		{"dew points in °F", 4, each(all, func(d *day) { d.tdew = f(d.tdew) }), weather.CodeDewPointUnit, 0, true},
		{"a Tmax of 58", 4, each(one(930), func(d *day) { d.tmax = 58 }), weather.CodeOddValue, 930, false},
		{"a Tmin of −30", 4, each(one(1012), func(d *day) { d.tmin = -30 }), weather.CodeOddValue, 1012, false},
		{"a warm day in winter of 35", 4, each(one(745), func(d *day) { d.tmax = 35 }), weather.CodeOddValue, 745, false},
		{"a wind of 20 m/s", 4, each(one(555), func(d *day) { d.ws = 20 }), weather.CodeOddValue, 555, false},
	}
	list = append(list,
		damage{"rain of one day in 60", 4, each(func(i int, _ day) bool { return i%60 != 0 }, func(d *day) { d.rain = 0 }),
			weather.CodeRainYear, -1, false},
		damage{"drizzle every day", 4, each(all, func(d *day) { d.rain += 1 + float64(int(d.date)%7)/10 }), weather.CodeRainWetShare, -1, false},
		damage{"rain in June alone", 4, each(func(_ int, d day) bool { return monthOf(d.date) != 6 }, func(d *day) { d.rain = 0 }),
			weather.CodeRainSeason, -1, false},
		damage{"a wettest day of 550 mm", 4, each(one(700), func(d *day) { d.rain = 550 }), weather.CodeRainWettestDay, 700, false})
	for _, years := range []int{4, 8, 12} {
		list = append(list,
			damage{fmt.Sprintf("all rain of %d years on Mondays", years), years, gather(func(d day) bool { return d.date.Weekday() == 1 }),
				weather.CodeRainOneWeekday, -1, false},
			damage{fmt.Sprintf("no gauge reading on weekends for %d years", years), years,
				gather(func(d day) bool { return d.date.Weekday()%6 != 0 }),
				weather.CodeGaugeWeekday, -1, false})
	}
	return list
}

// readDays writes days in a layout, reads them back and checks them.
func readDays(t *testing.T, l int, days []day) (*weather.Record, []weather.Finding) {
	t.Helper()
	var b strings.Builder
	b.WriteString(layouts[l].head)
	for _, d := range days {
		b.WriteString(layouts[l].row(d))
	}
	lat, elev, height := 40.0, 300.0, 2.0
	o := layouts[l].o
	o.LatDeg, o.ElevM, o.WindHeightM = &lat, &elev, &height
	rec, err := csvfile.Read(strings.NewReader(b.String()), "f.csv", o)
	if err != nil {
		t.Fatalf("%s: %v", layouts[l].name, err)
	}
	return rec, quality.Check(rec)
}

// Every kind of damage is reported with its code and a line in every layout
// that has the column; undamaged, the days give nothing doubtful or decisive.
func TestDamageIsReported(t *testing.T) {
	for _, years := range []int{2, 4, 8, 12} {
		for l := range layouts {
			_, list := readDays(t, l, temperate(years))
			for _, f := range list {
				if f.Code.Weight() > weather.Note {
					t.Errorf("%s, %d undamaged years: %+v", layouts[l].name, years, f)
				}
			}
		}
	}
	for _, d := range damages() {
		tried := 0
		for l := range layouts {
			if d.dew && !layouts[l].dew {
				continue
			}
			tried++
			days := d.do(temperate(d.years))
			_, list := readDays(t, l, days)
			k := slices.IndexFunc(list, func(f weather.Finding) bool { return f.Code == d.code })
			if k < 0 {
				t.Errorf("%s in %s: %s not reported; %v", d.name, layouts[l].name, d.code, codes(list))
				continue
			}
			f := list[k]
			if f.Code.Weight() == weather.Note || f.Line == 0 || f.Detail == "" {
				t.Errorf("%s in %s: %+v", d.name, layouts[l].name, f)
			}
			if want := layouts[l].first + d.at; d.at >= 0 && math.Abs(float64(f.Line-want)) > tolerance(d.code) {
				t.Errorf("%s in %s: line %d, want %d: %s", d.name, layouts[l].name, f.Line, want, f.Detail)
			}
		}
		if tried < 3 {
			t.Errorf("%s: only %d layouts", d.name, tried)
		}
	}
}

// tolerance is how far the line of a break may be from the first damaged row:
// the days just after may look like those before.
func tolerance(c weather.Code) float64 {
	if c == weather.CodeUnitBreak {
		return 3
	}
	return 0
}

func codes(list []weather.Finding) (out []weather.Code) {
	for _, f := range list {
		out = append(out, f.Code)
	}
	return out
}

// Supplied ETo of an anemometer at 10 m contradicts a stated height of 2 m.
func TestWindHeightAgainstSuppliedETo(t *testing.T) {
	rec, _ := readDays(t, 0, temperate(2))
	high := rec.Series
	high.Station.WindHeightM = 10
	r, err := et0.Daily(&high, et0.Options{})
	if err != nil {
		t.Fatal(err)
	}
	for _, height := range []float64{2, 10} {
		again, _ := readDays(t, 0, temperate(2))
		again.Add(weather.ETo)
		for i, v := range r.EToMM {
			again.Set(weather.ETo, i, v, weather.Observed)
		}
		again.Station.WindHeightM = height
		told := slices.Contains(codes(quality.Check(again)), weather.CodeWindHeightDoubtful)
		if told != (height == 2) {
			t.Errorf("height %g: reported %v", height, told)
		}
	}
}

// Rain that the archive presumed zero is counted over the days used, and said
// loudly if it is most of them.
func TestMostlyPresumedRain(t *testing.T) {
	for name, l := range map[string]struct {
		head string
		row  func(d cal.Date, rain float64, flag byte) string
	}{
		"ghcn-wide": {"STATION,DATE,LATITUDE,LONGITUDE,ELEVATION,NAME,PRCP,PRCP_ATTRIBUTES,TMAX,TMAX_ATTRIBUTES\n",
			func(d cal.Date, rain float64, flag byte) string {
				return fmt.Sprintf(`XX1,%v,40,-100,300,Q,%.0f,"%c,,X",250,",,X"`+"\n", d, 10*rain, flag)
			}},
		"wide-flags": {"DATE,ID,YEAR,MONTH,DAY,PRCP,PRCP_FLAGS,TMAX,TMAX_FLAGS\n", func(d cal.Date, rain float64, flag byte) string {
			y, m, n := d.YMD()
			return fmt.Sprintf("%v,XX1,%d,%d,%d,%.0f,%c_0,250,__0\n", d, y, m, n, 10*rain, flag)
		}},
		"ghcn-long": {"", func(d cal.Date, rain float64, flag byte) string {
			y, m, n := d.YMD()
			return fmt.Sprintf("XX000000001,%d%02d%02d,PRCP,%.0f,%c,,X,\nXX000000001,%d%02d%02d,TMAX,250,,,X,\n", y, m, n, 10*rain, flag, y, m, n)
		}},
	} {
		var b strings.Builder
		b.WriteString(l.head)
		for i, d := range temperate(2) {
			flag := byte('P')
			if d.rain > 0 || i%9 == 0 {
				flag = ' '
			}
			if name == "wide-flags" && flag == ' ' {
				flag = '_'
			}
			b.WriteString(l.row(d.date, d.rain, flag))
		}
		rec, err := csvfile.Read(strings.NewReader(b.String()), "f.csv", csvfile.Options{})
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		list := quality.Check(rec)
		k := slices.IndexFunc(list, func(f weather.Finding) bool { return f.Code == weather.CodeRainMostlyPresumed })
		if k < 0 || list[k].Count != rec.CountMark(weather.Rain, weather.Presumed) || list[k].Line == 0 {
			t.Errorf("%s: %v", name, list)
		}
	}
}
