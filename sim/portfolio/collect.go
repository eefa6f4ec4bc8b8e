package portfolio

import (
	"errors"
	"fmt"
	"math"
	"slices"
)

// Years is a span of calendar years, both included; the zero value has none.
type Years struct {
	From int `json:"from"`
	To   int `json:"to"`
}

// Has reports whether the span has year y.
func (s Years) Has(y int) bool { return s.From != 0 && y >= s.From && y <= s.To }

// Overlaps reports whether two spans share a year.
func (s Years) Overlaps(o Years) bool {
	return s.From != 0 && o.From != 0 && s.From <= o.To && o.From <= s.To
}

func (s Years) String() string {
	if s.From == s.To {
		return fmt.Sprint(s.From)
	}
	return fmt.Sprintf("%d to %d", s.From, s.To)
}

// A Part is the water of some years.
type Part struct {
	Years                   int
	VolumeM3, RequirementM3 float64 // sums
}

// A Use is one account under one measure: sums over the whole years.
type Use struct {
	Part
	AreaM2                 float64 // a year's mean times Years
	StressDays, BrownDays  float64
	RunoffM3               float64
	PeakMonthM3, PeakDayM3 float64
	Money                  float64
	MoneyYears             int
	Early, Late            Part    // of the years of the bills, and of those by which targets are scored
	BillM3, BelievedNeedM3 float64 // of the early years, as a utility sees them: with errors; of the reference only
	lastYear, firstYear    int
	repeated               bool
}

// A Collector takes results in any order and keeps sums by account and measure, so its
// memory does not grow with the number of years.
type Collector struct {
	bills    Bills
	accounts map[string]int
	names    []string
	measures map[string]int
	order    []string
	refs     map[string]bool
	uses     [][]Use // by measure, then account
	partial  int
	years    map[int]bool
}

// NewCollector returns a collector that sees the bills of the reference with the given
// errors.
func NewCollector(bills Bills) *Collector {
	return &Collector{bills: bills, accounts: map[string]int{}, measures: map[string]int{}, refs: map[string]bool{}, years: map[int]bool{}}
}

// Add takes one result. A year of which the weather has only a part is counted and not
// used.
func (c *Collector) Add(r *Result) {
	m, met := c.measures[r.Measure]
	if !met {
		m = len(c.order)
		c.measures[r.Measure] = m
		c.order, c.uses = append(c.order, r.Measure), append(c.uses, nil)
	}
	if r.Reference {
		c.refs[r.Measure] = true
	}
	a, met := c.accounts[r.Account]
	if !met {
		a = len(c.names)
		c.accounts[r.Account] = a
		c.names = append(c.names, r.Account)
	}
	if !r.WholeYear {
		c.partial++
		return
	}
	for len(c.uses[m]) <= a {
		c.uses[m] = append(c.uses[m], Use{})
	}
	c.years[int(r.Year)] = true
	u := &c.uses[m][a]
	u.add(r)
	if y := int(r.Year); c.bills.Early.Has(y) {
		u.Early.add(r)
		if r.Reference {
			u.BillM3 += c.bills.seen(r.Account, y, r.VolumeM3)
			u.BelievedNeedM3 += c.bills.believed(r.Account, r.RequirementM3)
		}
	} else if c.bills.Late.Has(y) {
		u.Late.add(r)
	}
}

func (p *Part) add(r *Result) {
	p.Years++
	p.VolumeM3 += r.VolumeM3
	p.RequirementM3 += r.RequirementM3
}

func (u *Use) add(r *Result) {
	y := int(r.Year)
	u.repeated = u.repeated || u.Years > 0 && (y == u.lastYear || y == u.firstYear)
	if u.lastYear = y; u.Years == 0 {
		u.firstYear = y
	}
	u.Part.add(r)
	u.AreaM2 += r.AreaM2
	u.StressDays += r.StressZoneDays
	u.BrownDays += r.BrowningDays
	u.RunoffM3 += r.RunoffM3
	u.PeakMonthM3 += r.PeakMonthM3
	u.PeakDayM3 += r.PeakDayM3
	if r.Money != nil {
		u.Money += *r.Money
		u.MoneyYears++
	}
}

// Reasons why results cannot be evaluated.
var (
	ErrNoReference = errors.New("no measure is marked as the reference")
	ErrReferences  = errors.New("several measures are marked as the reference")
	ErrNothing     = errors.New("no account has a whole year under the reference and under another measure")
	ErrTwice       = errors.New("an account has the same year twice under one measure")
)

// A Table is what was collected: accounts sorted by name, each with the same years under
// every measure.
type Table struct {
	Accounts []string
	Measures []string // the reference first, then as met
	Years    []int
	Partial  int      // results of years that are not whole, which do not count
	Unpaired []string // accounts that lack a measure or a year that others of theirs have; they do not count
	HasMoney bool     // every account has a bill for every year and measure
	Bills    Bills
	uses     [][]Use // by measure, then account
}

