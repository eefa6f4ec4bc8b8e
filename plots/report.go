package plots

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"loamledger/sim/tally"
	"loamledger/weather"
	"loamledger/weather/cal"
)

// Facts are what a report tells that a replay does not know: where the inputs
// came from and what became of them. What is empty is left out, but for local
// watering rules.
type Facts struct {
	Version       string
	RunDate       cal.Date // 0 for none
	Seed          string
	Weather       WeatherFacts
	Defaults      []Default
	Uncertainties []string   // the biggest first; three are shown
	Measure       string     // the one measurement that would shrink them most
	Legal         string     // how the strategies stand to local watering rules
	Cost          string     // cost and payback
	Changes       string     // what would change on the controller
	Act           string     // who must act, and by when
	Kinds         []ZoneKind // of each zone, for [Alarms]; none where not known
	Warnings      []string   // sentences on inputs that are hard to believe; they stand before the [Alarms]
	LeftOut       []float64  // by strategy, minutes over the record that the site's limits cut; none where nothing is cut
	Files         []InputFile
}

// leftOut returns the minutes cut from strategy st.
func (f *Facts) leftOut(st int) float64 {
	if st >= len(f.LeftOut) {
		return 0
	}
	return f.LeftOut[st]
}

// WeatherFacts tell where the weather is from.
type WeatherFacts struct {
	File, Layout  string
	EToMethod     string // how reference ET came about
	EToError      string // how far guesses in it are likely to be off; empty where there are none
	Days          int
	FilledDays    int    // days with at least one value put in, invented ones not counted
	SyntheticDays int    // days with at least one invented value
	Fills         []Fill // invented values not among them
	Assumptions   []string
	Findings      []weather.Finding
}

// A Fill counts the values of one column that were put in.
type Fill struct {
	Column, How string
	Count       int
}

// A Default is a value that the user did not give.
type Default struct {
	Where  string // zone, strategy or site
	Key    string // as in the scenario
	Value  string // with its unit
	Range  string
	Source string
	Grade  string // how sure: measured, local table, general table, guess
}

// An InputFile is a file that went into the run.
type InputFile struct{ Name, SHA256 string }

// A Report is everything a page says in words and tables, ready to be set.
type Report struct {
	Label       string // Estimated
	Site        string
	Station     string
	Dates       string
	Years       string // how many, and whole calendar years among them
	Answer      string // in one short sentence
	Basis       string // how the first strategy differs from what was asked for; empty where it does not
	Detail      string // the numbers behind the answer; empty where there are none
	Diagnosis   string // how the first strategy stands to the need
	Alarms      []string
	Judged      string // by what rule the answer names a strategy; empty where there is nothing to choose
	DryYears    string // which years stand for median and dry
	Comparison  Table
	Summary     []Item
	Zones       []ZonePart
	OtherZones  *Table // the zones beyond those with a part of their own; nil for none
	Weather     WeatherFacts
	Defaults    []Default // equal ones of several zones as one
	NotGiven    int       // how many values those defaults are
	Files       []InputFile
	RunDate     string // empty where not told
	Version     string
	Seed        string
	DepthUnit   string
	FilledShare string
}

// An Item is a term and what is said of it.
type Item struct{ Term, Text string }

// A Table is cells as text, a name before each row.
type Table struct {
	Caption string
	First   string   // over the names
	Head    []string // over the cells; the unit in brackets where there is one
	Minor   []bool   // cells that a narrow screen leaves out
	Rows    []TableRow
}

// IsMinor reports whether a narrow screen leaves out cell i.
func (t *Table) IsMinor(i int) bool { return i < len(t.Minor) && t.Minor[i] }

// A TableRow is one strategy or zone.
type TableRow struct {
	Name      string
	Note      string // what sets it apart from the others
	Reference bool
	Cells     []string
}

// NewReport draws up the report of study s.
func NewReport(s *Study, f *Facts) *Report {
	rows := s.Table.Compare()
	ranked := s.Table.RankYears()
	r := &Report{
		Label: Estimated, Site: s.Site, Station: s.Station, Dates: dates(s.From, s.To),
		Years:  span(s.years(), len(ranked.Years)),
		Answer: answer(s, rows), Basis: basis(s, f), Detail: detail(s, rows), Diagnosis: diagnosis(s, rows), Alarms: slices.Concat(f.Warnings, Sentences(Alarms(s.Table, s.Units, f.Kinds))), DryYears: dryYears(ranked),
		Comparison: s.comparison(f), Weather: f.Weather, Defaults: grouped(f.Defaults, s.Table.Zones), NotGiven: len(f.Defaults), Files: f.Files,
		RunDate: runDate(f.RunDate), Version: known(f.Version), Seed: known(f.Seed), DepthUnit: s.Units.depthUnit(),
	}
	r.FilledShare = filled(&f.Weather)
	if s.own() > 1 {
		r.Judged = judged()
	}
	best := pick(s, rows)
	if best == 0 {
		best = nearest(s, rows)
	}
	r.Summary = r.summary(s, f, rows, best)
	r.Zones, r.OtherZones = s.zoneParts(best)
	return r
}

