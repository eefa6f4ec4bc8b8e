package replay

import (
	"loamledger/sim"
	"loamledger/weather/cal"
)

// A Row is one day of the ledger for one strategy and one zone. Depths are means
// over the zone [mm].
type Row struct {
	Date           cal.Date
	Strategy, Zone string
	Minutes        float64
	Cycles         int
	Reason         sim.Reason
	EToMM          float64
	K              float64
	Activity       float64 // of the plant, 0 to 1
	ETcMM          float64
	RainMM         float64
	GrossMM        float64
	SprayLossMM    float64
	OversprayMM    float64 // landed outside the zone
	BrokenMM       float64 // lost through broken heads
	FillDrainMM    float64 // lost by filling and draining pipes
	LeakMM         float64 // leaked; part of GrossMM
	IrrRunoffMM    float64
	RainRunoffMM   float64
	RainEvapMM     float64
	PercIrrMM      float64
	PercRainMM     float64
	ETaMM          float64
	DepletionMM    float64 // mean at the end of the day
	LowQuarterMM   float64 // low-quarter depletion after watering and rain
	TAWMM, RAWMM   float64
	Ks             float64 // mean over strips
	PastRAW        bool    // low-quarter depletion above RAW
	ShortMM        float64 // ETc − ETa
	LowShortMM     float64 // the same, mean of the driest quarter
	RateMMH        float64 // gross precipitation rate of the zone
	AreaM2         float64 // irrigated area of the zone
	SoilChangeMM   float64 // depletion that a change of the root zone adds in the morning
	sim.Grading            // R7 and what follows from it
	Filled         bool    // the day's weather was filled or synthetic, not observed
}

// A Sheet is the days of one strategy on one zone, as columns. It is valid only
// until the function that received it returns.
type Sheet struct {
	Strategy string
	Zone     *sim.Zone
	Calendar *sim.Calendar
	Weather  sim.Weather
	Forcing  []sim.Day
	Growth   *sim.Growth
	Plan     *sim.Plan
	Trace    *sim.Trace
	// Pieces are the days between two changes of the zone; nil if it does not change.
	// Zone, Forcing, Growth and Plan are then those of the last.
	Pieces []Piece
}

// Days returns the number of days.
func (s *Sheet) Days() int { return s.Weather.Days() }

// On returns what holds on day i of the sheet.
func (s *Sheet) On(i int) Piece {
	for k := range s.Pieces {
		if i < s.Pieces[k].to {
			return s.Pieces[k]
		}
	}
	return Piece{to: s.Days(), Zone: s.Zone, Forcing: s.Forcing, growth: s.Growth, plan: s.Plan}
}

// Grade returns the stress of day i of the sheet.
func (s *Sheet) Grade(i int) sim.Grading {
	p := s.On(i)
	return p.growth.Grade(s.Trace, i, p.since)
}

// Volume returns the water given on day i of the sheet, leaks aside [m³].
func (s *Sheet) Volume(i int) float64 {
	given := s.Trace.Dose[i]
	if given == 0 {
		return 0
	}
	p := s.On(i)
	return p.plan.Doses[given].GrossMM / 1000 * p.Zone.AreaM2
}

// Row returns day i of the sheet.
func (s *Sheet) Row(i int) Row {
	if s.Pieces == nil {
		return s.row(i, s.Zone, s.Forcing, s.Growth, s.Plan, 0)
	}
	p := s.On(i)
	r := s.row(i, p.Zone, p.Forcing, p.growth, p.plan, p.since)
	for _, step := range s.Trace.Steps {
		if step.Day == i {
			r.SoilChangeMM = step.MM
		}
	}
	return r
}

func (s *Sheet) row(i int, zone *sim.Zone, forcing []sim.Day, growth *sim.Growth, plan *sim.Plan, since int) Row {
	d, dose := &forcing[i], &plan.Doses[s.Trace.Dose[i]]
	reason := plan.Reason[plan.Spin+i]
	switch given, set := s.Trace.Dose[i] != 0, plan.Dose[plan.Spin+i] != 0; {
	case !given && set && plan.Gate != nil:
		reason = sim.SensorWet
	case !given && set: // a person has raised run times, and at that level nothing was due
		reason = sim.NotDue
	case given && !set: // and at that level watering was due
		reason = sim.Watered
	}
	_, rainRunoff, rainEvap := zone.Rain.Split(s.Weather.RainMM[i], s.Weather.EToMM[i])
	return Row{
		Date: s.Calendar.Date(i), Strategy: s.Strategy, Zone: zone.Name,
		Minutes: dose.Minutes, Cycles: dose.Cycles, Reason: reason,
		EToMM: s.Weather.EToMM[i], K: growth.K[i], Activity: growth.Activity[i], ETcMM: d.ETcMM, RainMM: s.Weather.RainMM[i],
		GrossMM: dose.GrossMM + zone.LeakMMDay, SprayLossMM: dose.SprayLossMM, OversprayMM: dose.OversprayMM, BrokenMM: dose.BrokenMM,
		FillDrainMM: dose.FillDrainMM, LeakMM: zone.LeakMMDay, IrrRunoffMM: dose.RunoffMM,
		RainRunoffMM: rainRunoff, RainEvapMM: rainEvap,
		PercIrrMM: s.Trace.PercIrrMM[i], PercRainMM: s.Trace.PercRainMM[i], ETaMM: s.Trace.ETaMM[i],
		DepletionMM: s.Trace.DepletionMM[i], LowQuarterMM: s.Trace.LowQuarterMM[i],
		TAWMM: zone.TAWMM, RAWMM: d.RAWMM, Ks: s.Trace.Ks[i], Filled: s.Weather.Filled != nil && s.Weather.Filled[i],
		PastRAW: sim.Stressed(s.Trace.LowQuarterMM[i], d.RAWMM),
		RateMMH: zone.PRMMH, AreaM2: zone.AreaM2, ShortMM: s.Trace.ShortMM[i], LowShortMM: s.Trace.LowShortMM[i],
		Grading: growth.Grade(s.Trace, i, since),
	}
}
