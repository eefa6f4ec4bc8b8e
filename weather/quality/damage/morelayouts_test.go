package damage

import (
	"fmt"
	"strings"

	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/csvfile"
)

const powerHead = "-BEGIN HEADER-\nNASA/POWER Source Native Resolution Daily Data\nLocation: latitude  40   longitude -100\n" +
	"elevation from MERRA-2: Average for 0.5 x 0.625 degree lat/lon region = 300 meters\n" +
	"The value for missing source data that cannot be computed or is outside of the sources availability range: -999\nparameter(s):\n" +
	"T2M_MAX               MERRA-2 Temperature at 2 Meters Maximum (C)\nT2M_MIN               MERRA-2 Temperature at 2 Meters Minimum (C)\n" +
	"T2MDEW                MERRA-2 Dew/Frost Point at 2 Meters (C)\nPRECTOTCORR           MERRA-2 Precipitation Corrected (mm/day)\n" +
	"ALLSKY_SFC_SW_DWN     CERES SYN1deg All Sky Surface Shortwave Downward Irradiance (MJ/m^2/day)\n" +
	"WS2M                  MERRA-2 Wind Speed at 2 Meters (m/s)\n-END HEADER-\n" +
	"YEAR,MO,DY,T2M_MAX,T2M_MIN,T2MDEW,PRECTOTCORR,ALLSKY_SFC_SW_DWN,WS2M\n"

const epwHead = "LOCATION,QUIET FLATS,XX,XXX,Made up,990990,40,-100,-7.0,300\nDESIGN CONDITIONS,0\nTYPICAL/EXTREME PERIODS,0\n" +
	"GROUND TEMPERATURES,0\nCOMMENTS 1,invented hours\nDATA PERIODS,1,1,Data,Sunday, 1/ 1,12/31\n"

const tmy3Head = "990990,\"QUIET FLATS\",XX,-7.0,40,-100,300\n" +
	"Date (MM/DD/YYYY),Time (HH:MM),GHI (W/m^2),Dry-bulb (C),Dew-point (C),RHum (%),Wspd (m/s),Lprecip depth (mm)\n"

