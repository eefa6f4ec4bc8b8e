package study_test

import (
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"loamledger/scenarios/study"
	"loamledger/scenarios/yamlfile"
	"loamledger/sim/soilwater"
	"loamledger/sim/soilwater/soilfile"
	"loamledger/weather"
	"loamledger/weather/csvfile"
)

// root is the project's root, from this package.
const root = "../.."

// A station is a year or more of weather and soil water on one mast.
type station struct {
	name  string
	text  string // of the file
	soil  *soilfile.File
	from  string  // first day to replay; empty for that of the file
	roots float64 // [mm]
}

// stations reads the climate reference stations next to the project, and the one
// of eight years. Without them the test is skipped.
func stations(t *testing.T) (list []*station, long *station) {
	t.Helper()
	files, _ := filepath.Glob(filepath.Join(root, "..", "shared", "soil-water", "*.csv"))
	if len(files) == 0 {
		t.Skip("measured soil water not present")
	}
	for _, name := range files {
		list = append(list, readStation(t, name, "", 500))
	}
	return list, readStation(t, filepath.Join(root, "..", "shared", "weather", "uscrn-manhattan-ks.csv"), "2009-06-01", 350)
}

func readStation(t *testing.T, name, from string, roots float64) *station {
	t.Helper()
	b, err := os.ReadFile(name)
	if err != nil {
		t.Skip("measured soil water not present")
	}
	soil, err := soilfile.Read(strings.NewReader(string(b)), name)
	if err != nil {
		t.Fatal(err)
	}
	return &station{strings.TrimSuffix(strings.TrimPrefix(filepath.Base(name), "uscrn-"), ".csv"), string(b), soil, from, roots}
}

// A variant is one way to replay a station.
type variant struct {
	plant   string // YAML
	soil    string // more keys of soil
	zone    string // more keys of the zone
	weather string // more keys of weather
	source  study.SoilSource
	record  func(*weather.Record)
	job     func(*study.Study)
	fit     []study.FitKey
}

const following = "{name: cool-season turf}"

// measure compares the station with a replay. The stations measure no wind. Rain
// that is missing counts as none, and other values are interpolated, for the gaps
// that no rule of loamledger fills; filled counts those days.
func (st *station) measure(t *testing.T, v variant) (m *study.Measured, l *study.Study, filled int) {
	t.Helper()
	if v.plant == "" {
		v.plant = following
	}
	from := ""
	if st.from != "" {
		from = ", from: " + st.from
	}
	text := fmt.Sprintf(`
site: {name: station, elevation: 300 m}
units: si
weather: {file: weather.csv, max_fill_days: 366, max_fill_run: 60%s%s}
zones:
  - {name: grass, area: 100 m2, plant: %s, soil: {name: loam, curve_number: 74%s}, root_depth: %g mm, strips: 1%s,
     sprinkler: {kind: spray, rate: 35 mm/h, uniformity: 100 %%}}
programs:
  - {name: p, days: [mon], starts: ["05:00"], minutes: {grass: 12}}
strategies:
  - {name: s, programs: [p]}
`, from, v.weather, v.plant, v.soil, st.roots, v.zone)
	text = strings.NewReplacer("max_fill_days: 366", "max_fill_days: 366 days", "max_fill_run: 60", "max_fill_run: 60 days").Replace(text)
	if strings.Contains(v.soil, "curve_number") {
		text = strings.Replace(text, "curve_number: 74, ", "", 1)
	}
	sc, err := yamlfile.Read(strings.NewReader(text), "yard.yaml", func(string) (io.ReadCloser, error) { panic("no table is named") })
	if err != nil {
		t.Fatal(err)
	}
	rec, err := csvfile.Read(strings.NewReader(st.text), "weather.csv", csvfile.Options{})
	if err != nil {
		t.Fatal(err)
	}
	filled = bridge(rec)
	if v.record != nil {
		v.record(rec)
	}
	w, err := study.Prepare(sc, study.Records{Parts: []*weather.Record{rec}})
	if err != nil {
		t.Fatalf("%s: %v", st.name, err)
	}
	if l, err = study.New(sc, w, nil); err != nil {
		t.Fatal(err)
	}
	if v.job != nil {
		v.job(l)
	}
	m, err = l.Measure(t.Context(), &study.MeasuredOptions{Record: st.soil.Record, Strategy: -1, Soil: v.source, Fit: v.fit})
	if err != nil {
		t.Fatal(err)
	}
	if m.NotScored != 0 {
		t.Fatalf("%s: %s", st.name, m.NotScored.Key())
	}
	return m, l, filled
}

// bridge fills gaps and counts the days: no rain, other columns interpolated.
func bridge(rec *weather.Record) int {
	days := make([]bool, rec.Days)
	for _, c := range []weather.Column{weather.Tmax, weather.Tmin, weather.Rs, weather.RHmax, weather.RHmin} {
		last := -1
		for i, v := range rec.Data[c] {
			if math.IsNaN(v) {
				continue
			}
			for k := last + 1; k < i && last >= 0; k++ {
				share := float64(k-last) / float64(i-last)
				rec.Set(c, k, rec.Data[c][last]*(1-share)+share*v, weather.Observed)
				days[k] = true
			}
			last = i
		}
	}
	for i, v := range rec.Data[weather.Rain] {
		if math.IsNaN(v) {
			rec.Set(weather.Rain, i, 0, weather.Observed)
			days[i] = true
		}
	}
	n := 0
	for _, d := range days {
		if d {
			n++
		}
	}
	return n
}

