package damage

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/csvfile"
	"loamledger/weather/et0"
	"loamledger/weather/quality"
)

// Damage that needs a column or a flag which the made-up days lack.

// readOwn reads days in loamledger's own layout and checks them.
func readOwn(t *testing.T, days []day) *weather.Record {
	t.Helper()
	l := layouts()[0]
	lat, elev, height := float64(latitude), 300.0, 2.0
	rec, err := csvfile.Read(strings.NewReader(l.write(days)), "f", csvfile.Options{LatDeg: &lat, ElevM: &elev, WindHeightM: &height})
	if err != nil {
		t.Fatal(err)
	}
	quality.Check(rec)
	return rec
}

func codes(list []weather.Finding) (out []weather.Code) {
	for _, f := range list {
		out = append(out, f.Code)
	}
	return out
}

// Supplied ETo of an anemometer at 10 m contradicts a stated height of 2 m.
func TestWindHeightAgainstSuppliedETo(t *testing.T) {
	rec := readOwn(t, temperate(2, 34))
	high := rec.Series
	high.Station.WindHeightM = 10
	r, err := et0.Daily(&high, et0.Options{})
	if err != nil {
		t.Fatal(err)
	}
	for _, height := range []float64{2, 10} {
		again := readOwn(t, temperate(2, 34))
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
		for i, d := range temperate(2, 34) {
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
