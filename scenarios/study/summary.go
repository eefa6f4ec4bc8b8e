package study

import (
	"bytes"
	"encoding/json"
	"slices"

	"loamledger/sim/tally"
)

// A Summary is the comparison, in SI.
type Summary struct {
	MedianYear int            `json:"median_year,omitempty"`
	DryYear    int            `json:"dry_year,omitempty"`
	DryIs      string         `json:"dry_year_is,omitempty"` // what the dry year is
	Basis      BasisRecord    `json:"basis"`
	Label      string         `json:"label"`
	Figures    []FigureRecord `json:"figures"`
	Strategies []Ordered      `json:"strategies"`
}

// A FigureRecord explains a key of the strategies.
type FigureRecord struct {
	Key    string `json:"key"`
	About  string `json:"about"`
	Unit   string `json:"unit,omitempty"`
	Better string `json:"better"`
}

// An Ordered is an object that keeps the order of its keys.
type Ordered []keyed

type keyed struct {
	key   string
	value any
}

// MarshalJSON writes the keys in order.
func (o Ordered) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	b.WriteByte('{')
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	for i, k := range o {
		if i > 0 {
			b.WriteByte(',')
		}
		if err := e.Encode(k.key); err != nil {
			return nil, err
		}
		b.WriteByte(':')
		if err := e.Encode(k.value); err != nil {
			return nil, err
		}
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

// Summary returns the comparison for scripts.
func (l *Study) Summary(t *tally.Table) Summary { return summary(t, l.measures()) }

// summary returns the comparison for scripts: for each strategy its name and
// every figure of the measures, under the figure's key.
func summary(t *tally.Table, measures []tally.Measure) Summary {
	cells := t.Cells()
	figures := tally.Figures(measures, tally.InJSON)
	for _, f := range cells.Basis.Figures(figures) { // scripts find every key of a longer record, with null for no value
		if !slices.ContainsFunc(figures, func(g tally.Figure) bool { return g.Key() == f.Key() }) {
			figures = append(figures, f)
		}
	}
	out := Summary{MedianYear: cells.Ranked.Median, DryYear: cells.Ranked.Dry, DryIs: dryIs(&cells.Ranked),
		Basis: basisRecord(&cells.Basis), Label: "estimated (ex-ante)"}
	for i := range figures {
		f := &figures[i]
		out.Figures = append(out.Figures, FigureRecord{f.Key(), f.Measure.About, f.Measure.Kind.Unit(), f.Measure.Better.String()})
	}
	for s, name := range t.Strategies {
		row := Ordered{{"strategy", name}}
		if s >= t.NoWaterIndex() {
			row = append(row, keyed{"reference", true})
		}
		for i := range figures {
			f := &figures[i]
			row = append(row, keyed{f.Key(), Number(cells.Site(f.Measure, s, f.Over))})
			if f.Measure.Site == tally.Worst && f.Measure.Whole == nil {
				if _, zone := cells.Worst(f.Measure, s, f.Over); zone != "" {
					row = append(row, keyed{f.Key() + "_zone", zone})
				}
			}
		}
		out.Strategies = append(out.Strategies, row)
	}
	return out
}