// An outcome is what the table says of one station. Shares are of TAW [%].
type outcome struct {
	r, rmse, bias, spring float64
	sim, measured         int     // days past RAW in complete warm half-years
	daysOff               float64 // mean of the years
	onsetOff              float64 // median of the years with both; NaN for none
	years                 int
}

func outcomeOf(m *study.Measured, s *soilwater.Series) outcome {
	scores := s.Scores(nil)
	pct := func(mm float64) float64 { return 100 * mm / m.MeasuredTAW }
	whole := scores[soilwater.WholeYear]
	o := outcome{r: whole.R, rmse: pct(whole.RMSEMM), bias: pct(whole.BiasMM), spring: pct(scores[soilwater.Spring].BiasMM)}
	var off, onset []float64
	for _, w := range s.Warms() {
		if !w.Complete() {
			continue
		}
		o.years++
		o.sim, o.measured = o.sim+w.SimPast, o.measured+w.MeasuredPast
		off = append(off, math.Abs(float64(w.SimPast-w.MeasuredPast)))
		if w.SimOnsetOK && w.MeasuredOnsetOK {
			onset = append(onset, math.Abs(float64(w.SimOnset-w.MeasuredOnset)))
		}
	}
	for _, v := range off {
		o.daysOff += v / float64(len(off))
	}
	o.onsetOff = soilwater.Quantile(onset, 0.5)
	return o
}

// A spreadOf is the quartiles and the worst of a figure over stations.
func spreadOf(values []float64, decimals int) string {
	q := func(share float64) float64 { return soilwater.Quantile(values, share) }
	return fmt.Sprintf("%7.*f%7.*f%7.*f%7.*f%7.*f", decimals, q(0.5), decimals, q(0.25), decimals, q(0.75), decimals, q(0.9), decimals, q(1))
}

func figures(list []outcome) (rmse, days, onset, r []float64) {
	for _, o := range list {
		rmse, days, onset, r = append(rmse, o.rmse), append(days, o.daysOff), append(onset, o.onsetOff), append(r, o.r)
	}
	return rmse, days, onset, r
}

// recorded compares text with a recorded file; UPDATE=1 renews it.
func recorded(t *testing.T, name, text string) {
	t.Helper()
	path := filepath.Join(root, "testdata", "measured", name)
	if os.Getenv("UPDATE") == "1" {
		if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatalf("%v; UPDATE=1 makes it", err)
	}
	if text != string(want) {
		t.Errorf("%s has changed; UPDATE=1 renews it:\n%s", path, text)
	}
}

// coefficientRows are the three ways to give K.
var coefficientRows = []struct {
	name string
	v    variant
}{
	{"constant, K 0.8", variant{plant: "{name: cool-season turf, k: 0.8}"}},
	{"monthly K", variant{zone: ", coefficients: UC"}},
	{"K follows the season", variant{}},
}

