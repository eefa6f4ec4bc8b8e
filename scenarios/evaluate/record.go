package evaluate

import (
	"loamledger/sim/portfolio"
	"loamledger/sim/program"
)

// A Record is an evaluation as JSON: the tables as rows of named cells, and the verdicts.
type Record struct {
	Program   string                         `json:"program"`
	Currency  string                         `json:"currency"`
	Accounts  int                            `json:"accounts"`
	Unpaired  int                            `json:"accounts_left_out"`
	PartYears int                            `json:"part_years_left_out"`
	Years     []int                          `json:"years"`
	Reference string                         `json:"reference"`
	Dominance string                         `json:"one_account_dominates,omitempty"`
	Prices    priceSource                    `json:"prices_of_water"`
	AsFound   AsFoundRecord                  `json:"as_found"`
	Targets   *TargetsRecord                 `json:"targets,omitempty"`
	Rule      string                         `json:"rule"`
	Caution   string                         `json:"caution"`
	Withheld  int                            `json:"cells_withheld"`
	Verdicts  []VerdictRecord                `json:"verdicts"`
	Defaults  []DefaultRecord                `json:"defaults"`
	Tables    map[string][]map[string]string `json:"tables"`
}

// An AsFoundRecord says how the run times as found are known. Assumed is true if they were
// drawn, or not known to be observed, for any account.
type AsFoundRecord struct {
	Assumed bool    `json:"assumed"`
	Bills   int     `json:"from_bills"`
	Given   int     `json:"given"`
	Drawn   int     `json:"drawn"`
	Unknown int     `json:"unknown"`
	Imputed float64 `json:"imputed_share"`
}

// A TargetsRecord says by what accounts are ranked.
type TargetsRecord struct {
	By        string          `json:"rank_by"`
	Early     portfolio.Years `json:"rank_years"`
	Late      portfolio.Years `json:"score_years"`
	BillError float64         `json:"bill_error"`
	AreaError float64         `json:"area_error"`
	Simulated bool            `json:"bills_simulated"`
	Metered   *meteredRecord  `json:"bills_metered,omitempty"`
	Words     string          `json:"words"`
}

// A meteredRecord says what metered bills accounts are ranked on, and what is left out.
type meteredRecord struct {
	From      string  `json:"from"`
	To        string  `json:"to"`
	Outdoor   bool    `json:"outdoor"`
	Ranked    int     `json:"ranked"`
	Without   int     `json:"accounts_without_bill"`
	Short     int     `json:"accounts_with_too_few_days"`
	Unknown   int     `json:"bills_without_result"`
	Estimated int     `json:"accounts_with_estimated_reads"`
	Days      float64 `json:"share_of_days_estimated"`
	Outside   int     `json:"bills_of_other_days"`
	After     int     `json:"bills_after_the_start"`
}

// A VerdictRecord is the verdict on a measure.
type VerdictRecord struct {
	Measure  string  `json:"measure"`
	Verdict  string  `json:"verdict"`
	Loose    string  `json:"verdict_by_low_bound"`
	Smallest float64 `json:"smallest_share,omitempty"`
	Largest  float64 `json:"largest_share,omitempty"`
	Chance   float64 `json:"share_of_draws_that_pay"`
	Words    string  `json:"words"`
}

// A DefaultRecord is a value that the costs file does not state.
type DefaultRecord struct {
	Key    string `json:"key"`
	Value  string `json:"value"`
	Grade  string `json:"grade"`
	Source string `json:"source"`
}

// Record returns the evaluation for JSON.
func (e *Evaluation) Record() *Record {
	t, a := e.Input.Table, &e.Assumed
	r := &Record{
		Program:   e.name(),
		Currency:  e.Plan.Currency,
		Accounts:  len(t.Accounts),
		Unpaired:  len(t.Unpaired),
		PartYears: t.Partial,
		Years:     t.Years,
		Reference: t.Measures[0],
		Dominance: e.DominanceWords(),
		Prices:    e.prices(),
		AsFound:   AsFoundRecord{a.drawn+a.unknown > 0, a.bills, a.given, a.drawn, a.unknown, a.imputed},
		Rule:      RuleWords,
		Caution:   Caution,
		Withheld:  e.hidden,
		Verdicts:  []VerdictRecord{},
		Defaults:  []DefaultRecord{},
		Tables:    map[string][]map[string]string{},
	}
	if b := &e.Plan.Bills; b.Asked() {
		r.Targets = &TargetsRecord{By: portfolio.RankNames()[b.By], Early: b.Early, Late: b.Late, BillError: b.Error, AreaError: b.AreaError,
			Simulated: e.metered == nil, Words: e.rankedOn()}
		if m := e.metered; m != nil {
			r.Targets.Metered = &meteredRecord{m.First.String(), m.Last.String(), m.Outdoor, len(m.Order), m.Without, m.Short, m.Unknown,
				m.Estimated,
				m.EstimatedDays, m.Outside, m.After}
		}
	}
	names := program.VerdictNames()
	for i := range e.Measures {
		j := &e.Measures[i]
		if j.costs == nil {
			continue
		}
		v := VerdictRecord{
			Measure: j.name,
			Verdict: names[j.decision.Verdict],
			Loose:   names[j.decision.Loose],
			Chance:  j.all.Chance,
			Words:   e.VerdictWords(j),
		}
		if d := &j.decision; d.Smallest != nil {
			v.Smallest, v.Largest = d.Smallest.Share, d.Largest.Share
		}
		r.Verdicts = append(r.Verdicts, v)
	}
	for _, d := range e.Plan.Defaults {
		r.Defaults = append(r.Defaults, DefaultRecord{d.Key, d.Value, d.Grade.String(), d.Source})
	}
	for _, s := range e.Sheets() {
		rows := []map[string]string{}
		for _, row := range s.Rows[1:] {
			cells := map[string]string{}
			for k, cell := range row {
				if cell != "" {
					cells[s.Rows[0][k]] = cell
				}
			}
			rows = append(rows, cells)
		}
		r.Tables[s.Name] = rows
	}
	return r
}
