package generate

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"loamledger/weather"
	"loamledger/weather/cal"
)

// randomNormals makes figures of no place on Earth, but free of contradiction.
func randomNormals(r *rand.Rand) Normals {
	var n Normals
	var rs, wind, dew, shape [12]float64
	for m := range 12 {
		n.WetDays[m] = math.Floor(28 * r.Float64())
		n.RainMM[m] = n.WetDays[m] * (0.3 + 15*r.Float64())
		n.TminC[m] = -40 + 65*r.Float64()
		n.TmaxC[m] = n.TminC[m] + 20*r.Float64()
		rs[m], wind[m], dew[m], shape[m] = 24*r.Float64(), 0.1+8*r.Float64(), n.TminC[m]-6*r.Float64(), 0.2+3*r.Float64()
	}
	n.RsMJ, n.WindMS, n.DewC = &rs, &wind, &dew
	if r.IntN(2) == 0 {
		n.Shape = &shape
	}
	n.YearSpread = r.Float64()
	return n
}

// TestLawsEverywhere makes a year at random places, the polar night and places
// of unknown latitude and height among them: every value is a number within
// its physical limits.
func TestLawsEverywhere(t *testing.T) {
	r := rand.New(rand.NewPCG(17, 17))
	for try := range 150 {
		n := randomNormals(r)
		st := weather.UnknownStation()
		if r.IntN(5) > 0 {
			st.LatDeg = -89 + 178*r.Float64()
		}
		if r.IntN(5) > 0 {
			st.ElevM = -400 + 5000*r.Float64()
		}
		p, err := n.Params()
		if err != nil {
			t.Fatalf("%d: %v", try, err)
		}
		rec, err := Generate(p, st, cal.Of(2020, 1, 1), 366, uint64(try))
		if err != nil {
			t.Fatalf("%d: %v", try, err)
		}
		for i := range rec.Days {
			rain, tmax, tmin := rec.At(weather.Rain, i), rec.At(weather.Tmax, i), rec.At(weather.Tmin, i)
			rs, wind, dew := rec.At(weather.Rs, i), rec.At(weather.Wind, i), rec.At(weather.Tdew, i)
			_, high := skyLimits(st, i)
			if !(rain >= 0 && rain < 5000 && tmax >= tmin && tmin > -120 && tmax < 90 && rs >= 0 && rs <= high && wind > 0 && wind < 200 &&
				dew <= tmin && dew > -200) {
				t.Fatalf("%d: latitude %g, %v: rain %g, Tmax %g, Tmin %g, Rs %g of %g, wind %g, dew point %g", try, st.LatDeg, rec.Date(i), rain, tmax,
					tmin, rs, high, wind, dew)
			}
		}
	}
}

// TestFitWithGaps blanks a tenth of the days: the figures stay within the
// error that fewer days bring, and nothing unknown gets into them.
func TestFitWithGaps(t *testing.T) {
	_, p := demoParams(t, 0)
	rec := years(t, p, 60, 18)
	whole, _, err := Fit(&rec.Series, 0)
	if err != nil {
		t.Fatal(err)
	}
	r := rand.New(rand.NewPCG(19, 19))
	for c := range weather.Columns {
		for i := range rec.Days {
			if rec.Has(c) && r.IntN(10) == 0 {
				rec.Set(c, i, math.NaN(), weather.Missing)
			}
		}
	}
	holed, _, err := Fit(&rec.Series, 0)
	if err != nil {
		t.Fatal(err)
	}
	for m := range 12 {
		a, b := holed.month[m], whole.month[m]
		near(t, m, "share of wet days", a.wetShare(), b.wetShare(), 0.03)
		near(t, m, "Tmax on dry days", a.tmaxC[dryDay], b.tmaxC[dryDay], 0.3)
		near(t, m, "Tmin on dry days", a.tminC[dryDay], b.tminC[dryDay], 0.3)
		near(t, m, "radiation on dry days", a.rsMJ[dryDay], b.rsMJ[dryDay], 0.3)
		near(t, m, "wind", a.windMS, b.windMS, 0.1)
	}
}

func TestFitSaysWhatItLacks(t *testing.T) {
	_, p := demoParams(t, 0.3)
	rec := years(t, p, 4, 20)
	for i := range rec.Days {
		if rec.Date(i).Month() == 7 {
			rec.Set(weather.Rain, i, 0, weather.Observed)
		}
		if rec.Date(i).Month() == 1 && rec.At(weather.Rain, i) == 0 {
			rec.Set(weather.Rain, i, 0.1, weather.Trace)
		}
	}
	got, found, err := Fit(&rec.Series, 0)
	if err != nil {
		t.Fatal(err)
	}
	if got.yearSpread != 0 {
		t.Errorf("four years gave a spread of years of %g", got.yearSpread)
	}
	if got.month[6].wetAfterDry != 0 {
		t.Errorf("a July without rain gets wet with the chance %g", got.month[6].wetAfterDry)
	}
	codes := ""
	for _, f := range found {
		codes += string(f.Code) + " "
		if f.Count < 1 || f.What == "" || f.Action == "" {
			t.Errorf("finding without its parts: %+v", f)
		}
	}
	for _, want := range []string{"fit-few-years", "fit-light-rain", "fit-few-days", "fit-few-wet-days"} {
		if !strings.Contains(codes, want) {
			t.Errorf("findings %q lack %s", codes, want)
		}
	}
	if _, err := Generate(got, rec.Station, 0, 365, 1); err != nil {
		t.Errorf("what was fitted cannot be drawn from: %v", err)
	}
	bare := weather.NewSeries(rec.Station, 0, 3000, weather.Tmax, weather.Tmin)
	if _, _, err := Fit(bare, 0); err == nil || !strings.Contains(err.Error(), "rain_mm") {
		t.Errorf("a record without rain: %v", err)
	}
}
