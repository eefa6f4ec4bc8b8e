package bill

import (
	"slices"

	"loamledger/sim/money"
	"loamledger/weather/cal"
)

// A NoteCode says what a bill had to settle.
type NoteCode string

// The codes of notes.
const (
	NoPrice       NoteCode = "no-water-price" // days without a charge for water
	WinterAverage NoteCode = "winter-average" // mean of Reads winter periods
	WinterDefault NoteCode = "winter-default" // no winter reads yet: the default volume
	WinterMetered NoteCode = "winter-metered" // neither reads nor default: the metered volume
	MeanETo       NoteCode = "mean-eto"       // Days outside the weather, whose budget has the mean ETo of their month
	ReadApart     NoteCode = "read-apart"     // Meter is read on other days, so a charge on meters together does not count it
)

// A Note is what a bill had to settle, for the reader of the bill.
type Note struct {
	Code  NoteCode
	Days  int       // of NoPrice and MeanETo
	Meter string    // of ReadApart
	reads int       // of WinterAverage
	units money.Num // volume taken
}

func (p *period) note(n Note) {
	same := func(o Note) bool { return o.Code == n.Code && o.Meter == n.Meter }
	if !slices.ContainsFunc(p.bill.Notes, same) {
		p.bill.Notes = append(p.bill.Notes, n)
	}
}

// winter returns the winter average in force in this period: the mean volume of
// the meter's periods whose middle is in a winter month, in the last winter that
// ended before the rule's day. known is false if the metered volume counts.
func (p *period) winter(w *Winter) (v money.Num, known bool) {
	ended, from := w.last(p.bill.From)
	sum, n := p.winterSum(w, ended, from)
	switch {
	case n > 0:
		v = sum.Div(money.Int(n))
		p.note(Note{Code: WinterAverage, reads: n, units: v})
		return p.prorated(v, p.rates.Tiers, p.days), true
	case w.Default != nil:
		p.note(Note{Code: WinterDefault, units: *w.Default})
		return p.prorated(*w.Default, p.rates.Tiers, p.days), true
	}
	p.note(Note{Code: WinterMetered, units: p.bill.Billed})
	return money.Num{}, false
}

// begin returns the day of year y from which that winter's average counts.
func (w *Winter) begin(y int) cal.Date { return cal.Of(y, int(w.From)/100, int(w.From)%100) }

// A winterSum is the volume of a meter in the periods of one winter, and their number.
type winterSum struct {
	of    *Winter
	meter string
	ended cal.Date
	sum   money.Num
	n     int
}

// winterSum adds up the periods of the meter that end by a day and begin from another on,
// and whose middle is in a winter month. All of them are billed before the period.
func (p *period) winterSum(w *Winter, ended, from cal.Date) (money.Num, int) {
	for i := range p.winters {
		if s := &p.winters[i]; s.of == w && s.ended == ended && s.meter == p.bill.Meter {
			return s.sum, s.n
		}
	}
	own := winterSum{of: w, meter: p.bill.Meter, ended: ended}
	for k := range p.at {
		o := &p.bills[k]
		if o.Meter == p.bill.Meter && w.among(Between{o.From, o.To}, ended, from) {
			own.sum = own.sum.Add(o.Billed)
			own.n++
		}
	}
	p.winters = append(p.winters, own)
	return own.sum, own.n
}
