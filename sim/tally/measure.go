package tally

import (
	"math"

	"loamledger/sim"
)

// A Measure is one value by which strategies are compared. An entry in
// [Measures] puts it into every output: the tally, the printed comparison, the
// tables of the report, and JSON.
type Measure struct {
	Key       string // column of the tally, and the start of its keys in JSON
	Title     string // heading of its columns
	zoneTitle string // heading in the table of one zone; empty if the same as Title
	About     string // its meaning in one line
	Kind      Kind
	Digits    int // decimals to show, unless the kind decides
	Better    Better
	// Get returns the value of one zone in a year or over the record. It is nil
	// if only the whole site has a value.
	Get func(*Cell) float64
	// Per, if not nil, returns the divisor of Get. Both are summed over zones and
	// years first. Empty is the value if Per is 0: NaN for no value.
	Per   func(*Cell) float64
	Empty float64
	Site  Site // how zones combine into the site's value
	// Whole, if not nil, returns the site's value of strategy s and replaces Site;
	// NaN for no value.
	Whole func(c *Cells, s int, over Over) float64
	// Plain explains the measure to readers without any background, on the first page
	// of the report, after what PlainName calls it there; empty for no explanation.
	Plain, PlainName string
	// Part names what it counts, where it stands in small print with the same count of
	// another part of the zones; empty for a measure that never does.
	Part  string
	Views []View // columns in a comparison; none means one, over the record
	Lead  bool   // comes before the others in a comparison
	In    Output // where it is shown; 0 means everywhere
}

// A View is one column of a comparison.
type View struct {
	Over Over
	// Head is the heading on a terminal, broken into lines, with %s for a unit
	// that depends on the system, %p for "a year" and %r for "/yr", or what replaces
	// them if no year is whole; empty where it follows from the title.
	Head  string
	Minor bool // hidden on a narrow screen
	// Front is the heading on the first page of the report, in everyday words and
	// without a unit, with %p as above; empty for a view that appears on later pages
	// only.
	Front string
	// Rest puts the days of the period after the value on the first page, as in
	// "18 of 365".
	Rest bool
	// frontDays replaces Front in the view of the days of a record without a whole
	// year; empty for the title.
	frontDays string
	// Beside is the key of the measure whose value over the same period stands in
	// small print beside this one on the first page; empty for none.
	Beside string
}

// Kind is the kind of number that a measure is. It decides the format.
type Kind uint8

// The kinds, with their units.
const (
	Number  Kind = iota // a plain number or a count
	Days                // d
	Minutes             // min
	Depth               // mm
	Area                // m²
	Volume              // m³
	Share               // 1; people read a percentage
	Change              // 1 against the baseline: −0.2 is 20% less
)

// Unit returns the unit of k in files; empty for plain numbers.
func (k Kind) Unit() string {
	return [...]string{Days: "d", Minutes: "min", Depth: "mm", Area: "m²", Volume: "m³", Change: ""}[k]
}

// Better says which way a measure is better.
type Better uint8

// The ways.
const (
	Neither Better = iota
	Less
	More
)

// String returns the word for b in files.
func (b Better) String() string { return [...]string{"neither", "less", "more"}[b] }

// Over is the period that a measure covers.
type Over uint8

// The periods. A year is missing if the record has no whole year.
const (
	Record     Over = iota // the days of the table's [Basis]: its whole years, or all days if no year is whole
	PerYear                // their sum, divided by the number of whole years; undivided if no year is whole
	MedianYear             // the median year of [Ranked]
	DryYear                // its dry year
)

// suffix is what a key ends with.
func (o Over) suffix() string {
	return [...]string{"", "_per_year", "_median_year", "_dry_year"}[o]
}

// words is what a title ends with.
func (o Over) words(b *Basis) string {
	return [...]string{"", " " + b.Words(), ", median year", ", dry year"}[o]
}

// Site is how the values of zones combine into one value of the site.
type Site uint8

// The ways.
const (
	Mean  Site = iota // area-weighted
	Sum               // of all zones
	Worst             // the highest, with the name of its zone
)

// Output is a set of outputs.
type Output uint8

// The outputs.
const (
	InTally      Output = 1 << iota // tally.csv, if Get is set
	InComparison                    // the printed comparison and the report's
	InZones                         // the report's tables of one zone, if Get is set
	InJSON                          // replay --json and run.json
	InReport                        // the report's comparison only, for which a terminal has no room
)

// IsIn reports whether m is shown in output o.
func (m *Measure) IsIn(o Output) bool {
	return (m.In == 0 || m.In&o != 0) && (m.Get != nil || o&(InTally|InZones) == 0)
}

// usual is the period of a single value of m.
func (m *Measure) usual() Over {
	if m.Per != nil || m.Site == Worst || m.Kind == Change {
		return Record
	}
	return PerYear
}

// A Cell is the source of a measure: one strategy on one zone, in a year or, with
// year 0, over the days of the table's [Basis].
type Cell struct {
	strategy, Zone, year int
	areaM2               float64
	Sums                 sim.Sums
	least                sim.Sums // of the least-water reference
}

// Of returns the value of m in cell c; NaN and false if it has none. m must
// have a Get.
func (m *Measure) Of(c *Cell) (v float64, given bool) {
	v = m.Get(c)
	if m.Per == nil {
		return v, true
	}
	per := m.Per(c)
	return m.ratio(v, per), per != 0 || !math.IsNaN(m.Empty)
}

func (m *Measure) ratio(v, per float64) float64 {
	if per == 0 {
		return m.Empty
	}
	return v / per
}

// Cell returns the cell of strategy s on zone z in the given year.
func (t *Table) Cell(s, z, year int) Cell {
	return Cell{strategy: s, Zone: z, year: year, areaM2: t.Zones[z].AreaM2,
		Sums: t.Year(s, z, year), least: t.Year(t.LeastRow(s), z, year)}
}
