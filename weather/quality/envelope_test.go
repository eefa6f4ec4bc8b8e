package quality

import (
	"math"
	"os"
	"path/filepath"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat"

	"loamledger/weather/csvfile"
)

// fitted are the stations of the envelopes, with the latitudes that their files
// do not state. Of two files of the same station only one counts.
var fitted = []struct {
	file string
	lat  float64 // 0: the file states it
}{
	{"azmet-payson.csv", 34.23}, {"azmet-tucson.csv", 32.28}, {"vega-seattle.csv", 47.44}, {"daymet-oak-ridge-tn.csv", 0},
	{"eccc-montreal.csv", 0}, {"ghcnd-greer-sc.dly", 34.9}, {"ghcnd-long-new-york-central-park.csv", 40.78},
	{"ghcnd-wideflags-san-francisco-oceanside.csv", 37.73}, {"gridmet-johnson-county-ks.csv", 0}, {"knmi-debilt.txt", 52.1},
	{"nasapower-chakwal-pk.csv", 0}, {"openmeteo-torino.csv", 0}, {"siar-las-galletas.csv", 28}, {"siar-valle-guerra.csv", 28.5},
	{"uscrn-manhattan-ks.csv", 0}, {"ncei-standard-death-valley.csv", 36.46},
}

// climates returns the climates of the stations.
func climates(t *testing.T) (out []climate) {
	t.Helper()
	dir := filepath.Join("..", "..", "..", "shared", "weather")
	if _, err := os.Stat(dir); err != nil {
		t.Skip("shared reference data not present")
	}
	for _, s := range fitted {
		f, err := os.Open(filepath.Join(dir, s.file))
		if err != nil {
			t.Fatal(err)
		}
		o := csvfile.Options{}
		if s.lat != 0 {
			o.LatDeg = &s.lat
		}
		rec, err := csvfile.Read(f, s.file, o)
		f.Close()
		if err != nil {
			t.Fatal(err)
		}
		c, ok := newChecker(rec).climateOf()
		if !ok {
			t.Fatalf("%s has no climate: %+v", s.file, c)
		}
		out = append(out, c)
	}
	return out
}

// fit returns the coefficients and the standard deviation of the residuals of e
// over the climates except number without.
func fit(t *testing.T, e *envelope, list []climate, without int) (coef []float64, spread float64) {
	t.Helper()
	var x, y []float64
	n := 0
	for i := range list {
		if i != without {
			x, y, n = append(x, e.inputs(&list[i])...), append(y, e.of(&list[i])), n+1
		}
	}
	p := len(e.coef)
	var b mat.VecDense
	if err := b.SolveVec(mat.NewDense(n, p, x), mat.NewVecDense(n, y)); err != nil {
		t.Fatal(err)
	}
	coef = b.RawVector().Data
	one := *e
	one.coef = coef
	sum := 0.0
	for i := range list {
		if i != without {
			d := e.of(&list[i]) - one.predict(&list[i])
			sum += d * d
		}
	}
	return coef, math.Sqrt(sum / float64(n-p))
}

// The coefficients in the code are the fit over the stations (golden), and each
// station lies within the envelope that the others make without it.
func TestEnvelopes(t *testing.T) {
	list := climates(t)
	for _, e := range envelopes() {
		coef, spread := fit(t, &e, list, -1)
		for j, v := range coef {
			if math.Abs(v-e.coef[j]) > 0.005*max(1, math.Abs(v)) {
				t.Errorf("%s: coefficients %.4g, fitted %.4g", e.code, e.coef, coef)
				break
			}
		}
		if math.Abs(spread-e.spread) > 0.005 {
			t.Errorf("%s: spread %.4g, fitted %.4g", e.code, e.spread, spread)
		}
		var off []float64
		for i := range list {
			one := e
			one.coef, one.spread = fit(t, &e, list, i)
			d := (e.of(&list[i]) - one.predict(&list[i])) / one.spread
			off = append(off, d)
			if d > envelopeFar || d < -envelopeFar && e.code != "rain-season" {
				t.Errorf("%s: %s left out is %.1f standard deviations off", e.code, fitted[i].file, d)
			}
		}
		t.Logf("%s: %.4g, spread %.4g, left out %.1f (standard deviation %.2f)", e.code, coef, spread, off, stat.StdDev(off, nil))
	}
}