// summary lists the facts of the first page; what nothing is known of is left
// out, but for local watering rules.
func (r *Report) summary(s *Study, f *Facts, rows []tally.Row, best int) []Item {
	all := []Item{
		{"Site", s.Site + "; " + count(len(s.Table.Zones), "zone", "zones")},
		{"Dates and weather", r.Dates + "; " + s.Station},
		{"Stress days in a dry year", versus(rows, best, func(row *tally.Row) string {
			return fmt.Sprintf("%s (median year %s)", fixed(row.StressDry, 0), fixed(row.StressMedian, 0))
		})},
		{"Reference ET", refET(&f.Weather)},
		{"Runoff, zone-days a year", versus(rows, best, func(row *tally.Row) string { return events(row.RunoffEvents) })},
		{"Cost and payback", f.Cost},
		{"Controller changes", f.Changes},
		{"Local watering rules", orElse(f.Legal, "not checked: ask the water supplier before any schedule is set")},
		{"Defaults used", count(len(f.Defaults), "value was not given and is", "values were not given and are") + " listed below with range and source"},
		{"Values put in", r.FilledShare},
		{"Biggest uncertainties", uncertainties(f.Uncertainties)},
		{"Measure first", orElse(f.Measure, "the flow of each zone, read at the meter, and its evenness, with straight-sided cans")},
		{"Who must act", f.Act},
		{"Caveat", "A model’s estimates, made ahead of any change. Weather, people and equipment differ; no saving is guaranteed."},
		{"This run", r.run()},
	}
	return slices.DeleteFunc(all, func(i Item) bool { return i.Text == "" })
}

// run names the run, as far as it is told.
func (r *Report) run() string {
	text := "version " + r.Version + ", seed " + r.Seed
	if r.RunDate != "" {
		text = r.RunDate + ", " + text
	}
	return text
}

// span tells the length of a record of which whole calendar years are whole.
func span(years float64, whole int) string {
	if math.Abs(years-float64(whole)) < 0.02 {
		return count(whole, "calendar year", "calendar years")
	}
	return fmt.Sprintf("%s years, %s of them whole", fixed(years, 1), count(whole, "calendar year", "calendar years"))
}

// uncertainties numbers the three biggest.
func uncertainties(all []string) string {
	var b strings.Builder
	for i, u := range all[:min(3, len(all))] {
		fmt.Fprintf(&b, "%d. %s. ", i+1, strings.TrimSuffix(u, "."))
	}
	return strings.TrimSpace(b.String())
}

func known(text string) string { return orElse(text, "not stated") }

func orElse(text, other string) string {
	if text == "" {
		return other
	}
	return text
}

// refET tells how reference ET came about, and how far off it is likely to be.
func refET(w *WeatherFacts) string {
	text := w.EToMethod
	if text != "" && w.SyntheticDays > 0 {
		text += " (the weather itself is invented)"
	}
	if w.EToError == "" {
		return text
	}
	return known(text) + ". Likely error: " + w.EToError
}

// runDate writes the date of the run; 0 means that none was told.
func runDate(d cal.Date) string {
	if d == 0 {
		return ""
	}
	return d.String()
}

// filled tells how many days are not as they were observed; empty where nothing
// is known.
func filled(w *WeatherFacts) string {
	var parts []string
	switch {
	case w.Days == 0:
		return ""
	case w.SyntheticDays == w.Days:
		parts = append(parts, "all "+count(w.Days, "day is", "days are")+" invented weather, observed nowhere")
	case w.SyntheticDays > 0:
		parts = append(parts, fmt.Sprintf("%s of %s are invented weather, observed nowhere", fixed(float64(w.SyntheticDays), 0), count(w.Days, "day", "days")))
	}
	switch {
	case w.FilledDays > 0:
		parts = append(parts, fmt.Sprintf("%s of %s had at least one value put in", fixed(float64(w.FilledDays), 0), count(w.Days, "day", "days")))
	case w.SyntheticDays == 0:
		parts = append(parts, "none on any of "+count(w.Days, "day", "days"))
	}
	return strings.Join(parts, "; ")
}

// dryYears names the years that stand for median and dry.
func dryYears(r tally.Ranked) string {
	if len(r.Years) == 0 {
		return "The record has no whole calendar year, so no year stands for median or dry."
	}
	return fmt.Sprintf("Years are ranked by what the least-water reference applies: median %d, dry %d (%s), out of %s.",
		r.Median, r.Dry, dryMeaning(len(r.Years)), count(len(r.Years), "whole calendar year", "whole calendar years"))
}

// versus tells a measure of the first strategy and of the one picked.
func versus(rows []tally.Row, best int, f func(*tally.Row) string) string {
	text := quote(rows[0].Strategy) + " " + f(&rows[0])
	if best > 0 {
		text += "; " + quote(rows[best].Strategy) + " " + f(&rows[best])
	}
	return text
}
