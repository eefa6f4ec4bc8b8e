package plots

import (
	"fmt"
	"slices"
	"strings"

	"loamledger/sim/tally"
)

// Front is the first page: what a reader without any background needs to
// decide. A stress day is called a thirsty day here.
type Front struct {
	Prepared      *Prepared // who made the report, and for whom; nil if the scenario does not say
	Ranges        string    // what draws say of the answer; empty without draws
	WhyNot        string    // why options that use less water are not recommended; empty if there are none
	Options       Table     // one row per strategy, no references
	Notes         []string
	Alarms        []string // implausible inputs and results; the rest are on later pages
	MoreAlarms    int      // how many those are
	Uncertainties []string // the three biggest
	Measure       string   // the one measurement to make, in sentences
	Steps         []string // what to do next, in order
	Cautions      []string
	Facts         []Item // in everyday words
	Technical     []Item // for irrigation professionals
}

// maxReasons is the highest number of options for which each row says why it fails.
const maxReasons = 8

// maxFrontAlarms is how many implausible values the first page has room for.
const maxFrontAlarms = 2

// front writes the first page; verdict v names strategy at.
func (r *Report) front(s *Study, f *Facts, v verdict, at int) Front {
	doubts := s.doubts(f)
	p := Front{
		Prepared: f.Prepared,
		WhyNot:   sentences(punctuated(s.unusual(v, at)), s.whyNots(f, v, at)), Options: s.options(f, at), Notes: s.frontNotes(f, v, at),
		Alarms:        r.Alarms,
		Uncertainties: f.Uncertainties, Measure: f.Measure,
		Cautions: append(slices.Clone(f.Cautions),
			"Local watering rules and drought stages override every option here.",
			"Backflow devices, water supply lines, line-voltage wiring, and pumps require a license.",
			"You could lose plants. New plants, trees, slopes, and athletic fields need separate care.",
			"These are estimates from a model, made before any change. Savings are not guaranteed.",
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
		if d := &doubts[i]; d.measure != "" {
			p.Measure = d.measure + " This comes first because " + d.because + "."
		}
	}
	p.Steps = s.steps(f, v, at, p.Measure != "", len(p.Alarms) > 0)
	if step := s.cycleStep(f.Cycles, at); step != "" {
		p.Steps = append(p.Steps, step)
	}
	p.Facts, p.Technical = s.frontFacts(f, at), r.technicalFacts(s, f)
	return p
}

// options compares the strategies on the first page. Its columns are the
// measures that have a heading for it, and whether a strategy is allowed.
func (s *Study) options(f *Facts, at int) Table {
	cells := s.Table.Cells()
	figures := cells.Basis.Figures(tally.FrontFigures(s.measures()))
	rows := s.Table.Compare()
	t := Table{First: "Option"}
	companions := make([]*tally.Figure, len(figures))
	for i := range figures {
		t.Head = append(t.Head, s.frontHeading(&figures[i], &cells.Basis))
		part := ""
		if c, ok := figures[i].Companion(s.measures()); ok {
			companions[i], part = &c, c.Measure.Part
		}
		t.Beside = append(t.Beside, part)
	}
	worst := len(s.Table.Zones) > 1
	if worst {
		t.Head, t.Beside = append(t.Head, "Worst zone: thirsty days"+s.typical()), append(t.Beside, "")
	}
	if s.Allowance != nil {
		t.Head = append(t.Head, "Within allowance")
	}
	t.Head = append(t.Head, "Allowed", "Meets the rule")
	t.Words = make([]bool, len(t.Head))
	for st := range s.own() {
		row := TableRow{Name: s.Table.Strategies[st], Named: st == at && at != s.base()}
		for i := range figures {
			row.Cells = append(row.Cells, s.frontCell(cells, &figures[i], st))
			small := ""
			if c := companions[i]; c != nil {
				small = s.cell(cells, c, st)
			}
			row.Beside = append(row.Beside, small)
			row.Spread = append(row.Spread, s.rangeCell(f.Ranges.spreadOf(&figures[i]), st))
		}
		meets, why := s.meetsRule(rows, st)
		if s.own() > maxReasons { // the sentence above the table counts them
			why = ""
		}
		row.About = sentences(s.aboutLine(f, st), why)
		if worst {
			row.Cells, row.Beside = append(row.Cells, s.worstCell(st)), append(row.Beside, "")
		}
		if s.Allowance != nil {
			row.Cells = append(row.Cells, s.Allowance.Kept[st].cell())
		}
		row.Cells = append(row.Cells, s.allowed(f, st), meets)
		t.Rows = append(t.Rows, row)
	}
	return t
}

// besideNote explains the small print in the table of the first page; empty if it
// has none.
func (s *Study) besideNote(figures []tally.Figure) string {
	var parts []string
	for i := range figures {
		if c, ok := figures[i].Companion(s.measures()); ok && !slices.Contains(parts, c.Measure.Part) {
			parts = append(parts, c.Measure.Part)
		}
	}
	if len(parts) == 0 {
		return ""
	}
	return "In parentheses: the same days for the " +
		strings.Join(parts, " or the ") + "; a quarter is one of the area."
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
	return punctuated(sentences(try, s.shaky(f.Marks), s.whyNot(v, at), s.greener(v, at)))
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
