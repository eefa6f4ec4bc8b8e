package forecast

import (
	"errors"
	"fmt"
	"math"
)

// A Skill says how well an event is forecast at one lead.
type Skill struct {
	POD float64 // share of events that are forecast, 0 to 1
	FAR float64 // share of forecast events that do not happen, 0 to below 1
}

// pofd returns the share of days without an event on which one must be forecast
// to achieve POD and FAR, given the share b of days with an event.
//
//	pofd = FAR POD b / ((1 - FAR)(1 - b))
//
// It follows from the definitions. It is capped at 1, beyond which the three
// values are inconsistent; b = 1 gives 0.
func (s Skill) pofd(b float64) float64 {
	if b >= 1 {
		return 0
	}
	return min(1, s.FAR*s.POD*b/((1-s.FAR)*(1-b)))
}

// Options sets the skill of synthetic forecasts. The zero value has no leads;
// [Defaults] returns a complete set.
type Options struct {
	ThresholdMM float64 // an event is a day with at least this rain [mm]; 0 means 5
	Leads       []Skill // by lead, from 1

	WarmPODCut float64  // subtracted from POD in the warm months, 0 to 1
	warm       [12]bool // which months are warm, January first

	// amountSD is the standard deviation of log(forecast rain / observed rain)
	// on days whose rain is forecast; 0 means exact amounts.
	amountSD float64

	// tminSDC [°C] and etoSD (of the logarithm) are the errors at lead 1; they
	// grow by 15% per day. 0 means exact.
	tminSDC, etoSD float64

	// persistence is the correlation between the errors of two consecutive
	// leads for the same day, 0 to below 1.
	persistence float64
}

// DefaultThresholdMM is the event threshold if Options sets none [mm].
const DefaultThresholdMM = 5

// Defaults returns the skill to expect of a modern public forecast at latitude
// latDeg [°]. The table of POD and FAR is ours: lead 1 is close to an official
// verification of rain of 5 mm or more in Victoria, Australia, in 2008-09 (POD
// 0.60, FAR 0.39), adjusted for progress since; lead 2 follows the decline of
// threat scores published by the US national center for 1996; the others are
// extrapolated. The warm-season loss of POD is the middle of 0.05 to 0.10.
// Amount, temperature and ETo errors and their persistence are common practice,
// no source. Replace them with the scores of your own forecasts if you have
// any.
func Defaults(latDeg float64) Options {
	return Options{
		ThresholdMM: DefaultThresholdMM,
		Leads:       []Skill{{0.65, 0.38}, {0.58, 0.42}, {0.52, 0.47}, {0.46, 0.53}, {0.40, 0.58}},
		WarmPODCut:  0.075, warm: warmMonths(latDeg),
		amountSD: 0.5, tminSDC: 1.5, etoSD: 0.10, persistence: 0.6,
	}
}

// warmMonths returns April to September north of the equator, October to March
// south of it, and none if the latitude is unknown.
func warmMonths(latDeg float64) (warm [12]bool) {
	for m := range warm {
		summer := m >= 3 && m <= 8
		warm[m] = latDeg >= 0 && summer || latDeg < 0 && !summer
	}
	return warm
}

var errNoLeads = errors.New("no lead has a skill: give POD and FAR at least for lead 1")

func (o Options) check() error {
	share := func(v float64) bool { return v >= 0 && v <= 1 }
	switch {
	case len(o.Leads) == 0:
		return errNoLeads
	case !(o.ThresholdMM >= 0 && o.ThresholdMM <= 200):
		return fmt.Errorf("threshold %g mm is outside 0 to 200", o.ThresholdMM)
	case !share(o.WarmPODCut):
		return fmt.Errorf("warm-season loss of POD %g is outside 0 to 1", o.WarmPODCut)
	case !(o.persistence >= 0 && o.persistence < 1):
		return fmt.Errorf("persistence %g is outside 0 to 1", o.persistence)
	case !(o.amountSD >= 0 && o.amountSD <= 3 && o.etoSD >= 0 && o.etoSD <= 3 && o.tminSDC >= 0 && o.tminSDC <= 20):
		return fmt.Errorf("errors of rain %g, ETo %g and Tmin %g °C must be within 0 to 3, 0 to 3 and 0 to 20", o.amountSD, o.etoSD, o.tminSDC)
	}
	for k, s := range o.Leads {
		if !share(s.POD) || !(s.FAR >= 0 && s.FAR < 1) {
			return fmt.Errorf("lead %d: POD %g and FAR %g must be within 0 to 1 (FAR below 1)", k+1, s.POD, s.FAR)
		}
	}
	return nil
}

// at returns the skill of lead k (from 1) in month (from 0).
func (o *Options) at(k, month int) Skill {
	s := o.Leads[k-1]
	if o.warm[month] {
		s.POD = math.Max(0, s.POD-o.WarmPODCut)
	}
	return s
}
