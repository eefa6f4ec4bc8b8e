package evaluate

import (
	"fmt"
	"math"
	"strings"

	"loamledger/plots"
	"loamledger/sim/portfolio"
	"loamledger/sim/program"
	"loamledger/weather/quantity"
)

// Caution is the sentence that every output has: what the bounds leave out.
const Caution = "All savings are estimates made before any change, from two replays of each account. The bounds cover the choice of " +
	"accounts and the ranges of the costs file; what all accounts have in common, such as the error of plant coefficients and of " +
	"reference ET, is not in them."

// AssumedWords says how the run times as found are known.
func (e *Evaluation) AssumedWords() string {
	a := &e.Assumed
	var parts []string
	if a.drawn > 0 {
		parts = append(
			parts,
			fmt.Sprintf("For %s of %s the run times as found were drawn, not observed: the distribution of savings is assumed "+
				"there.", quantity.Thousands(fmt.Sprint(a.drawn)), quantity.Count(a.accounts, "account", "accounts")),
		)
	}
	if a.unknown > 0 {
		parts = append(
			parts,
			fmt.Sprintf("For %s of %s the results do not say where the run times as found are from: treat the distribution of "+
				"savings as assumed.", quantity.Thousands(fmt.Sprint(a.unknown)), quantity.Count(a.accounts, "account", "accounts")),
		)
	}
	if len(parts) == 0 {
		parts = append(parts, fmt.Sprintf("Run times as found: %d accounts scaled to their bills, %d given.", a.bills, a.given))
	}
	if a.extreme > 0 {
		parts = append(parts, fmt.Sprintf("Run times of %s are under a fifth or over five times those of the program: check units, use and area.",
			quantity.Count(a.extreme, "account", "accounts")))
	}
	if a.imputed > 0 {
		parts = append(parts, fmt.Sprintf("On average %s of an account’s values were not given and were filled in.", percent(a.imputed)))
	}
	return strings.Join(parts, " ")
}

// dominantShare is the share of one account in the use of all from which sums rest on it. No source: a choice.
const dominantShare = 0.1

// DominanceWords says that sums rest on one account; empty if they do not. It is an outlier or a slip of the pen more often than a
// customer.
func (e *Evaluation) DominanceWords() string {
	t := e.Input.Table
	if float64(len(t.Accounts))*dominantShare < 2 { // every account has a large share of few
		return ""
	}
	var under []string
	for m, name := range t.Measures {
		if t.Largest(m) > dominantShare {
			under = append(under, quoted(name))
		}
	}
	if len(under) == 0 {
		return ""
	}
	return fmt.Sprintf("One account has over %s of the water of all accounts under %s: check its area and its alarms in accounts.parquet "+
		"before any sum "+
		"or mean here is used.", percent(dominantShare), strings.Join(under, ", "))
}

// BillWords says what the ranking is based on; empty without targets.
func (e *Evaluation) BillWords() string {
	b := &e.Plan.Bills
	if !b.Asked() {
		return ""
	}
	text := ""
	if e.metered != nil {
		text = e.meteredWords()
	} else {
		text = fmt.Sprintf("The bills are simulated, with an error of %s a year (one standard deviation). Accounts are ranked by %s in %v and "+
			"scored on %v.", percent(b.Error), e.rankBy(), b.Early, b.Late)
	}
	if b.By != portfolio.ByBill {
		text += fmt.Sprintf(" The utility knows the irrigated area to %s.", percent(b.AreaError))
	}
	return text
}

// RuleWords states the rule.
const RuleWords = "Renew if even the high 90% bound of the net levelized cost (the saving is then at its low bound) is below the " +
	"avoided cost, and the total resource ratio is 1 or more with every number in the middle. Otherwise retarget to the smallest group " +
	"for which that holds. If there is none, stop. Source: our choice."

// harmedShare is the share of accounts with more stress from which a verdict says so. No
// source: a choice.
const harmedShare = 0.1

// mostOfOne is the share of one account in the changes of use of all from which a verdict says
// so: it rests on that account. No source: a choice.
const mostOfOne = 0.5

// harmful reports whether many accounts get clearly more stress days: the rule looks at
// money alone.
func (j *Judged) harmful() bool { return j.stats.Stressed > harmedShare }

