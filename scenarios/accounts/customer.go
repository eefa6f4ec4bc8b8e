package accounts

import (
	"math"
	"slices"
	"strings"

	"loamledger/scenarios"
	"loamledger/sim/bill"
	"loamledger/sim/draw"
	"loamledger/sim/money"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// Money says how the water of accounts is billed.
type Money struct {
	Pos    diag.Pos
	Rates  scenarios.File
	Meter  *scenarios.Node // of the account in the rates, whose use and classes all accounts have; nil if it has one
	Prices *cal.Date       // day whose prices count in all years; nil for the newest
	Values []Customer      // of accounts that state none
}

// A Customer is one thing that rates may have to know of an account, as an account or the program
// states it: a range, words with shares, or the irrigated area.
type Customer struct {
	Column    string // of [CustomerColumns]
	Pos       diag.Pos
	Range     draw.Range // in the base unit of its column
	Words     []Word     // in place of a range; numbers as written
	Irrigated bool       // it is the irrigated area as found
}

// IrrigatedArea is what a program writes for a landscape that is the irrigated area.
const IrrigatedArea = "irrigated area"

// The columns that rates may need.
const (
	ColumnIndoor    = "indoor_use"
	columnPersons   = "persons"
	ColumnLandscape = "landscape"
	ColumnLot       = "lot"
	ColumnMeterSize = "meter_size"
)

// A CustomerColumn describes one of them.
type CustomerColumn struct {
	Key       string
	Dim       quantity.Dimension // of a quantity
	Bare      bool               // a number without a unit
	Words     bool               // a text
	Low, High float64            // in the base unit
	Like      string             // how a program writes it
	About     string
}

// CustomerColumns is the one list of what rates may need to know of an account.
func CustomerColumns() []CustomerColumn {
	return []CustomerColumn{
		{ColumnIndoor, quantity.Volume, false, false, 0, 1000, "100 to 160 to 300 gal", "use indoors a day, under the outdoor use in the tiers"},
		{columnPersons, 0, true, false, 0, 1e5, "{1: 25%, 2: 35%, 3: 20%, 4: 20%}", "persons, for a budget indoors"},
		{ColumnLandscape, quantity.Area, false, false, 0, 1e7, IrrigatedArea, "landscape area, for a budget outdoors"},
		{ColumnLot, quantity.Area, false, false, 0, 1e8, "4000 to 7000 to 12000 ft2", "area of the lot, for an allowance or a charge by area"},
		{ColumnMeterSize, 0, false, true, 0, 0, "{5/8 in: 80%, 1 in: 20%}", "size of the meter, as in the rates"},
	}
}

// CustomerColumnOf returns the description of a column; ok is false if rates never need it.
func CustomerColumnOf(key string) (c CustomerColumn, ok bool) {
	list := CustomerColumns()
	at := slices.IndexFunc(list, func(c CustomerColumn) bool { return c.Key == key })
	if at < 0 {
		return c, false
	}
	return list[at], true
}

// Parse reads a number or a range of the column, in the base unit.
func (c *CustomerColumn) Parse(text string) (r draw.Range, err error) {
	var values []float64
	if c.Bare {
		for _, part := range strings.Split(text, " to ") {
			v, err := quantity.ParseNumber(strings.TrimSpace(part))
			if err != nil {
				return r, err
			}
			values = append(values, v)
		}
	} else if values, err = ParseRange(text, c.Dim); err != nil {
		return r, err
	}
	r, ok := RangeOf(values)
	if !ok || !(r.Low >= c.Low && r.High <= c.High) {
		unit := ""
		if !c.Bare {
			unit = " " + c.Dim.BaseUnit()
		}
		return r, &outside{text, c.Low, c.High, unit}
	}
	return r, nil
}

// An outside is a number or a range that is not between two bounds.
type outside struct {
	text      string
	low, high float64
	unit      string
}

func (o *outside) Error() string {
	return quoted(o.text) + " is not a number or a rising range from " + short(o.low) + " to " + short(o.high) + o.unit
}

// A customer is what is known or drawn of one account.
type customer struct {
	account bill.Account
	indoorL float64 // a day
	missing int     // values that rates need and the account does not state
	values  int     // values that rates need
}

// customer gathers what the rates need to know of an account with the given irrigated area.
func (b *biller) customer(a *Account, areaM2 float64, d *drawer) (*customer, error) {
	out := &customer{account: bill.Account{Classes: b.rates.Account.Classes, Meters: []bill.Meter{b.meter}}}
	var faults diag.List
	for _, column := range b.needs {
		c, _ := CustomerColumnOf(column)
		own := customerOf(a.Customer, column)
		assumed := own == nil
		out.values++
		if assumed {
			out.missing++
			own = customerOf(b.values, column)
		}
		if own == nil {
			faults.Add(diag.MissingKey, a.Pos, "fill the column "+column+", or add "+column+": "+c.Like+
				" to money in the program, which is then an assumption", "the rates need the %s of the account (%s)", plain(column), c.About)
			continue
		}
		v, word := d.customer(own, assumed)
		if own.Irrigated {
			v = areaM2
		}
		if c.Words {
			if out.account.Meters[0].Size = word; !slices.Contains(b.sizes, word) {
				faults.Add(diag.UnknownName, own.Pos, "write one of: "+strings.Join(b.sizes, ", "), "the rates have no meter of size %s", quoted(word))
			}
			continue
		}
		exact := money.Float(v, 6)
		switch column {
		case ColumnIndoor:
			out.indoorL = 1000 * v
			out.account.IndoorL = exact.Mul(money.Int(1000))
		case columnPersons:
			out.account.Persons = exact
		case ColumnLandscape:
			out.account.LandscapeM2 = exact
		case ColumnLot:
			out.account.LotM2 = exact
		}
	}
	return out, faults.Err()
}

// customerOf finds a column; nil for none.
func customerOf(list []Customer, column string) *Customer {
	for i := range list {
		if list[i].Column == column {
			return &list[i]
		}
	}
	return nil
}

// customer returns the value or the word of one thing, drawn if there are several. assumed says that it
// is the program's.
func (d *drawer) customer(c *Customer, assumed bool) (v float64, word string) {
	cause := "customer " + c.Column
	if assumed || c.Range.Low < c.Range.High {
		d.note(c.Column)
	}
	if len(c.Words) == 0 {
		v = c.Range.At(d.share(cause))
		if c.Column == columnPersons && c.Range.Low < c.Range.High {
			v = math.Round(v)
		}
		return v, ""
	}
	left := d.share(cause)
	for i := range c.Words {
		word = c.Words[i].Node.Text
		if left -= c.Words[i].Share; left < 0 {
			break
		}
	}
	if v, err := quantity.ParseNumber(word); err == nil {
		return v, word
	}
	return 0, word
}

// plain writes a key in words.
func plain(key string) string { return strings.ReplaceAll(key, "_", " ") }
