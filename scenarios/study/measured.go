package study

import (
	"context"
	"fmt"
	"math"

	"loamledger/sim"
	"loamledger/sim/replay"
	"loamledger/sim/soilwater"
	"loamledger/sim/strategy"
	"loamledger/sim/tally"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
)

// A SoilSource says where field capacity and wilting point come from in a
// comparison with measured soil water.
type SoilSource uint8

// The sources.
const (
	// SoilOfRecord takes both from the record, layer by layer, and replays with the
	// water between them.
	SoilOfRecord SoilSource = iota
	// SoilOfScenario takes field capacity from the record and replays with the
	// scenario's soil. Days past RAW of the measured soil are counted by the record's
	// own range if it dried enough, else by the scenario's.
	SoilOfScenario
	// SoilStated takes both from [MeasuredOptions], the same for every layer.
	SoilStated
)

// SoilSources are the words for the first two sources.
func SoilSources() []string { return []string{"record", "scenario"} }

// MeasuredOptions are options for a comparison with measured soil water.
type MeasuredOptions struct {
	Record   *soilwater.Record
	Zone     int
	Strategy int // index; below 0 for no watering
	Soil     SoilSource
	// FieldCapacity and WiltingPoint are water contents [m³/m³], for SoilStated.
	FieldCapacity, WiltingPoint float64
	Fit                         []FitKey // parameters to fit, in order; nil for none
}

// A Measured is a comparison of a replay with measured soil water.
type Measured struct {
	options  MeasuredOptions
	record   *soilwater.Record
	zone     string
	strategy string

	bounds       soilwater.Bounds
	thicknessMM  []float64 // of each level
	rootDepthM   float64   // of the scenario
	reachM       float64   // depth of the compared soil, at most rootDepthM
	TAWMM        float64   // of the replay
	MeasuredTAW  float64   // of the measured soil [mm]
	rangeMM      float64   // from the 0.90 to the 0.005 quantile of the record
	frozenByAir  bool      // soil temperature was not measured
	startFrom    cal.Date  // first day of the replay that is compared
	measuredFrom bool      // the replay starts from measured depletion
	outside      int       // measured days outside the weather record

	*soilwater.Profile
	compared int // measured days within the replay

	// NotScored is why nothing is scored; empty if the rest is filled.
	NotScored NotScored
	leastMM   float64 // range that would have been enough [mm]
	Series    *soilwater.Series
	Scores    [soilwater.Seasons]soilwater.Score
	Warms     []soilwater.Warm
	Misfit    soilwater.Misfit
	uses      []soilwater.Use
	useBins   []soilwater.UseBin
	Fit       *MeasuredFit // nil if not requested, or if a half has too few days
}

// A NotScored is a reason not to score a record. The zero value is none.
type NotScored uint8

// The reasons.
const (
	tooFewDays NotScored = iota + 1
	tooLittleDrying
)

// Key returns the stable name of the reason.
func (n NotScored) Key() string { return [...]string{"", "too-few-days", "too-little-drying"}[n] }

// Measure compares a replay with measured soil water. The error is from ctx, or a
// [*diag.Error] if the record has no day in common with the weather or no sensor
// in the root zone.
func (l *Study) Measure(ctx context.Context, o *MeasuredOptions) (*Measured, error) {
	zone := &l.Scenario.Zones[o.Zone]
	m := &Measured{options: *o, record: o.Record, zone: zone.Name, strategy: tally.NoWater, rootDepthM: zone.RootDepthM}
	if o.Strategy >= 0 {
		m.strategy = l.Job.Strategies[o.Strategy].Name
	}
	if zone.WorkingStorage {
		return nil, &diag.Error{Code: diag.Conflict, Pos: zone.Pos, Msg: fmt.Sprintf("zone %q is a plain store, without a root zone", zone.Name),
			Fix: "compare a zone with a soil and roots"}
	}
	if o.Strategy >= 0 && len(l.Job.Strategies[o.Strategy].Stretches) > 0 {
		return nil, &diag.Error{Code: diag.Conflict, Pos: zone.Pos,
			Msg: fmt.Sprintf("strategy %q changes zones, so soil and plants are not those of one comparison", m.strategy),
			Fix: "name a strategy without changes, in a scenario whose zones are as they were while the sensors measured"}
	}
	reach := 0.0
	m.thicknessMM, reach = o.Record.Thicknesses(zone.RootDepthM)
	if m.reachM = min(reach, zone.RootDepthM); !(m.thicknessMM[0] > 0) {
		return nil, &diag.Error{Code: diag.OutOfRange, Pos: zone.Pos, Msg: "no sensor is in the root zone",
			Fix: "check the depths and root_depth"}
	}
	frozen := l.frozen(m)
	own := soilwater.BoundsFromRecord(o.Record, frozen)
	m.rangeMM = own.RangeMM(m.thicknessMM)
	m.soil(&own, l.Job.Zones[o.Zone].TAWMM)
	m.Profile = soilwater.Deplete(o.Record, &m.bounds, m.thicknessMM, frozen)
	return m, l.score(ctx, m)
}

