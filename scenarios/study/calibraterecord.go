package study

import (
	"math"

	"loamledger/sim/calibrate"
	"loamledger/sim/meter"
	"loamledger/weather/quantity"
)

// A CalibrationRecord is a calibration, for scripts. Volumes are m³, per day m³/d.
type CalibrationRecord struct {
	Meter      string                     `json:"meter"`
	Strategy   string                     `json:"strategy"`
	NotTuned   calibrate.Reason           `json:"nothing_tuned,omitempty"`
	Label      meter.Label                `json:"label,omitempty"`
	LabelScope meter.Scope                `json:"label_scope"`
	Better     bool                       `json:"held_out_clearly_better_or_none"`
	P          int                        `json:"p"`
	Confidence float64                    `json:"confidence"`
	Draws      int                        `json:"resamples"`
	Seed       uint64                     `json:"seed"`
	Searched   bool                       `json:"schedule_searched"`
	Memory     bool                       `json:"days_depend_on_days_before"`
	Plants     bool                       `json:"water_depends_on_plants"`
	Params     []CalibrationParamRecord   `json:"parameters"`
	Steps      []CalibrationStepRecord    `json:"stages"`
	Scores     []CalibrationScoreRecord   `json:"scores"`
	Periods    []CalibrationPeriodRecord  `json:"periods"`
	Levers     []LeverRecord              `json:"levers"`
	Alike      []AlikeRecord              `json:"hardly_told_apart"`
	Findings   []CalibrationFindingRecord `json:"findings"`
	Other      *OtherRecord               `json:"fitted_to_held_out,omitempty"`
	Tests      meter.Support              `json:"tests"`
}

// A CalibrationParamRecord is one parameter; nil for what it does not have.
type CalibrationParamRecord struct {
	Key      calibrate.Key  `json:"parameter"`
	Month    int            `json:"month,omitempty"`
	From     string         `json:"from,omitempty"`
	Before   float64        `json:"untuned"`
	After    float64        `json:"value"`
	Tuned    bool           `json:"tuned"`
	Low      float64        `json:"bound_low"`
	High     float64        `json:"bound_high"`
	Source   string         `json:"bounds_source,omitempty"`
	Grade    quantity.Grade `json:"bounds_grade"`
	AtBound  bool           `json:"at_bound"`
	Interval *[2]float64    `json:"interval,omitempty"`
	Support  *float64       `json:"share_of_resamples,omitempty"`
}

// A CalibrationStepRecord is one stage.
type CalibrationStepRecord struct {
	Key   calibrate.Key `json:"stage"`
	P     int           `json:"p"`
	RMSM3 float64       `json:"rms_m3"`
	EBIC  *float64      `json:"ebic"` // nil with too few periods for one
	Kept  bool          `json:"kept"`
}

// A CalibrationScoreRecord is one row of the statistics; nil for what cannot be scored.
type CalibrationScoreRecord struct {
	Scope      meter.Scope `json:"scope"`
	Part       string      `json:"part"`
	N          int         `json:"n"`
	P          int         `json:"p"`
	NMBEBefore *float64    `json:"nmbe_untuned_percent"`
	NMBEAfter  *float64    `json:"nmbe_tuned_percent"`
	CVBefore   *float64    `json:"cv_rmse_untuned_percent"`
	CVAfter    *float64    `json:"cv_rmse_tuned_percent"`
	Label      meter.Label `json:"label_tuned,omitempty"`
}

// A CalibrationPeriodRecord is one period; nil outside the weather.
type CalibrationPeriodRecord struct {
	From    string       `json:"from"`
	Read    string       `json:"read_date"`
	Part    string       `json:"part"`
	Why     meter.Reason `json:"why_left,omitempty"`
	Metered float64      `json:"metered_m3"`
	Before  *float64     `json:"untuned_m3"`
	After   *float64     `json:"tuned_m3"`
}

// A LeverRecord is what one change does to the water of every strategy through the
// meter, relative.
type LeverRecord struct {
	Key    string             `json:"changed"`
	Doc    string             `json:"change"`
	Change map[string]float64 `json:"by_strategy"`
}

