package study

import (
	"math"

	"loamledger/sim/soilwater"
	"loamledger/weather/cal"
)

// A MeasuredRecord is a comparison with measured soil water for scripts. Depths
// are [mm], water contents [m³/m³].
type MeasuredRecord struct {
	File         string           `json:"file"`
	Layout       string           `json:"layout"`
	Zone         string           `json:"zone"`
	Strategy     string           `json:"strategy"`
	From         string           `json:"from"`
	To           string           `json:"to"`
	Levels       []MeasuredLevel  `json:"levels"`
	Soil         string           `json:"soil"`
	RootDepthM   float64          `json:"root_depth_m"`
	ComparedM    float64          `json:"compared_depth_m"`
	TAWMM        float64          `json:"taw_mm"`
	MeasuredTAW  float64          `json:"measured_taw_mm"`
	RangeMM      float64          `json:"measured_range_mm"`
	Days         MeasuredDays     `json:"days"`
	NotScored    string           `json:"not_scored,omitempty"`
	MeasuredFrom bool             `json:"starts_from_measured_depletion"`
	Scores       []MeasuredScore  `json:"scores,omitempty"`
	Warm         []MeasuredWarm   `json:"warm_seasons,omitempty"`
	Misfit       *MeasuredMisfit  `json:"largest_misfit,omitempty"`
	Use          []MeasuredUseBin `json:"use_by_depletion,omitempty"`
	Fit          *FitRecord       `json:"fit,omitempty"`
	NotFitted    bool             `json:"not_fitted,omitempty"` // requested, but a half has too few days
}

// A MeasuredLevel is one depth.
type MeasuredLevel struct {
	DepthM        float64  `json:"depth_m"`
	ThicknessMM   float64  `json:"thickness_mm"`
	Sensors       int      `json:"sensors"`
	Spread        *float64 `json:"mean_spread,omitempty"`
	PartDays      int      `json:"days_with_some_sensors"`
	FieldCapacity *float64 `json:"field_capacity"`
	WiltingPoint  *float64 `json:"wilting_point"`
}

// MeasuredDays counts days.
type MeasuredDays struct {
	Compared    int  `json:"compared"`
	Gaps        int  `json:"without_reading"`
	Frozen      int  `json:"frozen"`
	FrozenByAir bool `json:"frozen_by_air_temperature"`
	Outside     int  `json:"outside_weather"`
}

// A MeasuredScore is the score of one period.
type MeasuredScore struct {
	Period  string   `json:"period"`
	Days    int      `json:"days"`
	R       *float64 `json:"r"`
	BiasMM  *float64 `json:"bias_mm"`
	BiasPct *float64 `json:"bias_pct_of_taw"`
	RMSEMM  *float64 `json:"rmse_mm"`
	RMSEPct *float64 `json:"rmse_pct_of_taw"`
}

// A MeasuredWarm is one warm half-year. Onsets are empty if there is none.
type MeasuredWarm struct {
	Year          int    `json:"year"`
	Days          int    `json:"days"`
	Complete      bool   `json:"complete"`
	SimPast       int    `json:"past_raw_days_simulated"`
	MeasuredPast  int    `json:"past_raw_days_measured"`
	SimOnset      string `json:"onset_simulated"`
	MeasuredOnset string `json:"onset_measured"`
}

// A MeasuredMisfit is the largest misfit.
type MeasuredMisfit struct {
	Date       string  `json:"date"`
	Since      string  `json:"since"`
	SimMM      float64 `json:"simulated_mm"`
	MeasuredMM float64 `json:"measured_mm"`
	Reason     string  `json:"reason"`
}

// A MeasuredUseBin is measured use in dry spells at one range of depletion.
type MeasuredUseBin struct {
	From    float64 `json:"depletion_share_from"`
	To      float64 `json:"depletion_share_to"`
	Windows int     `json:"dry_spells"`
	Median  float64 `json:"use_share_median"`
	Q25     float64 `json:"use_share_q25"`
	Q75     float64 `json:"use_share_q75"`
	Ks      float64 `json:"ks"`
}

