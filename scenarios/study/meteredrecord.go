package study

import (
	"loamledger/sim/meter"
)

// A MeteredRecord is a meter beside the replay, for scripts. Volumes are m³.
type MeteredRecord struct {
	Meter     string              `json:"meter"`
	File      string              `json:"file"`
	Strategy  string              `json:"strategy"`
	Serves    string              `json:"serves,omitempty"` // empty if not stated; then it is taken as mixed
	AreaM2    float64             `json:"area_m2"`
	Reads     int                 `json:"reads"`
	Gaps      int                 `json:"gaps"`
	GapDays   int                 `json:"gap_days"`
	UnitM3    float64             `json:"unit_m3,omitempty"`
	Changed   string              `json:"changed,omitempty"`
	Periods   []MeterPeriodRecord `json:"periods"`
	Corrected []MeterReadRecord   `json:"corrected_reads,omitempty"`
	Bases     []MeterBaseRecord   `json:"base_use"`
	Scores    []MeterScoreRecord  `json:"scores"`
	Few       bool                `json:"fewer_than_12_periods,omitempty"`
	Baselines []MeterRungRecord   `json:"baselines"`
	HeldOut   []MeterYearRecord   `json:"years_held_out,omitempty"`
	Tests     meter.Support       `json:"tests"`
	Outdoor   *float64            `json:"outdoor_m3_per_year,omitempty"`
	// OutdoorMM is metered use less base use by calendar month, before any change, as a
	// depth over the meter's zones; nil for a month without days.
	OutdoorMM   []*float64         `json:"outdoor_mm_by_month,omitempty"`
	Required    float64            `json:"required_m3_per_year,omitempty"`
	After       *MeterScoreRecord  `json:"after_change,omitempty"`
	Events      []MeterEventRecord `json:"events,omitempty"`
	EventsGiven bool               `json:"events_stated"`
	Saving      MeterSavingRecord  `json:"saving"`
	Notes       []MeterNoteRecord  `json:"notes"`
}

// A MeterPeriodRecord is one period. Simulated is nil outside the weather.
type MeterPeriodRecord struct {
	From       string       `json:"from"`
	Read       string       `json:"read_date"`
	Days       int          `json:"days"`
	Kind       meter.Kind   `json:"kind"`
	Metered    float64      `json:"metered_m3"`
	Simulated  *float64     `json:"simulated_m3"`
	Base       *float64     `json:"base_m3"`
	Difference *float64     `json:"difference_m3"`
	Counts     bool         `json:"counts"`
	Why        meter.Reason `json:"why_not,omitempty"`
	After      bool         `json:"after_change,omitempty"`
}

// A MeterReadRecord is a read that another corrects, or that corrects others.
type MeterReadRecord struct {
	From      string     `json:"from"`
	Read      string     `json:"read_date"`
	Kind      meter.Kind `json:"kind"`
	Given     float64    `json:"given_m3"`
	Corrected float64    `json:"corrected_m3"`
}

// A MeterBaseRecord is base use by one method.
type MeterBaseRecord struct {
	Method  meter.Method  `json:"method"`
	Used    bool          `json:"used"`
	PerDay  *float64      `json:"m3_per_day"`
	Low     float64       `json:"low,omitempty"`
	High    float64       `json:"high,omitempty"`
	Missing meter.Missing `json:"missing,omitempty"`
}

// A MeterScoreRecord is a score; the numbers are nil if there is none.
type MeterScoreRecord struct {
	Scope  string      `json:"scope"`
	N      int         `json:"n"`
	P      int         `json:"p"`
	NMBE   *float64    `json:"nmbe_pct"`
	CV     *float64    `json:"cv_rmse_pct"`
	Label  meter.Label `json:"label,omitempty"`
	Ours   bool        `json:"label_is_ours,omitempty"`
	MeanM3 float64     `json:"mean_m3,omitempty"`
}

