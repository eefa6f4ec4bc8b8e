package plots

import (
	"fmt"
	"slices"
	"strings"

	"loamledger/sim/tally"
	"loamledger/weather/cal"
)

// DrySeason returns the depletion of one zone over the days of trace t: a
// panel for each strategy with RAW and TAW, below the rain. RAW and TAW are those of
// the zone as the strategy has it on each day. Stress days of the
// whole zone are shaded from RAW to TAW; browning days of its driest quarter are
// a lane below the largest TAW.
func DrySeason(s *Study, t *DepletionTrace) Chart {
	c := s.frame(DryKind, "dry-season-"+slug(t.Zone), "")
	u, n := s.Units, len(t.RainMM)
	c.From, c.To = t.Start, t.Start+cal.Date(n)-1
	c.Title = fmt.Sprintf("Root-zone depletion in a dry season, %s: %s", dates(c.From, c.To), t.Zone)
	x := make([]float64, n)
	for i := range x {
		x[i] = float64(i)
	}
	var alt, changed []string
	var most, fewest, mostBrown, fewestBrown leader
	taw := 0.0 // the largest
	for st := range t.Strategies {
		taw = max(taw, slices.Max(u.depths(t.TAWMM[st])))
	}
	lane := [2]float64{taw * 1.05, taw * 1.12}
	for st, name := range t.Strategies {
		low, raw, own := u.depths(t.LowQuarterMM[st]), u.depths(t.RAWMM[st]), u.depths(t.TAWMM[st])
		p := Panel{Title: name, Reference: name == tally.NoWater || name == tally.LeastWater}
		stress := onDays(Stressed, x, t.Stress[st], func(i int) (float64, float64) { return raw[i], own[i] })
		brown := onDays(Browned, x, t.Browning[st], func(int) (float64, float64) { return lane[0], lane[1] })
		days, brownDays := yes(t.Stress[st]), yes(t.Browning[st])
		p.Note = grades(float64(days), float64(brownDays))
		empty := Series{Form: Rule, Role: EmptyLine, Y: own[:1]}
		if slices.Min(own) != slices.Max(own) {
			empty = Series{Form: Line, Role: EmptyLine, X: x, Y: own}
		}
		p.Series = []Series{stress, brown, empty, {Form: Line, Role: StressLine, X: x, Y: raw}}
		if t.changes(st) {
			changed = append(changed, quote(name))
			p.Title = name + ", zone changed"
		}
		p.Series = append(p.Series, Series{Form: Line, Role: Deficit, X: x, Y: low})
		c.Panels = append(c.Panels, p)
		alt = append(alt, name+": "+p.Note)
		if !p.Reference {
			most.offer(st, float64(days), more)
			fewest.offer(st, float64(days), fewer)
			mostBrown.offer(st, float64(brownDays), more)
			fewestBrown.offer(st, float64(brownDays), fewer)
		}
	}
	c.X = dateAxis(t.Start, n)
	c.Y = scaleTo("depletion, 0 = full root zone", u.depthUnit(), taw*1.04, 3)
	c.Y.Max, c.Y.Down = lane[1]+float64(taw*0.02), true
	for len(c.Y.Ticks) > 1 && c.Y.Ticks[len(c.Y.Ticks)-1].At > taw*1.04 {
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
		{Form: Line, Role: Deficit, Label: "driest quarter of the zone"}, {Form: Line, Role: StressLine, Label: "RAW: water gets scarce"},
		{Form: Line, Role: EmptyLine, Label: "TAW: no water left"},
		{Form: Bars, Role: Stressed, Label: stressKey}, {Form: Bars, Role: Browned, Label: brownKey},
	}
	c.See = "Shaded days are stress days: the whole zone is thirsty. The black bar below marks browning days of its driest quarter."
	if len(most.at) > 0 {
		c.See += " " + extremes("Stress days of the whole zone", "", &most, &fewest, t.Strategies) + ". " +
			extremes("Browning days of the driest quarter", "", &mostBrown, &fewestBrown, t.Strategies) + "."
	}
	c.Notes = []string{"Depletion is the water that would refill the root zone, here in the quarter that sprinklers reach least, " +
		"after the day’s irrigation and rain and before the plants use water. Both kinds of days are judged by the water used in " +
		"seven days, so they begin some days after the line passes RAW and end some days after watering. Counts are those of this " +
		"zone on the days shown; the comparison of strategies has means over all zones."}
	if len(changed) > 0 {
		c.Notes = append(c.Notes, "RAW and TAW follow, day by day, the changes of plants, soil or roots that are part of "+
			listedOf(changed)+"; in the other panels the zone is as it is now.")
	}
	c.Alt = fmt.Sprintf("Line charts of root-zone depletion of %s, one per strategy, "+
		"with lines for RAW and for no water left, and marks on stress and browning days. %s.",
		t.Zone, strings.Join(alt, ". "))
	return c
}

// changes reports whether RAW or TAW under a strategy are not those of the zone as it
// is, which the reference without watering has.
func (t *DepletionTrace) changes(st int) bool {
	as := slices.Index(t.Strategies, tally.NoWater)
	return as >= 0 && !(slices.Equal(t.RAWMM[st], t.RAWMM[as]) && slices.Equal(t.TAWMM[st], t.TAWMM[as]))
}

// depths converts a column of depths [mm]; NaN stays.
func (u Units) depths(mm []float64) []float64 {
	out := make([]float64, len(mm))
	for i, v := range mm {
		out[i] = u.depth(v)
	}
	return out
}
