package study

import (
	"fmt"

	"loamledger/plots"
	"loamledger/scenarios"
	"loamledger/sim/draw"
	"loamledger/sim/tally"
	"loamledger/weather/quantity"
)

// exactKeys are the parameters of a zone that matter most if they are not known.
var exactKeys = []string{"area", "sprinkler.rate", "sprinkler.flow", "sprinkler.uniformity", "soil.awc", "root_depth"}

// inputOf returns the input with a key; nil for none.
func (l *Study) inputOf(key string) *scenarios.Input {
	for i := range l.Scenario.Inputs {
		if l.Scenario.Inputs[i].Key == key {
			return &l.Scenario.Inputs[i]
		}
	}
	return nil
}

// doubtful reports whether an input is in doubt.
func (l *Study) doubtful(key string) bool {
	for i := range l.Scenario.Doubts {
		if l.Scenario.Doubts[i].Input == key {
			return true
		}
	}
	return false
}

// zoneCount counts some of all zones.
func zoneCount(n, all int) string {
	if n == all {
		return "every zone"
	}
	return fmt.Sprintf("%d of %s", n, quantity.Count(all, "zone", "zones"))
}

// A DrawRecord is what draws say, for scripts. A spread is [P10, P50, P90].
type DrawRecord struct {
	Draws    int             `json:"draws"`
	Seed     uint64          `json:"seed"`
	Causes   int             `json:"inputs_in_doubt"`
	Left     int             `json:"inputs_not_drawn"`
	Verdict  string          `json:"verdict"`
	TooClose bool            `json:"too_close_to_call"`
	Rule     string          `json:"rule"`
	Option   string          `json:"option"` // whose saving, swings and measurements these are
	Saving   []*float64      `json:"saving_m3_per_year"`
	Change   []*float64      `json:"change_against_baseline"`
	Bill     []*float64      `json:"bill_saving_per_year,omitempty"`
	BillOff  *float64        `json:"bill_error_at_most,omitempty"` // against bills in full, of bill_draws_in_full draws
	Full     int             `json:"bill_draws_in_full,omitempty"`
	Worths   []ProjectDraws  `json:"projects,omitempty"`
	Money    []SettleRecord  `json:"bill_variance_shares,omitempty"`
	Off      []OffRecord     `json:"replay_off_middle"`
	Middle   *MiddleRecord   `json:"all_in_the_middle,omitempty"`
	Measure  string          `json:"measure_first,omitempty"`
	Anew     bool            `json:"settings_from_each_draw"`
	Rows     []RangeRow      `json:"strategies"`
	Swings   []SwingRecord   `json:"one_at_a_time"`
	Settle   []SettleRecord  `json:"variance_shares"`
	Years    *YearsRecord    `json:"years,omitempty"`
	Ranges   []DoubtRecord   `json:"ranges"`
	Basis    BasisRecord     `json:"basis"`
	Warnings []WarningRecord `json:"warnings"`
}

// A RangeRow is one strategy over the draws.
type RangeRow struct {
	Strategy string  `json:"strategy"`
	Less     float64 `json:"share_with_less_water"`
	Calmer   float64 `json:"share_with_fewer_stress_days"`
	Worth    int     `json:"draws_better_than_baseline"`
	Best     int     `json:"draws_best"`
	Figures  Ordered `json:"figures"`
}

// A SwingRecord is one input at its P10 and its P90.
type SwingRecord struct {
	Input    string     `json:"input"`
	At       [2]string  `json:"at"`
	SavingM3 [2]float64 `json:"saving_m3_per_year"`
	Stress   [2]float64 `json:"stress_days_per_year"`
	Bill     []*float64 `json:"bill_saving_per_year,omitempty"`
	Given    bool       `json:"given"`
}

// ProjectDraws are what a project is worth over the draws.
type ProjectDraws struct {
	Strategy string     `json:"strategy"`
	NPV      []*float64 `json:"net_present_value"`
	Pays     int        `json:"draws_above_0"`
}

// An OffRecord is an input whose value in the replay is not the middle of its draws.
type OffRecord struct {
	Input  string `json:"input"`
	Range  string `json:"range"`
	Replay string `json:"replay"`
	Middle string `json:"middle"`
}

// A MiddleRecord is the replay beside one with every input in the middle of its draws.
type MiddleRecord struct {
	SavingM3    float64 `json:"saving_m3_per_year"`
	ReplayM3    float64 `json:"replay_saving_m3_per_year"`
	Named       string  `json:"verdict"`
	ReplayNamed string  `json:"replay_verdict"`
}

// A SettleRecord is the share of the variance that goes if an input becomes known.
type SettleRecord struct {
	Input      string  `json:"input"`
	Share      float64 `json:"share"`
	Measurable bool    `json:"measurable"`
}