// Table returns what was collected. The error is one of this package.
func (c *Collector) Table() (*Table, error) {
	ref := -1
	for i, name := range c.order {
		if c.refs[name] {
			if ref >= 0 {
				return nil, ErrReferences
			}
			ref = i
		}
	}
	if ref < 0 {
		return nil, ErrNoReference
	}
	t := &Table{Partial: c.partial, HasMoney: true, Bills: c.bills}
	at := []int{ref}
	for i := range c.order {
		if i != ref {
			at = append(at, i)
		}
	}
	for _, m := range at {
		t.Measures = append(t.Measures, c.order[m])
	}
	t.uses = make([][]Use, len(at))
	order := make([]int, len(c.names))
	for a := range order {
		order[a] = a
	}
	slices.SortFunc(order, func(a, b int) int { return compare(c.names[a], c.names[b]) })
	for _, a := range order {
		paired := true
		var first *Use
		for _, m := range at {
			if a >= len(c.uses[m]) || c.uses[m][a].Years == 0 {
				paired = false
				continue
			}
			u := &c.uses[m][a]
			if u.repeated || u.Years > len(c.years) {
				return nil, fmt.Errorf("%w: %s, %s", ErrTwice, c.names[a], c.order[m])
			}
			if first == nil {
				first = u
			}
			paired = paired && u.Years == first.Years && u.Early.Years == first.Early.Years && u.Late.Years == first.Late.Years
		}
		if !paired {
			t.Unpaired = append(t.Unpaired, c.names[a])
			continue
		}
		t.Accounts = append(t.Accounts, c.names[a])
		for k, m := range at {
			u := c.uses[m][a]
			t.HasMoney = t.HasMoney && u.MoneyYears == u.Years
			t.uses[k] = append(t.uses[k], u)
		}
	}
	if len(t.Accounts) == 0 || len(t.Measures) < 2 {
		return nil, ErrNothing
	}
	for y := range c.years {
		t.Years = append(t.Years, y)
	}
	slices.Sort(t.Years)
	return t, nil
}

func compare(a, b string) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

// Use returns account a under measure m.
func (t *Table) Use(m, a int) *Use { return &t.uses[m][a] }

// Ratio returns the application ratio of account a as found, over all years; NaN if
// nothing is required.
func (t *Table) Ratio(a int) float64 {
	u := t.Use(0, a)
	if !(u.RequirementM3 > 0) {
		return math.NaN()
	}
	return u.VolumeM3 / u.RequirementM3
}

// AreaM2 returns the irrigated area of account a as found.
func (t *Table) AreaM2(a int) float64 { u := t.Use(0, a); return u.AreaM2 / float64(u.Years) }

// Savings returns by account the mean saving of measure m a year [m³]; below 0 if the
// account uses more.
func (t *Table) Savings(m int) []float64 {
	return t.each(func(a int) float64 {
		u := t.Use(0, a)
		return (u.VolumeM3 - t.Use(m, a).VolumeM3) / float64(u.Years)
	})
}

// BillSavings returns by account the mean saving on the bill a year, in the currency of
// the rates; it has a meaning only if HasMoney.
func (t *Table) BillSavings(m int) []float64 {
	return t.each(func(a int) float64 {
		u := t.Use(0, a)
		return (u.Money - t.Use(m, a).Money) / float64(u.Years)
	})
}

// LateSavings returns by account the mean saving a year of the late years [m³]; NaN for
// an account without such a year.
func (t *Table) LateSavings(m int) []float64 {
	return t.each(func(a int) float64 {
		u := t.Use(0, a)
		return (u.Late.VolumeM3 - t.Use(m, a).Late.VolumeM3) / float64(u.Late.Years)
	})
}

// ApparentSavings returns by account what the years of the bills seem to say a year
// [m³]: the bill as seen, less the use under measure m of the same years. It rises with
// the error of the bill by which an account is picked, which no later year repeats.
func (t *Table) ApparentSavings(m int) []float64 {
	return t.each(func(a int) float64 {
		u := t.Use(0, a)
		return (u.BillM3 - t.Use(m, a).Early.VolumeM3) / float64(u.Early.Years)
	})
}

func (t *Table) each(value func(a int) float64) []float64 {
	out := make([]float64, len(t.Accounts))
	for a := range out {
		out[a] = value(a)
	}
	return out
}

// All returns the indexes of all accounts.
func (t *Table) All() []int {
	out := make([]int, len(t.Accounts))
	for a := range out {
		out[a] = a
	}
	return out
}