// A FitRecord is a fit.
type FitRecord struct {
	Halves string          `json:"halves"`
	Params []FitParamJSON  `json:"parameters"`
	Before []MeasuredScore `json:"before"`
	After  []MeasuredScore `json:"after"`
	Better bool            `json:"held_out_half_is_clearly_better"`
	Lines  []string        `json:"lines"`
}

// A FitParamJSON is one fitted parameter; AWC is [mm/m].
type FitParamJSON struct {
	Key     FitKey  `json:"key"`
	Before  float64 `json:"before"`
	After   float64 `json:"after"`
	Low     float64 `json:"low"`
	High    float64 `json:"high"`
	AtBound bool    `json:"at_bound"`
}

// MeasuredRecord returns a comparison for scripts.
func (l *Study) MeasuredRecord(m *Measured, file, layout string) *MeasuredRecord {
	r := m.record
	out := &MeasuredRecord{File: file, Layout: layout, Zone: m.zone, Strategy: m.strategy, From: r.Start.String(), To: (r.Start +
		cal.Date(r.Days-1)).String(),
		Soil: [...]string{"record", "scenario", "stated"}[m.options.Soil], RootDepthM: m.rootDepthM, ComparedM: m.reachM, TAWMM: m.TAWMM,
		MeasuredTAW: m.MeasuredTAW, RangeMM: m.rangeMM, NotScored: m.NotScored.Key(), MeasuredFrom: m.measuredFrom,
		Days: MeasuredDays{m.compared, m.GapDays, m.FrozenDays, m.frozenByAir, m.outside}}
	for i, level := range r.Levels {
		out.Levels = append(out.Levels, MeasuredLevel{level.DepthM, m.thicknessMM[i], level.Sensors, Number(level.SpreadMean), level.PartDays,
			Number(m.bounds.FieldCapacity[i]), Number(m.bounds.WiltingPoint[i])})
	}
	if m.NotScored != 0 {
		return out
	}
	for season, s := range m.Scores {
		out.Scores = append(out.Scores, m.scoreRecord(seasonNames[season], s))
	}
	for i := range m.Warms {
		w := &m.Warms[i]
		j := MeasuredWarm{Year: w.Year, Days: w.Days, Complete: w.Complete(), SimPast: w.SimPast, MeasuredPast: w.MeasuredPast}
		if w.SimOnsetOK {
			j.SimOnset = w.SimOnset.String()
		}
		if w.MeasuredOnsetOK {
			j.MeasuredOnset = w.MeasuredOnset.String()
		}
		out.Warm = append(out.Warm, j)
	}
	f := &m.Misfit
	out.Misfit = &MeasuredMisfit{f.Date.String(), f.Since.String(), f.SimMM, f.MeasuredMM, f.Reason.Key()}
	for _, b := range m.useBins {
		out.Use = append(out.Use, MeasuredUseBin{b.From, b.To, b.Windows, b.Median, b.Q25, b.Q75, ksLine(float64((b.From+b.To)/2), m.meanP())})
	}
	out.Fit = m.fitRecord()
	out.NotFitted = len(m.options.Fit) > 0 && m.Fit == nil
	return out
}

func (m *Measured) fitRecord() *FitRecord {
	f := m.Fit
	if f == nil {
		return nil
	}
	out := &FitRecord{Halves: "odd and even months", Better: f.Better(), Lines: f.lines}
	if f.byYears {
		out.Halves = "odd and even years"
	}
	for i, half := range [2]string{"fitted", "held out"} {
		out.Before = append(out.Before, m.scoreRecord(half, f.Before[i]))
		out.After = append(out.After, m.scoreRecord(half, f.After[i]))
	}
	for _, p := range f.fitted {
		out.Params = append(out.Params, FitParamJSON(p))
	}
	return out
}

func (m *Measured) scoreRecord(period string, s soilwater.Score) MeasuredScore {
	pct := func(mm float64) *float64 {
		if math.IsNaN(mm) {
			return nil
		}
		return Number(m.share(mm))
	}
	return MeasuredScore{period, s.Days, Number(s.R), Number(s.BiasMM), pct(s.BiasMM), Number(s.RMSEMM), pct(s.RMSEMM)}
}