// A YearsRecord is how much the saving differs from year to year.
type YearsRecord struct {
	Years  int        `json:"years"`
	Single []*float64 `json:"saving_of_a_year_m3"`
	Mean   []*float64 `json:"saving_of_the_mean_m3"`
	Block  int        `json:"years_in_a_block"`
}

// A DoubtRecord is one number in doubt.
type DoubtRecord struct {
	Input  string  `json:"input"`
	Cause  string  `json:"cause"`
	Low    float64 `json:"low"`
	Mode   float64 `json:"mode"`
	High   float64 `json:"high"`
	Flat   bool    `json:"flat"`
	Text   string  `json:"text"`
	Given  bool    `json:"given"`
	Source string  `json:"source,omitempty"`
	Grade  string  `json:"grade,omitempty"`
}

func quantiles(s draw.Spread) []*float64 {
	return []*float64{Number(s.P10), Number(s.P50), Number(s.P90)}
}

// DrawRecord returns what draws say, for scripts.
func (l *Study) DrawRecord(t *tally.Table, r *plots.Ranges) DrawRecord {
	s, basis := l.rangeStudy(t), t.Basis()
	out := DrawRecord{
		Draws: r.Draws, Seed: r.Seed, Causes: r.Inputs, Left: r.Left, Verdict: s.RangeVerdict(r), TooClose: r.TooClose(), Rule: s.RangeRule(),
		Option: t.Strategies[r.Option], Saving: quantiles(r.Saving), Change: quantiles(r.Change), Measure: s.MeasureFirst(r), Anew: r.Anew,
		Swings: []SwingRecord{}, Settle: []SettleRecord{}, Ranges: []DoubtRecord{}, Basis: basisRecord(&basis), Warnings: l.Warnings(t),
	}
	if r.Bill != nil {
		out.Bill, out.BillOff, out.Full = quantiles(*r.Bill), Number(r.BillOff), r.FullBills
	}
	for st := range l.Job.Strategies {
		o := &r.Options[st]
		row := RangeRow{Strategy: t.Strategies[st], Less: o.Less, Calmer: o.Calmer, Worth: o.Worth, Best: o.Best}
		for i := range r.Spreads {
			row.Figures = append(row.Figures, keyed{r.Spreads[i].Figure.Key(), quantiles(r.Spreads[i].Of[st])})
		}
		out.Rows = append(out.Rows, row)
	}
	for i := range r.Swings {
		w := &r.Swings[i]
		own := SwingRecord{w.What, [2]string{w.Low, w.High}, w.SavingM3, w.Stress, nil, w.Given}
		if r.Bill != nil {
			own.Bill = []*float64{Number(w.Bill[0]), Number(w.Bill[1])}
		}
		out.Swings = append(out.Swings, own)
	}
	for _, m := range r.SettleBill {
		out.Money = append(out.Money, SettleRecord{m.What, m.Share, m.How != ""})
	}
	for _, w := range r.Worths {
		out.Worths = append(out.Worths, ProjectDraws{t.Strategies[w.Strategy], quantiles(w.NPV), w.Pays})
	}
	out.Off = []OffRecord{}
	for _, o := range r.Off {
		out.Off = append(out.Off, OffRecord{Input: o.What, Range: o.Range, Replay: o.Replay, Middle: o.Middle})
	}
	if m := r.Middle; m != nil {
		out.Middle = &MiddleRecord{m.SavingM3, m.ReplayM3, t.Strategies[m.Named], t.Strategies[m.ReplayNamed]}
	}
	for _, m := range r.Settle {
		out.Settle = append(out.Settle, SettleRecord{m.What, m.Share, m.How != ""})
	}
	if y := r.Years; y != nil {
		out.Years = &YearsRecord{y.Years, quantiles(y.Single), quantiles(y.Mean), y.BlockLen}
	}
	doubts := l.doubts()
	for i := range doubts {
		d := &doubts[i]
		row := DoubtRecord{Input: d.Input, Cause: d.Cause, Low: d.Range.Low, Mode: d.Range.Mode, High: d.Range.High, Flat: d.Range.Flat,
			Text: d.Text(l.Scenario.Units), Given: d.Given, Source: d.Source}
		if !d.Given {
			row.Grade = d.Grade.String()
		}
		out.Ranges = append(out.Ranges, row)
	}
	return out
}

// DrawRecords is [Study.DrawRecord] of the study's draws; nil without draws.
func (l *Study) DrawRecords(t *tally.Table) *DrawRecord {
	if l.Ranges == nil {
		return nil
	}
	out := l.DrawRecord(t, l.Ranges)
	return &out
}
