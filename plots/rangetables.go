package plots

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"loamledger/sim/draw"
	"loamledger/sim/tally"
)

// mostSwings and mostSettlings are how many rows the tables of inputs have.
const (
	mostSwings    = 12
	mostSettlings = 8
)

// figuresPerTable is how many figures fit side by side.
const figuresPerTable = 3

// RangeTables compare the strategies over the draws: P10, P50 and P90 of the figures of
// page one, a few at a time, and the share of draws in which each is better than the
// baseline.
func (s *Study) RangeTables(r *Ranges) []Table {
	basis, names := s.Table.Basis(), s.Table.Strategies[:s.own()]
	var out []Table
	for from := 0; from < len(r.Spreads); from += figuresPerTable {
		t := Table{First: "Option"}
		if from == 0 {
			t.Caption = "P10 / P50 / P90 of the draws; one number where all draws agree."
		}
		part := r.Spreads[from:min(from+figuresPerTable, len(r.Spreads))]
		for i := range part {
			f := &part[i].Figure
			t.Head = append(t.Head, s.Units.withUnit(frontHead(f, &basis), f, &basis))
		}
		for st, name := range names {
			row := TableRow{Name: name, Named: st == r.Option && st != s.base()}
			for i := range part {
				row.Cells = append(row.Cells, s.spreadCell(&part[i], st))
			}
			t.Rows = append(t.Rows, row)
		}
		out = append(out, t)
	}
	t := Table{First: "Option", Head: []string{"Less water", "Fewer stress days", "Better", "Best option"},
		Caption: "Share of the draws. Less water, fewer stress days: than under the baseline. Better: less water, and within the rules for " +
			"plants. Best: the one a verdict names; under the baseline, draws in which it names none."}
	for st, name := range names {
		o, row := &r.Options[st], TableRow{Name: name, Named: st == r.Option && st != s.base()}
		if st == s.base() {
			row.Cells = []string{"baseline", "baseline", "baseline"}
		} else {
			row.Cells = []string{percent(o.Less), percent(o.Calmer), percent(share(o.Worth, r.Draws))}
		}
		row.Cells = append(row.Cells, percent(share(o.Best, r.Draws)))
		t.Rows = append(t.Rows, row)
	}
	return append(out, t)
}

func share(n, of int) float64 { return float64(n) / float64(of) }

// spreadCell writes the quantiles of a figure of strategy st.
func (s *Study) spreadCell(f *FigureSpread, st int) string {
	m := f.Figure.Measure
	if st == s.base() && m.Kind == tally.Change {
		return "baseline"
	}
	of := f.Of[st]
	if math.IsNaN(of.P50) {
		return none
	}
	low, middle, high := s.Units.figure(m, of.P10), s.Units.figure(m, of.P50), s.Units.figure(m, of.P90)
	if low == high {
		return middle
	}
	return low + " / " + middle + " / " + high
}

// rangeCell writes P10 to P90 of a figure for small print; empty if it is unknown.
func (s *Study) rangeCell(f *FigureSpread, st int) string {
	if f == nil || st >= len(f.Of) || math.IsNaN(f.Of[st].P50) || st == s.base() && f.Figure.Measure.Kind == tally.Change {
		return ""
	}
	m, of := f.Figure.Measure, f.Of[st]
	low, high := s.Units.figure(m, of.P10), s.Units.figure(m, of.P90)
	if m.Kind == tally.Volume && s.Units == US {
		low, high = rounded(s.Units.volume(of.P10)/thousands), rounded(s.Units.volume(of.P90)/thousands)
	}
	low, high = strings.TrimSuffix(low, ".0"), strings.TrimSuffix(high, ".0")
	if m.Kind == tally.Change { // less water is the lower number, and reads as the higher one
		low, high = high, low
	}
	if of.P10 == of.P90 && of.P50 != 0 && (m.Kind == tally.Volume || m.Kind == tally.Change || m.Whole != nil) {
		return notVaried // "same" would look like certainty
	}
	if low == high {
		return "same"
	}
	for _, word := range []string{" less", " more"} {
		if strings.HasSuffix(low, word) && strings.HasSuffix(high, word) {
			low = strings.TrimSuffix(low, word)
		}
	}
	return low + " to " + high
}

