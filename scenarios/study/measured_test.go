package study

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"loamledger/sim/replay"
	"loamledger/sim/soilwater"
	"loamledger/sim/tally"
	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
)

// lawnText is one zone of even watering, whose root zone is measured.
const lawnText = `
site: {name: bench, latitude: 38.9, elevation: 490 m}
units: si
weather: {file: weather.csv, wind_height: 2 m}
zones:
  - {name: lawn, area: 100 m2, plant: {name: cool-season turf, p: 0.4}, soil: {name: loam, awc: 160 mm/m}, root_depth: 500 mm, strips: 1,
     sprinkler: {kind: spray, rate: 35 mm/h, uniformity: 100 %}}
programs:
  - {name: p, days: [mon, wed, fri], starts: ["05:00"], minutes: {lawn: 12}}
strategies:
  - {name: as found, programs: [p], manual: [{date: 2014-07-03, zone: lawn, minutes: 20 min}]}
`

// lawn is the lawn with the given number of years of synthetic weather.
func lawn(tb testing.TB, text string, years int) *Study {
	tb.Helper()
	sc := readYard(tb, text)
	w, err := Prepare(sc, Records{Parts: []*weather.Record{inventRecord(tb, years)}})
	if err != nil {
		tb.Fatal(err)
	}
	l, err := New(sc, w, nil)
	if err != nil {
		tb.Fatal(err)
	}
	return l
}

// truthOf invents the sensors of a lawn: the replay of strategy st (no watering if
// below 0) in soil with field capacity 0.32 at 10 and 40 cm, two sensors at the
// first depth 0.02 apart, noise of the given standard deviation, and a gap of 20
// days in the second June. Half of the depletion is in the first 25 cm.
func truthOf(tb testing.TB, l *Study, st int, noise float64) *soilwater.Record {
	tb.Helper()
	name := tally.NoWater
	if st >= 0 {
		name = l.Job.Strategies[st].Name
	}
	var depletion []float64
	if _, err := replay.Run(tb.Context(), &l.Job, func(s *replay.Sheet) error {
		if s.Strategy == name {
			depletion = append(depletion, s.Trace.DepletionMM...)
		}
		return nil
	}); err != nil {
		tb.Fatal(err)
	}
	r := rand.New(rand.NewPCG(1, 2))
	sensors := []soilwater.Sensor{{Name: "north", DepthM: 0.10}, {Name: "south", DepthM: 0.10}, {Name: "deep", DepthM: 0.40}}
	first, last := int(cal.Of(2014, 6, 1)-l.Job.Weather.Start), int(cal.Of(2014, 6, 20)-l.Job.Weather.Start)
	for i, mm := range depletion {
		theta := 0.32 - mm/500 // over 500 mm of soil
		for k := range sensors {
			v := theta + noise*r.NormFloat64() + []float64{0.01, -0.01, 0}[k]
			if i >= first && i <= last {
				v = math.NaN()
			}
			sensors[k].Theta = append(sensors[k].Theta, v)
		}
	}
	return soilwater.NewRecord(l.Job.Weather.Start, sensors, nil)
}

func measure(tb testing.TB, l *Study, o MeasuredOptions) *Measured {
	tb.Helper()
	m, err := l.Measure(tb.Context(), &o)
	if err != nil {
		tb.Fatal(err)
	}
	return m
}

// TestKnownTruthIsFound: sensors that follow the replay exactly score 0 with the
// stated soil, except for the first month: the replay that starts there knows no
// earlier temperatures, so K may differ by half, of about 1 mm of ETo a day, and the
// winter's rain soon refills that. Noise of 0.01 gives no more than itself over two layers of 250 mm:
// 0.01·√(250²/2 + 250²) = 3.1 mm, less where depletion is cut at 0.
func TestKnownTruthIsFound(t *testing.T) {
	l := lawn(t, lawnText, 3)
	stated := MeasuredOptions{Record: truthOf(t, l, -1, 0), Strategy: -1, Soil: SoilStated, FieldCapacity: 0.32, WiltingPoint: 0.16}
	m := measure(t, l, stated)
	s := m.Scores[soilwater.WholeYear]
	if s.RMSEMM > 0.3 || s.R < 0.9999 || m.GapDays != 20 || m.TAWMM != 80 || !m.measuredFrom || m.outside != 0 {
		t.Errorf("%+v; %d gaps, TAW %g mm", s, m.GapDays, m.TAWMM)
	}
	for _, w := range m.Warms {
		if w.SimPast != w.MeasuredPast || w.SimOnset != w.MeasuredOnset {
			t.Errorf("%+v", w)
		}
	}
	stated.Record = truthOf(t, l, -1, 0.01)
	m = measure(t, l, stated)
	if s := m.Scores[soilwater.WholeYear]; s.RMSEMM < 1.5 || s.RMSEMM > 3.1 || math.Abs(s.BiasMM) > 1 {
		t.Errorf("with noise: %+v", s)
	}
	// Two sensors 0.02 apart: their spread is the mean distance, with the noise a little more.
	if spread := m.record.Levels[0].SpreadMean; spread < 0.02 || spread > 0.025 {
		t.Errorf("spread %g", spread)
	}
}

