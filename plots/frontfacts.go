package plots

import (
	"slices"
	"strings"
)

// The sections that a fact of the first page may refer to, beside those in sections.go.
const (
	moneyID     = "money"
	allowanceID = "allowance"
	devicesID   = "devices"
)

// frontFacts lists what a reader without any background asks; unknown facts are
// omitted.
func (r *Report) frontFacts(s *Study, f *Facts, v verdict, at int) []FrontFact {
	legal := FrontFact{Term: "Watering rules", Text: "not checked: none are given. Ask your water provider."}
	if f.Legal != "" {
		legal.Text, legal.See = "checked against those given only. Ask your water provider for those in force.", NumbersID
	}
	money := FrontFact{Term: "Money", Text: "no water rates given, so no bills are shown."}
	if f.Cost != "" {
		money.Text, money.See = punctuated(f.Cost), moneyID
	}
	inputs := FrontFact{Term: "Not given", Text: "nothing: every input was given."}
	if r.NotGiven > 0 {
		inputs.Text, inputs.See = count(r.NotGiven, "input", "inputs")+"; general values are used for them.", DefaultsID
	}
	meter := FrontFact{Term: "Water meter", Text: f.Meter}
	if f.Tested != "" {
		meter.Text, meter.See = joined(strings.TrimSuffix(f.Meter, "."), punctuated(f.Tested)), MetersID
	}
	return knownFacts([]FrontFact{
		meter,
		{Term: "On the controller", Text: punctuated(orElse(f.Changes, s.onController(at)))},
		{Term: "Controllers and meters", Text: punctuated(f.DeviceFact), See: devicesID},
		money,
		{Term: "Allowance", Text: punctuated(f.Within), See: allowanceID},
		{Term: "Measured saving", Text: punctuated(f.Verified), See: MetersID},
		inputs,
		{Term: "Who acts next", Text: orElse(f.Act, whoActs(v)+" By when (fill in): __________.")},
		legal,
	})
}

// whoActs names who acts next if the scenario does not.
func whoActs(v verdict) string {
	if v == notReady {
		return "whoever prepared this report; nobody enters an option yet."
	}
	return "whoever programs the controller, after asking your water provider."
}

// technicalFacts lists what an irrigation professional asks first; unknown facts
// are omitted.
func (r *Report) technicalFacts(s *Study, f *Facts, v verdict) []FrontFact {
	tune := ""
	if v == notReady && s.Next == nil && s.short() {
		tune = "loamledger tune searches for run times that meet the rule"
	}
	marks := s.marksShort(f.Marks)
	if s.marksFlip(f.Marks) { // the sentences above the table say it
		marks = ""
	}
	sets := f.KSets
	if s.own() > maxReasons { // no room: the defaults and the inputs of the zones have them
		sets = ""
	}
	return knownFacts([]FrontFact{
		{Term: "For whoever runs the program", Text: tune},
		{Term: "Weather", Text: r.FilledShare, See: WeatherID},
		{Term: "Meters", Text: punctuated(f.MeterFact), See: MetersID},
		{Term: "Reference ET", Text: joined(f.YearETo, f.OtherETo)},
		{Term: "Plant coefficients", Text: sets},
		{Term: "Design ETo", Text: s.designShort(f.Design), See: NumbersID},
		{Term: "Plant marks", Text: marks, See: NumbersID},
		{Term: "This run", Text: r.Run()},
	})
}

// knownFacts returns the facts that have a text, each with a period at its end.
func knownFacts(all []FrontFact) []FrontFact {
	all = slices.DeleteFunc(all, func(f FrontFact) bool { return f.Text == "" })
	for i := range all {
		if text := &all[i].Text; !strings.HasSuffix(*text, ".") && !strings.HasSuffix(*text, ".”") {
			*text += "."
		}
	}
	return all
}
