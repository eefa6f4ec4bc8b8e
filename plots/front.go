package plots

import (
	"fmt"
	"slices"
	"strings"

	"loamledger/sim"
	"loamledger/sim/tally"
)

// Front is the first page: what a reader without any background needs to
// decide. A stress day is called a thirsty day here.
type Front struct {
	Options       Table // one row per strategy, no references
	Notes         []string
	Alarms        []string // implausible inputs and results; the rest are on later pages
	MoreAlarms    int      // how many those are
	Uncertainties []string // the three biggest
	Measure       string   // the one measurement to make
	Steps         []string // what to do next, in order
	Cautions      []string
	Facts         []Item
}

// maxFrontAlarms is how many implausible values the first page has room for.
const maxFrontAlarms = 2

// front writes the first page; verdict v names strategy at.
func (r *Report) front(s *Study, f *Facts, v verdict, at int) Front {
	doubts := s.doubts(f)
	p := Front{
		Options: s.options(f, at), Notes: s.frontNotes(f, v, at), Alarms: r.Alarms,
		Uncertainties: f.Uncertainties, Measure: f.Measure,
		Cautions: append(slices.Clone(f.Cautions),
			"Local watering rules and drought stages override every option here.",
			"Backflow devices, drinking-water connections, mains wiring and pumps require a license.",
			"Plants can be lost. New plants, trees, slopes and play fields need separate care.",
			"These are estimates from a model, made before any change. No saving is guaranteed.",
		),
	}
	if n := len(p.Alarms) - maxFrontAlarms; n > 0 {
		p.Alarms, p.MoreAlarms = p.Alarms[:maxFrontAlarms], n
	}
	if len(p.Uncertainties) == 0 {
		for _, d := range doubts {
			p.Uncertainties = append(p.Uncertainties, d.text)
		}
	}
	p.Uncertainties = p.Uncertainties[:min(3, len(p.Uncertainties))]
	for i := 0; p.Measure == "" && i < len(doubts); i++ {
		p.Measure = doubts[i].measure
	}
	p.Steps = s.steps(v, at)
	if step := s.cycleStep(f.Cycles, at); step != "" {
		p.Steps = append(p.Steps, step)
	}
	p.Facts = r.frontFacts(s, f, at)
	return p
}

// options compares the strategies on the first page. Its columns are the
// measures that have a heading for it, and whether a strategy is allowed.
func (s *Study) options(f *Facts, at int) Table {
	cells := s.Table.Cells()
	figures := cells.Basis.Figures(tally.FrontFigures(s.measures()))
	t := Table{First: "Option"}
	for i := range figures {
		t.Head = append(t.Head, s.Units.withUnit(frontHead(&figures[i], &cells.Basis), &figures[i], &cells.Basis))
	}
	t.Head = append(t.Head, "Allowed")
	for st := range s.own() {
		row := TableRow{Name: s.Table.Strategies[st], Named: st == at && at != s.base()}
		for i := range figures {
			row.Cells = append(row.Cells, s.cell(cells, &figures[i], st))
		}
		row.Cells = append(row.Cells, s.allowed(f, st))
		t.Rows = append(t.Rows, row)
	}
	return t
}

// frontHead returns the heading of a figure on the first page. If no year is
// whole, a figure whose unit would say "/yr" says its days.
func frontHead(f *tally.Figure, b *tally.Basis) string {
	head := f.FrontTitle(b)
	if _, ok := Dimension(f.Measure.Kind); ok && f.Over == tally.PerYear && !b.Yearly() {
		head += " " + b.Words()
	}
	return head
}

// allowed says how strategy st complies with the limits of the scenario.
func (s *Study) allowed(f *Facts, st int) string {
	switch {
	case f.Legal == "":
		return "not checked"
	case st >= len(s.Table.Breaches) || len(s.Table.Breaches[st]) == 0:
		return "yes"
	case f.leftOut(st) > 0:
		return "only as cut"
	}
	return "no"
}

