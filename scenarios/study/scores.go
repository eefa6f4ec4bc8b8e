package study

import (
	"loamledger/weather/forecast"
	"loamledger/weather/quantity"
)

// ScoreWords explains the columns of [ScoreGrid].
const ScoreWords = "POD: share of rain days that were forecast. FAR: share of forecast rain days that stayed below the threshold.\n" +
	"Bias: forecast rain days per observed rain day. ETS: equitable threat score, 1 is perfect and 0 is chance.\n" +
	"A forecast may be used from the morning after it is issued, so 0 days ahead is too late for any strategy."

// ScoreGrid shows forecast scores by days ahead.
func ScoreGrid(scores []forecast.Score) *Grid {
	g := &Grid{Columns: toTheRight(0, 11)}
	g.Head = []string{"days\nahead", "fore-\ncasts", "rain\ndays", "hits", "missed", "false\nalarms", "POD", "FAR", "bias", "ETS",
		"un-\nknown"}
	for _, sc := range scores {
		g.add(sc.LeadDays, quantity.Whole(sc.N()), quantity.Whole(sc.Hits+sc.Misses), quantity.Whole(sc.Hits), quantity.Whole(sc.Misses),
			quantity.Whole(sc.FalseAlarms),
			ratio(sc.POD()), ratio(sc.FAR()), ratio(sc.Bias()), ratio(sc.ETS()), quantity.Whole(sc.Unknown))
	}
	return g
}

// A LeadScore is the score of forecasts at one number of days ahead.
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
	return LeadScore{s.LeadDays, s.N(), s.Hits, s.Misses, s.FalseAlarms, s.CorrectNegatives, s.Unknown, Number(s.POD()), Number(s.FAR()),
		Number(s.Bias()), Number(s.ETS())}
}
