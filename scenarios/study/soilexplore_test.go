package study_test

import (
	"context"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"loamledger/scenarios/study"
	"loamledger/scenarios/yamlfile"
	"loamledger/sim/replay"
	"loamledger/sim/soilwater"
	"loamledger/sim/soilwater/soilfile"
	"loamledger/weather"
	"loamledger/weather/csvfile"
)

func TestExplore(t *testing.T) {
	files, _ := filepath.Glob("../../../shared/soil-water/*.csv")
	for _, plant := range []string{"{name: cool-season turf}", "{name: cool-season turf, p: 0.45}", "{k: 0.8, p: 0.45}", "{k: 0.8, p: 0.4}"} {
		for _, cn := range []float64{74} {
			var rmse, err, onset []float64
			for _, f := range append(files, "") {
				if f == "" {
					break
				}
				o := one(t, f, plant, cn)
				rmse = append(rmse, o[0])
				err = append(err, math.Abs(o[1]-o[2]))
				onset = append(onset, o[3])
				fmt.Printf("%s %.1f %v r %.2f taw %.0f on %.0f\n", filepath.Base(f), o[0], o[1:3], o[4], o[5], o[3])
			}
			fmt.Printf("%s CN %v: RMSE %.1f (q90 %.1f)  days %.1f (q90 %.1f) onset %.1f\n\n", plant, cn, soilwater.Quantile(rmse, .5), soilwater.Quantile(rmse, .9), soilwater.Quantile(err, .5), soilwater.Quantile(err, .9), soilwater.Quantile(onset, .5))
		}
	}
	for _, plant := range []string{"{name: warm-season turf}", "{name: cool-season turf}"} {
		o := one(t, "../../../shared/weather/uscrn-manhattan-ks.csv", plant, 74)
		fmt.Println("manhattan", plant, o)
	}
}

func one(t *testing.T, file, plant string, cn float64) []float64 {
	f, err := os.Open(file)
	if err != nil {
		t.Skip()
	}
	defer f.Close()
	m, err := soilfile.Read(f, file)
	if err != nil {
		t.Fatal(err)
	}
	th, _ := m.Thicknesses(0.5)
	frozen := soilwater.Frozen(m.SoilTempC)
	b := soilwater.BoundsFromRecord(m.Record, frozen)
	p := soilwater.Deplete(m.Record, &b, th, frozen)
	awc := b.RangeMM(th) / 0.5
	text := fmt.Sprintf(`
site: {name: bench, elevation: 300 m}
units: si
weather: {file: weather.csv, max_fill_days: 366, max_fill_run: 60}
zones:
  - {name: z, area: 100 m2, plant: %s, soil: {awc: %.3f mm/m, intake: 9 mm/h, surface_storage: 5 mm, curve_number: %v}, root_depth: 500 mm, strips: 1,
     sprinkler: {kind: spray, rate: 35 mm/h, uniformity: 100 %%}}
programs:
  - {name: p, days: [mon], starts: ["05:00"], minutes: {z: 12}}
strategies:
  - {name: s, programs: [p]}
`, plant, awc, cn)
	if strings.Contains(file, "manhattan") {
		text = strings.Replace(text, "weather: {", "weather: {from: 2009-06-01, ", 1)
	}
	sc, err := yamlfile.Read(strings.NewReader(text), "yard.yaml", func(string) (io.ReadCloser, error) { panic("no table") })
	if err != nil {
		t.Fatal(err)
	}
	f.Seek(0, 0)
	rec, err := csvfile.Read(f, file, csvfile.Options{})
	if err != nil {
		t.Fatal(err)
	}
	w, err := study.Prepare(sc, study.Records{Parts: []*weather.Record{rec}})
	if err != nil {
		t.Fatal(err)
	}
	st, err := study.New(sc, w, nil)
	if err != nil {
		t.Fatal(err)
	}
	out := make([]float64, 8)
	k := 0
	_, err = replay.Run(context.Background(), &st.Job, func(s *replay.Sheet) error {
		k++
		if k != 2 {
			return nil
		}
		off := int(s.Weather.Start - m.Start)
		ser := soilwater.Series{Start: s.Weather.Start, TAWMM: s.Zone.TAWMM, SimMM: s.Trace.DepletionMM, MeasuredMM: p.DepletionMM[off : off+s.Days()]}
		for _, d := range s.Forcing {
			ser.RAWMM = append(ser.RAWMM, d.RAWMM)
		}
		sc := ser.Scores(nil)
		out[0] = 100 * sc[0].RMSEMM / ser.TAWMM
		ws := ser.Warms()
		var on []float64
		for _, w := range ws {
			out[1] += float64(w.SimPast)
			out[2] += float64(w.MeasuredPast)
			if w.SimOnsetOK && w.MeasuredOnsetOK {
				on = append(on, math.Abs(float64(w.SimOnset-w.MeasuredOnset)))
			}
		}
		out[3] = soilwater.Quantile(on, .5)
		out[4], out[5] = sc[0].R, ser.TAWMM
		out[6] = 100 * sc[1].BiasMM / ser.TAWMM
		out[7] = float64(sc[0].Days)
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}
