package plots

import (
	"fmt"
	"strings"

	"loamledger/sim"
)

// Flows returns where the water went: a panel for each strategy with one bar
// for irrigation and one for rain, both split into the same four parts.
func Flows(s *Study) Chart {
	c := s.frame(FlowsKind, "where-the-water-went", "Where the water went")
	u, years := s.Units, s.years()
	lanes := []struct {
		at    float64
		fates []fate
	}{
		{1, []fate{
			{ToPlants, func(x *sim.Sums) float64 { return x.GrossMM - x.LossesMM() - x.IrrRunoffMM - x.PercIrrMM }},
			{RanOff, func(x *sim.Sums) float64 { return x.IrrRunoffMM }},
			{Percolated, func(x *sim.Sums) float64 { return x.PercIrrMM }},
			{ToAir, (*sim.Sums).LossesMM},
		}},
		{0, []fate{
			{ToPlants, func(x *sim.Sums) float64 { return x.RainMM - x.RainRunoffMM - x.RainEvapMM - x.PercRainMM }},
			{RanOff, func(x *sim.Sums) float64 { return x.RainRunoffMM }},
			{Percolated, func(x *sim.Sums) float64 { return x.PercRainMM }},
			{ToAir, func(x *sim.Sums) float64 { return x.RainEvapMM }},
		}},
	}
	var alt []string
	high := 0.0
	var most leader
	lost := "evaporated or drifted away"
	for st := range s.Table.Strategies {
		p := Panel{Title: s.Table.Strategies[st], Reference: st >= s.own()}
		for _, lane := range lanes {
			from := 0.0
			for _, f := range lane.fates {
				v := u.depth(max(s.mean(st, f.of), 0) / years)
				p.Series = append(p.Series, Series{Form: Spans, Role: f.role, X: []float64{from + v}, Base: []float64{from},
					Y: []float64{lane.at}, Width: 0.8, Text: []string{fixed(v, u.depthDigits())}})
				from += v
			}
			high = max(high, from)
		}
		given := s.mean(st, gross) / years
		missed := s.mean(st, func(x *sim.Sums) float64 { return x.IrrRunoffMM + x.PercIrrMM + x.LossesMM() }) / years
		if s.mean(st, func(x *sim.Sums) float64 { return x.LossesMM() - x.SprayLossMM }) > 0 {
			lost = "lost to air, overspray, broken heads, pipes and leaks"
		}
		p.Note = "no water applied"
		if given > 0 {
			p.Note = fmt.Sprintf("%s applied, %s of it lost", u.depthWords(given), percent(missed/given))
		}
		alt = append(alt, p.Title+": "+p.Note)
		if !p.Reference {
			most.offer(st, u.shownDepth(missed), more)
		}
		c.Panels = append(c.Panels, p)
	}
	c.X = scaleTo("average depth over the site", u.depthUnit()+"/"+s.each(), high, 5)
	c.X.Once = true
	c.Y = Axis{Min: -0.5, Max: 1.5, Plain: true, Ticks: []Tick{{At: 1, Label: "irrigation"}, {At: 0, Label: "rain"}}}
	c.Columns, c.HeightPt = 1, 32
	c.Keys = []Key{{Form: Bars, Role: ToPlants, Label: "stayed in the root zone for plants"}, {Form: Bars, Role: RanOff, Label: "ran off"},
		{Form: Bars, Role: Percolated, Label: "drained below the roots"}, {Form: Bars, Role: ToAir, Label: lost}}
	c.See = fmt.Sprintf("Only the first part of each irrigation bar reaches the plants. "+
		"The rest is lost: the most, %[2]s %[3]s, with %[1]s.",
		most.names(s.Table.Strategies), fixed(most.value, u.depthDigits())+u.pick(" inches", " mm"), s.per())
	if most.value <= 0 {
		c.See = "All water applied stays in the root zone for the plants."
	}
	c.Alt = "Two stacked bars for each strategy, irrigation and rain, split into water that stayed for plants, ran off, " +
		"drained below the roots and was " + lost + ". " + strings.Join(alt, ". ") + "."
	c.Notes = []string{"More rain drains below the roots if irrigation has filled the soil first. Water that stayed in the root zone " +
		"is plant water use, apart from the change in storage between the first and the last day."}
	return c
}

// A fate is one place where water ends up.
type fate struct {
	role Role
	of   func(*sim.Sums) float64
}
