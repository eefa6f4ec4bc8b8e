package plots

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"loamledger/sim/tally"
	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/quantity"
)

// Facts are what a report shows and a replay does not know: the sources of the
// inputs and what was done to them. Empty fields are omitted, except local
// watering rules.
type Facts struct {
	Version       string
	RunDate       cal.Date // 0 for none
	Seed          string
	Weather       WeatherFacts
	Defaults      []Default
	Uncertainties []string   // the biggest first; three are shown; empty for what follows from Defaults and Weather
	Measure       string     // the one measurement that reduces them most; empty as above
	Legal         string     // how the strategies comply with the limits of the scenario; empty if it has none
	Cost          string     // cost and payback
	Changes       string     // what would change on the controller; empty for run times
	Act           string     // who must act, and by when
	Kinds         []ZoneKind // of each zone, for [Alarms]; none if not known
	Cautions      []string   // sentences on figures that rest on a default; page one has them
	Warnings      []string   // sentences on implausible inputs; they come before the [Alarms]
	LeftOut       []float64  // by strategy, minutes over the record that the site's limits cut; none if nothing is cut
	Files         []InputFile
}

// leftOut returns the minutes cut from strategy st.
func (f *Facts) leftOut(st int) float64 {
	if st >= len(f.LeftOut) {
		return 0
	}
	return f.LeftOut[st]
}

// WeatherFacts describe the source of the weather.
type WeatherFacts struct {
	File, Layout  string
	EToMethod     string // how reference ET was computed
	EToError      string // the likely error of substitutes in it; empty if there are none
	Days          int
	FilledDays    int    // days with at least one filled value, synthetic ones not counted
	SyntheticDays int    // days with at least one synthetic value
	Fills         []Fill // without synthetic values
	Assumptions   []string
	Findings      []weather.Finding
}

// A Fill counts the filled values of one column.
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
	Grade  quantity.Grade // how far it can be trusted
}

// An InputFile is a file that went into the run.
type InputFile struct{ Name, SHA256 string }

// A Report is all words and tables of a page.
type Report struct {
	Label       string // Estimated
	Site        string
	Station     string
	Dates       string
	Years       string // how many, and how many whole calendar years
	Answer      string // in one short sentence
	Basis       string // how the first strategy differs from what the scenario states; empty if it does not
	Front       Front
	Detail      string // the numbers behind the answer; empty if there are none
	Diagnosis   string // how the first strategy compares with the need
	Alarms      []string
	Judged      string // the rule by which the answer picks a strategy; empty if there is nothing to choose
	DryYears    string // which years are median and dry
	Comparison  Table
	Notes       []Item // facts beside the comparison
	Zones       []ZonePart
	OtherZones  *Table // the zones without a part of their own; nil for none
	Weather     WeatherFacts
	Defaults    []Default // equal ones of several zones as one
	NotGiven    int       // how many values those defaults are
	Files       []InputFile
	RunDate     string // empty if not known
	Version     string
	Seed        string
	DepthUnit   string
	FilledShare string
}

// An Item is a term and its text.
type Item struct{ Term, Text string }

// A Table is cells as text, a name before each row.
type Table struct {
	Caption string
	First   string   // above the names
	Head    []string // above the cells, with the unit in brackets
	Minor   []bool   // cells that a narrow screen hides
	Rows    []TableRow
}

// IsMinor reports whether a narrow screen hides cell i.
func (t *Table) IsMinor(i int) bool { return i < len(t.Minor) && t.Minor[i] }

// A TableRow is one strategy or zone.
type TableRow struct {
	Name      string
	Note      string // what is special about it
	Reference bool
	Named     bool // the verdict is about it
	Cells     []string
}

