package forecast

import (
	"errors"
	"maps"
	"math"
	"slices"

	"loamledger/weather"
)

// A Rule says when a forecast announces an event and when an event happened.
type Rule struct {
	RainMM float64 // an event is a day with at least this rain [mm], above 0

	// ProbabilityPct is the chance of rain from which a forecast announces an
	// event [%]; if 0, it does so when its rain is at least RainMM.
	ProbabilityPct float64

	// AmountToo makes a forecast announce an event only if its rain is at least
	// RainMM and its chance of rain, if it has one, at least ProbabilityPct.
	AmountToo bool
}

// announces reports whether f announces an event; known is false if f lacks
// the value that the rule needs.
func (r *Rule) announces(f *Forecast) (yes, known bool) {
	switch {
	case r.AmountToo:
		return f.RainMM >= r.RainMM && !(f.ProbabilityPct < r.ProbabilityPct), !math.IsNaN(f.RainMM)
	case r.ProbabilityPct > 0:
		return f.ProbabilityPct >= r.ProbabilityPct, !math.IsNaN(f.ProbabilityPct)
	}
	return f.RainMM >= r.RainMM, !math.IsNaN(f.RainMM)
}

// A Score is the contingency table of one lead.
type Score struct {
	LeadDays                                    int
	Hits, Misses, FalseAlarms, CorrectNegatives int
	Unknown                                     int // forecasts without the value the rule needs, or days without observed rain
}

// N returns the number of forecasts in the table.
func (s Score) N() int { return s.Hits + s.Misses + s.FalseAlarms + s.CorrectNegatives }

func over(a, b int) float64 {
	if b == 0 {
		return math.NaN()
	}
	return float64(a) / float64(b)
}

// POD returns the share of events that were forecast: hits / (hits + misses).
// NaN without an event.
func (s Score) POD() float64 { return over(s.Hits, s.Hits+s.Misses) }

// FAR returns the share of forecast events that did not happen: false alarms /
// (hits + false alarms). NaN if no event was forecast.
func (s Score) FAR() float64 { return over(s.FalseAlarms, s.Hits+s.FalseAlarms) }

// pofd returns the share of days without an event for which one was forecast:
// false alarms / (false alarms + correct negatives).
func (s Score) pofd() float64 { return over(s.FalseAlarms, s.FalseAlarms+s.CorrectNegatives) }

// Bias returns the number of forecast events per observed event: (hits + false
// alarms) / (hits + misses). NaN without an event.
func (s Score) Bias() float64 { return over(s.Hits+s.FalseAlarms, s.Hits+s.Misses) }

// baseRate returns the share of days with an event.
func (s Score) baseRate() float64 { return over(s.Hits+s.Misses, s.N()) }

// ETS returns the equitable threat score, which is 1 for perfect forecasts and
// 0 for random hits.
//
//	ETS = (hits - c) / (hits + misses + false alarms - c)
//	c = (hits + misses)(hits + false alarms) / N
func (s Score) ETS() float64 {
	chance := over((s.Hits+s.Misses)*(s.Hits+s.FalseAlarms), s.N())
	all := float64(s.Hits+s.Misses+s.FalseAlarms) - chance
	if all == 0 {
		return math.NaN()
	}
	return (float64(s.Hits) - chance) / all
}

// errRule says that a rule does not define an event.
var errRule = errors.New("an event needs more than 0 mm of rain, and a chance of rain must be within 0 to 100%")

// Verify compares every forecast with the rain in observed, one score per lead
// in ascending order. Leads without forecasts are omitted, as are forecasts for
// days outside observed; days inside it with missing rain are counted as
// unknown.
func Verify(a *Archive, observed *weather.Series, r Rule) ([]Score, error) {
	if !(r.RainMM > 0 && r.ProbabilityPct >= 0 && r.ProbabilityPct <= 100) {
		return nil, errRule
	}
	byLead := map[int]*Score{}
	for f := range a.All() {
		if f.Valid < observed.Start || f.Valid > observed.End() {
			continue
		}
		lead := f.LeadDays()
		s := byLead[lead]
		if s == nil {
			s = &Score{LeadDays: lead}
			byLead[lead] = s
		}
		came := observed.At(weather.Rain, int(f.Valid-observed.Start))
		yes, known := r.announces(&f)
		switch {
		case math.IsNaN(came) || !known:
			s.Unknown++
		case came >= r.RainMM && yes:
			s.Hits++
		case came >= r.RainMM:
			s.Misses++
		case yes:
			s.FalseAlarms++
		default:
			s.CorrectNegatives++
		}
	}
	var out []Score
	for _, lead := range slices.Sorted(maps.Keys(byLead)) {
		out = append(out, *byLead[lead])
	}
	return out, nil
}
