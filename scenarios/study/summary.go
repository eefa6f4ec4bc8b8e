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
	Baseline   BaselineRecord `json:"baseline"`
	Figures    []FigureRecord `json:"figures"`
	Strategies []Ordered      `json:"strategies"`
	Money      *MoneyRecord   `json:"money,omitempty"` // nil without rates
	// Devices is the water of each meter and controller of a site with several.
	Devices []DeviceTotalRecord `json:"devices,omitempty"`
	// Allowance is nil if the scenario has none.
	Allowance *AllowanceRecord `json:"allowance,omitempty"`
}

// A BaselineRecord names the strategy with which the others are compared.
type BaselineRecord struct {
	Strategy   string `json:"strategy"`
	Named      bool   `json:"named"`                 // in the scenario; else it is the first
	LimitsFrom string `json:"limits_from,omitempty"` // first day of the limits; empty for the whole record
	Years      []int  `json:"years,omitempty"`       // with LimitsFrom, the years that count
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
func (l *Study) Summary(t *tally.Table) Summary {
	rows := t.Compare()
	out := summary(t, l.measures(), func(t *tally.Table, s int) Ordered { return l.flags(t, rows, s) })
	out.Money, out.Allowance = l.moneyRecord(t), l.allowanceRecord(t)
	out.Devices = l.deviceRecords(t)
	out.Baseline = BaselineRecord{Strategy: t.Strategies[t.Baseline], Named: l.Scenario.BaselineGiven}
	if l.limitsLine(t) != "" {
		out.Baseline.LimitsFrom = l.Scenario.Limits.From.String()
		out.Baseline.Years = slices.Sorted(slices.Values(t.RankYears().Years))
	}
	return out
}

// flags says what strategy s is and how the limits apply to it.
func (l *Study) flags(t *tally.Table, rows []tally.Row, s int) (out Ordered) {
	switch {
	case s >= t.NoWaterIndex():
		return Ordered{{"reference", true}}
	case t.IsCut(s):
		out = Ordered{{"baseline_cut_to_limits", true}}
	case s == t.Baseline:
		out = Ordered{{"baseline", true}}
	}
	if l.Scenario.Limits != nil {
		bound := "binding"
		if l.Job.Strategies[s].Unbound {
			bound = "none"
		}
		if t.Cut > 0 {
			out = append(out, keyed{"change_against_cut_baseline", Number(rows[s].M3PerYear/rows[t.Cut].M3PerYear - 1)})
		}
		out = append(out, keyed{"limits", bound}, keyed{"breaches", len(t.Breaches[s])}, keyed{"breaches_applied", l.Applies(s)})
	}
	return out
}

// summary returns the comparison for scripts: for each strategy its name and
// its flags and every figure of the measures, under the figure's key.
func summary(t *tally.Table, measures []tally.Measure, flags func(*tally.Table, int) Ordered) Summary {
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
		row := append(Ordered{{"strategy", name}}, flags(t, s)...)
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