// SwingTable lists the inputs by what each does by itself, the widest swing of the saving
// first; inputs that move nothing are left out and counted.
func (s *Study) SwingTable(r *Ranges) Table {
	u := s.Units
	of := "Saving"
	if r.Option == s.base() {
		of = "Water"
	}
	unit := " (" + u.volumeUnit()
	if basis := s.Table.Basis(); basis.Yearly() {
		unit += basis.Unit()
	}
	unit += ")"
	t := Table{First: "Input", Head: []string{"Its P10", "Its P90", of + " at P10" + unit, of + " at P90" + unit,
		"Stress days at P10", "Stress days at P90"},
		Words: []bool{true, true}, Caption: "One input at a time, at its P10 and its P90, all others as in the replay. Stress days: of " +
			quote(s.Table.Strategies[r.Option]) + ", " + s.per() + "."}
	for i := range r.Swings {
		w := &r.Swings[i]
		if len(t.Rows) == mostSwings || w.still() {
			break
		}
		t.Rows = append(t.Rows, TableRow{Name: w.What, Cells: []string{w.Low, w.High, rounded(u.volume(w.SavingM3[0])),
			rounded(u.volume(w.SavingM3[1])),
			fixed(w.Stress[0], 1), fixed(w.Stress[1], 1)}})
	}
	if left := len(r.Swings) - len(t.Rows); left > 0 {
		t.Caption += " " + count(left, "input moves", "inputs move") + " less or nothing."
	}
	return t
}

// MoneySwingTable lists the inputs by what each does by itself to the saving in money; no
// rows without rates.
func (s *Study) MoneySwingTable(r *Ranges) Table {
	of := "Money saved"
	if r.Option == s.base() {
		of = "Bill"
	}
	unit := " (" + r.Currency
	if basis := s.Table.Basis(); basis.Yearly() {
		unit += basis.Unit()
	}
	unit += ")"
	t := Table{First: "Input", Head: []string{"Its P10", "Its P90", of + " at P10" + unit, of + " at P90" + unit}, Words: []bool{true, true},
		Caption: "The same in money, the input that moves most first."}
	list := slices.Clone(r.Swings)
	slices.SortStableFunc(list, func(a, b Swing) int { return cmp.Compare(b.billWidth(), a.billWidth()) })
	for i := range list {
		w := &list[i]
		if r.Bill == nil || len(t.Rows) == mostSwings || !(w.billWidth() > 0) {
			break
		}
		t.Rows = append(t.Rows, TableRow{Name: w.What, Cells: []string{w.Low, w.High, rounded(w.Bill[0]), rounded(w.Bill[1])}})
	}
	return t
}

func (s *Swing) billWidth() float64 { return math.Abs(s.Bill[1] - s.Bill[0]) }

// OffTable lists the inputs whose value in the replay is not the middle of their draws.
func (s *Study) OffTable(r *Ranges) Table {
	t := Table{First: "Input", Head: []string{"Range", "The replay uses", "The draws are centered on"}, Words: []bool{true, true, true},
		Caption: "Inputs whose value in the replay is not the middle of their draws: the numbers of the replay and the middle of the draws " +
			"differ for this."}
	for _, o := range r.Off {
		t.Rows = append(t.Rows, TableRow{Name: o.What, Cells: []string{o.Range, o.Replay, o.Middle}})
	}
	return t
}

