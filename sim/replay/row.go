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
}

// Days returns the number of days.
func (s *Sheet) Days() int { return s.Weather.Days() }

// Row returns day i of the sheet.
func (s *Sheet) Row(i int) Row {
	d, dose := &s.Forcing[i], &s.Plan.Doses[s.Trace.Dose[i]]
	reason := s.Plan.Reason[s.Plan.Spin+i]
	switch given, set := s.Trace.Dose[i] != 0, s.Plan.Dose[s.Plan.Spin+i] != 0; {
	case !given && set && s.Plan.Gate != nil:
		reason = sim.SensorWet
	case !given && set: // a person has raised run times, and at that level nothing was due
		reason = sim.NotDue
	case given && !set: // and at that level watering was due
		reason = sim.Watered
	}
	_, rainRunoff, rainEvap := s.Zone.Rain.Split(s.Weather.RainMM[i], s.Weather.EToMM[i])
	return Row{
		Date: s.Calendar.Date(i), Strategy: s.Strategy, Zone: s.Zone.Name,
		Minutes: dose.Minutes, Cycles: dose.Cycles, Reason: reason,
		EToMM: s.Weather.EToMM[i], K: s.Growth.K[i], Activity: s.Growth.Activity[i], ETcMM: d.ETcMM, RainMM: s.Weather.RainMM[i],
		GrossMM: dose.GrossMM + s.Zone.LeakMMDay, SprayLossMM: dose.SprayLossMM, OversprayMM: dose.OversprayMM, BrokenMM: dose.BrokenMM,
		FillDrainMM: dose.FillDrainMM, LeakMM: s.Zone.LeakMMDay, IrrRunoffMM: dose.RunoffMM,
		RainRunoffMM: rainRunoff, RainEvapMM: rainEvap,
		PercIrrMM: s.Trace.PercIrrMM[i], PercRainMM: s.Trace.PercRainMM[i], ETaMM: s.Trace.ETaMM[i],
		DepletionMM: s.Trace.DepletionMM[i], LowQuarterMM: s.Trace.LowQuarterMM[i],
		TAWMM: s.Zone.TAWMM, RAWMM: d.RAWMM, Ks: s.Trace.Ks[i], Filled: s.Weather.Filled != nil && s.Weather.Filled[i],
		PastRAW: sim.Stressed(s.Trace.LowQuarterMM[i], d.RAWMM),
		ShortMM: s.Trace.ShortMM[i], LowShortMM: s.Trace.LowShortMM[i], Grading: s.Growth.Grade(s.Trace, i),
	}
}
