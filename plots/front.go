package plots

import (
	"fmt"
	"slices"
	"strings"
)

// Front is the first page: what a reader without any background needs to
// decide. A stress day is called a thirsty day here.
type Front struct {
	Prepared      *Prepared // who made the report, and for whom; nil if the scenario does not say
	Dated         string    // of what day the report is, and whether its author is known
	Ranges        string    // what draws say of the answer; empty without draws
	WhyNot        string    // what would make an option ready, and why options that use less water are not recommended
	Today         string    // what has run since a change, if not the baseline, and where the baseline falls short; may be empty
	Options       Table     // one row per strategy, no references
	Notes         []Item    // what the table says; a note may lack its term
	Alarms        []string  // implausible inputs and results; the rest are on later pages
	MoreAlarms    int       // how many those are
	Uncertainties []string  // the three biggest
	Measure       string    // the one measurement to make, in sentences
	Steps         []string  // what to do next, in order
	Cautions      []string
	Facts         []FrontFact // in everyday words
	Technical     []FrontFact // for irrigation professionals
	notReady      bool
}

// Said are the paragraphs below the answer: what would make an option ready comes first
// if none is.
func (f *Front) Said() []string {
	list := []string{f.Ranges, f.WhyNot, f.Today}
	if f.notReady {
		list = []string{f.WhyNot, f.Ranges, f.Today}
	}
	return slices.DeleteFunc(list, func(text string) bool { return text == "" })
}

// A FrontFact is a term and its text, with the section that says more.
type FrontFact struct {
	Term, Text string
	See        string // the ID of the section; empty for none
}

// maxReasons is the highest number of options for which each row says why it fails.
const maxReasons = 8

// maxCompanions is the highest number of options for which each row counts the same days
// for the other part of the zones; later pages have them.
const maxCompanions = 5

// PleaseCheck is the title of the implausible values on the first page.
const PleaseCheck = "Please check"

// maxFrontAlarms is how many implausible values the first page has room for.
const maxFrontAlarms = 2

// front writes the first page, with advice a; verdict v names strategy at.
func (r *Report) front(s *Study, f *Facts, a *Advice, v verdict, at int) Front {
	estimates := "These are estimates from a model, made before any change"
	if f.Tested == "" {
		estimates += " and not compared with the water meter"
	}
	p := Front{
		Prepared: f.Prepared, Dated: dated(f), notReady: v == notReady,
		Ranges: a.Ranges, WhyNot: a.WhyNot, Options: s.options(f, at), Notes: append(s.frontNotes(f, v, at), s.rangeNotes(f.Ranges)...),
		Today: s.today(f, v), Alarms: r.Alarms,
		Uncertainties: a.Uncertainties, Measure: a.Measure, Steps: a.Steps,
		Cautions: append(slices.Clone(f.Cautions),
			"Local watering rules and drought stages override every option here.",
			"Backflow devices, water supply lines, line-voltage wiring, and pumps require a license.",
			"You could lose plants. New plants, trees, slopes, and athletic fields need separate care.",
			estimates+". Savings are not guaranteed.",
		),
	}
	if n := len(p.Alarms) - maxFrontAlarms; n > 0 {
		p.Alarms, p.MoreAlarms = p.Alarms[:maxFrontAlarms], n
	}
	p.Facts, p.Technical = r.frontFacts(s, f, v, at), r.technicalFacts(s, f, v)
	return p
}

// dated says of what day the report is, and that its author is not known. A report
// reads no clock: the day is given.
func dated(f *Facts) string {
	text := "Report without a date"
	if f.RunDate != 0 {
		text = "Report of " + DayText(f.RunDate)
	}
	if f.Prepared == nil {
		text += "; prepared by: ______________"
	}
	return text
}

// joined joins texts that are not empty.
func joined(texts ...string) string {
	return strings.Join(slices.DeleteFunc(texts, func(s string) bool { return s == "" }), "; ")
}

// whyNots says how firm the recommendation is and why other options are not
// recommended.
func (s *Study) whyNots(f *Facts, v verdict, at int) string {
	try := ""
	if v == notReady && s.Next != nil {
		try = s.Next.words(s)
		if needs := f.about(s.Next.Strategy).Needs; needs != "" {
			try += " It needs new equipment: " + needs + "."
		}
	}
	return punctuated(sentences(try, s.shaky(f), s.whyNot(v, at), s.greener(v, at)))
}

// usualMost is the highest saving of screened sites in published studies, as in the
// alarm on savings.
const usualMost = 0.45

// unusual says that a recommended saving is above those of studies; empty if it is not.
func (s *Study) unusual(v verdict, at int) string {
	saved := -s.Table.Compare()[at].Change
	if v != saves || saved <= usualMost {
		return ""
	}
	return fmt.Sprintf("Screened sites saved 15%% to 45%% in published studies: before you rely on %s, compare the water of %s with "+
		"water bills.",
		percent(saved), quote(s.Table.Strategies[s.base()]))
}

// today says what has run since a change, if that is not the baseline, and where the baseline
// itself is too thirsty, which a comparison with it hides.
func (s *Study) today(f *Facts, v verdict) string {
	if v == saves { // another option mends it
		return f.Running
	}
	z, most := s.thirstiest(s.base())
	if most.StressZoneDays <= s.rules().StressDays || len(s.others()) == 0 {
		return f.Running
	}
	when := "in these days"
	if s.Table.RankYears().Median != 0 {
		when = "of a typical year"
	}
	text := fmt.Sprintf("%s itself falls short: it leaves %s thirsty on %d days %s", quote(s.Table.Strategies[s.base()]),
		quote(s.Table.Zones[z].Name), most.StressZoneDays, when)
	if most.BrownDays > 0 {
		text += fmt.Sprintf(", and browns part of it on %d", most.BrownDays)
	}
	return sentences(f.Running, text+".")
}

// sentences joins those that there are.
func sentences(texts ...string) string {
	return strings.Join(slices.DeleteFunc(texts, func(s string) bool { return s == "" }), " ")
}

// listed joins up to [maxNamed] names, or counts them; all is their number if
// they are everything there is.
func listed(names []string, all int) string {
	switch n := len(names); {
	case n == all && n > 1:
		return "all zones"
	case n > maxNamed:
		return strings.Join(names[:maxNamed-1], ", ") + " and " + count(n-maxNamed+1, "other zone", "other zones")
	}
	return strings.Join(names, ", ")
}
