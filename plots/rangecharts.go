package plots

import (
	"fmt"
	"math"
	"slices"

	"loamledger/sim/draw"
	"loamledger/sim/tally"
	"loamledger/weather/portable"
	"loamledger/weather/quantity"
)

// RangeCharts returns the charts of draws: the spread of page one's figures and what one
// input does at a time; none without draws.
func RangeCharts(s *Study, r *Ranges) []Chart {
	if r == nil {
		return nil
	}
	out := []Chart{s.spreadChart(r)}
	if c := s.swingChart(r); c != nil {
		out = append(out, *c)
	}
	for i := range out {
		out[i].punctuate()
	}
	return out
}

// lanePt is the height of a lane of a chart of lanes [pt].
const lanePt = 17

// lanes returns a vertical axis of names, the first on top.
func lanes(names []string) Axis {
	ax := Axis{Min: -0.6, Max: float64(len(names)) - 0.4, Down: true, Plain: true}
	for i, name := range names {
		ax.Ticks = append(ax.Ticks, Tick{At: float64(i), Label: laneName(name)})
	}
	return ax
}

// laneName cuts a name to what fits beside a chart.
func laneName(name string) string {
	const most = 34
	if r := []rune(name); len(r) > most {
		return string(r[:most-1]) + "…"
	}
	return name
}

// spreadChart draws P10 to P90 of each figure of page one, one panel a figure.
func (s *Study) spreadChart(r *Ranges) Chart {
	c := s.frame(SpreadKind, "ranges", "How far the results may be off")
	names := s.Table.Strategies[:s.own()]
	c.Y, c.HeightPt = lanes(names), lanePt*float64(len(names))
	basis := s.Table.Basis()
	for i := range r.Spreads {
		f := &r.Spreads[i]
		if f.Figure.Measure.Kind == tally.Change || !slices.ContainsFunc(f.Of, func(o draw.Spread) bool { return !math.IsNaN(o.P50) }) {
			continue
		}
		value := func(v float64) float64 { return s.Units.chartValue(f.Figure.Measure, v) }
		bar := Series{Form: Spans, Role: Spread, Width: 0.55}
		middle := Series{Form: Marks, Role: Cut}
		point := Series{Form: Marks, Role: Today}
		most := 0.0
		for st := range names {
			of := f.Of[st]
			if math.IsNaN(of.P50) {
				continue
			}
			at := float64(st)
			bar.X, bar.Base, bar.Y = append(bar.X, value(of.P90)), append(bar.Base, value(of.P10)), append(bar.Y, at)
			middle.X, middle.Y, middle.Base = append(middle.X, value(of.P50)), append(middle.Y, at), append(middle.Base, 0)
			point.X, point.Y, point.Base = append(point.X, value(f.Point[st])), append(point.Y, at), append(point.Base, 0)
			most = max(most, value(of.P90), value(f.Point[st]))
		}
		ax := scaleTo("", "", most, 5)
		c.Panels = append(c.Panels, Panel{Title: s.Units.withUnit(frontHead(&f.Figure, &basis), &f.Figure, &basis), X: &ax,
			Series: []Series{bar, point, middle}})
	}
	c.Keys = []Key{{Form: Spans, Role: Spread, Label: "P10 to P90 of the draws"}, {Form: Marks, Role: Cut, Label: "P50"},
		{Form: Marks, Role: Today, Label: "the replay itself"}}
	c.Columns = 1
	c.See = orElse(s.RangeSaving(r), "Each bar holds eight of ten draws.")
	c.Notes = append(c.Notes, fmt.Sprintf("%s draws, seed %d; all options meet the same draws, so their differences are more "+
		"certain than the bars.",
		fixed(float64(r.Draws), 0), r.Seed))
	c.Alt = fmt.Sprintf("Bars from P10 to P90 of the figures of page one for each option. %s", c.See)
	return c
}

// chartValue converts a value of a measure to the unit in its heading.
func (u Units) chartValue(m *tally.Measure, v float64) float64 {
	switch m.Kind {
	case tally.Volume:
		return u.volume(v)
	case tally.Area:
		return u.area(v)
	case tally.Depth:
		return u.depth(v)
	case tally.Share, tally.Change:
		return 100 * v
	}
	return v
}