// headline states the verdict on one measure in a short sentence.
func (e *Evaluation) headline(j *Judged) string {
	if j.costs == nil {
		return quoted(j.name) + ": no costs given, so there is no verdict."
	}
	d, name := &j.decision, quoted(j.name)
	text := "Renew " + name + " for all accounts."
	switch d.Verdict {
	case program.Retarget:
		text = fmt.Sprintf("Retarget %s to the first %s of the accounts %s.", name, percent(d.Smallest.Share), e.rankedOn())
		if d.Largest.Share > d.Smallest.Share {
			text += fmt.Sprintf(" The largest group for which the rule holds is the first %s.", percent(d.Largest.Share))
		}
	case program.Stop:
		text = fmt.Sprintf("Stop %s: the rule holds for no group of the accounts %s.", name, e.rankedOn())
	case program.Untested:
		text = fmt.Sprintf("Do not renew %s as is. Without targets in the costs file, no smaller group was tried.", name)
	}
	if -j.stats.Change > plots.SavingMost {
		text += fmt.Sprintf(" Implausible: %s less water, where screened sites saved 15%% to 45%% in published studies; "+
			"check what accounts really apply.", percent(-j.stats.Change))
	}
	if j.stats.Largest > mostOfOne {
		text += fmt.Sprintf(" Check the accounts: one alone has %s of all changes in use, so means and costs depend on it; a wrong area or "+
			"unit can be the cause.", percent(j.stats.Largest))
	}
	if j.harmful() {
		text += fmt.Sprintf(
			" Caution: %s of the accounts would get over %g more stress days a year, so part of the saving is plants short of water.",
			percent(j.stats.Stressed), portfolio.MoreStress)
	}
	if d.Loose != d.Verdict {
		text += " " + bothBounds(d)
	}
	return text
}

// bothBounds states the verdict by either bound of the cost. The high bound decides: it protects those who pay the rates from a
// program that costs more than the water it replaces.
func bothBounds(d *program.Decision) string {
	if d.Loose == d.Verdict {
		return fmt.Sprintf("The rule says %s, whether it takes the high bound of the cost, which protects those who pay the rates, or the "+
			"low one.", verdictWord(d.Verdict))
	}
	return fmt.Sprintf("Too close to call: with the high bound of the cost the rule says %s, with the low bound it would say %s. The high "+
		"bound decides, because it protects those who pay the rates.", verdictWord(d.Verdict), verdictWord(d.Loose))
}

// grounds has the numbers behind a verdict; empty without costs.
func (e *Evaluation) grounds(j *Judged) string {
	if j.costs == nil {
		return ""
	}
	numbers := func(g *program.Group) string {
		cost := "net levelized cost " + e.perAF(g.Mid.Levelized())
		if math.IsInf(g.Mid.Levelized(), 1) {
			cost = "no net saving, so its cost has no limit"
		}
		return fmt.Sprintf("%s (90%% bounds %s to %s) against an avoided cost of %s, total resource ratio %s",
			cost, e.bareAF(g.LevelizedAll.Low), e.bareAF(g.LevelizedAll.High), e.perAF(g.Mid.AvoidedPerM3),
			ratioText(g.Mid.Tests[program.TotalResource].Ratio()))
	}
	text := ""
	if j.decision.Loose == j.decision.Verdict {
		text = bothBounds(&j.decision) + " "
	}
	text += fmt.Sprintf("All accounts: %s; both pass in %s of the draws.", numbers(&j.all), percent(j.all.Chance))
	if g := j.decision.Smallest; g != nil {
		text += fmt.Sprintf(" The first %s of those "+e.rankedOn()+": %s; both pass in %s of the draws.", percent(g.Share), numbers(g),
			percent(g.Chance))
	}
	return text
}

// VerdictWords states the verdict on one measure with its numbers.
func (e *Evaluation) VerdictWords(j *Judged) string {
	return strings.TrimSpace(e.headline(j) + " " + e.grounds(j))
}

// verdictWord is a verdict in a word or two.
func verdictWord(v program.Verdict) string {
	return [...]string{"renew", "retarget", "stop", "do not renew as is"}[v]
}

// perAF writes a cost of water: per acre-foot, or per 1,000 m³ in SI.
func (e *Evaluation) perAF(perM3 float64) string {
	if math.IsInf(perM3, 1) {
		return "no saving"
	}
	if e.Plan.Units == plots.SI {
		return plots.Rounded(1000*perM3) + " " + e.Plan.Currency + "/1,000 m³"
	}
	return plots.Rounded(perM3*volumeOf("AF")) + " " + e.Plan.Currency + "/AF"
}

// bareAF is perAF without the unit.
func (e *Evaluation) bareAF(perM3 float64) string {
	number, _, _ := strings.Cut(e.perAF(perM3), " ")
	if math.IsInf(perM3, 1) {
		return "no saving"
	}
	return number
}

// volumeOf returns the m³ in a unit.
func volumeOf(name string) float64 {
	u, _ := quantity.Find(name, quantity.Volume)
	return u.Num / u.Den
}

// percent writes a share. Only all of something is 100%.
func percent(share float64) string {
	if math.IsNaN(share) {
		return "–"
	}
	switch p := 100 * share; {
	case p != math.Round(p) && math.Abs(p) < 10:
		return plots.Fixed(p, 1) + "%"
	case p >= 99.5 && p < 100: // not all
		return plots.Fixed(min(p, 99.9), 1) + "%"
	}
	return plots.Fixed(100*share, 0) + "%"
}

// quoted puts a name in quotation marks.
func quoted(name string) string { return "“" + name + "”" }

func ratioText(v float64) string { return plots.Fixed(v, 2) }
