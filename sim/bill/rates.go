// Package bill works out water bills: what a supplier charges for the use
// between two reads of a meter, line by line and to the cent.
//
// # Units
//
// Volumes are in the billing unit of the rates, money in their currency, areas
// in m², depths in mm, volumes of a budget in liters. All are exact decimal
// numbers of package money.
//
// # Rounding
//
// Every line of a bill is rounded to 0.01, halves away from zero; a total is the
// sum of its lines. Nothing else is rounded.
//
// # Promises
//
// A bill is the sum of its lines and of its parts, to the cent. Prices that
// change inside a period count by their days: the volume is split by average
// daily use, and tiers are split in the same way.
package bill

import (
	"loamledger/sim/money"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
)

// Rates are the prices of a supplier for one class of customers.
type Rates struct {
	File     string
	Name     string
	Currency string // code of three letters, such as USD
	Unit     string // billing unit, in which volumes, tiers and prices are
	UnitL    money.Num
	// WholeUnits is set if reads are cut to whole units; the rest is carried to the
	// next read.
	WholeUnits bool
	NormalDays int // days of a normal billing period
	Months     int // calendar months in a normal billing period, if no reads say otherwise
	Tiers      Prorate
	Fixed      Prorate
	// ByReadDate is set if prices that change inside a period count as on the day
	// of the read, for the whole period; else they count by days.
	ByReadDate    bool
	Budget        *Budget        // nil if no tier needs one
	Establishment *Establishment // nil for none
	Charges       []Charge
	Account       Account // the customer that the file describes
	Doubts        []Doubt // prices, amounts and percentages that are not exactly known
}

// A Prorate says whether tiers or fixed charges follow the days of a period.
type Prorate struct {
	Always bool
	// Beyond, if above 0, is the share by which a period must be longer or shorter
	// than normal to be prorated.
	Beyond money.Num
}

// factor returns what a normal width or amount is multiplied by for a period of
// the given days, as a fraction.
func (p Prorate) factor(days, normal int) (num, den int) {
	if p.Always {
		return days, normal
	}
	if p.Beyond.Sign() > 0 {
		off := money.Int(max(days-normal, normal-days))
		if off.Cmp(p.Beyond.Mul(money.Int(normal))) > 0 {
			return days, normal
		}
	}
	return 1, 1
}

// A Part is the part of a bill that a charge belongs to.
type Part uint8

// The parts, in the order in which they are shown.
const (
	Fixed Part = iota
	Water
	Sewer
	Surcharge
	Parts // how many there are
)

var partNames = [Parts]string{"fixed", "water", "sewer", "surcharge"}

func (p Part) String() string { return partNames[p] }

// PartNames returns the names of the parts in order. The slice is the caller's.
func PartNames() []string { return append([]string(nil), partNames[:]...) }

// A Charge is one entry of the rates. Charges with the same name are alternatives:
// at most one of them applies on a day.
type Charge struct {
	Pos    diag.Pos
	Name   string
	Part   Part
	Dates  cal.Period // on which it is in force
	Season *Season    // nil for all year
	When   []Condition

	// One of these is given.
	Amount  *Table   // fixed, for each normal period; below 0 for a credit
	Tiers   []Tier   // by volume
	Percent *Percent // of other charges
	Minimum *Minimum

	PerDay  bool      // Amount is for a day
	PerM2   money.Num // Amount is for this area [m²]; 0 for none
	Combine bool      // Tiers apply to all meters of the account together
	Basis   Basis     // the volume of Tiers
}

// A Season is part of every year; both days are in it. It may span New Year.
type Season struct{ From, To Day }

// A Day is a day of the year, as 100·month + day.
type Day int

// holds reports whether d is in the season.
func (s *Season) holds(d cal.Date) bool {
	_, m, day := d.YMD()
	at := Day(100*m + day)
	if s.From <= s.To {
		return at >= s.From && at <= s.To
	}
	return at >= s.From || at <= s.To
}

// A Condition limits a charge to accounts or meters: size, use, or a class of the
// account's own, such as lot.
type Condition struct{ Key, Value string }

// A Table is an amount, or one for each meter size.
type Table struct {
	All    money.Num
	BySize map[string]money.Num // nil if All counts
}

