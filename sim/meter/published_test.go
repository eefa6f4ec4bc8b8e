package meter_test

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"loamledger/sim/meter"
)

const cases = "../../../shared/reference/savings-cases"

// table reads a case: a comment, a heading with types, rows.
func table(t *testing.T, name string) []map[string]string {
	t.Helper()
	f, err := os.Open(filepath.Join(cases, name))
	if err != nil {
		t.Skip("the reference material is not beside the checkout: ", err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	all, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var out []map[string]string
	for _, row := range all[1:] {
		m := map[string]string{}
		for i, cell := range row {
			name := all[0][i]
			for k := range name {
				if name[k] == ':' {
					name = name[:k]
					break
				}
			}
			m[name] = cell
		}
		out = append(out, m)
	}
	return out
}

func number(t *testing.T, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// A published data set of bills, simulated by an open library for metered savings
// (OpenDSM samples, Apache-2.0, commit 6c932ee0), with the line, CV(RMSE), saving and
// uncertainty that were computed from it independently by the rules of CalTRACK 2.0.
// Degree days per day above or below a balance temperature take the place of need.
func TestPublishedBills(t *testing.T) {
	temps := table(t, "daily-temp.csv")
	for _, tt := range []struct {
		file                    string
		sign                    float64 // of temperature above the threshold
		balance, base, slope    float64
		r2, cv, saving          float64
		fsu                     float64 // at 90%, P' at most P; 0 if not published
		baseRole, reportingRole string
	}{
		// Cases D and C of the reference.
		{"bills-d-cool-monthly.csv", 1, 59, 6.50865296, 3.01904694, 0.997345641, 4.19026043, 537.647213, 0, "base", "report"},
		{"bills-c-gas-monthly.csv", -1, 61, 0.715613, 0.21313027, 0.998514887, 3.2728176, 99.1415597, 0.258420893, "base", "report"},
	} {
		bills := table(t, tt.file)
		degree := func(b map[string]string, at float64) (mean float64) {
			from, to := int(number(t, b["start_day"])), int(number(t, b["end_day"]))
			for d := from; d < to; d++ {
				mean += max(tt.sign*(number(t, temps[d]["mean_temp_f"])-at), 0) / float64(to-from)
			}
			return mean
		}
		var perDay, days, use []float64
		var base, after []map[string]string
		for _, b := range bills {
			switch b["role"] {
			case tt.baseRole:
				n := number(t, b["days"])
				base = append(base, b)
				perDay, days, use = append(perDay, number(t, b["use"])/n), append(days, n), append(use, number(t, b["use"]))
			case tt.reportingRole:
				after = append(after, b)
			}
		}
		var thresholds []float64
		for at := 30; at <= 90; at++ {
			thresholds = append(thresholds, float64(at))
		}
		line, ok := meter.FitLine(perDay, days, thresholds, func(at float64) []float64 {
			var x []float64
			for _, b := range base {
				x = append(x, degree(b, at))
			}
			return x
		})
		if !ok || line.Threshold != tt.balance {
			t.Fatalf("%s: line %+v, %t", tt.file, line, ok)
		}
		near(t, tt.file+" base", line.Base, tt.base, 1e-6*tt.base)
		near(t, tt.file+" slope", line.Slope, tt.slope, 1e-6*tt.slope)
		near(t, tt.file+" adjusted R2", line.R2, tt.r2, 1e-7)
		var fit []float64
		for k, b := range base {
			fit = append(fit, days[k]*(line.Base+line.Slope*degree(b, line.Threshold)))
		}
		sc, _ := meter.ScoreOf(use, fit, 1)
		near(t, tt.file+" CV", sc.CV, tt.cv, 1e-5*tt.cv)
		saved, predicted := 0.0, 0.0
		for _, b := range after {
			v := number(t, b["days"]) * (line.Base + line.Slope*degree(b, line.Threshold))
			saved, predicted = saved+v-number(t, b["use"]), predicted+v
		}
		near(t, tt.file+" saving", saved, tt.saving, 1e-5*tt.saving)
		if tt.fsu > 0 {
			u, ok := meter.Uncertainty(use, fit, 1, len(after), 12, 0.90)
			if !ok {
				t.Fatal("no uncertainty")
			}
			near(t, tt.file+" FSU", u*predicted/saved, tt.fsu, 1e-5)
		}
	}
}

// A line needs ten periods, a base from 0 up and a slope above 0.
func TestNoLine(t *testing.T) {
	x := func(float64) []float64 { return []float64{0, 1, 2, 3, 4, 5, 6, 7, 8, 9} }
	days := []float64{1, 1, 1, 1, 1, 1, 1, 1, 1, 1}
	falls := []float64{10, 9, 8, 7, 6, 5, 4, 3, 2, 1}
	below := []float64{-5, -4, -3, -2, -1, 0, 1, 2, 3, 4}
	for _, y := range [][]float64{falls, below, falls[:9]} {
		if l, ok := meter.FitLine(y, days[:len(y)], []float64{0}, x); ok {
			t.Errorf("%v gives %+v", y, l)
		}
	}
}