// A MeterRungRecord is one baseline.
type MeterRungRecord struct {
	Model   meter.Model      `json:"baseline"`
	Chosen  bool             `json:"chosen"`
	Weather bool             `json:"follows_weather"`
	Fit     MeterScoreRecord `json:"fit"`
	Held    MeterScoreRecord `json:"held_out"`
	Missed  int              `json:"not_predicted,omitempty"`
}

// A MeterYearRecord is a year held out, under the strategy as found.
type MeterYearRecord struct {
	From string `json:"from"`
	To   string `json:"to"`
	MeterScoreRecord
}

// A MeterEventRecord is an event that is not routine.
type MeterEventRecord struct {
	Kind     meter.EventKind `json:"kind"`
	From     string          `json:"from"`
	To       string          `json:"to"`
	Reason   string          `json:"reason"`
	AdjustM3 *float64        `json:"taken_off_m3,omitempty"` // nil if periods are left out
	Periods  int             `json:"periods"`
}

// A MeterSavingRecord is what the meter says about the change.
type MeterSavingRecord struct {
	Status    meter.Status         `json:"status"`
	Lacks     []meter.Lack         `json:"not_verified_because,omitempty"`
	DaysAfter int                  `json:"days_after"`
	By        []MeterSavedByRecord `json:"by_baseline,omitempty"`
}

// A MeterSavedByRecord is the saving by one baseline.
type MeterSavedByRecord struct {
	Model     meter.Model `json:"baseline"`
	State     bool        `json:"to_state"`
	Baseline  float64     `json:"baseline_m3"`
	Metered   float64     `json:"metered_m3"`
	Saving    float64     `json:"saving_m3"`
	PlusMinus *float64    `json:"plus_minus_m3"`
	TooClose  bool        `json:"too_close_to_call"`
}

// A MeterNoteRecord is something to look at.
type MeterNoteRecord struct {
	Code   meter.NoteCode `json:"code"`
	Text   string         `json:"text"`
	Period string         `json:"read_date,omitempty"`
	Value  float64        `json:"value,omitempty"`
}

// MeteredRecords returns the meters for scripts.
func (l *Study) MeteredRecords(list []*ComparedMeter) (out []MeteredRecord) {
	for _, m := range list {
		out = append(out, l.meteredRecord(m))
	}
	return out
}

func (l *Study) meteredRecord(m *ComparedMeter) MeteredRecord {
	h := m.History
	r := MeteredRecord{Meter: m.Name, File: base(m.File), Strategy: m.strategy, AreaM2: m.areaM2, Reads: len(h.Reads), Gaps: h.Gaps,
		GapDays: h.GapDays, UnitM3: h.UnitM3, Few: m.FewWhole, Tests: m.supports, Required: m.requiredM3, EventsGiven: m.Use.EventsStated,
		Notes: []MeterNoteRecord{}}
	switch {
	case m.Only:
		r.Serves = "irrigation"
	case m.Said:
		r.Serves = "mixed"
	}
	if m.Use.Changed != 0 {
		r.Changed = m.Use.Changed.String()
	}
	if v, ok := m.Site.OutdoorPerYear(m.Comparison); ok {
		r.Outdoor = &v
	}
	if months := l.meteredMonths([]*ComparedMeter{m}, len(m.Zones)); months != nil {
		for _, mm := range months {
			r.OutdoorMM = append(r.OutdoorMM, Number(mm))
		}
	}
	for i := range m.Site.Periods {
		p, pair := &m.Site.Periods[i], &m.Pairs[i]
		one := MeterPeriodRecord{From: p.From.String(), Read: p.To.String(), Days: p.Days(), Kind: p.Kind, Metered: p.M3, Counts: !p.Left,
			Why: p.Why, After: pair.After}
		if m.Base >= 0 {
			one.Base = &pair.BaseM3
		}
		if pair.Known {
			one.Simulated = &pair.SimM3
			one.Difference = Number(p.M3 - pair.SimM3 - pair.BaseM3)
		}
		r.Periods = append(r.Periods, one)
	}
	for i := range h.Reads {
		if read := &h.Reads[i]; h.Periods[h.Of[i]].Kind == meter.Corrected && read.Kind != meter.Corrected {
			r.Corrected = append(r.Corrected, MeterReadRecord{read.From.String(), read.To.String(), read.Kind, read.M3, h.SpreadM3[i]})
		}
	}
	for i := range m.Bases {
		b := &m.Bases[i]
		one := MeterBaseRecord{Method: b.Method, Used: i == m.Base, Missing: b.Missing}
		if b.Missing == "" {
			one.PerDay, one.Low, one.High = &b.M3Day, b.Low, b.High
		}
		r.Bases = append(r.Bases, one)
	}
	for i := range m.Scores {
		r.Scores = append(r.Scores, meterScoreRecord(string(m.Scores[i].Scope), &m.Scores[i].Score, m.Scores[i].OK))
	}
	if m.afterName != "" {
		after := meterScoreRecord(m.afterName, &m.after, m.afterOK)
		r.After = &after
	}
	m.recordLadder(&r)
	m.recordSaving(&r)
	for _, n := range m.notes {
		var about []string
		if text := l.noteValue(m, n); text != "" {
			about = []string{text}
		}
		one := MeterNoteRecord{Code: n.Code, Text: noteText(n.Code, about), Value: n.Value}
		if n.Period >= 0 {
			one.Period = m.Site.Periods[n.Period].To.String()
		}
		r.Notes = append(r.Notes, one)
	}
	return r
}

