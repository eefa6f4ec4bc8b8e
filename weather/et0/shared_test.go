package et0

import (
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	typed "loamledger/testdata/published"
	"loamledger/weather"
	"loamledger/weather/cal"
)

// sharedFile returns a file of reference data that lies beside the project, or
// skips the test where it does not.
func sharedFile(t *testing.T, parts ...string) string {
	t.Helper()
	dir, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			break
		}
		up := filepath.Dir(dir)
		if up == dir {
			t.Fatal("no go.mod above the working directory")
		}
		dir = up
	}
	path := filepath.Join(append([]string{dir, "..", "shared"}, parts...)...)
	if _, err := os.Stat(path); err != nil {
		t.Skip("shared reference data not present")
	}
	return path
}

func parse(t *testing.T, s string) float64 {
	t.Helper()
	if s == "" {
		return math.NaN()
	}
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatalf("%q is no number", s)
	}
	return v
}

// dailyGroups reads published station-days into one series a station.
func dailyGroups(t *testing.T, path string) (map[string][]*weather.Series, int) {
	t.Helper()
	columns := map[string]weather.Column{
		"tmax_c": weather.Tmax, "tmin_c": weather.Tmin, "rhmax_pct": weather.RHmax, "rhmin_pct": weather.RHmin, "tdew_c": weather.Tdew,
		"ea_kpa": weather.Ea, "rs_mj_m2_d": weather.Rs, "wind_m_s": weather.Wind, "eto_pub_mm": weather.ETo, "etr_pub_mm": weather.ETr,
	}
	rows := typed.Read(t, path)
	type key struct{ group, station string }
	byStation := map[key][]map[string]string{}
	var order []key
	for _, row := range rows {
		k := key{row["group"], row["station"]}
		if byStation[k] == nil {
			order = append(order, k)
		}
		byStation[k] = append(byStation[k], row)
	}
	groups := map[string][]*weather.Series{}
	for _, k := range order {
		rows := byStation[k]
		var first, last cal.Date = math.MaxInt32, math.MinInt32
		dates := make([]cal.Date, len(rows))
		for i, row := range rows {
			d, err := cal.Parse(row["date"])
			if err != nil {
				t.Fatal(err)
			}
			dates[i] = d
			first, last = min(first, d), max(last, d)
		}
		st := weather.Station{Name: k.station, LatDeg: parse(t, rows[0]["lat_deg"]), ElevM: parse(t, rows[0]["elev_m"]),
			WindHeightM: parse(t, rows[0]["wind_height_m"]), LonDeg: math.NaN()}
		s := weather.NewSeries(st, first, int(last-first)+1)
		for name, c := range columns {
			for i, row := range rows {
				if v := parse(t, row[name]); !math.IsNaN(v) {
					s.Add(c)
					s.Set(c, int(dates[i]-first), v, weather.Observed)
				}
			}
		}
		groups[k.group] = append(groups[k.group], s)
	}
	return groups, len(rows)
}