// moreLayouts lists the layouts with a long head or long rows.
func moreLayouts() []layout {
	const rh, dew, sun, wind = weather.RHmax, weather.Tdew, weather.Rs, weather.Wind
	ymd := func(d day) (y, m, n int) { return d.date.YMD() }
	return []layout{
		{"ghcn-long", csvfile.Options{}, withColumns(wind), ",", "", func(d day) string {
			id := "XX000000001," + compact(d) + ","
			return id + "TMAX," + tenth(d.tmax) + ",,,X,\n" + id + "TMIN," + tenth(d.tmin) + ",,,X,\n" + id + "PRCP," + tenth(d.rain) + ",,,X,\n" +
				id + "AWND," + tenth(d.ws) + ",,,X,\n"
		}, nil, "XX000000001"},
		{"ghcn-dly", csvfile.Options{}, threeColumns(), " ", "", nil, dlyRows, "XX000000001"},
		{"nasa-power", csvfile.Options{}, withColumns(dew, sun, wind), ",", powerHead, func(d day) string {
			y, m, n := ymd(d)
			return fmt.Sprintf("%d,%d,%d,%.2f,%.2f,%.2f,%.2f,%.2f,%.2f\n", y, m, n, d.tmax, d.tmin, d.tdew, d.rain, d.rs, d.ws)
		}, nil, ""},
		{"open-meteo", csvfile.Options{}, withColumns(rh, weather.RHmin, sun, wind), ",",
			"latitude,longitude,elevation,utc_offset_seconds,timezone,timezone_abbreviation\n40,-100,300.0,-21600,Etc/GMT+6,GMT-6\n\n" +
				"time,temperature_2m_max (°C),temperature_2m_min (°C),precipitation_sum (mm),relative_humidity_2m_max (%)," +
				"relative_humidity_2m_min (%),shortwave_radiation_sum (MJ/m²),wind_speed_10m_mean (km/h)\n", func(d day) string {
				return fmt.Sprintf("%v,%.1f,%.1f,%.2f,%.2f,%.2f,%.2f,%.1f\n", d.date, d.tmax, d.tmin, d.rain, d.rhmax, d.rhmin, d.rs, d.ws*3.6)
			}, nil, ""},
		{"daymet", csvfile.Options{}, withColumns(sun), ",", "Latitude: 40  Longitude: -100\nX & Y on Lambert Conformal Conic: 1 -2\nTile: 1\n" +
			"Elevation: 300 meters\nAll years; all variables; Daymet Software Version 3.0; Daymet Data Version 3.0.\nHow to cite: invented\n\n" +
			"year,yday,dayl (s),prcp (mm/day),srad (W/m^2),swe (kg/m^2),tmax (deg c),tmin (deg c),vp (Pa)\n", func(d day) string {
			if d.date.YearDay() == 366 {
				return ""
			}
			return fmt.Sprintf("%d.0,%d.0,43200.0,%.2f,%.2f,0.0,%.2f,%.2f,%.1f\n", d.date.Year(), d.date.YearDay(), d.rain, d.rs/0.0432, d.tmax,
				d.tmin, 1000*d.ea())
		}, nil, ""},
		{"cimis", csvfile.Options{}, full(), ",", "Stn Id,Stn Name,CIMIS Region,Date,Jul,Precip (in),qc," +
			"Sol Rad (Ly/day),qc,Max Air Temp (F),qc,Min Air Temp (F),qc,Max Rel Hum (%),qc,Min Rel Hum (%),qc," +
			"Dew Point (F),qc,Avg Wind Speed (mph),qc\n", func(d day) string {
			y, m, n := ymd(d)
			return fmt.Sprintf("990,Q,Valley,%d/%d/%d,%03d,%.2f, ,%.1f, ,%.1f, ,%.1f, ,%.2f, ,%.2f, ,%.1f, ,%.1f, \n", m, n, y, d.date.YearDay(),
				d.rain/25.4, d.rs/0.041868, fahrenheit(d.tmax), fahrenheit(d.tmin), d.rhmax, d.rhmin, fahrenheit(d.tdew), d.ws/0.44704)
		}, nil, "990,Q"},
		{"gsod", csvfile.Options{}, withColumns(dew, wind), ",", `"STATION","DATE","LATITUDE","LONGITUDE","ELEVATION","NAME","DEWP","WDSP",` +
			`"MAX","MAX_ATTRIBUTES","MIN","MIN_ATTRIBUTES","PRCP","PRCP_ATTRIBUTES"` + "\n", func(d day) string {
			return fmt.Sprintf(`"99000099999","%v","40","-100","300","Q, XX","%6.1f","%5.1f","%6.1f"," ","%6.1f"," ","%5.2f","G"`+"\n", d.date,
				fahrenheit(d.tdew), d.ws/0.514444, fahrenheit(d.tmax), fahrenheit(d.tmin), d.rain/25.4)
		}, nil, "99000099999"},
		{"agrimet", csvfile.Options{}, withColumns(dew, sun, wind), ",", "YEAR,MONTH,DAY,MN,MX,SR,YM,UA,PP\n", func(d day) string {
			y, m, n := ymd(d)
			return fmt.Sprintf("%d,%02d,%02d,%.2f,%.2f,%.2f,%.2f,%.2f,%.2f\n", y, m, n, fahrenheit(d.tmin), fahrenheit(d.tmax), d.rs/0.041868,
				fahrenheit(d.tdew), d.ws/0.44704, d.rain/25.4)
		}, nil, ""},
		{"uscrn", csvfile.Options{}, withColumns(rh, weather.RHmin, sun), ",", "WBANNO,LST_DATE,CRX_VN,LONGITUDE,LATITUDE,T_DAILY_MAX," +
			"T_DAILY_MIN,P_DAILY_CALC,SOLARAD_DAILY,RH_DAILY_MAX,RH_DAILY_MIN\n", func(d day) string {
			return fmt.Sprintf("99000,%s,2.622,-100,40,%.1f,%.1f,%.1f,%.2f,%.2f,%.2f\n", compact(d), d.tmax, d.tmin, d.rain, d.rs, d.rhmax, d.rhmin)
		}, nil, "99000"},
		{"knmi", csvfile.Options{}, withColumns(rh, weather.RHmin, sun, wind), ",", "BRON: a made-up record\n\n" +
			"# STN,YYYYMMDD,   FG,   TN,   TX,    Q,   RH,   UX,   UN\n\n", func(d day) string {
			return fmt.Sprintf("  990,%s,%5s,%5s,%5s,%5.0f,%5s,%5.0f,%5.0f\n", compact(d), tenth(d.ws), tenth(d.tmin), tenth(d.tmax), 100*d.rs,
				tenth(d.rain), d.rhmax, d.rhmin)
		}, nil, "990"},
		{"eccc", csvfile.Options{}, threeColumns(), ",", "Longitude (x),Latitude (y),Station Name,Climate ID,Date/Time,Year,Month,Day," +
			"Data Quality,Max Temp (°C),Max Temp Flag,Min Temp (°C),Min Temp Flag,Total Precip (mm),Total Precip Flag\n", func(d day) string {
			y, m, n := ymd(d)
			return fmt.Sprintf("-100,40,Q,9900990,%v,%d,%d,%d,,%.1f,,%.1f,,%.1f,\n", d.date, y, m, n, d.tmax, d.tmin, d.rain)
		}, nil, "9900990"},
		{"bom", csvfile.Options{}, []weather.Column{weather.Rain}, ",", "Product code,Bureau of Meteorology station number,Year,Month,Day," +
			"Rainfall amount (millimetres),Period over which rainfall was measured (days),Quality\n", func(d day) string {
			y, m, n := ymd(d)
			return fmt.Sprintf("IDCJAC0009,099001,%d,%02d,%02d,%.1f,1,Y\n", y, m, n, d.rain)
		}, nil, "099001"},
		{"silo", csvfile.Options{}, withColumns(sun), ",", "latitude,longitude,YYYY-MM-DD,daily_rain,daily_rain_source,max_temp," +
			"max_temp_source,min_temp,min_temp_source,vp,vp_source,radiation,radiation_source,metadata\n", func(d day) string {
			return fmt.Sprintf(" 40.0000,-100.0000,%v,%7.1f,0,%5.1f,0,%5.1f,0,%5.1f,0,%5.1f,0,\n", d.date, d.rain, d.tmax, d.tmin, 10*d.ea(), d.rs)
		}, nil, " 40.0000,-100.0000"},
		{"gridmet", csvfile.Options{}, withColumns(rh, weather.RHmin, sun, wind), ",", "longitude,latitude,timestamp,doy,pr,rmax,rmin,srad," +
			"tmmn,tmmx,vs\n", func(d day) string {
			return fmt.Sprintf("-100,40,%v,%d,%.2f,%.2f,%.2f,%.1f,%.2f,%.2f,%.2f\n", d.date, d.date.YearDay(), d.rain, d.rhmax, d.rhmin, d.rs/0.0864,
				d.tmin+273.15, d.tmax+273.15, d.ws)
		}, nil, "-100,40"},
		{"fawn", csvfile.Options{}, withColumns(dew, sun, wind), ",", `"FAWN Station","Period","2m T min (F)","2m T max (F)",` +
			`"2m DewPt avg (F)","2m Rain tot (in)","SolRad avg2m  (w/m^2)","10m Wind avg (mph)","N (# obs)"` + "\n", func(d day) string {
			y, m, n := ymd(d)
			return fmt.Sprintf(`"Quiet Grove","%d %s %d","%.1f","%.1f","%.1f","%.2f","%.1f","%.1f","96"`+"\n", n,
				strings.Fields("Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec")[m-1], y, fahrenheit(d.tmin), fahrenheit(d.tmax), fahrenheit(d.tdew),
				d.rain/25.4, d.rs/0.0864, d.ws/0.44704)
		}, nil, "Quiet Grove"},
		{"tmy3", csvfile.Options{}, full(), ",", tmy3Head, func(d day) string {
			y, m, n := ymd(d)
			return hourRows(d, func(h int, temp, hum, rs, rain float64) string {
				return fmt.Sprintf("%02d/%02d/%d,%02d:00,%.1f,%.1f,%.1f,%.2f,%.2f,%.2f\n", m, n, y, h, rs, temp, d.tdew, hum, d.ws, rain)
			})
		}, nil, ""},
		{"epw", csvfile.Options{}, full(), ",", epwHead, func(d day) string {
			y, m, n := ymd(d)
			return hourRows(d, func(h int, temp, hum, rs, rain float64) string {
				return fmt.Sprintf("%d,%d,%d,%d,0,?9?9,%.1f,%.1f,%.2f,88000,0,1415,300,%.1f,0,0,999999,999999,999999,9999,180,%.2f,5,5,9999,99999,9,"+
					"999999999,999,0.999,999,99,999,%.2f,99\n", y, m, n, h, temp, d.tdew, hum, rs, d.ws, rain)
			})
		}, nil, ""},
	}
}