// frozen marks the days of the record on which the soil is frozen.
func (l *Study) frozen(m *Measured) []bool {
	r := m.record
	if r.SoilTempC != nil {
		return soilwater.Frozen(r.SoilTempC)
	}
	m.frozenByAir = true
	w := &l.Job.Weather
	out := make([]bool, r.Days)
	if len(w.TmaxC) == 0 || len(w.TminC) == 0 {
		return out
	}
	mean := make([]float64, w.Days())
	for i := range mean {
		mean[i] = (w.TmaxC[i] + w.TminC[i]) / 2
	}
	cold := soilwater.FrozenByAir(mean)
	for i := range out {
		if k := int(r.Start-w.Start) + i; k >= 0 && k < len(cold) {
			out[i] = cold[k]
		}
	}
	return out
}

// soil sets the bounds of every level and the water between them; scenarioTAW is
// that of the zone.
func (m *Measured) soil(own *soilwater.Bounds, scenarioTAW float64) {
	depth := 1000 * m.reachM
	m.leastMM = soilwater.LeastRangeStated * depth
	m.bounds = *own
	switch m.options.Soil {
	case SoilOfRecord:
		m.TAWMM, m.leastMM = m.rangeMM, soilwater.LeastRange*depth
		m.MeasuredTAW = m.TAWMM
	case SoilOfScenario:
		m.TAWMM = scenarioTAW * m.reachM / m.rootDepthM
		m.MeasuredTAW = m.TAWMM
		if m.rangeMM >= soilwater.LeastRange*depth {
			m.MeasuredTAW = m.rangeMM
		}
	case SoilStated:
		m.bounds = soilwater.SameBounds(len(m.thicknessMM), m.options.FieldCapacity, m.options.WiltingPoint)
		m.TAWMM = m.bounds.RangeMM(m.thicknessMM)
		m.MeasuredTAW = m.TAWMM
	}
}

// score replays the zone and scores it.
func (l *Study) score(ctx context.Context, m *Measured) error {
	w, r := &l.Job.Weather, m.record
	first := -1
	for i, v := range m.DepletionMM {
		k := int(r.Start-w.Start) + i
		switch {
		case math.IsNaN(v):
		case k < 0 || k >= w.Days():
			m.outside++
		default:
			m.compared++
			if first < 0 {
				first = k
			}
		}
	}
	if m.Measured > 0 && m.compared == 0 {
		return &diag.Error{Code: diag.NoDaysLeft, Pos: l.Scenario.Weather.Pos,
			Msg: fmt.Sprintf("the weather, %v to %v, has no day in common with the measurements, %v to %v", w.Start, l.Weather.End(), r.Start,
				r.Start+cal.Date(r.Days-1)),
			Fix: "use weather of the days that were measured"}
	}
	switch {
	case m.compared < soilwater.LeastDays:
		m.NotScored = tooFewDays
		return nil
	case !(m.rangeMM >= m.leastMM):
		m.NotScored = tooLittleDrying
		return nil
	}
	s, err := l.measuredRun(ctx, m, first, changed{k: 1, awc: 1})
	if err != nil {
		return err
	}
	m.Series = s
	m.Scores, m.Warms = s.Scores(nil), s.Warms()
	m.Misfit, _ = s.Misfit()
	m.uses = s.Uses(m.MeasuredTAW)
	m.useBins = soilwater.UseBins(m.uses)
	if len(m.options.Fit) > 0 {
		m.Fit, err = l.fitMeasured(ctx, m, first)
	}
	return err
}

// A changed replay multiplies the plant coefficient and the available water.
type changed struct{ k, awc float64 }

