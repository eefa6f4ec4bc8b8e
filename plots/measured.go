package plots

import (
	"fmt"
	"math"
	"strings"

	"loamledger/weather/cal"
)

// A MeasuredView is a replay next to measured soil water. Columns have one value a
// day from Start [mm]; NaN in MeasuredMM marks a day that does not count.
type MeasuredView struct {
	Site, Station  string
	Zone, Strategy string
	Units          Units
	Start          cal.Date
	SimMM          []float64
	MeasuredMM     []float64
	RAWMM          []float64
	MeasuredRAW    []float64 // for the measured depletion
	RainMM         []float64
	TAWMM          float64   // of the measured soil
	R              float64   // correlation
	BiasMM, RMSEMM float64   // simulated less measured
	P              float64   // mean stress fraction
	UseAt, Use     []float64 // depletion as a share of TAW, and use as a share of ETc, of each dry spell
	MedianAt       []float64 // middle of each bin
	Median         []float64 // median use in it
}

// Depletion returns simulated and measured depletion, a panel for each year with a
// measured day, with the rain from below on the same scale.
func Depletion(v *MeasuredView) Chart {
	u := v.Units
	c := Chart{Kind: MeasuredKind, Name: "measured-depletion", Title: "Simulated and measured depletion: " + v.Zone,
		Site: v.Site, Station: v.Station, HeightPt: 96, Columns: 1}
	deepest := v.TAWMM
	for i, sim := range v.SimMM {
		deepest = max(deepest, sim)
		if m := v.MeasuredMM[i]; m > deepest {
			deepest = m
		}
	}
	c.Y = scaleTo("depletion, 0 = full root zone", u.depthUnit(), u.depth(deepest)*1.02, 4)
	c.Y.Down = true
	first, last := -1, -1
	for i, m := range v.MeasuredMM {
		if math.IsNaN(m) {
			continue
		}
		if first < 0 {
			first = i
		}
		last = i
	}
	c.From, c.To = v.Start+cal.Date(first), v.Start+cal.Date(last)
	var alt []string
	for year := c.From.Year(); year <= c.To.Year(); year++ {
		p, days := v.year(year, c.Y.Max)
		if days == 0 {
			continue
		}
		c.Panels = append(c.Panels, p)
		alt = append(alt, p.Title+": "+p.Note)
	}
	c.X = dateAxis(cal.Of(2000, 1, 1), 366) // a leap year has room for all
	c.Keys = []Key{{Form: Line, Role: Deficit, Label: "simulated"}, {Form: Line, Role: Observed, Label: "measured"},
		{Form: Line, Role: StressLine, Label: "RAW"}, {Form: Line, Role: EmptyLine, Label: "TAW"},
		{Form: Bars, Role: RainFall, Label: "rain, from below"}}
	c.See = fmt.Sprintf("Under %s, simulated depletion differs from the measured one by %s (RMSE), %s of TAW; r is %s.",
		quote(v.Strategy), v.depthText(v.RMSEMM), percent(v.RMSEMM/v.TAWMM), fixed(v.R, 2))
	c.Notes = []string{"Gaps in the measured line are days with frozen soil or without a reading. Rain grows from the lower edge, on the " +
		"scale of depletion."}
	c.Alt = fmt.Sprintf("Line charts of simulated and measured depletion of %s, one per year, with rain. %s %s.", v.Zone, c.See,
		strings.Join(alt, ". "))
	c.punctuate()
	return c
}

// depthText writes a small depth, with a decimal more than a total has.
func (v *MeasuredView) depthText(mm float64) string {
	return fixed(v.Units.depth(mm), v.Units.depthDigits()+1) + v.Units.pick(" inches", " mm")
}

