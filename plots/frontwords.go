package plots

import (
	"fmt"
	"slices"

	"loamledger/sim"
	"loamledger/sim/tally"
	"loamledger/weather/quantity"
)

// theNumbers is the title of the section with every measure.
const theNumbers = "The numbers in full"

// frontNotes explains the columns of the options, and the averages that the
// verdict may refer to.
func (s *Study) frontNotes(f *Facts, v verdict, at int) []Item {
	basis := s.Table.Basis()
	notes := []Item{{"", s.baselineNote(f)}}
	figures := basis.Figures(tally.FrontFigures(s.measures()))
	for i := range figures {
		m := figures[i].Measure
		if one := (Item{m.PlainName, m.Plain}); m.Plain != "" && !slices.Contains(notes, one) {
			notes = append(notes, one)
		}
	}
	if len(s.Table.Zones) > 1 {
		notes = append(notes, Item{"Days", "averages over the site, by area; those of a zone that is named are its own."})
	}
	if s.own() > maxCompanions {
		notes = append(notes, Item{"Other days", s.companionNote(&basis)})
	}
	if text := s.ruleNote(f); text != "" {
		notes = append(notes, Item{"Rule", text})
	}
	year := basis.Sentence() + " There is no typical or dry year."
	if ranked := s.Table.RankYears(); len(ranked.Years) > 0 {
		year = fmt.Sprintf("the typical year is %s, the dry year %s (%s).", ranked.Name(ranked.Median), ranked.Name(ranked.Dry),
			dryMeaning(len(ranked.Years)))
		if basis.Days < basis.All || basis.South {
			year = lowerFirst(basis.Sentence()) + " " + quantity.Capital(year)
		}
	}
	average := ""
	if v != nothingToCompare && v != notReady && s.thirst(s.Table.Compare(), at).when == s.onAverage() { // the answer says so
		average = s.averageNote(at)
	}
	reason := ""
	if s.own() <= maxReasons { // else there is no room, and the dry years of later pages explain it
		reason = s.typicalReason()
	}
	notes = append(notes, Item{"Years", sentences(year, reason, average)})
	for i := range notes {
		notes[i].Text = punctuated(notes[i].Text)
	}
	return notes
}

// averageNote compares the thirsty days of strategy at with those of the baseline.
func (s *Study) averageNote(at int) string {
	basis := s.Table.Basis()
	over := "On average over all whole years"
	if !basis.Yearly() {
		over = "In " + basis.Span()
	}
	now, then := quote(s.Table.Strategies[s.base()]), quote(s.Table.Strategies[at])
	text := fmt.Sprintf("%s, %s has %s thirsty days and %s has %s", over, then, fixed(s.stressPerYear(at), 0), now,
		fixed(s.stressPerYear(s.base()), 0))
	if basis.Yearly() {
		text += " a year"
	}
	return text + "."
}

// aboutLine says what strategy st does and what it needs beyond the equipment of
// the baseline; empty if that is not known.
func (s *Study) aboutLine(f *Facts, st int) string {
	about := f.about(st)
	if about.Text == "" {
		return ""
	}
	text := quantity.Capital(about.Text) + "."
	changes := changesOf(f.Trials, st)
	if changes != nil { // new sprinklers or plants are not "no new equipment"
		text += " Changes: " + changes.named() + "."
		if cost := changes.CostText(); cost != "" {
			text += " " + cost
		}
	}
	switch {
	case st == s.base():
		return text
	case about.Needs != "":
		return text + " New equipment: " + about.Needs + "."
	case changes == nil:
		return text + " No new equipment."
	}
	return text
}

// baselineNote names the baseline and says how it was chosen.
func (s *Study) baselineNote(f *Facts) string {
	text := "Change is relative to " + quote(s.Table.Strategies[s.base()]) + ", the baseline"
	if !f.BaselineNamed && s.own() > 1 {
		text += " because it is the first strategy; the scenario names none"
	}
	return text + ". Numbers are rounded."
}

// enterStep is the place of the step that enters the settings.
const enterStep = 2

// steps lists what to do next; measured says that there is a measurement to make, alarmed
// that something is implausible.
func (s *Study) steps(f *Facts, v verdict, at int, measured, alarmed bool) []string {
	again := s.wording(" Then have whoever prepared this report compare again.", " Then enter it here and look at the cards again.")
	check := ""
	if alarmed {
		check = "Settle the points under “" + PleaseCheck + ".”"
	}
	improve := "Measure what is not given, the largest zones first."
	if measured {
		improve = "Take the measurement under “Measure first.”"
	}
	improve = sentences(check, improve) + again
	if alarmed && measured {
		improve = "Settle “" + PleaseCheck + "” and take the measurement under “Measure first.”" + again
	}
	const ask = "Ask your water provider which watering days, hours, and drought stages apply now."
	if v == notReady { // nothing to change yet
		keep := s.keepBase(f) + " Do not enter any of the options yet. " +
			quantity.Capital(s.wording("ask whoever prepared this report to ", "")+s.tryWords())
		return []string{punctuated(keep), improve, ask}
	}
	enter := "have whoever programs the controller enter the settings for " + quote(s.Table.Strategies[at]) + "."
	about := f.about(at)
	if about.Needs != "" {
		enter += " New equipment: " + about.Needs + "; ask whether yours can do this."
	}
	if about.Sheet {
		enter += s.wording(" A settings sheet lists the values.", " “Settings to enter” on its card has the values.")
	}
	if c := changesOf(f.Trials, at); c != nil {
		enter = lowerFirst(c.makeChanges()) + " Then: " + enter
	}
	switch v {
	case saves:
		enter = "Read the water meter. Then " + enter
	case tradeOff:
		enter = "Decide whether the extra thirst is acceptable. If so, read the water meter, then " + enter
	case nothingToCompare:
		enter = "Have whoever prepared this report add other options and compare again."
	default:
		enter = s.keepBase(f) + " No option here clearly saves water."
	}
	steps := []string{
		improve,
		ask,
		punctuated(enter),
		"Change in steps, two weeks apart. Watch the plants, the driest spots first.",
		"Read the meter again, and compare periods of similar weather. Only the meter can show real savings.",
	}
	if v != saves && v != tradeOff {
		return steps[:enterStep+1]
	}
	return steps
}

// onController compares how often and how long zones run under the
// baseline and under strategy at; empty if there is nothing to compare.
func (s *Study) onController(at int) string {
	type runs struct{ days, minutes float64 }
	of := func(st int) runs {
		days := s.mean(st, func(x *sim.Sums) float64 { return float64(x.WateringDays) })
		return runs{days / s.years(), s.mean(st, func(x *sim.Sums) float64 { return x.Minutes }) / days}
	}
	now, then := of(s.base()), of(at)
	if at == s.base() || !(now.days > 0) || !(then.days > 0) {
		return ""
	}
	return fmt.Sprintf("%s waters a zone on %s days %s, %s minutes at a time; %s on %s days, %s minutes (averages by area)",
		quote(s.Table.Strategies[at]), fixed(then.days, 0), s.per(), fixed(then.minutes, 0),
		quote(s.Table.Strategies[s.base()]), fixed(now.days, 0), fixed(now.minutes, 0))
}