// swingChart draws what one input does at a time to the saving, the widest first; nil if
// nothing moves it.
func (s *Study) swingChart(r *Ranges) *Chart {
	var list []Swing
	for i := range r.Swings {
		if len(list) < mostSwings && r.Swings[i].width() > 0 {
			list = append(list, r.Swings[i])
		}
	}
	if len(list) == 0 {
		return nil
	}
	what := "saved by " + quote(s.Table.Strategies[r.Option])
	if r.Option == s.base() {
		what = "used by " + quote(s.Table.Strategies[r.Option])
	}
	c := s.frame(SwingKind, "swings", "Which inputs move the saving most")
	u, names := s.Units, make([]string, len(list))
	lowest, highest := math.Inf(1), math.Inf(-1)
	low, high := Series{Form: Spans, Role: AtLow, Width: 0.6}, Series{Form: Spans, Role: AtHigh, Width: 0.6}
	center := u.volume(s.centerOf(r))
	for i := range list {
		names[i] = list[i].What
		for k, series := range []*Series{&low, &high} {
			v := u.volume(list[i].SavingM3[k])
			series.Base, series.X = append(series.Base, min(v, center)), append(series.X, max(v, center))
			series.Y = append(series.Y, float64(i))
			lowest, highest = min(lowest, v, center), max(highest, v, center)
		}
	}
	c.Y, c.HeightPt, c.Columns = lanes(names), lanePt*float64(len(names)), 1
	c.X = spanTo("water "+what+" "+s.per(), u.volumeUnit(), lowest, highest)
	c.Panels = []Panel{{Series: []Series{low, high, {Form: Post, Role: Need, X: []float64{center}, Y: []float64{0}}}}}
	c.Keys = []Key{{Form: Spans, Role: AtLow, Label: "input at its P10"}, {Form: Spans, Role: AtHigh, Label: "input at its P90"},
		{Form: Post, Role: Need, Label: "the replay itself"}}
	c.See = fmt.Sprintf("%s moves it most: from %s to %s %s.", quantity.Capital(list[0].What), rounded(u.volume(list[0].SavingM3[0])),
		rounded(u.volume(list[0].SavingM3[1])), u.volumeUnit())
	for i := range list {
		c.Notes = append(c.Notes, fmt.Sprintf("%s: %s, %s.", quantity.Capital(list[i].What), list[i].Low, list[i].High))
	}
	c.Notes = append(c.Notes, "One input at a time at its P10 and its P90, all others as in the replay. Two inputs together can do "+
		"more or less than "+
		"the sum.")
	c.Alt = fmt.Sprintf("Bars of the water %s at P10 and P90 of each input. %s", what, c.See)
	return &c
}

// centerOf returns the saving of the replay itself; without an option, its water [m³ a
// year].
func (s *Study) centerOf(r *Ranges) float64 {
	rows := s.Table.Compare()
	if r.Option == s.base() {
		return rows[r.Option].M3PerYear
	}
	return rows[s.base()].M3PerYear - rows[r.Option].M3PerYear
}

// spanTo returns an axis between round numbers around two values, with about six
// intervals.
func spanTo(label, unit string, low, high float64) Axis {
	if !(high > low) {
		low, high = low-1, high+1
	}
	step := roundStep((high - low) / 6)
	ax := Axis{Label: label, Unit: unit, Min: float64(step * math.Floor(low/step+1e-9)), Max: float64(step * math.Ceil(high/step-1e-9))}
	decimals := max(0, -int(math.Floor(portable.Log10(step)+1e-9)))
	if scaled := float64(step * portable.Pow(10, float64(decimals))); math.Abs(scaled-math.Round(scaled)) > 1e-9 {
		decimals++ // a step such as 2.5
	}
	for k := 0; ax.Min+float64(float64(k)*step) <= ax.Max+float64(step*1e-9); k++ {
		at := ax.Min + float64(float64(k)*step)
		ax.Ticks = append(ax.Ticks, Tick{At: at, Label: fixed(at, decimals)})
	}
	return ax
}
