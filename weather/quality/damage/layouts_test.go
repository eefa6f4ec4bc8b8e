package damage

import (
	"fmt"
	"strings"

	"loamledger/weather"
	"loamledger/weather/csvfile"
)

// A layout writes made-up days in one layout of weather files.
type layout struct {
	name string
	o    csvfile.Options
	cols []weather.Column // those that damage can change
	sep  string           // between cells; a blank for fixed width
	head string           // everything above the first row
	row  func(d day) string
	// whole writes the rows if a row is not a day; then row is nil.
	whole func(days []day) string
	// id is the text of a station in the rows; empty if rows name none.
	id string
}

// write returns the file.
func (l *layout) write(days []day) string {
	if l.row == nil {
		return l.head + l.whole(days)
	}
	var b strings.Builder
	b.WriteString(l.head)
	for _, d := range days {
		b.WriteString(l.row(d))
	}
	return b.String()
}

func (l *layout) has(cols []weather.Column) bool {
	for _, c := range cols {
		found := false
		for _, has := range l.cols {
			found = found || has == c
		}
		if !found {
			return false
		}
	}
	return true
}

// Sets of columns.
func threeColumns() []weather.Column {
	return []weather.Column{weather.Tmax, weather.Tmin, weather.Rain}
}

func withColumns(more ...weather.Column) []weather.Column { return append(threeColumns(), more...) }

// tenth writes a value in tenths.
func tenth(v float64) string { return fmt.Sprintf("%.0f", 10*v) }

