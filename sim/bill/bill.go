package bill

import (
	"cmp"
	"slices"
	"sort"

	"loamledger/sim/money"
	"loamledger/weather/cal"
)

// A Read is the use of one meter between two reads.
type Read struct {
	Meter  string
	From   cal.Date   // day of the read before: the first day of the period
	To     cal.Date   // day of the read, the first day after the period
	Volume money.Num  // in billing units, not negative
	Indoor *money.Num // of Volume; nil if not known
}

// maxDays is the maximum length of a billing period.
const maxDays = 400

// Days returns the days of the period.
func (r *Read) Days() int { return int(r.To - r.From) }

// A Line is one line of a bill. Indoor is the part of Amount that the use indoors
// costs: it lies under the use outdoors in the tiers.
type Line struct {
	Charge string
	Part   Part
	Kind   Kind
	Tier   int       // from 1; 0 for a line that is not of a tier
	From   money.Num // bounds of the tier
	To     *money.Num
	Units  money.Num // billed at Price
	Price  money.Num
	Base   money.Num // what a percentage is of
	Amount money.Num // rounded to 0.01
	indoor money.Num
	Days   int // on which the charge applies, of the days of the period
}

// A Kind says what a line charges for.
type Kind uint8

// The kinds of lines.
const (
	FixedAmount Kind = iota
	Volume
	Covered     // volume that a minimum pays for
	Established // volume of new plants, outside the budget
	Percentage
	TopUp // up to the minimum bill
	Kinds // how many there are
)

var kindNames = [Kinds]string{"fixed", "volume", "covered", "establishment", "percent", "minimum"}

func (k Kind) String() string { return kindNames[k] }

// A Bill is what one read costs.
type Bill struct {
	Read
	CarriedIn  money.Num // from earlier reads, with whole units
	Billed     money.Num // the volume that is charged
	CarriedOut money.Num
	Lines      []Line
	Total      money.Num
	Notes      []Note
}

// Sums are the parts of a bill; water is split by where it is used. They add up
// to the bill.
type Sums struct {
	Fixed, Indoor, Outdoor, Sewer, Surcharge money.Num
}

// The places of water in the lists of [Sums.List] and [SumNames].
const (
	IndoorSum  = 1
	OutdoorSum = 2
)

// SumNames names the fields of [Sums], in order.
func SumNames() []string {
	return []string{"fixed", "water indoors", "water outdoors", "sewer", "surcharge"}
}

// List returns the parts in the order of [SumNames].
func (s *Sums) List() []money.Num {
	return []money.Num{s.Fixed, s.Indoor, s.Outdoor, s.Sewer, s.Surcharge}
}

// Total returns the sum of the parts.
func (s *Sums) Total() money.Num { return money.Sum(s.List()...) }

// Add adds the parts of o.
func (s *Sums) Add(o Sums) {
	s.Fixed, s.Indoor, s.Outdoor = s.Fixed.Add(o.Fixed), s.Indoor.Add(o.Indoor), s.Outdoor.Add(o.Outdoor)
	s.Sewer, s.Surcharge = s.Sewer.Add(o.Sewer), s.Surcharge.Add(o.Surcharge)
}

// Less returns s − o, part by part.
func (s Sums) Less(o Sums) Sums {
	return Sums{s.Fixed.Sub(o.Fixed), s.Indoor.Sub(o.Indoor), s.Outdoor.Sub(o.Outdoor), s.Sewer.Sub(o.Sewer), s.Surcharge.Sub(o.Surcharge)}
}

// Sums returns the parts of the bill.
func (b *Bill) Sums() (s Sums) {
	for _, l := range b.Lines {
		switch l.Part {
		case Fixed:
			s.Fixed = s.Fixed.Add(l.Amount)
		case Water:
			s.Indoor, s.Outdoor = s.Indoor.Add(l.indoor), s.Outdoor.Add(l.Amount.Sub(l.indoor))
		case Sewer:
			s.Sewer = s.Sewer.Add(l.Amount)
		default:
			s.Surcharge = s.Surcharge.Add(l.Amount)
		}
	}
	return s
}

// TotalOf returns the parts of several bills together.
func TotalOf(bills []Bill) (s Sums) {
	for i := range bills {
		s.Add(bills[i].Sums())
	}
	return s
}

// Bills works out the bills for the reads of an account, which may be in any
// order; the bills are in the order of the read dates, then of the account's
// meters. Deduct meters have no bills. The rates must be free of problems for the
// account: see [Rates.CheckAccount]. Reads of one meter must not overlap, and
// none may be longer than [maxDays].
func (r *Rates) Bills(a *Account, reads []Read) []Bill {
	all := slices.Clone(reads)
	sort.SliceStable(all, func(i, j int) bool {
		x, y := &all[i], &all[j]
		return cmp.Or(cmp.Compare(x.To, y.To), cmp.Compare(x.From, y.From), cmp.Compare(a.place(x.Meter), a.place(y.Meter))) < 0
	})
	w := worker{rates: r, account: a, carried: map[string]money.Num{}, bills: make([]Bill, 0, len(all))}
	for i := range all {
		w.take(all[i])
	}
	for i := range w.bills {
		w.fill(i)
	}
	return slices.DeleteFunc(w.bills, func(b Bill) bool {
		m, _ := a.Meter(b.Meter)
		return m.Use == DeductUse
	})
}

func (a *Account) place(meter string) int {
	return slices.IndexFunc(a.Meters, func(m Meter) bool { return m.Name == meter })
}

// A worker works out bills one after another: whole units and winter averages
// depend on the bills before.
type worker struct {
	rates   *Rates
	account *Account
	carried map[string]money.Num
	bills   []Bill
	winters []winterSum
	all     []cal.Date // the days of the period under way, once they are asked for
	priced  []bool     // its days on which water has a price
	under   period     // that period
}

// take adds a bill without lines: only its billed volume is known.
func (w *worker) take(read Read) {
	b := Bill{Read: read, Billed: read.Volume}
	if w.rates.WholeUnits {
		b.CarriedIn = w.carried[read.Meter]
		have := read.Volume.Add(b.CarriedIn)
		b.Billed = have.Floor()
		b.CarriedOut = have.Sub(b.Billed)
		w.carried[read.Meter] = b.CarriedOut
	}
	w.bills = append(w.bills, b)
}

// fill works out the lines of bill i.
func (w *worker) fill(i int) {
	p := w.period(i)
	if p.meter.Use == DeductUse {
		return
	}
	b := &w.bills[i]
	if i > 0 { // as many as before, mostly
		b.Lines = make([]Line, 0, len(w.bills[i-1].Lines))
	}
	p.fixed()
	p.volumes()
	p.shares()
	for _, l := range b.Lines {
		b.Total = b.Total.Add(l.Amount)
	}
}