// An AlikeRecord is two parameters that the meter hardly tells apart.
type AlikeRecord struct {
	A calibrate.Key `json:"a"`
	B calibrate.Key `json:"b"`
	R float64       `json:"correlation"`
}

// A CalibrationFindingRecord is a finding with its text.
type CalibrationFindingRecord struct {
	Code calibrate.Finding `json:"code"`
	Text string            `json:"text"`
}

// An OtherRecord is a fit to the held-out periods.
type OtherRecord struct {
	Constant float64 `json:"constant_m3_per_day"`
	Flow     float64 `json:"flow_factor"`
}

// unlessNaN returns nil for NaN.
func unlessNaN(v float64) *float64 {
	if math.IsNaN(v) {
		return nil
	}
	return &v
}

// unlessInf returns nil for what is not finite.
func unlessInf(v float64) *float64 {
	if math.IsInf(v, 0) {
		return nil
	}
	return unlessNaN(v)
}

// CalibrationRecord returns a calibration for scripts.
func (l *Study) CalibrationRecord(c *Calibration) CalibrationRecord {
	r := CalibrationRecord{Meter: c.metered.Name, Strategy: c.metered.strategy, NotTuned: c.Stopped, LabelScope: c.judged(),
		Better: c.Better(),
		P:      c.P, Confidence: c.Confidence, Draws: c.Draws, Seed: c.job.Seed, Searched: c.Searched, Memory: c.Memory, Plants: c.Plants,
		Tests: c.metered.supports, Params: []CalibrationParamRecord{}, Steps: []CalibrationStepRecord{}, Alike: []AlikeRecord{},
		Findings: []CalibrationFindingRecord{}}
	if label, ok := c.label(); ok && c.Stopped == "" {
		r.Label = label.Label
	}
	for i := range c.Params {
		p := &c.Params[i]
		out := CalibrationParamRecord{Key: p.Key, Month: p.Month, Before: p.Start, After: p.Value, Tuned: p.Tuned, Low: p.Low, High: p.High,
			Source: p.Source, Grade: p.Grade, AtBound: p.AtBound, Support: unlessNaN(p.Support)}
		if p.From != 0 {
			out.From = p.From.String()
		}
		if !math.IsNaN(p.Interval[0]) {
			out.Interval = &p.Interval
		}
		r.Params = append(r.Params, out)
	}
	for _, s := range c.Steps {
		r.Steps = append(r.Steps, CalibrationStepRecord{s.Key, s.P, s.M3, unlessInf(s.EBIC), s.Kept})
	}
	for i := range c.scores {
		r.Scores = append(r.Scores, scoreRecord(&c.scores[i]))
	}
	for i := range c.Rows {
		p := &c.Rows[i]
		r.Periods = append(r.Periods, CalibrationPeriodRecord{p.From.String(), p.To.String(), p.Part.Key(), p.Why, p.M3, unlessNaN(p.Before),
			unlessNaN(p.After)})
	}
	for k, lever := range levers() {
		one := LeverRecord{Key: lever.key, Doc: lever.doc, Change: map[string]float64{}}
		for _, s := range c.levers {
			one.Change[s.strategy] = s.change[k]
		}
		r.Levers = append(r.Levers, one)
	}
	for _, a := range c.Alike {
		r.Alike = append(r.Alike, AlikeRecord{a.A, a.B, a.R})
	}
	for _, doc := range calibrate.Findings() {
		for _, f := range c.Findings {
			if f == doc.Finding {
				r.Findings = append(r.Findings, CalibrationFindingRecord{f, doc.Doc})
			}
		}
	}
	if !math.IsNaN(c.Other.Scale) {
		r.Other = &OtherRecord{c.Other.Constant, c.Other.Scale}
	}
	return r
}

func scoreRecord(s *calibrationScore) CalibrationScoreRecord {
	out := CalibrationScoreRecord{Scope: s.scope, Part: s.part.Key(), N: s.after.N, P: s.after.P}
	if s.beforeOK {
		out.NMBEBefore, out.CVBefore = &s.before.NMBE, &s.before.CV
	}
	if s.afterOK {
		out.NMBEAfter, out.CVAfter = &s.after.NMBE, &s.after.CV
		out.Label = meter.LabelOf(&s.after).Label
	}
	return out
}
