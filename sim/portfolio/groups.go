package portfolio

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"loamledger/sim/draw"
)

// The application ratios that part deficit from on target from excess.
//
// Source: classes of a study of 838 homes with a landscape survey, Residential End Uses
// of Water (2016): below 70% deficit, 70% to 130% on target, above 130% excess.
const (
	deficitBelow = 0.7
	excessAbove  = 1.3
)

// A Cell is one group of accounts of a [Grouping].
type Cell struct {
	Name     string // as the accounts have it; empty if they have none
	Low      float64
	High     float64 // of the application ratio or the area [m²] in the cell; 0 in both for other groupings
	Accounts []int
	Hidden   bool // too small, or needed to protect one that is
}

// A GroupKind is a way to split accounts.
type GroupKind uint8

// The ways.
const (
	ByClass    GroupKind = iota // application ratio: below 0.7, 0.7 to 1.3, above 1.3, nothing required
	ByClimate                   // aridity class of the station's record
	ByStation                   // weather station
	BySize                      // irrigated area: thirds of the accounts
	ByCustomer                  // class of the account
	ByDistrict                  // district
)

// A Grouping splits all accounts into cells.
type Grouping struct {
	Kind  GroupKind
	Cells []Cell
}

// Groupings returns the ways of splitting the accounts that have more than one cell;
// about has what is known of each account, and may lack some.
func (t *Table) Groupings(about map[string]Account) []Grouping {
	out := []Grouping{t.byRatio(), t.bySize()}
	text := func(kind GroupKind, order func(a, b string) int, of func(Account) string) {
		cells := map[string]*Cell{}
		var names []string
		for a, id := range t.Accounts {
			name := of(about[id])
			if cells[name] == nil {
				cells[name] = &Cell{Name: name}
				names = append(names, name)
			}
			cells[name].Accounts = append(cells[name].Accounts, a)
		}
		slices.SortFunc(names, order)
		g := Grouping{Kind: kind}
		for _, name := range names {
			g.Cells = append(g.Cells, *cells[name])
		}
		out = append(out, g)
	}
	text(ByClimate, Drier, func(a Account) string { return Aridity(a.RainMM, a.EToMM) })
	text(ByStation, cmp.Compare[string], func(a Account) string { return a.Station })
	text(ByCustomer, cmp.Compare[string], func(a Account) string { return a.Class })
	text(ByDistrict, cmp.Compare[string], func(a Account) string { return a.Area })
	return slices.DeleteFunc(out, func(g Grouping) bool { return len(g.Cells) < 2 })
}

func (t *Table) byRatio() Grouping {
	cells := []Cell{{Low: 0, High: deficitBelow}, {Low: deficitBelow, High: excessAbove}, {Low: excessAbove, High: math.Inf(1)},
		{Low: math.NaN(), High: math.NaN()}}
	for a := range t.Accounts {
		k := 1
		switch r := t.Ratio(a); {
		case math.IsNaN(r):
			k = 3
		case r < deficitBelow:
			k = 0
		case r > excessAbove:
			k = 2
		}
		cells[k].Accounts = append(cells[k].Accounts, a)
	}
	return Grouping{ByClass, withAccounts(cells)}
}

func (t *Table) bySize() Grouping {
	areas := t.each(t.areaM2)
	sorted := slices.Sorted(slices.Values(areas))
	one, two := draw.Quantile(sorted, 1.0/3), draw.Quantile(sorted, 2.0/3)
	cells := []Cell{{High: one}, {Low: one, High: two}, {Low: two, High: math.Inf(1)}}
	for a, v := range areas {
		k := 0
		if v > two {
			k = 2
		} else if v > one {
			k = 1
		}
		cells[k].Accounts = append(cells[k].Accounts, a)
	}
	return Grouping{BySize, withAccounts(cells)}
}

func withAccounts(cells []Cell) []Cell {
	return slices.DeleteFunc(cells, func(c Cell) bool { return len(c.Accounts) == 0 })
}

// RatioName names a class of the application ratio; empty for another cell.
func (c *Cell) RatioName() string {
	switch {
	case math.IsNaN(c.Low):
		return "nothing required"
	case c.High == deficitBelow:
		return fmt.Sprintf("deficit, below %g", deficitBelow)
	case c.Low == excessAbove:
		return fmt.Sprintf("above target, over %g", excessAbove)
	}
	return fmt.Sprintf("on target, %g to %g", deficitBelow, excessAbove)
}
