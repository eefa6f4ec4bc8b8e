// Package program judges a rebate program by money: the levelized cost of the water it
// saves, the tests by which benefits are compared with costs, what rebates bring how many
// participants, and the rule that says renew, retarget or stop.
//
// Money is in one currency of constant purchasing power; the discount rate is real. All
// water is in m³. A saving may be negative: an account that uses more costs supply.
//
// # Sources
//
// The viewpoints are those of the California Standard Practice Manual: economic analysis
// of demand-side programs and projects (2001). Its formula of the total resource test is
// quoted in a decision of the California Public Utilities Commission on that test
// (docs.cpuc.ca.gov, final decision 77638): costs are those of the program and all of
// equipment, installation and upkeep, no matter who pays, and the increase in supply
// costs of periods in which use rises; a rebate is a transfer. The manual itself was not
// consulted: the other tests are from memory.
package program

import (
	"fmt"
	"math"
)

// A Value is a number in doubt: Low ≤ Mid ≤ High.
type Value struct{ Low, Mid, High float64 }

// Sure returns a value without doubt.
func Sure(v float64) Value { return Value{v, v, v} }

// isSure reports whether there is no doubt.
func (v Value) isSure() bool { return v.Low == v.High }

// A Knob is a number that a result depends on.
type Knob uint8

// The knobs, in the order in which results list them.
const (
	Saving      Knob = iota // factor on every account's saving: verified divided by simulated
	NetToGross              // share of the saving that the program causes; 0 to 2
	Decay                   // share of the saving lost each year; 0 to below 1
	Life                    // years for which a measure saves; whole
	Discount                // real discount rate a year; -0.05 to 0.5
	Losses                  // share of the supply lost before the meter; 0 to below 1
	Avoided                 // factor on the avoided cost of every year
	Equipment               // cost of equipment and its installation, whoever pays [currency per participant]
	Upkeep                  // cost a year, paid by the participant [currency per participant]
	Admin                   // cost of running the program [currency per participant]
	FixedCost               // cost of running the program however many take part [currency]
	Retail                  // what a participant pays for water, if results have no bills [currency/m³]
	Externality             // benefit of saved water to others, for the societal test [currency/m³]
	Knobs                   // how many knobs there are
)

// KnobNames returns the key of each knob, as a costs file writes it.
func KnobNames() [Knobs]string {
	return [Knobs]string{"saving", "net_to_gross", "decay", "life", "discount", "losses", "avoided_cost", "equipment", "upkeep", "admin",
		"fixed_cost", "retail", "externality"}
}

// A Point is a rebate and the share of accounts that take part for it.
type Point struct{ Rebate, Share float64 }

// A YearPrice is the avoided cost of a year [currency/m³].
type YearPrice struct {
	Year  int
	Price float64
}

// A Measure is what one measure costs.
type Measure struct {
	Name     string
	Values   [Knobs]Value // those of the program, where a measure has none of its own
	Rebate   float64      // [currency per participant]
	Uptake   []Point      // by rebate, which rises; none: all accounts take part
	Combines []string     // names of the measures whose saving this one combines
}

// Costs are the money side of a program.
type Costs struct {
	Name, Currency string
	FirstYear      int         // calendar year in which the measures begin to save
	Avoided        []YearPrice // consecutive years, at least one
	Growth         float64     // of the avoided cost a year after the last one, real
	HasRetail      bool        // Retail was given
	HasExternality bool        // Externality was given
	Measures       []Measure
}

// Measure returns the measure named name; nil if there is none.
func (c *Costs) Measure(name string) *Measure {
	for i := range c.Measures {
		if c.Measures[i].Name == name {
			return &c.Measures[i]
		}
	}
	return nil
}

// price returns the avoided cost of the year that is t years after the first, from 0
// [currency/m³]. Years before the first price have it.
func (c *Costs) price(t int) float64 {
	y := c.FirstYear + t
	first, last := c.Avoided[0], c.Avoided[len(c.Avoided)-1]
	switch {
	case y <= first.Year:
		return first.Price
	case y <= last.Year:
		return c.Avoided[y-first.Year].Price
	}
	p := last.Price
	for range y - last.Year {
		p *= 1 + c.Growth
	}
	return p
}

// A state has one number for each knob.
type state [Knobs]float64

// mid returns the central state of a measure.
func (m *Measure) mid() (s state) {
	for k := range s {
		s[k] = m.Values[k].Mid
	}
	return s
}

// Share returns the share of accounts that take part at a rebate: on straight lines
// between the points; ok is false outside them, where nothing is known. Without points
// all accounts take part.
func (m *Measure) Share(rebate float64) (share float64, ok bool) {
	if len(m.Uptake) == 0 {
		return 1, true
	}
	for i, p := range m.Uptake {
		if rebate == p.Rebate {
			return p.Share, true
		}
		if i > 0 && rebate < p.Rebate && rebate > m.Uptake[i-1].Rebate {
			was := m.Uptake[i-1]
			return was.Share + float64((p.Share-was.Share)*(rebate-was.Rebate)/(p.Rebate-was.Rebate)), true
		}
	}
	return math.NaN(), false
}

// factors are present values of a saving of 1 m³ in the first year, at the meter.
type factors struct {
	water   float64 // volume [m³]
	avoided float64 // avoided cost of supply [currency]
	years   float64 // of 1 a year, for upkeep
}

// factorsOf discounts the years of state s. Costs at the start count in full; what
// happens in year t, from 1, is divided by (1 + discount)^t.
func (c *Costs) factorsOf(s *state) (f factors) {
	left, worth := 1.0, 1.0
	for t := range int(math.Round(s[Life])) {
		worth /= 1 + s[Discount]
		f.water += float64(left * worth)
		f.avoided += float64(left * worth * c.price(t) * s[Avoided] / (1 - s[Losses]))
		f.years += worth
		left *= 1 - s[Decay]
	}
	return f
}

// String writes a value as the numbers it has.
func (v Value) String() string {
	if v.isSure() {
		return fmt.Sprint(v.Mid)
	}
	return fmt.Sprintf("%v (%v to %v)", v.Mid, v.Low, v.High)
}
