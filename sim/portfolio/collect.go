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

// A part is the water of some years.
type part struct {
	years                   int
	volumeM3, requirementM3 float64 // sums
}

// A use is one account under one measure: sums over the whole years.
type use struct {
	part
	areaM2                 float64 // a year's mean times Years
	stressDays, brownDays  float64
	runoffM3               float64
	peakMonthM3, peakDayM3 float64
	money                  float64
	moneyYears             int
	early, late            part    // of the years of the bills, and of those by which targets are scored
	billM3, believedNeedM3 float64 // of the early years, as a utility sees them: with errors; of the reference only
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
	uses     [][]use // by measure, then account
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
		c.uses[m] = append(c.uses[m], use{})
	}
	c.years[int(r.Year)] = true
	u := &c.uses[m][a]
	u.add(r)
	if y := int(r.Year); c.bills.Early.Has(y) {
		u.early.add(r)
		if r.Reference {
			u.billM3 += c.bills.seen(r.Account, y, r.VolumeM3)
			u.believedNeedM3 += c.bills.believed(r.Account, r.RequirementM3)
		}
	} else if c.bills.Late.Has(y) {
		u.late.add(r)
	}
}

func (p *part) add(r *Result) {
	p.years++
	p.volumeM3 += r.VolumeM3
	p.requirementM3 += r.RequirementM3
}

func (u *use) add(r *Result) {
	y := int(r.Year)
	u.repeated = u.repeated || u.years > 0 && (y == u.lastYear || y == u.firstYear)
	if u.lastYear = y; u.years == 0 {
		u.firstYear = y
	}
	u.part.add(r)
	u.areaM2 += r.AreaM2
	u.stressDays += r.StressZoneDays
	u.brownDays += r.BrowningDays
	u.runoffM3 += r.RunoffM3
	u.peakMonthM3 += r.PeakMonthM3
	u.peakDayM3 += r.PeakDayM3
	if r.Money != nil {
		u.money += *r.Money
		u.moneyYears++
	}
}

// Reasons why results cannot be evaluated.
var (
	errNoReference = errors.New("no measure is marked as the reference")
	errReferences  = errors.New("several measures are marked as the reference")
	errNothing     = errors.New("no account has a whole year under the reference and under another measure")
	errTwice       = errors.New("an account has the same year twice under one measure")
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
	bills    Bills
	uses     [][]use // by measure, then account
}

// Table returns what was collected. The error is one of this package.
func (c *Collector) Table() (*Table, error) {
	ref := -1
	for i, name := range c.order {
		if c.refs[name] {
			if ref >= 0 {
				return nil, errReferences
			}
			ref = i
		}
	}
	if ref < 0 {
		return nil, errNoReference
	}
	t := &Table{Partial: c.partial, HasMoney: true, bills: c.bills}
	at := []int{ref}
	for i := range c.order {
		if i != ref {
			at = append(at, i)
		}
	}
	for _, m := range at {
		t.Measures = append(t.Measures, c.order[m])
	}
	t.uses = make([][]use, len(at))
	order := make([]int, len(c.names))
	for a := range order {
		order[a] = a
	}
	slices.SortFunc(order, func(a, b int) int { return compare(c.names[a], c.names[b]) })
	for _, a := range order {
		paired := true
		var first *use
		for _, m := range at {
			if a >= len(c.uses[m]) || c.uses[m][a].years == 0 {
				paired = false
				continue
			}
			u := &c.uses[m][a]
			if u.repeated || u.years > len(c.years) {
				return nil, fmt.Errorf("%w: %s, %s", errTwice, c.names[a], c.order[m])
			}
			if first == nil {
				first = u
			}
			paired = paired && u.years == first.years && u.early.years == first.early.years && u.late.years == first.late.years
		}
		if !paired {
			t.Unpaired = append(t.Unpaired, c.names[a])
			continue
		}
		t.Accounts = append(t.Accounts, c.names[a])
		for k, m := range at {
			u := c.uses[m][a]
			t.HasMoney = t.HasMoney && u.moneyYears == u.years
			t.uses[k] = append(t.uses[k], u)
		}
	}
	if len(t.Accounts) == 0 || len(t.Measures) < 2 {
		return nil, errNothing
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

// use returns account a under measure m.
func (t *Table) use(m, a int) *use { return &t.uses[m][a] }

// Ratio returns the application ratio of account a as found, over all years; NaN if
// nothing is required.
func (t *Table) Ratio(a int) float64 {
	u := t.use(0, a)
	if !(u.requirementM3 > 0) {
		return math.NaN()
	}
	return u.volumeM3 / u.requirementM3
}

// areaM2 returns the irrigated area of account a as found.
func (t *Table) areaM2(a int) float64 { u := t.use(0, a); return u.areaM2 / float64(u.years) }

// Savings returns by account the mean saving of measure m a year [m³]; below 0 if the
// account uses more.
func (t *Table) Savings(m int) []float64 {
	return t.each(func(a int) float64 {
		u := t.use(0, a)
		return (u.volumeM3 - t.use(m, a).volumeM3) / float64(u.years)
	})
}

// BillSavings returns by account the mean saving on the bill a year, in the currency of
// the rates; it has a meaning only if HasMoney.
func (t *Table) BillSavings(m int) []float64 {
	return t.each(func(a int) float64 {
		u := t.use(0, a)
		return (u.money - t.use(m, a).money) / float64(u.years)
	})
}

// LateSavings returns by account the mean saving a year of the late years [m³]; NaN for
// an account without such a year.
func (t *Table) LateSavings(m int) []float64 {
	return t.each(func(a int) float64 {
		u := t.use(0, a)
		return (u.late.volumeM3 - t.use(m, a).late.volumeM3) / float64(u.late.years)
	})
}

// apparentSavings returns by account what the years of the bills seem to say a year
// [m³]: the bill as seen, less the use under measure m of the same years. It rises with
// the error of the bill by which an account is picked, which no later year repeats.
func (t *Table) apparentSavings(m int) []float64 {
	return t.each(func(a int) float64 {
		u := t.use(0, a)
		return (u.billM3 - t.use(m, a).early.volumeM3) / float64(u.early.years)
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
