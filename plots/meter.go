package plots

import (
	"fmt"
	"math"

	"loamledger/weather/cal"
)

// A MeterView is a replay of the strategy as found next to the reads of a meter.
type MeterView struct {
	Site, Station string
	Meter         string // empty for a meter without a name
	Strategy      string
	Units         Units
	Periods       []MeterPeriod // in order of their dates, at least one
	Changed       cal.Date      // 0 for no change
	Scored        bool          // the statistics are known
	N             int           // periods that count before the change
	NMBE, CV      float64       // of the whole meter [%]
	Label         string        // what may be said of the replay
}

// A MeterPeriod is the use between two reads [m³/d].
type MeterPeriod struct {
	From, To cal.Date // as in reads: the day of the read before, and the day of the read
	Metered  float64
	Sim      float64 // replayed irrigation and base use; NaN if not known
	Base     float64 // base use; NaN if not known
	Left     bool    // does not count
}

// subject names the meter in titles.
func (v *MeterView) subject() string {
	if v.Meter == "" {
		return "the meter"
	}
	return v.Meter
}

// named returns the name of a chart.
func (v *MeterView) named(name string) string {
	if v.Meter == "" {
		return name
	}
	return name + "-" + slug(v.Meter)
}

func (v *MeterView) unit() string { return v.Units.volumeUnit() + "/day" }

// Meter returns metered and simulated use per day over time, and their difference.
func Meter(v *MeterView) Chart {
	first, last := v.Periods[0].From, v.Periods[len(v.Periods)-1].To
	c := Chart{Kind: MeterKind, Name: v.named("meter"), Title: "Metered and simulated use: " + v.subject(), Site: v.Site, Station: v.Station,
		From: first, To: last - 1, HeightPt: 120, Columns: 1}
	c.X = dateAxis(first, int(last-first)+1)
	metered, sim, base := Series{Form: Line, Role: Observed}, Series{Form: Line, Role: Deficit}, Series{Form: Line, Role: StressLine}
	left := Series{Form: Line, Role: EmptyLine}
	diff := Series{Form: Bars, Role: Applied, Width: math.Inf(1)}
	top, worst := 0.0, 0.0
	for i := range v.Periods {
		p := &v.Periods[i]
		of, other := &metered, &left
		if p.Left {
			of, other = &left, &metered
		}
		of.level(p, first, v.Units.volume(p.Metered))
		other.level(p, first, math.NaN())
		sim.level(p, first, v.Units.volume(p.Sim))
		base.level(p, first, v.Units.volume(p.Base))
		for _, y := range []float64{p.Metered, p.Sim, p.Base} {
			if y > top {
				top = y
			}
		}
		diff.Width = min(diff.Width, 0.85*float64(p.To-p.From))
		if d := p.Metered - p.Sim; !p.Left && !math.IsNaN(d) {
			diff.X, diff.Y = append(diff.X, float64(float64(p.From+p.To)/2)-float64(first)), append(diff.Y, v.Units.volume(d))
			worst = max(worst, math.Abs(d))
		}
	}
	c.Y = scaleTo("use per day", v.unit(), v.Units.volume(top)*1.02, 4)
	around := scaleTo("difference", v.unit(), v.Units.volume(worst)*1.02, 2)
	for _, t := range around.Ticks[1:] {
		around.Ticks = append(around.Ticks, Tick{-t.At, "−" + t.Label})
	}
	around.Min = -around.Max
	use := Panel{Title: "Use per day", Series: []Series{base, left, metered, sim}}
	rest := Panel{Title: "Metered less simulated", Y: &around, Series: []Series{diff, {Form: Rule, Role: Deficit, Y: []float64{0}}}}
	if v.Changed > first && v.Changed < last {
		post := Series{Form: Post, Role: Today, X: []float64{float64(v.Changed - first)}}
		use.Series, rest.Series = append(use.Series, post), append(rest.Series, post)
	}
	c.Panels = []Panel{use, rest}
	c.Keys = v.keys(left.anything(), base.anything(), len(use.Series) > 4)
	c.See = v.meterSee()
	if v.Changed != 0 {
		c.Notes = append(c.Notes, "After the change, the simulated line is what the strategy as found would have used.")
	}
	if left.anything() {
		c.Notes = append(c.Notes, "Periods that do not count are in the table, with the reason.")
	}
	c.Alt = fmt.Sprintf("Line chart of metered and simulated use per day in %s, and bars of their difference. %s",
		count(len(v.Periods), "period", "periods"), c.See)
	c.punctuate()
	return c
}