func full() []weather.Column {
	return withColumns(weather.RHmax, weather.RHmin, weather.Tdew, weather.Rs, weather.Wind)
}

// hourRows writes the 24 hours of a day: the lowest temperature at 6, the
// highest at 15, sun from 7 to 18 and rain at noon.
func hourRows(d day, row func(h int, temp, hum, rs, rain float64) string) string {
	var b strings.Builder
	for h := 1; h <= 24; h++ {
		temp, rs, rain := (d.tmax+d.tmin)/2, 0.0, 0.0
		switch h {
		case 6:
			temp = d.tmin
		case 15:
			temp = d.tmax
		}
		if h >= 7 && h <= 18 {
			rs = d.rs / 0.0036 / 12
		}
		if h == 12 {
			rain = d.rain
		}
		b.WriteString(row(h, temp, d.rhmean(), rs, rain))
	}
	return b.String()
}

// dlyRows writes a line per month and element, in the order in which the months
// first occur.
func dlyRows(days []day) string {
	type month struct{ y, m int }
	var order []month
	of := map[month]*[3][31]float64{}
	set := map[month]*[31]bool{}
	for _, d := range days {
		y, m, n := d.date.YMD()
		k := month{y, m}
		if of[k] == nil {
			order = append(order, k)
			of[k], set[k] = &[3][31]float64{}, &[31]bool{}
		}
		set[k][n-1] = true
		for e, v := range [3]float64{d.tmax, d.tmin, d.rain} {
			of[k][e][n-1] = v
		}
	}
	var b strings.Builder
	for _, k := range order {
		for e, name := range []string{"TMAX", "TMIN", "PRCP"} {
			fmt.Fprintf(&b, "XX000000001%d%02d%s", k.y, k.m, name)
			for n := range 31 {
				v := "-9999"
				if n < cal.DaysIn(k.y, k.m) && set[k][n] {
					v = tenth(of[k][e][n])
				}
				fmt.Fprintf(&b, "%5s   ", v)
			}
			b.WriteString("\n")
		}
	}
	return b.String()
}
