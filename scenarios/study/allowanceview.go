package study

import (
	"fmt"
	"strings"

	"loamledger/plots"
	"loamledger/sim/tally"
	"loamledger/weather/quantity"
)

// ruleText writes the rule of the allowance.
func (a *allowed) ruleText(l *Study) string {
	own, r := l.Scenario.Allowance, a.rule
	sys := l.Scenario.Units
	depth := "ETo"
	if r.RainShare > 0 {
		depth = "(ETo − " + quantity.Format(r.RainShare, quantity.Fraction, sys) + " of rain)"
	}
	area := func(m2 float64) string { return quantity.Format(m2, quantity.Area, sys) }
	text := fmt.Sprintf("%s × %s × %s", depth, quantity.Format(r.Factor, quantity.Fraction, sys), area(r.AreaM2-r.SpecialM2))
	if r.SpecialM2 > 0 {
		text += fmt.Sprintf(" + %s × %s × %s", depth, quantity.Format(r.Special, quantity.Fraction, sys), area(r.SpecialM2))
	}
	if r.Conversion > 0 {
		text += fmt.Sprintf(", at %s gal per inch and square foot", quantity.Number(r.Conversion, 4))
	}
	switch {
	case own.EToMM != nil:
		text += "; ETo of each month as given"
	case own.MeanETo:
		text += "; ETo of each month is the record's mean"
	default:
		text += "; ETo of each month of the record"
	}
	if r.ByMonth {
		return text + "; no month may use more"
	}
	return text + "; the year counts"
}

// allowanceHead says what the allowance is.
func (l *Study) allowanceHead(a *allowed) string {
	text := "Allowance: " + a.ruleText(l) + "."
	if form := l.Scenario.Allowance.Form; form != "" {
		text = "Allowance, " + form + ": " + a.ruleText(l) + "."
	}
	return text
}

// allowanceNotes explain the table.
func (l *Study) allowanceNotes() []string {
	return []string{"The allowance limits no strategy: it shows which of them stay within the rule. Use is the water through the " +
		"sprinklers, without use indoors. Ask your water provider for the rule in force."}
}

// allowanceRows compares the strategies with the allowance.
func (l *Study) allowanceRows(a *allowed) plainTable {
	unit := quantity.Label(quantity.Volume, l.Scenario.Units)
	t := a.table
	out := plainTable{head: []string{"strategy", "water used [" + unit + "] " + a.basis.Words(), "allowed [" + unit + "]", "share used"}}
	if a.rule.ByMonth {
		out.head = append(out.head, "months over "+a.basis.Words())
	}
	ranked := t.RankYears()
	if a.basis.Yearly() {
		out.head = append(out.head, "years within", "median year", "dry year")
	} else {
		out.head = append(out.head, "within")
	}
	volume := func(m3 float64) string { return volumeText(m3, l.Scenario.Units) }
	for s := range a.months {
		k := a.kept(s)
		row := plainRow{t.Strategies[s], []string{volume(k.useM3), volume(k.allowedM3), fmt.Sprintf("%.0f%%", 100*k.share())}}
		if a.rule.ByMonth {
			row.cells = append(row.cells, fmt.Sprintf("%.1f", k.over))
		}
		if a.basis.Yearly() {
			row.cells = append(row.cells, fmt.Sprintf("%d of %d", k.within, k.years), a.yearText(s, ranked.Median), a.yearText(s, ranked.Dry))
		} else {
			row.cells = append(row.cells, yesNo(k.within > 0))
		}
		out.rows = append(out.rows, row)
	}
	return out
}

// yearText says whether strategy s stays within the allowance in a year, 0 for none.
func (a *allowed) yearText(s, year int) string {
	if year == 0 {
		return "–"
	}
	t := a.year(s, year)
	text := yesNo(t.Within)
	if a.rule.ByMonth || t.AllowedM3 == 0 {
		return text
	}
	return fmt.Sprintf("%s, %.0f%%", text, 100*t.UseM3/t.AllowedM3)
}

// AllowanceViews shows which strategies stay within the allowance; none without one.
func (l *Study) AllowanceViews(t *tally.Table) []View {
	a := l.allowed(t)
	if a == nil {
		return nil
	}
	rows := l.allowanceRows(a)
	return []View{{Head: []string{"", l.allowanceHead(a), ""}, Grid: rows.grid(), Notes: l.allowanceNotes()}}
}

// allowancePart is the report's section on the allowance; nil without one.
func (l *Study) allowancePart(t *tally.Table) *plots.TextPart {
	a := l.allowed(t)
	if a == nil {
		return nil
	}
	rows := l.allowanceRows(a)
	return &plots.TextPart{Lead: l.allowanceHead(a), Notes: l.allowanceNotes(), Tables: []plots.Table{rows.page()}}
}

// allowanceFact says in a sentence how the baseline keeps to the allowance; empty
// without one.
func (l *Study) allowanceFact(t *tally.Table) string {
	a := l.allowed(t)
	if a == nil {
		return ""
	}
	k := a.kept(t.Baseline)
	text := fmt.Sprintf("“%s” uses %.0f%% of what is allowed %s", t.Strategies[t.Baseline], 100*k.share(), a.basis.Words())
	if a.rule.ByMonth && k.over > 0 {
		text += fmt.Sprintf(", but more than a month’s share in about %.0f months of it", max(k.over, 1))
	}
	var within []string
	for s := range a.months {
		if k := a.kept(s); k.within == k.years {
			within = append(within, "“"+t.Strategies[s]+"”")
		}
	}
	every := "in every year: "
	if !a.basis.Yearly() {
		every = ""
	}
	switch {
	case len(within) == 0:
		return text + "; no option stays within it in every year."
	case len(within) == len(a.months):
		return text + "; every option stays within it in every year."
	}
	return text + "; within it " + every + strings.Join(within, ", ") + "."
}