// level adds the level of one period to a line.
func (s *Series) level(p *MeterPeriod, first cal.Date, y float64) {
	s.X, s.Y = append(s.X, float64(p.From-first), float64(p.To-first)), append(s.Y, y, y)
}

// anything reports whether the series has a value.
func (s *Series) anything() bool {
	for _, y := range s.Y {
		if !math.IsNaN(y) {
			return true
		}
	}
	return false
}

func (v *MeterView) keys(left, base, changed bool) []Key {
	keys := []Key{{Form: Line, Role: Observed, Label: "metered"}, {Form: Line, Role: Deficit, Label: "simulated, with base use"}}
	if base {
		keys = append(keys, Key{Form: Line, Role: StressLine, Label: "base use"})
	}
	if left {
		keys = append(keys, Key{Form: Line, Role: EmptyLine, Label: "metered, does not count"})
	}
	keys = append(keys, Key{Form: Bars, Role: Applied, Label: "difference"})
	if changed {
		keys = append(keys, Key{Form: Post, Role: Today, Label: "the change"})
	}
	return keys
}

// meterSee says how close the replay is to the meter.
func (v *MeterView) meterSee() string {
	if !v.Scored {
		return fmt.Sprintf("Too few periods count to say how close use under %s is to the meter.", quote(v.Strategy))
	}
	bias := fixed(math.Abs(v.NMBE), 0) + "% too low"
	switch {
	case math.Abs(v.NMBE) < 0.5:
		bias = "right on average"
	case v.NMBE < 0:
		bias = fixed(-v.NMBE, 0) + "% too high"
	}
	return fmt.Sprintf("Simulated use under %s is %s (NMBE), with a typical error of %s%% (CV(RMSE)), over %s of the whole meter.",
		quote(v.Strategy), bias, fixed(v.CV, 0), count(v.N, "period", "periods"))
}

// MeterScatter returns metered against simulated use per day, each period a dot.
func MeterScatter(v *MeterView) Chart {
	first, last := v.Periods[0].From, v.Periods[len(v.Periods)-1].To
	c := Chart{Kind: MeterDotsKind, Name: v.named("meter-scatter"), Title: "Metered against simulated use: " + v.subject(), Site: v.Site,
		Station: v.Station, From: first, To: last - 1, HeightPt: 190, Columns: 1}
	before, after := Series{Form: Marks, Role: Observed}, Series{Form: Marks, Role: Browned}
	top := 0.0
	for i := range v.Periods {
		p := &v.Periods[i]
		if p.Left || math.IsNaN(p.Sim) {
			continue
		}
		to := &before
		if v.Changed != 0 && p.From >= v.Changed {
			to = &after
		}
		x, y := v.Units.volume(p.Sim), v.Units.volume(p.Metered)
		to.X, to.Y, to.Base = append(to.X, x), append(to.Y, y), append(to.Base, 1)
		top = max(top, x, y)
	}
	c.X, c.Y = scaleTo("simulated use, with base use", v.unit(), top*1.02, 5), scaleTo("metered use", v.unit(), top*1.02, 4)
	equal := Series{Form: Line, Role: Deficit, X: []float64{0, c.X.Max}, Y: []float64{0, c.X.Max}}
	if c.X.Max > c.Y.Max {
		equal.X[1], equal.Y[1] = c.Y.Max, c.Y.Max
	}
	p := Panel{Title: "One dot for each period", Note: count(len(before.X)+len(after.X), "period", "periods"), Series: []Series{equal, before}}
	c.Keys = []Key{{Form: Marks, Role: Observed, Label: "one period"}, {Form: Line, Role: Deficit, Label: "equal"}}
	if len(after.X) > 0 {
		p.Series = append(p.Series, after)
		c.Keys = []Key{{Form: Marks, Role: Observed, Label: "before the change"}, {Form: Marks, Role: Browned, Label: "after it"}, c.Keys[1]}
	}
	c.Panels = []Panel{p}
	c.See = "Dots above the line are periods with more use than simulated."
	if v.Scored {
		c.See = "Dots above the line are periods with more use than simulated; the label of the replay is " + quote(v.Label) + " by its score."
	}
	c.Alt = fmt.Sprintf("Dots of metered against simulated use per day in %s. %s", p.Note, c.See)
	c.punctuate()
	return c
}
