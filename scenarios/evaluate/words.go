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
	if a.Drawn > 0 {
		parts = append(parts, fmt.Sprintf("For %s of %s the run times as found were drawn, not observed: the distribution of savings is assumed "+
			"there.", quantity.Thousands(fmt.Sprint(a.Drawn)), quantity.Count(a.Accounts, "account", "accounts")))
	}
	if a.Unknown > 0 {
		parts = append(parts, fmt.Sprintf("For %s of %s the results do not say where the run times as found are from: treat the distribution of "+
			"savings as assumed.", quantity.Thousands(fmt.Sprint(a.Unknown)), quantity.Count(a.Accounts, "account", "accounts")))
	}
	if len(parts) == 0 {
		parts = append(parts, fmt.Sprintf("Run times as found: %d accounts scaled to their bills, %d given.", a.Bills, a.Given))
	}
	if a.Imputed > 0 {
		parts = append(parts, fmt.Sprintf("On average %s of an account’s values were not given and were filled in.", percent(a.Imputed)))
	}
	return strings.Join(parts, " ")
}

// BillWords says what the ranking is based on; empty without targets.
func (e *Evaluation) BillWords() string {
	b := &e.Plan.Bills
	if !b.Asked() {
		return ""
	}
	by := map[portfolio.RankBy]string{portfolio.ByBill: "the volume billed", portfolio.ByExcess: "the volume billed beyond the requirement",
		portfolio.ByRatio: "the volume billed divided by the requirement"}[b.By]
	text := fmt.Sprintf("The bills are simulated, with an error of %s a year (one standard deviation). Accounts are ranked by %s in %v and "+
		"scored on %v.", percent(b.Error), by, b.Early, b.Late)
	if b.By != portfolio.ByBill {
		text += fmt.Sprintf(" The utility knows the irrigated area to %s.", percent(b.AreaError))
	}
	return text
}

// RuleWords states the rule.
const RuleWords = "Renew if even the high 90% bound of the net levelized cost, that of the low bound of the saving, is below the avoided " +
	"cost and the total resource ratio is 1 or more with every number in the middle. Otherwise retarget to the smallest group for which " +
	"that holds. If there is none, stop. Source: our choice."

// VerdictWords states the verdict on one measure in a sentence.
func (e *Evaluation) VerdictWords(j *Judged) string {
	if j.Costs == nil {
		return j.Name + ": no costs given, so there is no verdict."
	}
	d := &j.Decision
	cost := fmt.Sprintf("net levelized cost %s (90%% bounds %s to %s) against an avoided cost of %s", e.perAF(j.All.Mid.Levelized()),
		e.perAF(j.All.LevelizedAll.Low), e.perAF(j.All.LevelizedAll.High), e.perAF(j.All.Mid.AvoidedPerM3))
	ratio := fmt.Sprintf("total resource ratio %s", ratioText(j.All.Mid.Tests[program.TotalResource].Ratio()))
	var text string
	switch d.Verdict {
	case program.Renew:
		text = fmt.Sprintf("Renew %s: %s; %s.", j.Name, cost, ratio)
	case program.Retarget:
		text = fmt.Sprintf("Retarget %s to the first %s of the ranking. For all accounts: %s; %s.", j.Name, percent(d.Smallest.Share), cost, ratio)
		if d.Largest.Share > d.Smallest.Share {
			text += fmt.Sprintf(" The rule holds up to the first %s.", percent(d.Largest.Share))
		}
	case program.Stop:
		text = fmt.Sprintf("Stop %s: %s; %s. The rule holds for no group of the ranking.", j.Name, cost, ratio)
	default:
		text = fmt.Sprintf("Do not renew %s as is: %s; %s. Without targets in the costs file, no smaller group was tried.", j.Name, cost, ratio)
	}
	text += fmt.Sprintf(" In %s of the draws it pays for all accounts.", percent(j.All.Chance))
	if d.Loose != d.Verdict {
		text += " Too close to call: by the low bound of the cost the rule would say " + VerdictWord(d.Loose) + "."
	}
	return text
}

// VerdictWord is a verdict in a word or two.
func VerdictWord(v program.Verdict) string {
	return [...]string{"renew", "retarget", "stop", "do not renew as is"}[v]
}

// money writes an amount to three digits with its currency.
func (e *Evaluation) money(v float64) string {
	if math.IsInf(v, 1) {
		return "no saving"
	}
	return plots.Rounded(v) + " " + e.Plan.Currency
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

// volumeOf returns the m³ in a unit.
func volumeOf(name string) float64 {
	u, _ := quantity.Find(name, quantity.Volume)
	return u.Num / u.Den
}

func percent(share float64) string {
	if math.IsNaN(share) {
		return "–"
	}
	if p := 100 * share; p != math.Round(p) && math.Abs(p) < 10 {
		return plots.Fixed(p, 1) + "%"
	}
	return plots.Fixed(100*share, 0) + "%"
}

func ratioText(v float64) string { return plots.Fixed(v, 2) }