// RangeMiddle sets the replay beside one with every input in the middle of its draws; empty
// if no input is off the middle.
func (s *Study) RangeMiddle(r *Ranges) string {
	m := r.Middle
	if m == nil || len(r.Off) == 0 || m.Named == m.ReplayNamed && rounded(s.Units.volume(m.ReplayM3)) == rounded(s.Units.volume(m.SavingM3)) {
		return ""
	}
	u, names := s.Units, s.Table.Strategies
	is, what := "saves", quote(names[r.Option])
	if r.Option == s.base() {
		is = "uses"
	}
	text := fmt.Sprintf("With the values of the replay, %s %s %s %s %s; with every input in the middle of its draws, %s.", what, is,
		rounded(u.volume(m.ReplayM3)), u.volumeUnit(), s.per(), rounded(u.volume(m.SavingM3)))
	switch {
	case m.Named != m.ReplayNamed && m.Named == s.base():
		text += " There no option is better than " + quote(names[m.Named]) + ": the answer depends on where in its range each input lies."
	case m.Named != m.ReplayNamed:
		text += " There the verdict is " + quote(names[m.Named]) + ": the answer depends on where in its range each input lies."
	}
	return punctuated(text)
}

// still reports whether an input moves neither the saving nor stress.
func (s *Swing) still() bool { return s.width() == 0 && s.Stress[0] == s.Stress[1] }

// SettleTable lists the inputs by the share of the variance that would go if each became
// known.
func (s *Study) SettleTable(r *Ranges) Table {
	return settleTable(r.Settle, trimComma(s.targetWords(r)))
}

// SettleBillTable does the same for the saving in money; no rows without rates.
func (s *Study) SettleBillTable(r *Ranges) Table {
	of := "the money that " + quote(s.Table.Strategies[r.Option]) + " saves"
	if r.Option == s.base() {
		of = "the bill of " + quote(s.Table.Strategies[r.Option])
	}
	return settleTable(r.SettleBill, of)
}

func settleTable(list []Settling, of string) Table {
	t := Table{First: "Input", Head: []string{"Share of the variance", "Measure"}, Words: []bool{false, true},
		Caption: "By how much the variance of " + of + " is expected to shrink if one input becomes known."}
	for i := range list {
		if i == mostSettlings {
			break
		}
		m := &list[i]
		how := "yes"
		switch {
		case m.Price:
			how = "no: ask for the price"
		case m.How == "":
			how = "not with simple means"
		}
		t.Rows = append(t.Rows, TableRow{Name: m.What, Cells: []string{percent(m.Share), how}})
	}
	return t
}

// rangePart is the section of the report on ranges; nil without draws.
func (s *Study) rangePart(r *Ranges) *TextPart {
	if r == nil {
		return nil
	}
	p := &TextPart{Lead: sentences(s.RangeVerdict(r), s.RangeSaving(r), s.RangeBill(r), s.RangeMiddle(r)), Tables: s.RangeTables(r)}
	if t := s.SwingTable(r); len(t.Rows) > 0 {
		p.Tables = append(p.Tables, t)
	}
	for _, t := range []Table{s.MoneySwingTable(r), s.SettleTable(r), s.SettleBillTable(r), s.OffTable(r)} {
		if len(t.Rows) > 0 {
			p.Tables = append(p.Tables, t)
		}
	}
	for _, text := range append([]string{s.MeasureFirst(r), s.OtherSettings(r), s.RangeYears(r), s.RangeRule()}, s.RangeNotes(r)...) {
		if text != "" {
			p.Notes = append(p.Notes, punctuated(text))
		}
	}
	return p
}

// RangeBill states the spread of the saving in money; empty without rates.
func (s *Study) RangeBill(r *Ranges) string {
	if r.Bill == nil {
		return ""
	}
	text := "The water bill falls by " + moneySpan(*r.Bill) + " " + r.Currency + " " + s.per() + "."
	if r.Option == s.base() {
		text = "The water bill is " + moneySpan(*r.Bill) + " " + r.Currency + " " + s.per() + "."
	}
	for _, w := range r.Worths {
		text += fmt.Sprintf(" The project of %s is worth %s %s over its life (net present value), and pays in %s of the draws.",
			quote(s.Table.Strategies[w.Strategy]), moneySpan(w.NPV), r.Currency, percent(share(w.Pays, r.Draws)))
	}
	return text
}

// moneySpan writes P10 to P90 of an amount.
func moneySpan(s draw.Spread) string { return rounded(s.P10) + " to " + rounded(s.P90) }
