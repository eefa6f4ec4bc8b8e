package sample

import (
	"loamledger/plots"
	"loamledger/sim/draw"
	"loamledger/sim/tally"
)

// Ranges invents what draws say of a study: of its first two strategies, the second is
// better in so many of n draws.
func Ranges(s *plots.Study, better, n int) *plots.Ranges {
	r := &plots.Ranges{Draws: n, Seed: 1, Inputs: 3, Option: 1, Anew: true, Saving: draw.Spread{P10: 80, P50: 100, P90: 130},
		Change: draw.Spread{P10: -0.4, P50: -0.3, P90: -0.2},
		Years: &plots.YearSpread{Years: 12, BlockLen: 2, Single: draw.Spread{P10: 90, P50: 100, P90: 110},
			Mean: draw.Spread{P10: 97, P50: 100, P90: 103}},
		Other: &plots.OtherSettings{Draws: n / 5, Saving: draw.Spread{P10: 99, P50: 100, P90: 101}, Worth: better / 5},
		Swings: []plots.Swing{
			{What: "water need (K), cool-season turf", Low: "0.80", High: "0.95", SavingM3: [2]float64{125, 85}, Stress: [2]float64{2, 9}},
			{What: "sprinkler rate, front", Low: "30 mm/h", High: "40 mm/h", SavingM3: [2]float64{90, 112}, Stress: [2]float64{5, 5}, Given: true},
			{What: "stress marks, cool-season turf", Low: "70%", High: "80%", SavingM3: [2]float64{100, 100}, Stress: [2]float64{1, 20}},
		},
		Settle: []plots.Settling{{What: "water need (K), cool-season turf", Share: 0.6},
			{What: "sprinkler rate, front", Share: 0.2,
				How: "the flow of front: with all other water off, run it for five minutes and read the water meter before and after."}},
	}
	own := len(s.Table.Strategies) - 2
	for st := range own {
		o := plots.OptionDraws{}
		if st == 1 {
			o = plots.OptionDraws{Less: 1, Calmer: 0.5, Worth: better, Best: better}
		}
		r.Options = append(r.Options, o)
	}
	r.Options[0].Best = n - better
	cells := s.Table.Cells()
	for _, f := range cells.Basis.Figures(tally.FrontFigures(tally.Measures())) {
		spread := plots.FigureSpread{Figure: f}
		for st := range own {
			v := cells.Site(f.Measure, st, f.Over)
			spread.Point = append(spread.Point, v)
			spread.Of = append(spread.Of, draw.Spread{P10: 0.8 * v, P50: 1.05 * v, P90: 1.3 * v})
		}
		r.Spreads = append(r.Spreads, spread)
	}
	return r
}
