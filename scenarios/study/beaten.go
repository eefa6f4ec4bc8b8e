package study

import (
	"context"
	"fmt"

	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/weather/quantity"
)

// A Beaten says that the baseline uses less water than some settings and has fewer
// stress days, over the whole record.
type Beaten struct {
	By            string  `json:"by"` // the baseline's name
	ByM3PerYear   float64 `json:"by_volume_m3_per_year"`
	ByStressYear  float64 `json:"by_stress_days_per_year"`
	M3PerYear     float64 `json:"volume_m3_per_year"` // of the settings
	StressPerYear float64 `json:"stress_days_per_year"`
}

// beaten compares settings with the baseline; nil if there is none, or if the
// settings are better in water or in stress. An error is from ctx.
func (l *Study) beaten(ctx context.Context, name string, settings *strategy.Strategy) (*Beaten, error) {
	if len(l.Job.Strategies) == 0 || l.baselineAlone().Name == name {
		return nil, nil
	}
	job := l.Job
	job.Strategies, job.Step = []strategy.Strategy{l.baselineAlone(), *settings}, nil
	table, err := replay.Run(ctx, &job, nil)
	if err != nil {
		return nil, err
	}
	rows := table.Compare()
	now, then := &rows[0], &rows[1]
	if !(now.M3PerYear < then.M3PerYear && now.StressPerYear < then.StressPerYear) {
		return nil, nil
	}
	return &Beaten{By: l.baselineAlone().Name, M3PerYear: then.M3PerYear, StressPerYear: then.StressPerYear,
		ByM3PerYear: now.M3PerYear, ByStressYear: now.StressPerYear}, nil
}

// beatenLead advises against settings that the baseline beats.
func (l *Study) beatenLead(b *Beaten) string {
	unit := quantity.Label(quantity.Volume, l.Scenario.Units)
	return fmt.Sprintf("Do not enter these settings: “%s” uses less water (%s %s a year, these %s) and has fewer stress days (%s a "+
		"year, these %s).",
		b.By, l.volume(b.ByM3PerYear), unit, l.volume(b.M3PerYear), days(b.ByStressYear), days(b.StressPerYear))
}
