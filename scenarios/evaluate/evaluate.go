package evaluate

import (
	"errors"
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
	// Bills are metered bills to rank accounts on, in place of simulated ones; nil without them. BillsName is their file.
	Bills     *portfolio.Metered
	BillsName string
	Uses      *Uses // what the run times as found are scaled to; nil if the results do not say it
}

// A groupStats is a cell of a grouping with its statistics; Stats is nil if nothing may be
// said of it.
type groupStats struct {
	kind  portfolio.GroupKind
	cell  *portfolio.Cell
	stats *portfolio.Stats
}

// A Judged is one measure, judged.
type Judged struct {
	name        string
	at          int // in the table
	stats       portfolio.Stats
	bills       portfolio.BillStats
	groups      []groupStats
	peaks       []portfolio.Peak
	peakDayM3   [2]float64 // as found and under the measure: the sum of each account's own highest day
	interaction *portfolio.Interaction
	combines    []string

	// What follows needs costs; costs is nil without them.
	costs       *program.Measure
	all         program.Group
	worst, best program.Result
	swings      []program.Swing
	levels      []program.Level
	decision    program.Decision

	// What follows needs targets.
	offers []portfolio.Offer
	shown  []bool          // which of them, and of ranked, may be printed
	ranked []program.Group // scored on the late years
	late   []float64       // savings of the late years in the order of the ranking [m³]
}

// An Evaluation is the whole result.
type Evaluation struct {
	Plan     *Plan
	Input    *Input
	Measures []Judged
	Assumed  assumed
	metered  *portfolio.MeteredRanking // nil if the ranking is on simulated bills
	scaled   int                       // ranked accounts whose run times are scaled to use
	hidden   int                       // cells of groups of which nothing is printed
	cells    int
}

// assumed counts how the run times as found are known.
type assumed struct {
	accounts, bills, drawn, given, unknown int
	extreme                                int     // with run times far from those of the program
	imputed                                float64 // mean share of imputed values; 0 if not known
}

// shares are the shares of accounts that an offer is tried for.
func shares() []float64 { return []float64{0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1} }

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
	ranking, err := e.rank()
	for _, err := range []error{err, e.sameCurrency()} {
		var one *diag.Error
		if errors.As(err, &one) {
			faults.Append(one)
		}
	}
	if err := faults.Err(); err != nil {
		return nil, err
	}
	groupings := t.Groupings(in.About)
	e.hidden = portfolio.Hide(groupings, len(t.Accounts), p.Smallest)
	for m := 1; m < len(t.Measures); m++ {
		j := Judged{name: t.Measures[m], at: m, stats: t.Stats(m, t.All(), p.Threshold), bills: t.BillStats(m, p.Threshold)}
		for g := range groupings {
			for c := range groupings[g].Cells {
				cell := &groupings[g].Cells[c]
				one := groupStats{kind: groupings[g].Kind, cell: cell}
				if !cell.Hidden {
					s := t.Stats(m, cell.Accounts, p.Threshold)
					one.stats = &s
				}
				j.groups = append(j.groups, one)
			}
		}
		e.cells = len(j.groups)
		if in.Months != nil {
			j.peaks = in.Months.Peaks(t.Measures[0], j.name)
		}
		j.peakDayM3[0], j.peakDayM3[1] = t.PeakDays(m)
		j.costs = p.Measure(j.name)
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
		j.offers = t.Offers(j.at, ranking, shares(), p.Threshold)
		counts := make([]int, len(j.offers))
		for i := range j.offers {
			counts[i] = j.offers[i].N
		}
		j.shown = portfolio.Printable(counts, len(ranking), p.Smallest)
		late := t.LateSavings(j.at)
		for _, a := range ranking {
			j.late = append(j.late, late[a])
		}
	}
	if j.costs == nil {
		return
	}
	var bills []float64
	if t.HasMoney {
		bills = t.BillSavings(j.at)
	}
	j.all = p.Groups(j.costs, t.Savings(j.at), bills, []float64{1}, p.Seed)[0]
	j.swings = p.Swings(j.costs, j.all.Means)
	j.worst, j.best = p.Ends(j.costs, j.all.Means)
	j.levels = p.Levels(j.costs, j.all.Means)
	if ranking != nil {
		var sorted []float64
		if bills != nil {
			for _, a := range ranking {
				sorted = append(sorted, bills[a])
			}
		}
		j.ranked = p.Groups(j.costs, j.late, sorted, shares(), p.Seed)
	}
	var large []program.Group
	for i := range j.ranked {
		if j.shown[i] {
			large = append(large, j.ranked[i])
		}
	}
	j.decision = program.Decide(&j.all, large)
	if len(j.costs.Combines) > 0 {
		var of []int
		for _, name := range j.costs.Combines {
			of = append(of, slices.Index(t.Measures, name))
		}
		x := t.Interaction(j.at, of)
		j.interaction, j.combines = &x, j.costs.Combines
	}
}

// assumed counts how the run times as found are known.
func (e *Evaluation) assumed() {
	a := &e.Assumed
	for _, id := range e.Input.Table.Accounts {
		a.accounts++
		about, known := e.Input.About[id]
		a.imputed += about.ImputedShare
		if portfolio.ExtremeScale(about.AsFoundScale) {
			a.extreme++
		}
		switch {
		case !known:
			a.unknown++
		case about.AsFound == portfolio.FromBills:
			a.bills++
		case about.AsFound == portfolio.Given:
			a.given++
		default:
			a.drawn++
		}
	}
	a.imputed /= float64(a.accounts)
}