// TestBoundsOfTheRecord: the record's own bounds are those of the days measured,
// and the scenario's soil beside them has the scenario's TAW.
func TestBoundsOfTheRecord(t *testing.T) {
	l := lawn(t, lawnText, 3)
	o := MeasuredOptions{Record: truthOf(t, l, -1, 0), Strategy: -1}
	m := measure(t, l, o)
	if m.TAWMM != m.rangeMM || m.TAWMM > 80 || m.TAWMM < 50 || m.NotScored != 0 {
		t.Errorf("TAW %g of %g mm", m.TAWMM, m.rangeMM)
	}
	o.Soil = SoilOfScenario
	if m := measure(t, l, o); math.Abs(m.TAWMM-80) > 1e-9 || m.MeasuredTAW != m.rangeMM {
		t.Errorf("TAW %g and %g mm", m.TAWMM, m.MeasuredTAW)
	}
}

// TestWrongStrategyShows: sensors under irrigation agree with the strategy that
// ran, its manual run included, and not with no watering.
func TestWrongStrategyShows(t *testing.T) {
	l := lawn(t, lawnText, 3)
	o := MeasuredOptions{Record: truthOf(t, l, 0, 0), Strategy: 0, Soil: SoilStated, FieldCapacity: 0.32, WiltingPoint: 0.16}
	m := measure(t, l, o)
	if m.Scores[soilwater.WholeYear].RMSEMM > 0.3 || m.strategy != "as found" {
		t.Errorf("%s: %+v", m.strategy, m.Scores[soilwater.WholeYear])
	}
	o.Strategy = -1
	if m := measure(t, l, o); m.Scores[soilwater.WholeYear].BiasMM < 5 || m.Misfit.Reason != soilwater.RainMissed {
		t.Errorf("no watering: %+v, %s", m.Scores[soilwater.WholeYear], m.Misfit.Reason.Key())
	}
	o.Strategy, o.Record = 0, truthOf(t, lawn(t, strings.Replace(lawnText, ", manual: [{date: 2014-07-03, zone: lawn, minutes: 20 min}]",
		"", 1), 3), 0, 0)
	m = measure(t, l, o)
	if at := m.Misfit.Date; at < cal.Of(2014, 7, 2) || at > cal.Of(2014, 9, 1) {
		t.Errorf("a manual run on July 3 that never was shows on %v", at)
	}
}

// TestFitFindsTheTruth: sensors of a lawn whose coefficient is 0.75 of the
// scenario's are fitted by that, in bounds, on odd years, and the pasted lines give
// the fitted replay.
func TestFitFindsTheTruth(t *testing.T) {
	pasted := "plant: {name: cool-season turf, p: 0.4, k_growing: 0.675, k_resting: 0.3}"
	truth := strings.Replace(lawnText, "plant: {name: cool-season turf, p: 0.4}", pasted, 1)
	o := MeasuredOptions{Record: truthOf(t, lawn(t, truth, 3), -1, 0.005), Strategy: -1, Soil: SoilStated, FieldCapacity: 0.32,
		WiltingPoint: 0.16,
		Fit:          []FitKey{FitK, FitAWC}}
	l := lawn(t, lawnText, 3)
	m := measure(t, l, o)
	f := m.Fit
	if f == nil || !f.Better() || !f.byYears || len(f.fitted) != 2 {
		t.Fatalf("%+v", f)
	}
	if p := f.fitted[0]; math.Abs(p.After-0.675) > 0.03 || p.AtBound || p.Before != 0.9 {
		t.Errorf("%+v", p)
	}
	if p := f.fitted[1]; math.Abs(p.After-160) > 16 || p.AtBound {
		t.Errorf("%+v", p)
	}
	if f.After[1].RMSEMM > 3 || f.Before[1].RMSEMM < 2*f.After[1].RMSEMM {
		t.Errorf("held out: %+v, before %+v", f.After[1], f.Before[1])
	}
	if m.Misfit.Reason != soilwater.KTooHigh {
		t.Errorf("reason %s", m.Misfit.Reason.Key())
	}
	set := strings.NewReplacer("plant: {name: cool-season turf, p: 0.4}", "plant: {name: cool-season turf, p: 0.4, "+item(t, f.lines,
		"k_growing")+", "+
		item(t, f.lines, "k_resting")+"}", "awc: 160 mm/m", item(t, f.lines, "awc")).Replace(lawnText)
	again := o
	again.Soil, again.Fit = SoilOfScenario, nil
	back := measure(t, lawn(t, set, 3), again)
	if math.Abs(back.TAWMM-f.fitted[1].After/2) > 0.1 {
		t.Errorf("pasted: TAW %g mm, fitted AWC %g mm/m over 0.5 m", back.TAWMM, f.fitted[1].After)
	}

	// Without an error to find, the fit has nothing to offer beyond noise: the pasted
	// value stays close, or nothing is pasted.
	o.Record, o.Fit = truthOf(t, l, -1, 0.005), []FitKey{FitK}
	f = measure(t, l, o).Fit
	if p := f.fitted[0]; len(f.fitted) != 1 || math.Abs(p.After/p.Before-1) > 0.03 {
		t.Errorf("%+v", f.fitted)
	}
}