// layouts lists every layout that has a fixture.
func layouts() []layout {
	const rh, dew, sun, wind = weather.RHmax, weather.Tdew, weather.Rs, weather.Wind
	full := withColumns(rh, weather.RHmin, dew, sun, wind)
	return append([]layout{
		{"own", csvfile.Options{}, full, ",", "date,tmax_c,tmin_c,rain_mm,rhmax_pct,rhmin_pct,rhmean_pct,tdew_c,rs_mj_m2,wind_m_s\n",
			func(d day) string {
				return fmt.Sprintf("%v,%.1f,%.1f,%.2f,%.3f,%.3f,%.3f,%.1f,%.2f,%.2f\n", d.date, d.tmax, d.tmin, d.rain, d.rhmax, d.rhmin,
					d.rhmean(), d.tdew, d.rs, d.ws)
			}, nil, ""},
		{"azmet", csvfile.Options{}, full, ",", "meta_station_id,meta_station_name,datetime,date_doy,temp_air_maxC,temp_air_minC," +
			"temp_air_meanC,relative_humidity_max,relative_humidity_min,relative_humidity_mean,vp_deficit_mean,sol_rad_total," +
			"precip_total_mm,wind_spd_mean_mps,wind_spd_max_mps,vp_actual_mean,dwpt_mean,eto_azmet,heat_units_3413C,eto_pen_mon\n",
			func(d day) string {
				return fmt.Sprintf("az90,Q,%v,%d,%.1f,%.1f,NA,%.3f,%.3f,%.3f,NA,%.2f,%.2f,%.2f,NA,NA,%.1f,NA,NA,NA\n", d.date, d.date.YearDay(),
					d.tmax, d.tmin, d.rhmax, d.rhmin, d.rhmean(), d.rs, d.rain, d.ws, d.tdew)
			}, nil, "az90"},
		{"siar", csvfile.Options{}, withColumns(rh, weather.RHmin, sun, wind), ",", "IdProvincia,IdEstacion,Fecha,Año,Dia,Temp Media (ºC)," +
			"Temp Max (ºC),Temp Mínima (ºC),Humedad Max (%),Humedad Mínima (%),Velviento (m/s),Radiación (MJ/m2),Precipitación (mm),EtPMon\n",
			func(d day) string {
				y, m, n := d.date.YMD()
				return fmt.Sprintf("99,7,%02d/%02d/%d,%d,%d,,%.1f,%.1f,%.3f,%.3f,%.2f,%.2f,%.2f,\n", n, m, y, y, d.date.YearDay(), d.tmax, d.tmin,
					d.rhmax, d.rhmin, d.ws, d.rs, d.rain)
			}, nil, "99,7"},
		{"declared", csvfile.Options{Declared: garden()}, full, ";", "day;hi;lo;rain;rh1;rh2;dew;sun;wind\n",
			func(d day) string {
				return fmt.Sprintf("%v;%.1f;%.1f;%.2f;%.3f;%.3f;%.1f;%.2f;%.2f\n", d.date, d.tmax, d.tmin, d.rain, d.rhmax, d.rhmin, d.tdew, d.rs,
					d.ws)
			}, nil, ""},
		{"vega", csvfile.Options{}, withColumns(wind), ",", "date,precipitation,temp_max,temp_min,wind\n",
			func(d day) string {
				return fmt.Sprintf("%v,%.2f,%.1f,%.1f,%.1f\n", d.date, d.rain, d.tmax, d.tmin, d.ws)
			}, nil, ""},
		{"ncei-wide", csvfile.Options{}, withColumns(wind), ",", "STATION,NAME,DATE,AWND,PRCP,TMAX,TMIN\n",
			func(d day) string {
				return fmt.Sprintf("XX1,Q,%v,%.1f,%.2f,%.0f,%.0f\n", d.date, d.ws/0.44704, d.rain/25.4, fahrenheit(d.tmax), fahrenheit(d.tmin))
			}, nil, "XX1"},
		{"ghcn-wide", csvfile.Options{}, threeColumns(), ",", "STATION,DATE,LATITUDE,LONGITUDE,ELEVATION,NAME,PRCP,PRCP_ATTRIBUTES,TMAX," +
			"TMAX_ATTRIBUTES,TMIN,TMIN_ATTRIBUTES\n",
			func(d day) string {
				return fmt.Sprintf(`XX1,%v,40,-100,300,Q,"%s",",,X","%s",",,X","%s",",,X"`+"\n", d.date, tenth(d.rain), tenth(d.tmax), tenth(d.tmin))
			}, nil, "XX1"},
		{"cdo-tenths", csvfile.Options{}, withColumns(wind), ",", "STATION,STATION_NAME,DATE,PRCP,TMAX,TMIN,AWND\n",
			func(d day) string {
				return fmt.Sprintf("GHCND:XX1,Q,%s,%s,%s,%s,%s\n", compact(d), tenth(d.rain), tenth(d.tmax), tenth(d.tmin), tenth(d.ws))
			}, nil, "GHCND:XX1"},
		{"wide-flags", csvfile.Options{}, threeColumns(), ",", "DATE,ID,YEAR,MONTH,DAY,TMIN,TMIN_FLAGS,PRCP,PRCP_FLAGS,TMAX,TMAX_FLAGS\n",
			func(d day) string {
				y, m, n := d.date.YMD()
				return fmt.Sprintf("%v,XX1,%d,%d,%d,%s.0,__0,%s.0,__0,%s.0,__0\n", d.date, y, m, n, tenth(d.tmin), tenth(d.rain), tenth(d.tmax))
			}, nil, "XX1"},
		{"coagmet", csvfile.Options{}, withColumns(rh, weather.RHmin, sun, wind), ",", "name,date,tavg,tmax,tmin,pp,rhmax,rhmin,solar,windrun\n",
			func(d day) string {
				return fmt.Sprintf("q,%v,0,%.2f,%.2f,%.2f,%.4f,%.4f,%.1f,%.1f\n", d.date, d.tmax, d.tmin, d.rain, d.rhmax/100, d.rhmin/100,
					d.rs/0.0864, d.ws*86.4)
			}, nil, "q"},
		{"meteostat", csvfile.Options{}, withColumns(wind), ",", "date,tavg,tmin,tmax,prcp,snow,wdir,wspd,wpgt,pres,tsun\n",
			func(d day) string {
				return fmt.Sprintf("%v,,%.1f,%.1f,%.1f,,,%.1f,,,\n", d.date, d.tmin, d.tmax, d.rain, d.ws*3.6)
			}, nil, ""},
	}, moreLayouts()...)
}

func compact(d day) string { return strings.ReplaceAll(d.date.String(), "-", "") }

func garden() *csvfile.Declared {
	return &csvfile.Declared{Name: "garden", Delimiter: ";", Date: "day", DateForm: "YYYY-MM-DD",
		Columns: map[string]csvfile.DeclaredColumn{
			"tmax": {Column: "hi", Unit: "C"}, "tmin": {Column: "lo", Unit: "C"}, "rain": {Column: "rain", Unit: "mm"},
			"rhmax": {Column: "rh1", Unit: "%"}, "rhmin": {Column: "rh2", Unit: "%"}, "tdew": {Column: "dew", Unit: "C"},
			"rs": {Column: "sun", Unit: "MJ/m2"}, "wind": {Column: "wind", Unit: "m/s"}}}
}