// NewReport writes the report of study s.
func NewReport(s *Study, f *Facts) *Report {
	rows := s.Table.Compare()
	ranked := s.Table.RankYears()
	r := &Report{
		Label: Estimated, Site: s.Site, Station: s.Station, Dates: dates(s.From, s.To),
		Years:  span(s.years(), len(ranked.Years)),
		Answer: answer(s, rows), Basis: basis(s, f), Detail: detail(s, rows), Diagnosis: diagnosis(s, rows),
		Alarms:     slices.Concat(f.Warnings, Sentences(Alarms(s.Table, s.Units, f.Kinds))),
		DryYears:   dryYears(ranked),
		Comparison: s.comparison(f), Weather: f.Weather,
		Defaults: grouped(f.Defaults, s.Table.Zones), NotGiven: len(f.Defaults), Files: f.Files,
		RunDate: runDate(f.RunDate), Version: orElse(f.Version, "not stated"), Seed: orElse(f.Seed, "not stated"),
		DepthUnit: s.Units.depthUnit(), FilledShare: filled(&f.Weather),
	}
	if s.own() > 1 {
		r.Judged = judged()
	}
	v, at := s.verdict(rows)
	r.Front = r.front(s, f, v, at)
	r.Notes = known([]Item{
		{"Reference ET", refET(&f.Weather)},
		{"Watering rules", orElse(f.Legal, "not checked: ask the water supplier before you set any schedule")},
	})
	r.Zones, r.OtherZones = s.zoneParts(at)
	return r
}

// known returns the items that have a text.
func known(all []Item) []Item {
	return slices.DeleteFunc(all, func(i Item) bool { return i.Text == "" })
}

// run names the run.
func (r *Report) run() string {
	text := "loamledger " + r.Version + "; seed: " + r.Seed
	if r.RunDate != "" {
		text = r.RunDate + "; " + text
	}
	return text
}

// span describes the length of a record with a number of whole calendar years.
func span(years float64, whole int) string {
	if math.Abs(years-float64(whole)) < 0.02 {
		return count(whole, "calendar year", "calendar years")
	}
	return fmt.Sprintf("%s years, including %s", fixed(years, 1), count(whole, "whole calendar year", "whole calendar years"))
}

func orElse(text, other string) string {
	if text == "" {
		return other
	}
	return text
}

// refET says how reference ET was computed, and its likely error.
func refET(w *WeatherFacts) string {
	text := w.EToMethod
	if text != "" && w.SyntheticDays > 0 {
		text += " (from synthetic weather)"
	}
	if w.EToError == "" {
		return text
	}
	return orElse(text, "not stated") + ". Likely error: " + w.EToError
}

// runDate writes the date of the run; 0 means that it is not known.
func runDate(d cal.Date) string {
	if d == 0 {
		return ""
	}
	return d.String()
}

// filled says how many days were not observed as they are; empty if nothing is
// known.
func filled(w *WeatherFacts) string {
	var parts []string
	switch {
	case w.Days == 0:
		return ""
	case w.SyntheticDays == w.Days:
		parts = append(parts, fmt.Sprintf("synthetic weather (all %s)", count(w.Days, "day", "days")))
	case w.SyntheticDays > 0:
		parts = append(parts, fmt.Sprintf("synthetic weather on %s of %s", fixed(float64(w.SyntheticDays), 0), count(w.Days, "day", "days")))
	}
	switch {
	case w.FilledDays > 0:
		parts = append(parts, fmt.Sprintf("filled values on %s of %s", fixed(float64(w.FilledDays), 0), count(w.Days, "day", "days")))
	case w.SyntheticDays == 0:
		parts = append(parts, "no filled values on "+count(w.Days, "day", "days"))
	}
	return strings.Join(parts, "; ")
}

// dryYears names the median and the dry year.
func dryYears(r tally.Ranked) string {
	if len(r.Years) == 0 {
		return "The record has no whole calendar year, so there is no median or dry year."
	}
	return fmt.Sprintf("Years are ranked by the water that the least-water reference applies: median %d, dry %d (%s), out of %s.",
		r.Median, r.Dry, dryMeaning(len(r.Years)), count(len(r.Years), "whole calendar year", "whole calendar years"))
}
