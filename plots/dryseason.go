package plots

import (
	"fmt"
	"math"
	"strings"

	"loamledger/sim"
	"loamledger/sim/tally"
	"loamledger/weather/cal"
)

// DrySeason returns the depletion of one zone over the days of trace t: a
// panel for each strategy with RAW and TAW, below the rain.
func DrySeason(s *Study, t *DepletionTrace) Chart {
	c := s.frame(DryKind, "dry-season-"+slug(t.Zone), "")
	u, n := s.Units, len(t.RAWMM)
	c.From, c.To = t.Start, t.Start+cal.Date(n)-1
	c.Title = fmt.Sprintf("Root-zone depletion in a dry season, %s: %s", dates(c.From, c.To), t.Zone)
	x := make([]float64, n)
	for i := range x {
		x[i] = float64(i)
	}
	raw := u.depths(t.RAWMM)
	var alt []string
	var most, fewest leader
	floor := make([]float64, n) // a stress day is shaded down to TAW, so that one barely past RAW shows too
	for i := range floor {
		floor[i] = u.depth(t.TAWMM)
	}
	for st, name := range t.Strategies {
		low := u.depths(t.LowQuarterMM[st])
		p := Panel{Title: name, Reference: name == tally.NoWater || name == tally.LeastWater}
		over := Series{Form: Band, Role: Stressed, X: x, Y: make([]float64, n), Base: floor}
		days := 0
		for i, mm := range t.LowQuarterMM[st] {
			over.Y[i] = math.NaN()
			if sim.Stressed(mm, t.RAWMM[i]) {
				over.Y[i] = raw[i]
				days++
			}
		}
		p.Note = count(days, "stress day", "stress days")
		p.Series = []Series{over, {Form: Rule, Role: EmptyLine, Y: []float64{u.depth(t.TAWMM)}}, {Form: Line, Role: StressLine, X: x, Y: raw}}
		p.Series = append(p.Series, Series{Form: Line, Role: Deficit, X: x, Y: low})
		c.Panels = append(c.Panels, p)
		alt = append(alt, name+": "+p.Note)
		if !p.Reference {
			most.offer(st, float64(days), more)
			fewest.offer(st, float64(days), fewer)
		}
	}
	c.X = dateAxis(t.Start, n)
	c.Y = scaleTo("depletion, 0 = full root zone", u.depthUnit(), u.depth(t.TAWMM)*1.04, 3)
	c.Y.Max, c.Y.Down = u.depth(t.TAWMM)*1.04, true
	for len(c.Y.Ticks) > 1 && c.Y.Ticks[len(c.Y.Ticks)-1].At > c.Y.Max {
		c.Y.Ticks = c.Y.Ticks[:len(c.Y.Ticks)-1]
	}
	c.Columns, c.HeightPt = columns(len(c.Panels)), 88
	wettest := 0.0
	for _, v := range t.RainMM {
		if v > wettest {
			wettest = v
		}
	}
	c.Strip = &Strip{HeightPt: 30, Y: scaleTo("rain", u.depthUnit()+"/day", u.depth(wettest), 1), Panel: Panel{
		Title: "Rain", Note: u.pick("inches", "mm") + " a day",
		Series: []Series{{Form: Bars, Role: RainFall, X: x, Y: u.depths(t.RainMM), Width: 0.9}},
	}}
	c.Keys = []Key{
		{Form: Line, Role: Deficit, Label: "driest quarter of the zone"}, {Form: Line, Role: StressLine, Label: "RAW: stress begins"},
		{Form: Bars, Role: Stressed, Label: "stress day"}, {Form: Line, Role: EmptyLine, Label: "TAW: no water left"},
	}
	short := "Days are shaded when the black line is below the dashed line: the driest quarter of the zone is short of water"
	switch {
	case len(most.at) == 0:
		c.See = short + "."
	case most.value == 0:
		c.See = "The black line stays above the dashed line: no strategy leaves the driest quarter of the zone short of water."
	case most.value == fewest.value:
		c.See = fmt.Sprintf("%s, on %s with %s.", short, count(int(most.value), "day", "days"), most.names(t.Strategies))
	default:
		c.See = fmt.Sprintf("%s, from %s (%s) to %s (%s).", short, count(int(fewest.value), "day", "days"), fewest.names(t.Strategies),
			count(int(most.value), "day", "days"), most.names(t.Strategies))
	}
	c.Notes = []string{"Depletion is the water that would refill the root zone, here in the quarter that sprinklers reach least, " +
		"after the day’s irrigation and rain and before plants use any."}
	c.Alt = fmt.Sprintf("Line charts of root-zone depletion of %s, one per strategy, "+
		"with lines for the start of stress and for no water left. %s.",
		t.Zone, strings.Join(alt, ". "))
	return c
}

// depths converts a column of depths [mm]; NaN stays.
func (u Units) depths(mm []float64) []float64 {
	out := make([]float64, len(mm))
	for i, v := range mm {
		out[i] = u.depth(v)
	}
	return out
}
