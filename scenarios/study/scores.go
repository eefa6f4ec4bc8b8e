package study

import (
	"loamledger/weather/forecast"
	"loamledger/weather/quantity"
)

// ScoreWords says what the columns of [ScoreGrid] mean.
const ScoreWords = "POD: share of rain days that were forecast. FAR: share of forecast rain days that stayed below. Bias: rain days\nforecast for each that came. ETS: equitable threat score, 1 is perfect and 0 is chance.\nWhat is issued on a day may be used from the next morning on, so 0 days ahead is too late for any strategy."

// ScoreGrid tells how well forecasts did, by days ahead.
func ScoreGrid(scores []forecast.Score) *Grid {
	g := &Grid{Columns: toTheRight(0, 11)}
	g.Head = []string{"days\nahead", "fore-\ncasts", "rain\ndays", "hits", "missed", "false\nalarms", "POD", "FAR", "bias", "ETS", "not\nknown"}
	for _, sc := range scores {
		g.add(sc.LeadDays, quantity.Whole(sc.N()), quantity.Whole(sc.Hits+sc.Misses), quantity.Whole(sc.Hits), quantity.Whole(sc.Misses), quantity.Whole(sc.FalseAlarms),
			ratio(sc.POD()), ratio(sc.FAR()), ratio(sc.Bias()), ratio(sc.ETS()), quantity.Whole(sc.Unknown))
	}
	return g
}

// A LeadScore is how well forecasts so many days ahead did.
type LeadScore struct {
	LeadDays         int      `json:"days_ahead"`
	N                int      `json:"n"`
	Hits             int      `json:"hits"`
	Misses           int      `json:"misses"`
	FalseAlarms      int      `json:"false_alarms"`
	CorrectNegatives int      `json:"correct_negatives"`
	Unknown          int      `json:"unknown"`
	POD              *float64 `json:"pod"`
	FAR              *float64 `json:"far"`
	Bias             *float64 `json:"bias"`
	ETS              *float64 `json:"ets"`
}

// ScoreOf returns a score for scripts.
func ScoreOf(s forecast.Score) LeadScore {
	return LeadScore{s.LeadDays, s.N(), s.Hits, s.Misses, s.FalseAlarms, s.CorrectNegatives, s.Unknown, Number(s.POD()), Number(s.FAR()), Number(s.Bias()), Number(s.ETS())}
}
