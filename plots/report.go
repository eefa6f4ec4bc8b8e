package plots

import (
	"fmt"
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
	measure       string     // the one measurement that reduces them most; empty as above
	Legal         string     // how the strategies comply with the limits of the scenario; empty if it has none
	Cost          string     // cost and payback
	Changes       string     // what would change on the controller; empty for run times
	Meter         string     // through which the site is watered; empty if not known
	Prepared      *Prepared  // who made the report; nil if not stated
	Act           string     // who must act, and by when
	Kinds         []ZoneKind // of each zone, for [Alarms]; none if not known
	Cautions      []string   // sentences on figures that rest on a default; page one has them
	Warnings      []string   // sentences on implausible inputs; they come before the [Alarms]
	LeftOut       []float64  // by strategy, minutes that the site's limits cut on the days figures cover; none if nothing is cut
	Start         string     // how the depletion on the first day was found
	Files         []InputFile
	BaselineNamed bool   // the scenario names the baseline; else it is the first strategy
	Since         string // a sentence on the first day of the limits and the years that count; empty if they hold for the whole record

	Results   []Alarm       // implausible results that the table alone does not show; they come after the [Alarms]
	Lives     []LifeTrial   // parts with a stated life
	Trials    []ChangeTrial // what the changes of strategies do; none if none changes zones
	Design    *Design       // what a wrong design ETo does; nil for none
	Marks     *PlantMarks   // what other marks of the plants do; nil for none
	Cycles    []CycleTrial  // shorter cycles that halve runoff
	YearETo   string        // reference ET in a mean year
	OtherETo  string        // other ET columns of the file, and why they are not used
	KSets     string        // sets of the plant coefficients
	Coming    *TextPart     // what strategies would do on forecast days after the record; nil for none
	Money     *TextPart     // what the water of each strategy costs; nil without rates
	Meters    []TextPart    // the replay beside the reads of meters; none without reads
	MeterFact string        // the same in a sentence; empty for none
	Tested    string        // the same in everyday words; empty for none
	Verified  string        // a saving of an earlier change that a meter verified, in everyday words; empty for none
	Running   string        // what has run since that change, by a sentence; empty if nothing is stated
	Allowance *TextPart     // the water that a rule allows; nil if no rule is given
	Within    string        // which options stay within it, in a sentence; empty for none
	Next      *TextPart     // what to measure, to repair and to do when; nil if not worked out
	Verify    *TextPart     // how to measure the saving; nil if not worked out
	Devices   *TextPart     // water by controller and meter; nil for one of each
	// DeviceFact counts the controllers and meters in a sentence; empty for one of each.
	DeviceFact string
	Skill      *TextPart // how good the forecasts were; nil for none
	SkillFact  string    // the same in a sentence; empty for none
	About      []About   // of each strategy, in plain words; none if not known
	Ranges     *Ranges   // what draws from the ranges of the inputs say; nil without draws
}

// A TextPart is a section of the report.
type TextPart struct {
	Lead   string // above the tables
	Tables []Table
	Notes  []string
}

// An About is a strategy in plain words.
type About struct {
	Text  string // such as "2 programs on fixed days; off after rain"
	Needs string // equipment beyond that of the baseline, such as "rain sensor"; empty for none
	Sheet bool   // a person can enter it, from a settings sheet
}

// about returns what is known of strategy st.
func (f *Facts) about(st int) About {
	if st >= len(f.About) {
		return About{}
	}
	return f.About[st]
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
	EToErrorDays  int    // days with such substitutes
	Days          int
	FilledDays    int    // days with at least one filled value, synthetic ones not counted
	SyntheticDays int    // days with at least one synthetic value
	Fills         []Fill // without synthetic values
	Assumptions   []string
	Findings      []weather.Finding
	Snow          Snow     // the part of the rain that probably fell as snow
	Heavy         []string // the findings on which results may hang, in full, for page one
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
	Years       string // how many whole years, or days
	Kicker      string // above the title: over how much weather, and whether it is synthetic
	Answer      string // in one short sentence
	Basis       string // what the limits do to the baseline, and from when they hold; empty for nothing
	Front       Front
	Detail      string // the numbers behind the answer; empty if there are none
	Diagnosis   string // how the baseline compares with the need
	Alarms      []string
	StressDay   string // what a stress day is: the description of its measure
	Judged      string // the rule by which the answer picks a strategy; empty if there is nothing to choose
	DryYears    string // which years are median and dry
	Comparison  Table
	Notes       []Item // facts beside the comparison
	Zones       []ZonePart
	Design      *Table // strategies over their design ETo; nil for none
	What        *Table // what strategies change in zones; nil for none
	Lives       *Table // how long parts keep working; nil for none
	Changes     *Table // what those changes do, one by one; nil for none
	Runoff      *Table // zones that run off, worst first; nil for none
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
	Coming      *TextPart  // the coming days, apart from history; nil for none
	Skill       *TextPart  // the skill of the forecasts; nil for none
	Money       *TextPart  // water bills; nil without rates
	Devices     *TextPart  // water by controller and meter; nil for one of each
	Allowance   *TextPart  // the water that a rule allows; nil without one
	Meters      []TextPart // the replay beside meter reads; none without reads
	Ranges      *TextPart  // how far the results may be off; nil without draws
	Next        *TextPart  // what to do next, in full; nil for none
	Verify      *TextPart  // how to measure the saving; nil for none
}

