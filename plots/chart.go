package plots

import (
	"fmt"

	"loamledger/weather/cal"
)

// A Chart is one picture as data: panels of equal scale, usually one per strategy,
// with all texts around them.
type Chart struct {
	Name     string // stem of a file name: lower-case letters, digits and hyphens
	Kind     Kind
	Title    string
	See      string // one sentence that says what to see
	Alt      string // the same for readers who cannot see the picture, with the main numbers
	Label    string // Estimated, or empty if nothing is compared
	Site     string
	Station  string
	From, To cal.Date // first and last day shown
	X, Y     Axis
	Columns  int     // panels side by side
	HeightPt float64 // height of a panel's plotting area [pt], for a picture 432 pt wide
	Strip    *Strip  // above every column; nil for none
	Panels   []Panel
	Keys     []Key    // the legend
	Notes    []string // footnotes
}

// A Kind is one of the chart kinds.
type Kind uint8

// The chart kinds.
const (
	MonthsKind     Kind = iota // water applied and needed by month
	YearsKind                  // water by year
	CumulativeKind             // water since the first day
	RunTimesKind               // watering hours by month
	StressKind                 // stress days by month and year
	FlowsKind                  // where the water went
	DryKind                    // depletion over a dry season
	RecordKind                 // a weather record, not part of a study
	DeficitKind                // water use and stress days at scaled run times, not part of a study
	OutlookKind                // watering on forecast days after the record
	MeasuredKind               // simulated and measured depletion, not part of a study
	UseKind                    // measured water use and Ks, not part of a study
	BillMonthsKind             // water bills by month and part
	BillBridgeKind             // from one bill to others, by part
	BillYearsKind              // water bills by year
	MeterKind                  // metered and simulated use over time, not part of a study
	MeterDotsKind              // metered against simulated use, not part of a study
	SpreadKind                 // P10 to P90 of draws
	SwingKind                  // what one input does at a time
	AccountsKind               // savings of many accounts, by how many have them; not part of a study
	SharesKind                 // cumulative share of the savings of ranked accounts, not part of a study
	RatiosKind                 // savings of accounts by their application ratio, not part of a study
	CostsKind                  // levelized cost of saved water, not part of a study
	Kinds                      // how many kinds there are
)

// An Axis is shared by all panels of a chart.
type Axis struct {
	Label    string // what is measured, unit not included
	Unit     string // empty for dates and names
	Min, Max float64
	Ticks    []Tick
	Down     bool // values grow downward
	Plain    bool // no grid lines
	Once     bool // labels below the last panel of a column only
}

// A Tick is a labeled place on an axis; an empty label draws the grid line only.
type Tick struct {
	At    float64
	Label string
}

// A Panel is one plotting area.
type Panel struct {
	Title     string // a strategy or zone, as the user named it
	Note      string // a short finding beside the title
	Reference bool   // one of the two reference strategies
	X         *Axis  // its own horizontal axis; nil for the axis of the chart
	Y         *Axis  // its own vertical axis; nil for the axis of the chart
	Series    []Series
}

// A Strip is a low panel with its own vertical axis.
type Strip struct {
	Panel
	Y        Axis
	HeightPt float64
}

// A Form is the way in which a series is drawn.
type Form uint8

// The forms, with the meaning of X, Y and Base of a [Series].
const (
	Line  Form = iota // through (X, Y), broken at NaN
	Steps             // level at Y over X ± Width/2, joined
	Bars              // vertical from Base to Y at X, Width wide
	Spans             // horizontal from Base to X at lane Y, Width thick
	Band              // between Base and Y over X, broken at NaN
	Rule              // level at Y[0] across the panel
	Cells             // at (X, Y), 1 by 1, shaded by class Base
	Post              // vertical at X[0] across the panel
	Marks             // dots at (X, Y), of the role and class Base
)

// A Series is one set of marks in a panel. NaN marks a gap.
type Series struct {
	Form  Form
	Role  Role
	X, Y  []float64
	Base  []float64 // nil means 0
	Width float64   // in units of the axis across the marks
	Text  []string  // in each span or beside each mark, if there is room; nil for none
}

// A Key explains one role in the legend.
type Key struct {
	Form  Form
	Role  Role
	Class float64 // of Cells
	Label string
}

// Parts splits a chart of many panels into charts that fit a printed page, of
// about equal length, with the same axes and legend; it returns a chart that fits
// as is.
func (c *Chart) Parts() []Chart {
	const (
		pagePt = 560 // for the panels, at a width of 432 pt
		textPt = 58  // above and below a panel, about
	)
	columns := max(c.Columns, 1)
	rows := (len(c.Panels) + columns - 1) / columns
	fit := max(int(pagePt/(c.HeightPt+textPt)), 1)
	parts := (rows + fit - 1) / fit
	if parts < 2 {
		return []Chart{*c}
	}
	var out []Chart
	for i := range parts {
		from, to := rows*i/parts*columns, min(rows*(i+1)/parts*columns, len(c.Panels))
		part := *c
		part.Panels = c.Panels[from:to]
		part.Title = fmt.Sprintf("%s (%d of %d)", c.Title, i+1, parts)
		part.Name = fmt.Sprintf("%s-%d", c.Name, i+1)
		if i < parts-1 {
			part.Notes = nil
		}
		out = append(out, part)
	}
	return out
}

// punctuate applies American punctuation to every sentence of the chart.
func (c *Chart) punctuate() {
	c.See, c.Alt = punctuated(c.See), punctuated(c.Alt)
	for i := range c.Notes {
		c.Notes[i] = punctuated(c.Notes[i])
	}
}
