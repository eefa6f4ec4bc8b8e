package plots

import (
	"fmt"
	"math"
	"strings"

	"loamledger/sim/tally"
	"loamledger/weather"
	"loamledger/weather/cal"
)

// Facts are what a report tells that a replay does not know: where the inputs
// came from and what became of them. Empty texts are told as unknown.
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
	Files         []InputFile
}

// WeatherFacts tell where the weather is from.
type WeatherFacts struct {
	File, Layout string
	EToMethod    string // how reference ET came about
	EToError     string // how far guesses in it are likely to be off; empty where there are none
	Days         int
	FilledDays   int // days with at least one value put in
	Fills        []Fill
	Assumptions  []string
	Findings     []weather.Finding
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
	Answer      string // in one sentence
	Diagnosis   string // how the first strategy stands to the need
	Alarms      []string
	Judged      string // by what rule the answer names a strategy; empty where there is nothing to choose
	DryYears    string // which years stand for median and dry
	Comparison  Table
	Summary     []Item
	Zones       []ZonePart
	Weather     WeatherFacts
	Defaults    []Default
	Files       []InputFile
	RunDate     string
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
	Head    []string // over the cells; the unit in brackets where there is one
	Rows    []TableRow
}

// A TableRow is one strategy.
type TableRow struct {
	Name      string
	Reference bool
	Cells     []string
}

// A ZonePart is the section of one zone.
type ZonePart struct {
	Name   string
	Inputs []Item
	Table  Table
}

