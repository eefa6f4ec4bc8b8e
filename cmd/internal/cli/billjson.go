package cli

import (
	"loamledger/sim/bill"
	"loamledger/sim/money"
)

type billsJSON struct {
	Rates    string     `json:"rates"`
	Name     string     `json:"name"`
	Currency string     `json:"currency"`
	Unit     string     `json:"unit"`
	Checked  bool       `json:"checked"`
	Given    int        `json:"real_bills_given"`
	Total    money.Num  `json:"total"`
	Parts    partsJSON  `json:"parts"`
	Bills    []billJSON `json:"bills"`
}

// partsJSON are the parts of bills; they add up to the total. Without the use
// indoors, all water counts as outdoors and water_split is false.
type partsJSON struct {
	Fixed     money.Num `json:"fixed"`
	Indoor    money.Num `json:"water_indoors"`
	Outdoor   money.Num `json:"water_outdoors"`
	Sewer     money.Num `json:"sewer"`
	Surcharge money.Num `json:"surcharge"`
	Split     bool      `json:"water_split"`
}

type billJSON struct {
	Meter    string     `json:"meter,omitempty"`
	From     string     `json:"from"`
	To       string     `json:"read_date"`
	Days     int        `json:"days"`
	ReadType string     `json:"read_type"`
	GapDays  int        `json:"days_without_read_before,omitempty"`
	Volume   money.Num  `json:"volume"`
	Billed   money.Num  `json:"billed_volume"`
	Lines    []lineJSON `json:"lines"`
	Parts    partsJSON  `json:"parts"`
	Total    money.Num  `json:"total"`
	Received *money.Num `json:"received,omitempty"`
	Off      *money.Num `json:"worked_out_less_received,omitempty"`
	Notes    []noteJSON `json:"notes,omitempty"`
}

type lineJSON struct {
	Charge string     `json:"charge"`
	Part   string     `json:"part"`
	Kind   string     `json:"kind"`
	Tier   int        `json:"tier,omitempty"`
	From   *money.Num `json:"from,omitempty"`
	To     *money.Num `json:"to,omitempty"`
	Units  *money.Num `json:"units,omitempty"`
	Price  *money.Num `json:"price,omitempty"`
	Base   *money.Num `json:"base,omitempty"`
	Days   int        `json:"days"`
	Amount money.Num  `json:"amount"`
	Text   string     `json:"text"`
}

type noteJSON struct {
	Code bill.NoteCode `json:"code"`
	Text string        `json:"text"`
}

func partsRecord(s bill.Sums, split bool) partsJSON {
	return partsJSON{s.Fixed, s.Indoor, s.Outdoor, s.Sewer, s.Surcharge, split}
}

func (b *billing) record() billsJSON {
	r, sums := b.rates, bill.TotalOf(b.bills)
	out := billsJSON{Rates: r.File, Name: r.Name, Currency: r.Currency, Unit: r.Unit,
		Checked: bill.Reproduced(b.matches) == bill.Checked, Given: len(b.matches),
		Total: sums.Total(), Parts: partsRecord(sums, b.split()), Bills: []billJSON{}}
	for i := range b.bills {
		out.Bills = append(out.Bills, b.billRecord(i))
	}
	for _, m := range b.matches {
		out.Bills[m.At].Received, out.Bills[m.At].Off = &m.Received, &m.Off
	}
	return out
}

func (b *billing) billRecord(i int) billJSON {
	one, row := &b.bills[i], b.rows[b.rowOf[i]]
	out := billJSON{Meter: one.Meter, From: one.From.String(), To: one.To.String(), Days: one.Days(), ReadType: string(row.Type),
		GapDays: row.GapDays, Volume: one.Volume, Billed: one.Billed, Lines: []lineJSON{}, Parts: partsRecord(one.Sums(), one.Indoor != nil),
		Total: one.Total}
	for _, l := range one.Lines {
		line := lineJSON{Charge: l.Charge, Part: l.Part.String(), Kind: l.Kind.String(), Tier: l.Tier, Days: l.Days, Amount: l.Amount,
			Text: l.What(b.rates.Unit, one.Days())}
		switch l.Kind {
		case bill.Percentage:
			line.Price, line.Base = &l.Price, &l.Base
		case bill.TopUp:
			line.Base = &l.Base
		default:
			line.Units, line.Price, line.To = &l.Units, &l.Price, l.To
			if l.Tier > 0 {
				line.From = &l.From
			}
		}
		out.Lines = append(out.Lines, line)
	}
	for _, n := range one.Notes {
		out.Notes = append(out.Notes, noteJSON{n.Code, n.Text(b.rates.Unit)})
	}
	return out
}
