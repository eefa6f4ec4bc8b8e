package plots

import (
	"fmt"
	"math"
	"strings"

	"loamledger/sim/tally"
)

// Years returns the water used in each whole year: a panel for each strategy,
// years from least to most dry, with the wet, median and dry year named.
func Years(s *Study) Chart {
	c := s.frame(YearsKind, "water-by-year", "Water by year, from the wettest to the driest")
	u := s.Units
	ranked := s.Table.RankYears()
	n := len(ranked.Years)
	high := 0.0
	for st := range s.own() {
		for _, y := range ranked.Years {
			high = max(high, u.volume(s.Table.VolumeInYear(st, y)), u.volume(s.Table.VolumeInYear(s.Table.LeastRow(st), y)))
		}
	}
	per, unit := 1.0, u.volumeUnit()+"/year"
	if high >= 10_000 {
		per, unit = 1000, "thousand "+unit
	}
	var alt []string
	var widest, narrowest leader
	for st := range s.own() {
		p := Panel{Title: s.Table.Strategies[st]}
		bars := Series{Form: Bars, Role: Applied, Width: 0.76}
		line := Series{Form: Steps, Role: Need, Width: 1}
		for i, y := range ranked.Years {
			bars.X, bars.Y = append(bars.X, float64(i+1)), append(bars.Y, u.volume(s.Table.VolumeInYear(st, y))/per)
			line.X, line.Y = append(line.X, float64(i+1)), append(line.Y, u.volume(s.Table.VolumeInYear(s.Table.LeastRow(st), y))/per)
		}
		p.Series = []Series{bars, line}
		if n > 0 {
			wet, dry := s.Table.VolumeInYear(st, ranked.Wet), s.Table.VolumeInYear(st, ranked.Dry)
			p.Note = fmt.Sprintf("wet year %s, dry year %s", rounded(u.volume(wet)), u.volumeText(dry))
			alt = append(alt, fmt.Sprintf("%s: %s in the wet year, %s in the dry year", p.Title, u.volumeText(wet), u.volumeText(dry)))
			spread := 0.0
			if wet > 0 {
				spread = dry/wet - 1
			}
			widest.offer(st, math.Round(100*spread)/100, more)
			narrowest.offer(st, math.Round(100*spread)/100, fewer)
		}
		c.Panels = append(c.Panels, p)
	}
	c.X = s.yearAxis(&ranked, s.own())
	c.Y = scaleTo("water applied to the whole site", unit, high/per, 5)
	c.Columns, c.HeightPt = columns(len(c.Panels)), 92
	c.Keys = []Key{{Form: Bars, Role: Applied, Label: "applied"}, {Form: Line, Role: Need, Label: "need: " + tally.LeastWater}}
	switch {
	case n == 0:
		c.See = "The record has no whole year to compare."
	case widest.value == narrowest.value:
		c.See = fmt.Sprintf("The dry year takes %s water than the wet year with %s.", moreOrLess(widest.value), widest.names(s.Table.Strategies))
	default:
		c.See = fmt.Sprintf("Bars that rise with the black line follow the weather. "+
			"The dry year takes %s water than the wet year with %s, and %s with %s.",
			moreOrLess(widest.value), widest.names(s.Table.Strategies), moreOrLess(narrowest.value), narrowest.names(s.Table.Strategies))
	}
	c.Alt = "Bar charts of water applied by year with a line for need, one chart per strategy. " + strings.Join(alt, ". ") + "."
	if n > 0 {
		c.Notes = append(c.Notes, fmt.Sprintf("Whole years, ranked by 0.8 ETo less effective rain: wet %s, median %s, dry %s (%s).",
			ranked.Name(ranked.Wet), ranked.Name(ranked.Median), ranked.Name(ranked.Dry), dryMeaning(n)))
		if why := MedianAboveDry(s.Table, u); why != "" {
			c.Notes = append(c.Notes, why)
		}
	}
	if note := s.needNote(); note != "" {
		c.Notes = append(c.Notes, note)
	}
	return c
}

// yearAxis returns an axis of the ranked years, at 1 and up, for charts of the given
// number of panels.
func (s *Study) yearAxis(ranked *tally.Ranked, panels int) Axis {
	n := len(ranked.Years)
	ax := Axis{Label: "year, from the wettest to the driest", Min: 0.5, Max: float64(max(n, 1)) + 0.5, Plain: true}
	for i, y := range ranked.Years {
		label := "’" + ranked.Name(y)[2:]
		switch y {
		case ranked.Dry:
			label += "\ndry"
		case ranked.Median:
			label += "\nmedian"
		case ranked.Wet:
			label += "\nwet"
		default:
			if n > 20/columns(panels) {
				continue // there is room for the named years only
			}
		}
		ax.Ticks = append(ax.Ticks, Tick{At: float64(i + 1), Label: label})
	}
	return ax
}

// dryMeaning says what the dry year of n whole years represents.
func dryMeaning(n int) string {
	switch {
	case n == 1:
		return "the only whole year"
	case n < tally.TenYears:
		return "the driest of only " + count(n, "whole year", "whole years")
	}
	return "about one year in ten is as dry"
}