// frontNotes explains the columns of the options, and the mean that the verdict
// may refer to.
func (s *Study) frontNotes(f *Facts, v verdict, at int) []string {
	basis := s.Table.Basis()
	year, mean := basis.Sentence()+" There is no typical or dry year.", "In "+basis.Span()
	if ranked := s.Table.RankYears(); len(ranked.Years) > 0 {
		year = fmt.Sprintf("Typical year: %s. Dry year: %s, %s.", ranked.Name(ranked.Median), ranked.Name(ranked.Dry),
			dryMeaning(len(ranked.Years)))
		mean = "Average of all whole years"
		if basis.Days < basis.All || basis.South {
			year = basis.Sentence() + " " + year
		}
	}
	if v != nothingToCompare {
		year += fmt.Sprintf(" %s: %s thirsty days with %s, %s with %s.", mean, fixed(s.stressPerYear(at), 0),
			quote(s.Table.Strategies[at]), fixed(s.stressPerYear(s.base()), 0), quote(s.Table.Strategies[s.base()]))
	}
	if text := MedianAboveDry(s.Table, s.Units); text != "" {
		year += " See " + theNumbers + " for why the typical year can be worse than the dry one."
	}
	notes := []string{
		s.baselineNote(f),
		"A thirsty day (stress day): over the last seven days, plants of a whole zone used clearly less water than they need. " +
			"On all other days the zone is fine. A browning day is judged in the quarter that sprinklers reach least, which is drier: " +
			"it can brown in a zone that is fine.",
		year,
		"A runoff event: water runs off one zone on one day.",
	}
	if f.Legal != "" && len(f.LeftOut) > 0 && slices.Max(f.LeftOut) > 0 {
		notes = append(notes, "Only as cut: the limits shorten or drop some of its runs, and the figures count it that way.")
	}
	return notes
}

// baselineNote names the baseline and says how it was chosen.
func (s *Study) baselineNote(f *Facts) string {
	text := "Change is relative to " + quote(s.Table.Strategies[s.base()]) + ", the baseline"
	if !f.BaselineNamed && s.own() > 1 {
		text += " because it is the first strategy; the scenario names none"
	}
	return text + "."
}

// steps lists what to do next.
func (s *Study) steps(v verdict, at int) []string {
	enter := "have the person who sets the controller enter " + quote(s.Table.Strategies[at]) + " (loamledger settings prints the values)."
	switch v {
	case tradeOff:
		enter = "Decide whether the extra thirst is acceptable. If so, " + enter
	case saves:
		enter = "H" + enter[1:]
	case nothingToCompare:
		enter = "Add other options to the scenario and compare again."
	default:
		enter = "Keep " + quote(s.Table.Strategies[s.base()]) + " for now: no option here clearly saves water."
	}
	return []string{
		"Make the one measurement named here, enter it in the scenario and run it again.",
		"Ask the water supplier which watering days, hours and drought stages apply now.",
		enter,
		"Change in steps, two weeks each. Look at the plants, at the driest spots first.",
		"Read the meter before and after, and compare in similar weather. Only the meter can show a saving.",
	}
}

// frontFacts lists the facts of the first page; unknown ones are omitted.
func (r *Report) frontFacts(s *Study, f *Facts, at int) []Item {
	legal := "not checked: the scenario states no limits. Ask the water supplier."
	if f.Legal != "" {
		legal = "checked against the limits in the scenario only, see " + theNumbers + ". Ask the water supplier for those in force."
	}
	inputs := count(r.NotGiven, "default", "defaults") + " used, listed with range and source under Defaults"
	if r.FilledShare != "" {
		inputs += "; weather: " + r.FilledShare
	}
	return known([]Item{
		{"Cost and payback", f.Cost},
		{"On the controller", orElse(f.Changes, s.onController(at))},
		{"Who acts next", orElse(f.Act, "the person who sets the controller, after asking the water supplier")},
		{"Watering rules", legal},
		{"Start", f.Start},
		{"Inputs", inputs},
		{"Design ETo", s.DesignVerdict(f.Design)},
		{"Reference ET", joined(f.YearETo, f.OtherETo)},
		{"Plant coefficients", f.KSets},
		{"This run", r.run()},
	})
}

// joined joins texts that are not empty.
func joined(texts ...string) string {
	return strings.Join(slices.DeleteFunc(texts, func(s string) bool { return s == "" }), "; ")
}

// theNumbers is the title of the section with every measure.
const theNumbers = "The numbers in full"

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
	return fmt.Sprintf("%s waters a zone on %s days %s for %s min; %s on %s days for %s min (area-weighted zone means)",
		quote(s.Table.Strategies[at]), fixed(then.days, 0), s.per(), fixed(then.minutes, 0),
		quote(s.Table.Strategies[s.base()]), fixed(now.days, 0), fixed(now.minutes, 0))
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