// A Tier is a price up to a bound.
type Tier struct {
	Pos   diag.Pos
	To    *Bound // upper bound, from 0; nil for a tier with a Width, or without an end
	Width *Bound // width above the tier below
	Price money.Num
}

// A Bound is a volume: the sum of its terms, or one sum for each meter size.
type Bound struct {
	Terms  []Term
	BySize map[string][]Term // nil if Terms count
}

// A Term is a share of a budget, or a number of units.
type Term struct {
	Of    Of
	Share money.Num // units if Of is Units
}

// Of is what a term is a share of.
type Of uint8

// The bases of a term.
const (
	Units Of = iota
	Indoor
	Outdoor
	Whole // indoor and outdoor budget together
	Annual
	Bases // how many there are
)

var ofNames = [Bases]string{"units", "indoor", "outdoor", "budget", "allowance"}

func (o Of) String() string { return ofNames[o] }

// A Percent is a share of other charges that stand before it.
type Percent struct {
	Share money.Num // below 0 for a discount
	Of    []string  // names of charges or parts
}

// A Minimum is a least bill. With Covers, it is a fixed charge that pays for the
// first units of the only charge in Of; without, it tops up a smaller sum of the
// charges and parts in Of, or of the whole bill if there are none.
type Minimum struct {
	Amount *Table
	Covers money.Num
	Of     []string
}

// A Basis says which volume a charge by volume counts.
type Basis struct {
	Winter *Winter    // nil for the metered volume
	Lesser bool       // the smaller of metered volume and winter average
	Cap    *money.Num // maximum volume in a normal period; nil for none
	Deduct bool       // less what deduct meters of the account read
}

// A Winter is a rule for the winter average: the mean volume of the periods in
// the given months, in force from a day of the year until the same day a year on.
type Winter struct {
	Months  []int
	From    Day
	Default *money.Num // for a customer without winter reads; nil for the metered volume
}

// A Budget is what a property is allowed.
type Budget struct {
	IndoorL money.Num     // per person and day [L]
	EToMM   [12]money.Num // by month
	Factor  money.Num     // outdoor budget is ETo · Factor · landscape area
	Bands   []Band        // of the annual allowance
	Shares  [12]money.Num // of the annual allowance, by month
	HasETo  bool
	// FollowsWeather is set if ETo is that of each day instead of EToMM: see
	// [Rates.WithETo]. EToPos is where the rates say so.
	FollowsWeather bool
	EToPos         diag.Pos
	daily          *dailyETo
	HasBands       bool
}

// A Band is part of the annual allowance: liters a year per m² of lot up to ToM2.
type Band struct {
	ToM2 money.Num // 0 for the rest
	MM   money.Num // L/m²
}

// An Establishment allows new plants water outside the budget: for Days from the
// account's date, use is charged at the price of the tier numbered Tier.
type Establishment struct{ Days, Tier int }

// An Account is the customer.
type Account struct {
	Persons     money.Num
	LandscapeM2 money.Num
	LotM2       money.Num
	IndoorL     money.Num // use indoors per day [L]; 0 if not known
	Classes     map[string]string
	Meters      []Meter
	// Establishment is the day on which new plants went in; HasPlants is set if it
	// is given.
	Establishment cal.Date
	HasPlants     bool
}

// A Meter is one meter of an account.
type Meter struct {
	Name    string
	Size    string
	Use     Use
	IndoorL money.Num // use indoors per day [L]; 0 for that of the account
}

// A Use is what a meter serves.
type Use uint8

// The uses.
const (
	Mixed Use = iota
	Irrigation
	// DeductUse is a meter behind another one: its water is read twice, and left
	// out of the sewer volume.
	DeductUse
	Uses // how many there are
)

var useNames = [Uses]string{"mixed", "irrigation", "deduct"}

func (u Use) String() string { return useNames[u] }

// UseNames returns the names of the uses in order. The slice is the caller's.
func UseNames() []string { return append([]string(nil), useNames[:]...) }

// Meter returns the meter of the given name, or the only one for an empty name.
func (a *Account) Meter(name string) (Meter, bool) {
	if name == "" && len(a.Meters) == 1 {
		return a.Meters[0], true
	}
	for _, m := range a.Meters {
		if m.Name == name {
			return m, true
		}
	}
	return Meter{}, false
}
