package evaluate

import (
	"fmt"
	"slices"
	"strings"

	"loamledger/sim/portfolio"
	"loamledger/sim/program"
	"loamledger/weather/diag"
)

// An Input is what a replay of many accounts left.
type Input struct {
	Table  *portfolio.Table
	Months *portfolio.Months            // nil without months
	About  map[string]portfolio.Account // nil without accounts
	Meta   map[string]string            // of the results
	Name   string                       // of the results, for messages
}

// A GroupStats is a cell of a grouping with its statistics; Stats is nil if nothing may be
// said of it.
type GroupStats struct {
	Kind  portfolio.GroupKind
	Cell  *portfolio.Cell
	Stats *portfolio.Stats
}

// A Judged is one measure, judged.
type Judged struct {
	Name        string
	At          int // in the table
	Stats       portfolio.Stats
	Groups      []GroupStats
	Peaks       []portfolio.Peak
	PeakDayM3   [2]float64 // as found and under the measure: the sum of each account's own highest day
	Interaction *portfolio.Interaction
	Combines    []string

	// What follows needs costs; Costs is nil without them.
	Costs       *program.Measure
	All         program.Group
	Worst, Best program.Result
	Swings      []program.Swing
	Levels      []program.Level
	Decision    program.Decision

	// What follows needs targets.
	Offers []portfolio.Offer
	Ranked []program.Group // scored on the late years
	Late   []float64       // savings of the late years in the order of the ranking [m³]
}

// An Evaluation is the whole result.
type Evaluation struct {
	Plan     *Plan
	Input    *Input
	Measures []Judged
	Assumed  Assumed
	Hidden   int // cells of groups of which nothing is printed
	Cells    int
}

// Assumed counts how the run times as found are known.
type Assumed struct {
	Accounts, Bills, Drawn, Given, Unknown int
	Imputed                                float64 // mean share of imputed values; 0 if not known
}

// Shares are the shares of accounts that an offer is tried for.
func Shares() []float64 { return []float64{0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1} }

// Evaluate judges every measure. An error is an input error.
func Evaluate(p *Plan, in *Input) (*Evaluation, error) {
	t := in.Table
	e := &Evaluation{Plan: p, Input: in}
	if len(t.Accounts) < p.Smallest {
		return nil, &diag.Error{Code: diag.TooFewAccounts, Pos: diag.Pos{File: in.Name},
			Msg: fmt.Sprintf("%d accounts can be evaluated; nothing is printed of fewer than %d", len(t.Accounts), p.Smallest),
			Fix: "replay more accounts, or lower smallest_cell if these may be known"}
	}
	var faults diag.List
	for i := range p.Measures {
		m := &p.Measures[i]
		switch at := slices.Index(t.Measures, m.Name); {
		case at < 0:
			faults.Add(diag.UnknownName, p.Places[m.Name], "use one of: "+strings.Join(t.Measures[1:], ", "),
				"the results have no measure %q", m.Name)
		case at == 0:
			faults.Add(diag.NoEffect, p.Places[m.Name], "remove it", "%q is the reference: it saves nothing", m.Name)
		}
	}
	var ranking []int
	if p.Bills.Asked() {
		var err error
		if ranking, err = t.Ranking(); err != nil {
			code := diag.Circular
			if err == portfolio.ErrNoYears {
				code = diag.NoWholeYear
			}
			faults.Add(code, diag.Pos{File: p.File}, fmt.Sprintf("the results have the years %d to %d", t.Years[0], t.Years[len(t.Years)-1]),
				"targets: %v", err)
		}
	}
	if err := faults.Err(); err != nil {
		return nil, err
	}
	groupings := t.Groupings(in.About)
	e.Hidden = portfolio.Hide(groupings, len(t.Accounts), p.Smallest)
	for m := 1; m < len(t.Measures); m++ {
		j := Judged{Name: t.Measures[m], At: m, Stats: t.Stats(m, t.All(), p.Threshold)}
		for g := range groupings {
			for c := range groupings[g].Cells {
				cell := &groupings[g].Cells[c]
				one := GroupStats{Kind: groupings[g].Kind, Cell: cell}
				if !cell.Hidden {
					s := t.Stats(m, cell.Accounts, p.Threshold)
					one.Stats = &s
				}
				j.Groups = append(j.Groups, one)
			}
		}
		e.Cells = len(j.Groups)
		if in.Months != nil {
			j.Peaks = in.Months.Peaks(t.Measures[0], j.Name)
		}
		j.PeakDayM3[0], j.PeakDayM3[1] = t.PeakDays(m)
		j.Costs = p.Measure(j.Name)
		e.judge(&j, ranking)
		e.Measures = append(e.Measures, j)
	}
	e.assumed()
	return e, nil
}

// judge adds what needs costs or targets.
func (e *Evaluation) judge(j *Judged, ranking []int) {
	t, p := e.Input.Table, e.Plan
	if ranking != nil {
		j.Offers = t.Offers(j.At, ranking, Shares(), p.Threshold)
		late := t.LateSavings(j.At)
		for _, a := range ranking {
			j.Late = append(j.Late, late[a])
		}
	}
	if j.Costs == nil {
		return
	}
	var bills []float64
	if t.HasMoney {
		bills = t.BillSavings(j.At)
	}
	j.All = p.Groups(j.Costs, t.Savings(j.At), bills, []float64{1}, p.Seed)[0]
	j.Swings = p.Swings(j.Costs, j.All.Means)
	j.Worst, j.Best = p.Ends(j.Costs, j.All.Means)
	j.Levels = p.Levels(j.Costs, j.All.Means)
	if ranking != nil {
		var sorted []float64
		if bills != nil {
			for _, a := range ranking {
				sorted = append(sorted, bills[a])
			}
		}
		j.Ranked = p.Groups(j.Costs, j.Late, sorted, Shares(), p.Seed)
	}
	large := slices.DeleteFunc(slices.Clone(j.Ranked), func(g program.Group) bool { return g.Means.Accounts < p.Smallest })
	j.Decision = program.Decide(&j.All, large)
	if len(j.Costs.Combines) > 0 {
		var of []int
		for _, name := range j.Costs.Combines {
			of = append(of, slices.Index(t.Measures, name))
		}
		x := t.Interaction(j.At, of)
		j.Interaction, j.Combines = &x, j.Costs.Combines
	}
}

// assumed counts how the run times as found are known.
func (e *Evaluation) assumed() {
	a := &e.Assumed
	for _, id := range e.Input.Table.Accounts {
		a.Accounts++
		about, known := e.Input.About[id]
		a.Imputed += about.ImputedShare
		switch {
		case !known:
			a.Unknown++
		case about.AsFound == portfolio.FromBills:
			a.Bills++
		case about.AsFound == portfolio.Given:
			a.Given++
		default:
			a.Drawn++
		}
	}
	a.Imputed /= float64(a.Accounts)
}