// TestMeasuredStations prints how far replays without watering are from measured
// soil water, and compares the table with the recorded one. Limits are those set
// before the first run.
func TestMeasuredStations(t *testing.T) {
	list, long := stations(t)
	var b strings.Builder
	fmt.Fprintf(&b, "Replays without watering compared with measured soil water, %d stations, one year, 0.5 m of soil under unwatered "+
		"grass.\n", len(list))
	b.WriteString("Renew: UPDATE=1 go test ./scenarios/study -run Measured\n\n")
	head := fmt.Sprintf("%-44s%35s%35s%35s\n", "", "RMSE, % of TAW", "days past RAW, April to October", "first onset, days") +
		fmt.Sprintf("%-44s%s%s%s\n", "", strings.Repeat(" median   25%    75%    90%  worst", 1)+" ", " median   25%    75%    90%  worst ",
			" median   25%    75%    90%  worst")
	b.WriteString(head)
	var best, loam []outcome
	var rows []string // of the table in README.md
	var detail strings.Builder
	filled := 0
	for _, soil := range []struct {
		name   string
		source study.SoilSource
	}{{"soil of the record", study.SoilOfRecord}, {"catalog's loam", study.SoilOfScenario}} {
		for _, row := range coefficientRows {
			var out []outcome
			v := row.v
			v.source = soil.source
			for _, st := range list {
				m, _, n := st.measure(t, v)
				o := outcomeOf(m, m.Series)
				out = append(out, o)
				if soil.source == study.SoilOfRecord && row.name == "K follows the season" {
					filled += n
					w := m.Warms[0]
					fmt.Fprintf(&detail, "%-12s%6.0f%6d%8.2f%8.1f%8.1f%8d%8d%12s%12s  %s, %v\n", st.name, m.TAWMM, m.Scores[0].Days, o.r, o.bias, o.rmse,
						o.sim, o.measured, onsetText(w.SimOnset.String(), w.SimOnsetOK), onsetText(w.MeasuredOnset.String(), w.MeasuredOnsetOK),
						m.Misfit.Reason.Key(), m.Misfit.Date)
				}
			}
			rmse, days, onset, _ := figures(out)
			rows = append(rows, fmt.Sprintf("| %s, %s | %s | %s | %s |", row.name, soil.name, brief(rmse, 1), brief(days, 0), brief(onset, 0)))
			fmt.Fprintf(&b, "%-44s%s%s%s\n", row.name+", "+soil.name, spreadOf(rmse, 1), spreadOf(days, 0), spreadOf(onset, 0))
			if soil.source == study.SoilOfRecord && row.name == "K follows the season" {
				best = out
			}
			loam = out // the last row
		}
	}
	b.WriteString("\nBy station, K follows the season, soil of the record: TAW [mm], days, r, bias and RMSE [% of TAW], days past RAW and " +
		"onset\n" +
		"simulated and measured, likely reason of the largest misfit and its day\n")
	b.WriteString(detail.String())
	b.WriteString("\nManhattan KS, 2009 to 2017, 0.35 m of soil, no watering\n")
	var warm outcome
	for _, plant := range []string{"warm-season turf", "cool-season turf"} {
		m, _, _ := long.measure(t, variant{plant: "{name: " + plant + "}"})
		o := outcomeOf(m, m.Series)
		fmt.Fprintf(&b, "%-20s%5d days  r %.2f  RMSE %.1f  bias %.1f  spring bias %.1f %% of TAW  past RAW %d and %d days, off by %.0f a "+
			"year, onset off by %.0f\n",
			plant, m.Scores[0].Days, o.r, o.rmse, o.bias, o.spring, o.sim, o.measured, o.daysOff, o.onsetOff)
		if plant == "warm-season turf" {
			warm = o
		}
	}
	fmt.Fprintf(&b, "\nWeather missing on %d of the stations' days: no rain, other values interpolated. Wind is not measured: 2 m/s.\n",
		filled)
	t.Log("\n" + b.String())
	recorded(t, "stations.txt", b.String())

	rmse, days, onset, _ := figures(best)
	toldIn(t, "README.md", append(rows, fmt.Sprintf("The typical error is %.0f%% of the root zone's water (TAW), and %.0f days in the "+
		"first onset of stress; "+
		"at one station in ten it is %.0f%% and %.0f days.", soilwater.Quantile(rmse, 0.5), soilwater.Quantile(onset, 0.5),
		soilwater.Quantile(rmse, 0.9),
		soilwater.Quantile(onset, 0.9)))...)
	toldIn(t, "plots/words.html", fmt.Sprintf("the typical error is %.0f%% of the root zone’s water, %.0f days in the first "+
		"onset of stress "+
		"(three days in a row past RAW), and %.0f days in the count of days past RAW from April to October; at one station in ten, it is "+
		"%.0f%%, %.0f days and %.0f days",
		soilwater.Quantile(rmse, 0.5), soilwater.Quantile(onset, 0.5), soilwater.Quantile(days, 0.5), soilwater.Quantile(rmse, 0.9),
		soilwater.Quantile(onset, 0.9), soilwater.Quantile(days, 0.9)))
	rmseLoam, daysLoam, onsetLoam, _ := figures(loam)
	toldIn(t, "plots/words.html", fmt.Sprintf("With the catalog’s loam instead of each station’s own soil, the typical error "+
		"is %.0f%%, %.0f days and %.0f days.",
		soilwater.Quantile(rmseLoam, 0.5), soilwater.Quantile(onsetLoam, 0.5), soilwater.Quantile(daysLoam, 0.5)))
	if v := soilwater.Quantile(rmse, 0.5); v > 13.5 {
		t.Errorf("median RMSE %.1f%% of TAW, limit 13.5", v)
	}
	if v := soilwater.Quantile(days, 0.5); v > 13 {
		t.Errorf("median error of days past RAW %.0f, limit 13", v)
	}
	if warm.r < 0.90 || math.Abs(warm.spring) > 10 {
		t.Errorf("Manhattan, warm-season: r %.3f, limit 0.90; spring bias %.1f%% of TAW, limit 10", warm.r, warm.spring)
	}
}

// brief writes the median, the quartiles and the worst of a figure.
func brief(values []float64, decimals int) string {
	q := func(share float64) string { return fmt.Sprintf("%.*f", decimals, soilwater.Quantile(values, share)) }
	return fmt.Sprintf("%s (%s to %s), %s", q(0.5), q(0.25), q(0.75), q(1))
}

// toldIn fails unless a file of the project has every text.
func toldIn(t *testing.T, name string, texts ...string) {
	t.Helper()
	b, err := os.ReadFile(filepath.Join(root, name))
	if err != nil {
		t.Fatal(err)
	}
	whole := strings.Join(strings.Fields(string(b)), " ")
	for _, text := range texts {
		if !strings.Contains(whole, text) {
			t.Errorf("%s does not have: %s", name, text)
		}
	}
}

func onsetText(date string, ok bool) string {
	if !ok {
		return "none"
	}
	return date
}