// item returns the pasted line with the given key.
func item(t *testing.T, lines []string, key string) string {
	t.Helper()
	for _, line := range lines {
		if line = strings.TrimSpace(line); strings.HasPrefix(line, key+":") {
			return line
		}
	}
	t.Fatalf("no %s in %q", key, lines)
	return ""
}

// TestNotScored: a soil kept wet, few days, and days outside the weather are said
// and not scored.
func TestNotScored(t *testing.T) {
	l := lawn(t, lawnText, 1)
	wet := make([]float64, l.Job.Weather.Days())
	for i := range wet {
		wet[i] = 0.30 + 0.01*float64(i%3)
	}
	record := func(start cal.Date, theta []float64) *soilwater.Record {
		return soilwater.NewRecord(start, []soilwater.Sensor{{DepthM: 0.25, Theta: theta}}, nil)
	}
	start := l.Job.Weather.Start
	if m := measure(t, l, MeasuredOptions{Record: record(start, wet), Strategy: -1}); m.NotScored != tooLittleDrying || m.Series != nil {
		t.Errorf("wet: %s", m.NotScored.Key())
	}
	if m := measure(t, l, MeasuredOptions{Record: record(start, wet[:50]), Strategy: -1}); m.NotScored != tooFewDays {
		t.Errorf("50 days: %s", m.NotScored.Key())
	}
	if _, err := l.Measure(t.Context(), &MeasuredOptions{Record: record(start-1000, wet[:99]), Strategy: -1}); !diag.IsInput(err) {
		t.Errorf("years before: %v", err)
	}
}

// TestChangesAreRefused: a strategy that changes zones has no one soil to compare.
func TestChangesAreRefused(t *testing.T) {
	text := lawnText + "  - {name: nozzles, like: as found, changes: [{zones: lawn, from: 2014-06-01, sprinkler: {rate: 20 mm/h}}]}\n"
	l := lawn(t, text, 3)
	o := MeasuredOptions{Record: truthOf(t, l, -1, 0), Strategy: 1}
	if _, err := l.Measure(t.Context(), &o); !diag.IsInput(err) {
		t.Errorf("%v", err)
	}
	o.Strategy = 0
	measure(t, l, o)
}

// TestNotFitted: April and May have 61 days, of which the replay starts from the
// first; 29 days of April are too few to fit or to hold out.
func TestNotFitted(t *testing.T) {
	l := lawn(t, lawnText, 1)
	whole := truthOf(t, l, -1, 0)
	from := int(cal.Of(2013, 4, 1) - whole.Start)
	short := soilwater.NewRecord(cal.Of(2013, 4, 1), []soilwater.Sensor{{DepthM: 0.25, Theta: whole.Levels[1].Theta[from : from+61]}}, nil)
	m := measure(t, l, MeasuredOptions{Record: short, Strategy: -1, Soil: SoilStated, FieldCapacity: 0.32, WiltingPoint: 0.16, Fit: FitKeys()})
	if m.NotScored != 0 || m.Fit != nil || !l.MeasuredRecord(m, "f", "own").NotFitted {
		t.Errorf("%s, %+v", m.NotScored.Key(), m.Fit)
	}
}

// TestLaterSensors: with a year of weather before the first measured day, the
// replay comes to it by itself.
func TestLaterSensors(t *testing.T) {
	l := lawn(t, lawnText, 3)
	whole := truthOf(t, l, -1, 0)
	from := 400
	late := soilwater.NewRecord(whole.Start+cal.Date(from), []soilwater.Sensor{{DepthM: 0.25, Theta: whole.Levels[1].Theta[from:]}}, nil)
	m := measure(t, l, MeasuredOptions{Record: late, Strategy: -1, Soil: SoilStated, FieldCapacity: 0.32, WiltingPoint: 0.16})
	if m.measuredFrom || m.Scores[soilwater.WholeYear].RMSEMM > 1e-9 {
		t.Errorf("from measured depletion: %t; %+v", m.measuredFrom, m.Scores[soilwater.WholeYear])
	}
}