// year returns the panel of one year and its measured days; bottom is the end of
// the vertical axis.
func (v *MeasuredView) year(year int, bottom float64) (Panel, int) {
	u, p := v.Units, Panel{Title: fmt.Sprint(year)}
	var x, sim, measured, raw, rain, base []float64
	var days, simPast, measuredPast int
	for i := range v.SimMM {
		d := v.Start + cal.Date(i)
		y, m, dom := d.YMD()
		if y != year {
			continue
		}
		x = append(x, float64(cal.Of(2000, m, dom)-cal.Of(2000, 1, 1)))
		sim, measured, raw = append(sim, u.depth(v.SimMM[i])), append(measured, u.depth(v.MeasuredMM[i])), append(raw, u.depth(v.RAWMM[i]))
		rain, base = append(rain, max(bottom-u.depth(v.RainMM[i]), 0)), append(base, bottom)
		if math.IsNaN(v.MeasuredMM[i]) {
			continue
		}
		days++
		if v.SimMM[i] > v.RAWMM[i] {
			simPast++
		}
		if v.MeasuredMM[i] > v.MeasuredRAW[i] {
			measuredPast++
		}
	}
	p.Note = fmt.Sprintf("past RAW on %s simulated, %d measured, of %s", count(simPast, "day", "days"), measuredPast,
		count(days, "measured day", "measured days"))
	p.Series = []Series{{Form: Bars, Role: RainFall, X: x, Y: rain, Base: base, Width: 0.9},
		{Form: Rule, Role: EmptyLine, Y: []float64{u.depth(v.TAWMM)}}, {Form: Line, Role: StressLine, X: x, Y: raw},
		{Form: Line, Role: Observed, X: x, Y: measured}, {Form: Line, Role: Deficit, X: x, Y: sim}}
	return p, days
}

// WaterUse returns measured water use in dry spells against relative depletion,
// with the Ks line of the replay.
func WaterUse(v *MeasuredView) Chart {
	const right, top = 110, 200 // [%]
	c := Chart{Kind: UseKind, Name: "measured-use", Title: "Measured water use and the Ks line: " + v.Zone, Site: v.Site,
		Station: v.Station, From: v.Start, To: v.Start + cal.Date(len(v.SimMM)-1), HeightPt: 190, Columns: 1}
	c.X = scaleTo("measured depletion", "% of TAW", right, 11)
	c.Y = scaleTo("water use", "% of ETc", top, 4)
	p := Panel{Title: "Dry spells of three days", Note: count(len(v.Use), "spell", "spells")}
	dots, outside := Series{Form: Marks, Role: Observed}, 0
	for i, use := range v.Use {
		if x := 100 * v.UseAt[i]; x > c.X.Max || 100*use > top || use < 0 {
			outside++
		} else {
			dots.X, dots.Y = append(dots.X, x), append(dots.Y, 100*use)
		}
	}
	ks := Series{Form: Line, Role: Deficit, X: []float64{0, 100 * v.P, 100, c.X.Max}, Y: []float64{100, 100, 0, 0}}
	median := Series{Form: Marks, Role: Today}
	for i, y := range v.Median {
		if x := 100 * v.MedianAt[i]; y >= 0 && 100*y <= top && x <= c.X.Max {
			median.X, median.Y = append(median.X, x), append(median.Y, 100*y)
		}
	}
	p.Series = []Series{dots, ks, median}
	c.Panels = []Panel{p}
	c.Keys = []Key{{Form: Marks, Role: Observed, Label: "one dry spell"}, {Form: Marks, Role: Today, Label: "median of a tenth of TAW"},
		{Form: Line, Role: Deficit, Label: "Ks of the replay"}}
	c.See = v.useSee()
	if outside > 0 {
		c.Notes = append(c.Notes, count(outside, "spell is", "spells are")+" outside the chart; medians include them.")
	}
	c.Notes = append(c.Notes, fmt.Sprintf("Ks is drawn for the mean p of the spells, %s. A spell has no rain or irrigation on its days and "+
		"two days before.",
		fixed(v.P, 2)))
	c.Alt = fmt.Sprintf("Dots of measured water use against depletion in %s, with medians and the Ks line. %s", p.Note, c.See)
	c.punctuate()
	return c
}

// useSee compares the medians with the Ks line, before and past RAW.
func (v *MeasuredView) useSee() string {
	mean := func(past bool) (diff float64, n int) {
		for i, at := range v.MedianAt {
			if (at > v.P) == past {
				ks := min(max((1-at)/(1-v.P), 0), 1)
				diff, n = diff+v.Median[i]-ks, n+1
			}
		}
		return diff / float64(n), n
	}
	word := func(d float64) string {
		switch {
		case math.Abs(d) < 0.1:
			return "about as much as"
		case d < 0:
			return percent(-d) + " of ETc less than"
		}
		return percent(d) + " of ETc more than"
	}
	before, n := mean(false)
	past, k := mean(true)
	switch {
	case n > 0 && k > 0:
		return fmt.Sprintf("Before RAW, plants used %s the replay says; past RAW, %s it says.", word(before), word(past))
	case n > 0:
		return fmt.Sprintf("Before RAW, plants used %s the replay says.", word(before))
	case k > 0:
		return fmt.Sprintf("Past RAW, plants used %s the replay says.", word(past))
	}
	return "There are too few dry spells to compare water use with Ks."
}
