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
func (s *Study) frontNotes(f *Facts, v verdict, at int) []string {
	basis := s.Table.Basis()
	notes := []string{s.baselineNote(f)}
	figures := basis.Figures(tally.FrontFigures(s.measures()))
	for i := range figures {
		if text := figures[i].Measure.Plain; text != "" && !slices.Contains(notes, text) {
			notes = append(notes, text)
		}
	}
	if text := s.besideNote(figures); text != "" {
		notes = append(notes, text)
	}
	if len(s.Table.Zones) > 1 {
		notes = append(notes, "Days are area-weighted means over zones; a zone that is named has its own days.")
	}
	if text := s.ruleNote(f.Legal != ""); text != "" {
		notes = append(notes, text)
	}
	year := basis.Sentence() + " There is no typical or dry year."
	if ranked := s.Table.RankYears(); len(ranked.Years) > 0 {
		year = fmt.Sprintf("The typical year is %s, the dry year %s (%s).", ranked.Name(ranked.Median), ranked.Name(ranked.Dry),
			dryMeaning(len(ranked.Years)))
		if basis.Days < basis.All || basis.South {
			year = basis.Sentence() + " " + year
		}
	}
	notes = append(notes, year)
	if v != nothingToCompare && v != notReady {
		notes = append(notes, s.averageNote(at))
	}
	if text := MedianAboveDry(s.Table, s.Units); text != "" {
		notes = append(notes, "See "+theNumbers+" for why the typical year can be worse than the dry one.")
	}
	if f.Legal != "" && len(f.LeftOut) > 0 && slices.Max(f.LeftOut) > 0 {
		notes = append(notes, "Only as cut: the limits shorten or drop some of its runs, and the figures count it that way.")
	}
	for i := range notes {
		notes[i] = punctuated(notes[i])
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
	text += fmt.Sprintf(". Differences in water under %s are too small to rely on.", percent(tooClose))
	return text
}

// steps lists what to do next; measured says that there is a measurement to make, alarmed
// that something is implausible.
func (s *Study) steps(f *Facts, v verdict, at int, measured, alarmed bool) []string {
	enter := "Have whoever programs the controller enter the settings for " + quote(s.Table.Strategies[at]) + "."
	about := f.about(at)
	if about.Needs != "" {
		enter += " New equipment: " + about.Needs + "; ask whether yours can do this."
	}
	if about.Sheet {
		enter += " A settings sheet lists the values."
	}
	if c := changesOf(f.Trials, at); c != nil {
		enter = c.makeChanges() + " Then: " + lowerFirst(enter)
	}
	switch v {
	case saves:
	case tradeOff:
		enter = "Decide whether the extra thirst is acceptable. If so: " + lowerFirst(enter)
	case nothingToCompare:
		enter = "Add other options to the scenario and compare again."
	case notReady:
		enter = s.keepBase() + " Do not enter any of the options yet. " + s.whatToTry() + " Then run the replay again."
		if n := s.Next; n != nil {
			enter = s.keepBase() + " Do not enter any option as is. Add " + quote(s.Table.Strategies[n.Strategy]) +
				" with the run times named above to the scenario file, and run the replay again."
		}
	default:
		enter = s.keepBase() + " No option here clearly saves water."
	}
	steps := []string{
		"Take the measurement under “Measure this first,” enter it in the scenario file, and run the replay again.",
		"Ask your water provider which watering days, hours, and drought stages apply now.",
		punctuated(enter),
		"Change in steps, two weeks apart. Watch the plants, the driest spots first.",
		"Read the water meter before and after, and compare periods of similar weather. Only the meter can show real savings.",
	}
	if !measured {
		steps[0] = "Replace default values with measurements in the scenario file, and run the replay again."
	}
	if alarmed && !measured {
		steps[0] = "Check what is listed as implausible, replace default values with measurements, and run the replay again."
	} else if alarmed {
		steps[0] = "Check what is listed as implausible. Take the measurement under “Measure this first,” and run the replay again."
	}
	if v == notReady { // nothing to change yet
		steps = steps[:3]
	}
	return steps
}

// frontFacts lists what a reader without any background asks; unknown facts are
// omitted.
func (s *Study) frontFacts(f *Facts, at int) []Item {
	legal := "not checked: the scenario has no local rules. Ask your water provider."
	if f.Legal != "" {
		legal = "checked against the limits in the scenario only, see " + theNumbers + ". Ask your water provider for those in force."
	}
	return known([]Item{
		{"Water meter", f.Meter},
		{"On the controller", punctuated(orElse(f.Changes, s.onController(at)))},
		{"Controllers and meters", punctuated(f.DeviceFact)},
		{"Money", orElse(f.Cost, "no water rates given, so no bills are shown")},
		{"Allowance", punctuated(f.Within)},
		{"Who acts next", orElse(f.Act, "whoever programs the controller, after asking your water provider")},
		{"Watering rules", legal},
	})
}

// technicalFacts lists what an irrigation professional asks first; unknown facts
// are omitted.
func (r *Report) technicalFacts(s *Study, f *Facts) []Item {
	inputs := count(r.NotGiven, "default", "defaults") + " used, see Defaults"
	if r.FilledShare != "" {
		inputs += "; weather: " + r.FilledShare
	}
	return known([]Item{
		{"Inputs", inputs},
		{"Start", f.Start},
		{"Meters", punctuated(f.MeterFact)},
		{"Reference ET", joined(f.YearETo, f.OtherETo)},
		{"Plant coefficients", f.KSets},
		{"Design ETo", s.designShort(f.Design)},
		{"Plant marks", s.marksShort(f.Marks)},
		{"This run", r.Run()},
	})
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
	return fmt.Sprintf("%s waters a zone on %s days %s, %s minutes at a time; %s on %s days, %s minutes (averages, weighted by zone area)",
		quote(s.Table.Strategies[at]), fixed(then.days, 0), s.per(), fixed(then.minutes, 0),
		quote(s.Table.Strategies[s.base()]), fixed(now.days, 0), fixed(now.minutes, 0))
}