func (m *ComparedMeter) recordLadder(r *MeteredRecord) {
	for i := range m.Ladder.Rungs {
		rung := &m.Ladder.Rungs[i]
		r.Baselines = append(r.Baselines, MeterRungRecord{Model: rung.Model, Chosen: i == m.Ladder.Chosen, Weather: rung.Model.Doc().Weather,
			Fit:  meterScoreRecord(string(meter.Whole), &rung.Fit, rung.FitOK),
			Held: meterScoreRecord(string(meter.Whole), &rung.Held, rung.HeldOK), Missed: rung.Missed})
		if rung.Model != meter.AsProgrammed {
			continue
		}
		for k := range rung.Years {
			y := &m.Ladder.Years[k]
			r.HeldOut = append(r.HeldOut, MeterYearRecord{y.From.String(), (y.To - 1).String(),
				meterScoreRecord(string(meter.Whole), &rung.Years[k], rung.Years[k].MeanM3 > 0)})
		}
	}
}

func (m *ComparedMeter) recordSaving(r *MeteredRecord) {
	for e := range m.Use.Events {
		ev := &m.Use.Events[e]
		one := MeterEventRecord{Kind: ev.Kind, From: ev.From.String(), To: ev.To.String(), Reason: ev.Reason}
		if ev.Adjust {
			one.AdjustM3 = &ev.AdjustM3
		}
		for _, a := range m.adjusted {
			if a.Event == e {
				one.Periods++
			}
		}
		r.Events = append(r.Events, one)
	}
	s := m.Saving
	r.Saving = MeterSavingRecord{Status: s.Status, Lacks: s.Lacks, DaysAfter: s.DaysAfter}
	for i := range s.By {
		by := &s.By[i]
		one := MeterSavedByRecord{Model: by.Model, State: i == s.Claim, Baseline: by.BaselineM3, Metered: by.MeteredM3, Saving: by.M3,
			TooClose: by.TooClose()}
		if by.PlusOK {
			one.PlusMinus = &by.Plus
		}
		r.Saving.By = append(r.Saving.By, one)
	}
}

func meterScoreRecord(scope string, s *meter.Score, ok bool) MeterScoreRecord {
	r := MeterScoreRecord{Scope: scope, N: s.N, P: s.P}
	if ok {
		label := meter.LabelOf(s)
		r.NMBE, r.CV, r.Label, r.Ours, r.MeanM3 = Number(s.NMBE), Number(s.CV), label.Label, label.Ours, s.MeanM3
	}
	return r
}
