package cli

import (
	"bytes"
	"testing"

	"loamledger/weather/cal"
	"loamledger/weather/csvfile"
	"loamledger/weather/generate"
	"loamledger/weather/prepare"
)

// BenchmarkWeather40Years reads 40 years of daily weather from CSV, checks and
// fills it, and computes reference ET.
func BenchmarkWeather40Years(b *testing.B) {
	p, err := generate.DemoNormals().Params()
	if err != nil {
		b.Fatal(err)
	}
	first, last := cal.Of(1981, 1, 1), cal.Of(2020, 12, 31)
	st := generate.DemoStation()
	rec, err := generate.Generate(p, st, first, int(last-first)+1, 1)
	if err != nil {
		b.Fatal(err)
	}
	for c := range rec.Mark {
		clear(rec.Mark[c]) // as if observed: no origin column
	}
	var text bytes.Buffer
	if err := csvfile.WriteOwn(&text, &rec.Series); err != nil {
		b.Fatal(err)
	}
	o := csvfile.Options{LatDeg: &st.LatDeg, ElevM: &st.ElevM, WindHeightM: &st.WindHeightM}
	b.ReportAllocs()
	b.SetBytes(int64(text.Len()))
	for b.Loop() {
		rec, err := csvfile.Read(bytes.NewReader(text.Bytes()), "weather.csv", o)
		if err != nil {
			b.Fatal(err)
		}
		ready, err := prepare.Record(rec, prepare.Options{})
		if err != nil {
			b.Fatal(err)
		}
		if ready.Days != int(last-first)+1 {
			b.Fatal("days are lost")
		}
	}
	b.ReportMetric(float64(b.N)*float64(rec.Days)/b.Elapsed().Seconds(), "rows/s")
}