// measuredRun replays the zone with its parameters changed and puts the
// measurements beside it. first is the first measured day of the weather. With
// less than a year of weather before it, the replay starts on the next day from
// what was measured: a spin-up on the same year would not know how the year
// before ended.
func (l *Study) measuredRun(ctx context.Context, m *Measured, first int, by changed) (*soilwater.Series, error) {
	job := l.Job
	job.Step, job.MarkShifts, job.Brief = nil, nil, false
	z := job.Zones[m.options.Zone]
	z.TAWMM = m.TAWMM * by.awc
	for i := range z.K {
		z.K[i] *= by.k
	}
	z.Season = z.Season.Scaled(by.k)
	want := tally.NoWater
	if m.options.Strategy < 0 {
		job.Zones, job.Strategies, job.Limits = []sim.Zone{z}, nil, nil
	} else {
		job.Zones = append([]sim.Zone(nil), job.Zones...)
		job.Zones[m.options.Zone] = z
		job.Strategies = []strategy.Strategy{job.Strategies[m.options.Strategy]}
		want = m.strategy
	}
	if m.measuredFrom = first < replay.SpinUpDays; m.measuredFrom {
		k := int(job.Weather.Start-m.record.Start) + first
		after(&job, first+1)
		job.NoSpinUp, job.StartShare = true, min(m.DepletionMM[k]/z.TAWMM, 1)
	}
	m.startFrom = max(job.Weather.Start, m.record.Start)
	var out *soilwater.Series
	at := 0 // of the zones of a strategy, in order
	_, err := replay.Run(ctx, &job, func(sheet *replay.Sheet) error {
		if sheet.Strategy != want {
			return nil
		}
		if at++; at-1 == m.options.Zone || len(job.Zones) == 1 {
			out = m.beside(sheet)
		}
		return nil
	})
	if err == nil {
		out.South = job.South
	}
	return out, err
}

// after drops the first days of the job's weather.
func after(job *replay.Job, days int) {
	w := &job.Weather
	cut := func(v []float64) []float64 {
		if v == nil {
			return nil
		}
		return v[days:]
	}
	w.Start += cal.Date(days)
	w.RainMM, w.EToMM, w.TmaxC, w.TminC, w.WindMS = cut(w.RainMM), cut(w.EToMM), cut(w.TmaxC), cut(w.TminC), cut(w.WindMS)
	if w.Filled != nil {
		w.Filled = w.Filled[days:]
	}
	lead := func(of [][]float64) [][]float64 {
		out := make([][]float64, len(of))
		for i := range of {
			out[i] = cut(of[i])
		}
		return out
	}
	job.Forecast = strategy.Forecast{RainMM: lead(job.Forecast.RainMM), Probability: lead(job.Forecast.Probability)}
}

// beside copies a sheet and puts the measurements next to it.
func (m *Measured) beside(sheet *replay.Sheet) *soilwater.Series {
	n := sheet.Days()
	s := &soilwater.Series{Start: sheet.Weather.Start, TAWMM: sheet.Zone.TAWMM}
	nan := math.NaN()
	share := m.MeasuredTAW / sheet.Zone.TAWMM
	for i := range n {
		row := sheet.Row(i)
		s.SimMM, s.RAWMM = append(s.SimMM, row.DepletionMM), append(s.RAWMM, row.RAWMM)
		s.EToMM, s.ETcMM, s.ETaMM = append(s.EToMM, row.EToMM), append(s.ETcMM, row.ETcMM), append(s.ETaMM, row.ETaMM)
		s.RainMM, s.GrossMM = append(s.RainMM, row.RainMM), append(s.GrossMM, row.GrossMM)
		s.MeasuredRAWMM = append(s.MeasuredRAWMM, row.RAWMM*share)
		dr, signed, below := nan, nan, nan
		if k := int(s.Start-m.record.Start) + i; k >= 0 && k < m.record.Days {
			dr, signed = m.DepletionMM[k], m.SignedMM[k]
			if m.BelowMM != nil {
				below = m.BelowMM[k]
			}
		}
		s.MeasuredMM, s.SignedMM = append(s.MeasuredMM, dr), append(s.SignedMM, signed)
		if m.BelowMM != nil {
			s.BelowMM = append(s.BelowMM, below)
		}
	}
	return s
}