// An Item is a term and its text.
type Item struct{ Term, Text string }

// NewReport writes the report of study s.
func NewReport(s *Study, f *Facts) *Report {
	rows := s.Table.Compare()
	r := &Report{
		Label: Estimated, Site: s.Site, Station: s.Station, Dates: dates(s.From, s.To),
		Years:  span(s.Table),
		Detail: punctuated(detail(s, rows)), Diagnosis: punctuated(diagnosis(s, rows)),
		Alarms:   s.alarms(f),
		DryYears: punctuated(dryYears(s.Table, s.Units)), StressDay: s.about("stress_days_zone"),
		Comparison: s.comparison(f), Weather: f.Weather,
		Defaults: Grouped(f.Defaults, s.Table.Zones, s.Table.Strategies), NotGiven: len(f.Defaults), Files: f.Files,
		RunDate: runDate(f.RunDate), Version: orElse(f.Version, "not stated"), Seed: orElse(f.Seed, "not stated"),
		DepthUnit: s.Units.depthUnit(), FilledShare: filled(&f.Weather), Coming: f.Coming, Skill: f.Skill, Money: f.Money, Allowance: f.Allowance,
		Next: f.Next, Verify: f.Verify,
		Devices: f.Devices, Meters: f.Meters,
		Ranges: s.rangePart(f.Ranges),
	}
	r.Kicker = "Watering options compared over " + r.Years + " of daily weather"
	if w := &f.Weather; w.SyntheticDays > 0 && w.SyntheticDays == w.Days {
		r.Kicker = "Watering options compared over " + r.Years + " of synthetic daily weather (made by computer, not observed)"
	}
	if len(s.others()) > 0 {
		r.Judged = s.judged()
	}
	v, at := s.verdict(rows)
	r.Basis = punctuated(basis(s, f, rows, v, at))
	advice := s.advice(f, len(r.Alarms) > 0, v, at)
	r.Answer, r.Front = advice.Answer, r.front(s, f, advice, v, at)
	r.Notes = known([]Item{
		{"Reference ET", refET(&f.Weather)},
		{"Start", f.Start},
		{"Snow", s.snowNote(&f.Weather.Snow)},
		{"Skill of the forecasts", f.SkillFact},
		{"Design ETo", s.DesignVerdict(f.Design)},
		{"Plant marks", s.MarksVerdict(f.Marks)},
		{"Winter", s.WinterNote()},
		{"Watering rules", orElse(f.Legal, "not checked: ask your water provider before you set any schedule")},
	})
	r.Design, r.Runoff = s.designTable(f.Design), s.runoffTable(f.Cycles)
	r.What, r.Changes, r.Lives = s.whatChanges(f.Trials), s.changeTable(f.Trials), s.lifeTable(f.Lives)
	for i := range f.Lives {
		r.Notes = append(r.Notes, known([]Item{{"Life", s.LifeText(&f.Lives[i])}})...)
	}
	for i := range f.Trials {
		for _, text := range []string{s.InteractionText(&f.Trials[i]), s.EstablishText(&f.Trials[i])} {
			r.Notes = append(r.Notes, known([]Item{{"Changes", text}})...)
		}
	}
	r.Zones, r.OtherZones = s.zoneParts(at)
	return r
}

// known returns the items that have a text.
func known(all []Item) []Item {
	return slices.DeleteFunc(all, func(i Item) bool { return i.Text == "" })
}

// Run names the run.
func (r *Report) Run() string {
	text := "loamledger " + r.Version + "; random seeds: " + r.Seed
	if r.RunDate != "" {
		text = r.RunDate + "; " + text
	}
	return text
}

// span describes the length of a record: its whole years, and days besides.
func span(t *tally.Table) string {
	b := t.Basis()
	whole, days := b.Count(), count(b.All, "day", "days")
	switch {
	case !b.Yearly():
		return days
	case b.All > b.Days:
		return days + ", including " + whole + ","
	}
	return whole
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
	return DayText(d)
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

// dryYears names the median and the dry year, and how years are ranked.
func dryYears(t *tally.Table, u Units) string {
	r := t.RankYears()
	if len(r.Years) == 0 {
		return "There is no median or dry year."
	}
	text := fmt.Sprintf("Years are ranked by the weather alone: 0.8 ETo less effective rain at the station. Rain below 0.2 ETo "+
		"evaporates; of a day’s rain, the first %s counts in full, two thirds of the next %s, and nothing above. "+
		"Median year %s, dry year %s (%s), out of %s.", u.pick("inch", "25.4 mm"), u.pick("inch", "25.4 mm"),
		r.Name(r.Median), r.Name(r.Dry), dryMeaning(len(r.Years)), count(len(r.Years), "whole year", "whole years"))
	if why := MedianAboveDry(t, u); why != "" {
		text += " " + why
	}
	return text
}
