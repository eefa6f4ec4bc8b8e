package evaluate

import (
	"errors"
	"fmt"

	"loamledger/plots"
	"loamledger/sim/portfolio"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// Uses are the days on which the outdoor use of accounts was metered, to which their run times as found are scaled. Unknown are
// accounts of which a use does not say it.
type Uses struct {
	Days    map[string][]Days
	Unknown map[string]bool
}

// Days is a span of days, both included.
type Days struct{ From, To cal.Date }

// A median bill of less or more than so many times the use as found in the replay has a wrong unit, or is of other accounts. Gallons
// taken for HCF are 748 times too much. Use indoors can be many times the use outdoors. No source: a choice.
const (
	leastTimes = 0.05
	mostTimes  = 50
)

// rank puts the accounts in the order of their bills; nil without targets.
func (e *Evaluation) rank() ([]int, error) {
	p, in := e.Plan, e.Input
	t := in.Table
	if !p.Bills.Asked() {
		if in.Bills != nil {
			return nil, &diag.Error{Code: diag.NoEffect, Pos: diag.Pos{File: p.File}, Msg: "bills are given, and the costs file has no targets",
				Fix: "add targets: {rank_by: bill, rank_years: 2019 to 2021, score_years: 2022 to 2024}"}
		}
		return nil, nil
	}
	if in.Bills == nil {
		if p.Bills.Error == 0 && !p.HasBillError {
			return nil, &diag.Error{Code: diag.MissingKey, Pos: p.TargetsPos, Msg: "bill_error is missing, and no bills are given",
				Fix: "add bill_error: how far " +
					"the bill of a year is from the replay of that year, one standard deviation, such as 15%; or give metered bills with --bills"}
		}
		order, err := t.Ranking()
		return order, e.targetsError(err)
	}
	first, last, any := in.Bills.Days()
	if !any {
		return nil, &diag.Error{Code: diag.NoWholeYear, Pos: p.TargetsPos, Msg: fmt.Sprintf("no bill of %s has a day in rank_years %v",
			in.BillsName, p.Bills.Early),
			Fix: "write the years of the bills under rank_years"}
	}
	r, err := t.RankMetered(in.Bills)
	if err != nil {
		return nil, e.targetsError(err)
	}
	if err := e.circular(r, Days{first, last}); err != nil {
		return nil, err
	}
	if len(r.Order) < p.Smallest {
		return nil, &diag.Error{Code: diag.TooFewAccounts, Pos: diag.Pos{File: in.BillsName},
			Fix: "check that both use the same account IDs, and that the " +
				"bills cover rank_years",
			Msg: fmt.Sprintf("%d of %d accounts can be ranked; %d have no bill in rank_years, %d too few days, and %d in the bills have no result",
				len(r.Order), len(t.Accounts), r.Without, r.Short, r.Unknown)}
	}
	if r.Times < leastTimes || r.Times > mostTimes {
		return nil, &diag.Error{Code: diag.WrongUnits, Pos: diag.Pos{File: in.BillsName},
			Msg: fmt.Sprintf("the median bill is %s times what the replay uses as found", plots.Rounded(r.Times)),
			Fix: "check the unit of the volume, and whether the IDs are of the same accounts"}
	}
	e.metered = r
	return r.Order, nil
}

// targetsError puts an error of a ranking at the targets.
func (e *Evaluation) targetsError(err error) error {
	t := e.Input.Table
	years := fmt.Sprintf("the results have the years %d to %d", t.Years[0], t.Years[len(t.Years)-1])
	switch {
	case err == nil:
		return nil
	case errors.Is(err, portfolio.ErrNoYears):
		return &diag.Error{Code: diag.NoWholeYear, Pos: diag.Pos{File: e.Plan.File}, Msg: "targets: " + err.Error(), Fix: years}
	case errors.Is(err, portfolio.ErrIndoors):
		return &diag.Error{Code: diag.Conflict, Pos: diag.Pos{File: e.Input.BillsName},
			Msg: "targets: " + err.Error() + ", so they cannot be compared with what " +
				"plants need", Fix: "take the use indoors off and call the column outdoor_volume, or write rank_by: bill"}
	}
	return &diag.Error{Code: diag.Circular, Pos: diag.Pos{File: e.Plan.File}, Msg: "targets: " + err.Error(), Fix: years}
}

// circular refuses a ranking by bills to which the run times as found were scaled: the same chance that ranks an account
// first would also make it use, and save, more in the replay.
func (e *Evaluation) circular(r *portfolio.MeteredRanking, bills Days) error {
	t, in := e.Input.Table, e.Input
	const why = "a high use by chance would rank an account first and raise its savings in the replay, too"
	fault := func(msg, fix string) error {
		return &diag.Error{Code: diag.Circular, Pos: diag.Pos{File: in.BillsName}, Msg: msg, Fix: fix}
	}
	scaled, overlap, unknown := 0, 0, 0
	var example, span string
	for _, a := range r.Order {
		id := t.Accounts[a]
		about, known := in.About[id]
		if !known {
			return fault("the results do not say what the run times as found rest on, so it is not known whether these bills are among it",
				"keep accounts.parquet and bills.parquet beside the results")
		}
		if about.AsFound != portfolio.FromBills {
			continue
		}
		scaled++
		if in.Uses == nil || in.Uses.Unknown[id] || len(in.Uses.Days[id]) == 0 {
			unknown++
			example = id
			continue
		}
		for _, d := range in.Uses.Days[id] {
			if d.From <= bills.To && d.To >= bills.From {
				overlap++
				example, span = id, fmt.Sprintf("%v to %v", d.From, d.To)
				break
			}
		}
	}
	switch {
	case overlap > 0:
		return fault(fmt.Sprintf("the run times of %d of %d ranked accounts are scaled to use of the same days as these bills (account %q: "+
			"%s): %s", overlap,
			len(r.Order), example, span, why), fmt.Sprintf("rank on other years, such as those before the outdoor_use of the "+
			"accounts; rank_years is %v",
			e.Plan.Bills.Early))
	case unknown > 0:
		return fault(fmt.Sprintf("of %d of %d ranked accounts it is not stated when the outdoor use was metered to which their run times are "+
			"scaled "+
			"(account %q); were it the days of these bills, %s", unknown, len(r.Order), example, why),
			"add the columns use_from and use_to to the accounts, or as_found: {use_from: 2022-01-01, use_to: 2023-12-31} to the program; "+
				"outdoor_use_2022 says it itself. Then replay again")
	}
	e.scaled = scaled
	return nil
}

// rankedOn says in a few words what a ranking rests on: it stands wherever a ranking is used.
func (e *Evaluation) rankedOn() string {
	if e.metered == nil {
		return "ranked on simulated bills"
	}
	return fmt.Sprintf("ranked on metered bills of %v to %v", e.metered.First, e.metered.Last)
}

// meteredWords says what the metered bills are, and what they lack.
func (e *Evaluation) meteredWords() string {
	r := e.metered
	what := "the volume of the whole meter"
	if r.Outdoor {
		what = "the volume without the use indoors"
	}
	accounts := func(n int) string { return quantity.Count(n, "account", "accounts") }
	text := fmt.Sprintf("Accounts are ranked on metered bills of %v to %v, %s, by %s, and scored on %v.", r.First, r.Last, what,
		e.rankBy(), e.Plan.Bills.Late)
	text += fmt.Sprintf(" Ranked: %d of %s. Not ranked: %d without such a bill, %d with bills of under %s of the days. In the bills, "+
		"without a "+
		"result: %s.", len(r.Order), accounts(len(e.Input.Table.Accounts)), r.Without, r.Short, percent(portfolio.LeastCovered),
		accounts(r.Unknown))
	if r.Times > 0 { // NaN if nobody waters
		text += fmt.Sprintf(" The median bill is %s times what the replay uses as found.", plots.Fixed(r.Times, 1))
	}
	if r.Estimated > 0 {
		text += fmt.Sprintf(" Estimated reads: %s of the days, at %s.", percent(r.EstimatedDays), accounts(r.Estimated))
	}
	if e.scaled > 0 {
		text += fmt.Sprintf(" Run times scaled to use of other days: %s.", accounts(e.scaled))
	}
	if n := r.Outside - r.After; n > 0 {
		text += fmt.Sprintf(" Not used: %s of other days.", quantity.Count(n, "bill", "bills"))
	}
	if r.After > 0 {
		text += fmt.Sprintf(" Not used: %s since %d, when the measures begin; loamledger meter compares the use of a site before and after a "+
			"change.", quantity.Count(r.After, "bill", "bills"), e.Plan.FirstYear)
	}
	return text
}

// rankBy says by what accounts are ranked.
func (e *Evaluation) rankBy() string {
	return [...]string{portfolio.ByBill: "the volume billed", portfolio.ByExcess: "the volume billed beyond the requirement",
		portfolio.ByRatio: "the volume billed divided by the requirement"}[e.Plan.Bills.By]
}