// NewReport draws up the report of study s.
func NewReport(s *Study, f *Facts) *Report {
	rows := s.Table.Compare()
	ranked := s.Table.RankYears()
	r := &Report{
		Label: Estimated, Site: s.Site, Station: s.Station, Dates: dates(s.From, s.To),
		Years:  span(s.years(), len(ranked.Years)),
		Answer: answer(s, rows), Diagnosis: diagnosis(s, rows), Alarms: Alarms(s.Table, s.Units, f.Kinds), DryYears: dryYears(ranked),
		Comparison: s.comparison(rows), Weather: f.Weather, Defaults: f.Defaults, Files: f.Files,
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
	r.Summary = []Item{
		{"Site", s.Site + "; " + count(len(s.Table.Zones), "zone", "zones")},
		{"Dates and weather", r.Dates + "; " + s.Station},
		{"Stress days in a dry year", versus(rows, best, func(row *tally.Row) string {
			return fmt.Sprintf("%s (median year %s)", fixed(row.StressDry, 0), fixed(row.StressMedian, 0))
		})},
		{"Reference ET", refET(&f.Weather)},
		{"Runoff, zone-days a year", versus(rows, best, func(row *tally.Row) string { return events(row.RunoffEvents) })},
		{"Cost and payback", orElse(f.Cost, "not calculated in this run")},
		{"Controller changes", orElse(f.Changes, "not listed in this run")},
		{"Local watering rules", orElse(f.Legal, "not checked: ask the water supplier before any schedule is set")},
		{"Defaults used", count(len(f.Defaults), "value was not given and is", "values were not given and are") + " listed below with range and source"},
		{"Weather filled", r.FilledShare},
	}
	r.Summary = append(r.Summary,
		Item{"Biggest uncertainties", uncertainties(f.Uncertainties)},
		Item{"Measure first", orElse(f.Measure, "the flow of each zone, read at the meter, and its evenness, with straight-sided cans")},
		Item{"Who must act", orElse(f.Act, "not stated")},
		Item{"Caveat", "A model’s estimates, made ahead of any change. Weather, people and equipment differ; no saving is guaranteed."},
		Item{"This run", fmt.Sprintf("%s, version %s, seed %s", r.RunDate, r.Version, r.Seed)})
	for z := range s.Table.Zones {
		r.Zones = append(r.Zones, s.zonePart(z))
	}
	return r
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
	if len(all) == 0 {
		return "not ranked in this run; every default below is one"
	}
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
	if w.EToError == "" {
		return known(w.EToMethod)
	}
	return known(w.EToMethod) + ". Likely error: " + w.EToError
}

// runDate writes the date of the run; 0 means that none was told.
func runDate(d cal.Date) string {
	if d == 0 {
		return "date not stated"
	}
	return d.String()
}

func filled(w *WeatherFacts) string {
	switch {
	case w.Days == 0:
		return "not stated"
	case w.FilledDays == 0:
		return "no value had to be put in on any of " + count(w.Days, "day", "days")
	}
	return fmt.Sprintf("%s of %s had at least one value put in", fixed(float64(w.FilledDays), 0), count(w.Days, "day", "days"))
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

// comparison sets the comparison of strategies as text.
func (s *Study) comparison(rows []tally.Row) Table {
	u := s.Units
	t := Table{
		Caption: "All strategies over the same weather. Change is against the first; stress days are means over the zones by area; a zone-day of runoff is one day on which one zone sheds water, so that five zones can have five on a day.",
		Head: []string{"Water a year [" + u.volumeUnit() + "]", "Change", "Stress days, median year", "Stress days, dry year", "Longest streak [days]",
			"Runoff, zone-days a year", "Percolation a year [" + u.depthUnit() + "]", "Adequacy", "Excess", "Application ratio"},
	}
	for i := range rows {
		r := &rows[i]
		change := moreOrLess(r.Change)
		if i == 0 {
			change = "basis"
		}
		t.Rows = append(t.Rows, TableRow{Name: r.Strategy, Reference: i >= s.own(), Cells: []string{
			rounded(u.volume(r.M3PerYear)), change, fixed(r.StressMedian, 0), fixed(r.StressDry, 0), fixed(float64(r.LongestStreak), 0),
			events(r.RunoffEvents), fixed(u.depth(r.PercMMPerYear), u.depthDigits()), percent(r.Adequacy), percent(r.Excess), fixed(r.ApplicationRatio, 2),
		}})
	}
	return t
}

// zonePart sets the section of zone z.
func (s *Study) zonePart(z int) ZonePart {
	u, zone, years := s.Units, &s.Table.Zones[z], s.years()
	p := ZonePart{Name: zone.Name}
	rate := func(mmh float64) string {
		return fixed(u.depth(mmh), u.depthDigits()+1) + " " + u.depthUnit() + "/h"
	}
	k := fixed(zone.K[0], 2)
	same := true
	for _, v := range zone.K[1:] {
		same = same && v == zone.K[0]
	}
	if !same {
		for _, v := range zone.K[1:] {
			k += " " + fixed(v, 2)
		}
		k += " (January to December)"
	}
	p.Inputs = []Item{
		{"Area", rounded(u.area(zone.AreaM2)) + " " + u.areaUnit()},
		{"Plant coefficient K", k},
		{"Stress fraction p", fixed(zone.P, 2)},
		{"Total available water TAW", fixed(u.depth(zone.TAWMM), u.depthDigits()+1) + " " + u.depthUnit()},
		{"Precipitation rate PR", rate(zone.PRMMH)},
		{"Intake rate IR", rate(zone.IntakeMMH)},
		{"Surface storage ASA", fixed(u.depth(zone.SurfaceStorageMM), u.depthDigits()+1) + " " + u.depthUnit()},
		{"Low-quarter uniformity DU_LQ", percent(zone.DULQ)},
		{"Spray loss", percent(zone.LossShare)},
		{"Strips", fixed(float64(zone.Strips), 0)},
	}
	for _, share := range []struct {
		term string
		v    float64
	}{{"Overspray", zone.OversprayShare}, {"Broken heads", zone.BrokenShare}} {
		if share.v > 0 {
			p.Inputs = append(p.Inputs, Item{share.term, percent(share.v) + " of the water applied"})
		}
	}
	depth := func(mm float64) string { return fixed(u.depth(mm), u.depthDigits()+2) + " " + u.depthUnit() }
	if zone.FillDrainMM > 0 {
		p.Inputs = append(p.Inputs, Item{"Filling and draining pipes", depth(zone.FillDrainMM) + " each cycle"})
	}
	if zone.LeakMMDay > 0 {
		p.Inputs = append(p.Inputs, Item{"Leak", depth(zone.LeakMMDay) + " a day"})
	}
	if zone.WorkingStorage {
		p.Inputs = append(p.Inputs, Item{"Balance", "a plain store of the TAW above; stress begins when it is empty, and p does not matter"})
	}
	p.Table = Table{Head: []string{"Water a year [" + u.depthUnit() + "]", "Stress days a year", "Longest streak [days]", "Runoff days a year",
		"Percolation a year [" + u.depthUnit() + "]", "Adequacy", "Excess"}}
	for st, name := range s.Table.Strategies {
		sum := s.Table.Total(st, z)
		p.Table.Rows = append(p.Table.Rows, TableRow{Name: name, Reference: st >= s.own(), Cells: []string{
			fixed(u.depth(sum.GrossMM/years), u.depthDigits()), fixed(float64(sum.StressDays)/years, 0), fixed(float64(sum.LongestStreak), 0),
			events(float64(sum.RunoffEvents) / years), fixed(u.depth((sum.PercIrrMM+sum.PercRainMM)/years), u.depthDigits()),
			percent(sum.Adequacy()), percent(sum.Excess()),
		}})
	}
	return p
}
