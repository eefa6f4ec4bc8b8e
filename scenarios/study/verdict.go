package study

import (
	"loamledger/plots"
	"loamledger/sim/tally"
)

// A VerdictRecord is the first sentence of the report, for scripts.
type VerdictRecord struct {
	Code     string       `json:"code"`
	Strategy string       `json:"strategy"` // that the sentence is about
	Answer   string       `json:"answer"`
	Try      string       `json:"try,omitempty"`  // what would make an option ready; empty if one is
	Next     *NextRecord  `json:"next,omitempty"` // the run times of it, if a replay confirms them
	Rules    []RuleRecord `json:"rules"`          // that a strategy must meet to be named
	Barred   []BarRecord  `json:"not_ready"`      // the strategies that do not
}

// A NextRecord is an option that would be recommended with more run time.
type NextRecord struct {
	Strategy string      `json:"strategy"`
	Change   float64     `json:"change_against_baseline"`
	Enter    []NextEntry `json:"enter"`
}

// A NextEntry is the run time to enter for a zone: in a program, or else as a
// percentage.
type NextEntry struct {
	Zone        string  `json:"zone"`
	Program     string  `json:"program,omitempty"`
	Now         float64 `json:"minutes_now,omitempty"`
	Enter       float64 `json:"minutes,omitempty"`
	PercentTime float64 `json:"zone_percent,omitempty"`
}

// A RuleRecord is one rule of the verdict.
type RuleRecord struct {
	Code plots.BarCode `json:"code"`
	Rule string        `json:"rule"` // a strategy is not named if this is true of it
}

// A BarRecord is a rule that a strategy does not meet, with the zone furthest from
// it.
type BarRecord struct {
	Strategy string        `json:"strategy"`
	Code     plots.BarCode `json:"code"`
	Zone     string        `json:"zone,omitempty"`
	Count    float64       `json:"count"`    // days in the zone or, without a zone, runs
	Baseline float64       `json:"baseline"` // the same of the baseline
	DryYear  bool          `json:"dry_year"` // days of the dry year, not of the median one
}

// verdictRecord returns the verdict for scripts.
func (l *Study) verdictRecord(t *tally.Table) VerdictRecord {
	data := l.verdictData(t)
	found := data.Verdict()
	out := VerdictRecord{Code: found.Code, Strategy: t.Strategies[found.Strategy], Answer: found.Text, Try: found.Try, Barred: []BarRecord{}}
	if n := data.Next; n != nil && found.Try != "" {
		out.Next = &NextRecord{Strategy: t.Strategies[n.Strategy], Change: n.Change}
		for _, e := range n.Enter {
			out.Next.Enter = append(out.Next.Enter, NextEntry(e))
		}
	}
	for _, d := range data.BarDocs() {
		out.Rules = append(out.Rules, RuleRecord{d.Code, d.Doc})
	}
	for s := range l.Job.Strategies {
		for _, b := range data.Barred(s) {
			out.Barred = append(out.Barred, BarRecord{t.Strategies[s], b.Code, b.Zone, b.Days, b.Base, b.Dry})
		}
	}
	return out
}

func (l *Study) verdictData(t *tally.Table) *plots.Study {
	return &plots.Study{Units: l.chartUnits(), Table: t, Measures: l.Measures, Rules: l.verdictRules(), Next: l.next(), Live: l.Live}
}

// Advice is what the report says of the decision, without the rest of it.
func (l *Study) Advice(t *tally.Table) *plots.Advice {
	return plots.NewAdvice(l.verdictData(t), l.adviceFacts(t))
}

func (l *Study) verdictRules() *plots.VerdictRules {
	return &plots.VerdictRules{StressDays: l.Scenario.Verdict.StressDays, BrowningDays: l.Scenario.Verdict.BrowningDays}
}
