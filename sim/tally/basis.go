package tally

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"loamledger/sim"
	"loamledger/weather/cal"
	"loamledger/weather/quantity"
)

// A Basis is the days that yearly figures, and the shares beside them, cover: the
// whole years of the record or, if no year is whole, all its days. Days of
// excluded years are in neither.
type Basis struct {
	Years []int // the whole years in order; none if the figures are sums over Days
	Days  int   // the number of days covered
	All   int   // the number of days of the record without excluded years
	South bool  // years begin on July 1; a year has the number of the one it begins in
}

// Basis returns what the yearly figures of t cover.
func (t *Table) Basis() Basis {
	if t.basis != nil {
		return *t.basis
	}
	b := Basis{All: t.Days(), South: t.South}
	b.Years = t.WholeYears()
	for _, y := range b.Years {
		from, to := YearSpan(y, t.South)
		b.Days += int(to - from)
	}
	if !b.Yearly() {
		b.Days = b.All
	}
	return b
}

// Yearly reports whether figures are per year: there is a whole year.
func (b *Basis) Yearly() bool { return len(b.Years) > 0 }

// Divisor is what a sum over the days covered is divided by: the number of whole
// years, or 1.
func (b *Basis) Divisor() float64 { return float64(max(len(b.Years), 1)) }

// Covers reports whether figures with basis b cover the given date of the record.
func (t *Table) Covers(b *Basis, d cal.Date) bool {
	y, m, _ := d.YMD()
	if b.Yearly() {
		return slices.Contains(b.Years, yearOf(b.South, y, m))
	}
	return t.Counts(y)
}

// Words is what follows a yearly figure in a sentence: "a year", or "in these 153
// days" if no year is whole.
func (b *Basis) Words() string {
	if b.Yearly() {
		return "a year"
	}
	if b.Days == 1 {
		return "on this day"
	}
	return "in these " + quantity.Whole(b.Days) + " days"
}

// Unit is what follows the unit of a yearly figure: "/yr", or "/153 d".
func (b *Basis) Unit() string {
	if b.Yearly() {
		return "/yr"
	}
	return "/" + strconv.Itoa(b.Days) + " d"
}

// Each names the period of a yearly figure: "year", or "153 days".
func (b *Basis) Each() string {
	if b.Yearly() {
		return "year"
	}
	return quantity.Count(b.Days, "day", "days")
}

// Sentence says which days the figures cover.
func (b *Basis) Sentence() string {
	if !b.Yearly() {
		return fmt.Sprintf("The record has no whole year (%s): figures are for %s, not for a year.", b.season(), b.Span())
	}
	text := fmt.Sprintf("Yearly figures are means of %s: %s.", b.Count(), b.List())
	if len(b.Years) == 1 {
		text = fmt.Sprintf("Yearly figures are those of the only whole year, %s.", b.List())
	}
	if b.South {
		text += " A year runs from July to June."
	}
	if rest := b.All - b.Days; rest > 0 {
		text += fmt.Sprintf(" The other %s of the record are replayed but not counted.", quantity.Count(rest, "day", "days"))
	}
	return text
}

// Span says how many days figures without a whole year cover.
func (b *Basis) Span() string {
	if b.Days == 1 {
		return "this day"
	}
	return "these " + quantity.Whole(b.Days) + " days"
}

// Count says how many whole years there are.
func (b *Basis) Count() string {
	return quantity.Count(len(b.Years), "whole year", "whole years")
}

func (b *Basis) season() string {
	if b.South {
		return "July 1 to June 30"
	}
	return "January 1 to December 31"
}

// List names the whole years, with runs of years as first and last.
func (b *Basis) List() string {
	var parts []string
	for i := 0; i < len(b.Years); {
		k := i
		for k+1 < len(b.Years) && b.Years[k+1] == b.Years[k]+1 {
			k++
		}
		switch k - i {
		case 0:
			parts = append(parts, YearName(b.Years[i], b.South))
		case 1:
			parts = append(parts, YearName(b.Years[i], b.South), YearName(b.Years[k], b.South))
		default:
			parts = append(parts, YearName(b.Years[i], b.South)+" to "+YearName(b.Years[k], b.South))
		}
		i = k + 1
	}
	return strings.Join(parts, ", ")
}

// YearName writes year y: 2005, or 2005/06 for a year from July to June.
func YearName(y int, south bool) string {
	if south {
		return fmt.Sprintf("%d/%02d", y, (y+1)%100)
	}
	return strconv.Itoa(y)
}

// YearSpan returns the first day of year y and the first day after it.
func YearSpan(y int, south bool) (from, to cal.Date) {
	if south {
		return cal.Of(y, 7, 1), cal.Of(y+1, 7, 1)
	}
	return cal.Of(y, 1, 1), cal.Of(y+1, 1, 1)
}

// yearOf returns the year that a calendar month belongs to: in the south, that in
// which the July before it lies.
func yearOf(south bool, year, month int) int {
	if south && month < 7 {
		return year - 1
	}
	return year
}

// YearOf returns the year that a span belongs to: its calendar year or, in the
// southern hemisphere, the year in which the July before it lies.
func (t *Table) YearOf(span *sim.Span) int { return yearOf(t.South, span.Year, span.Month) }

// Sum returns the sums of strategy s on zone z over the days that basis b covers.
func (t *Table) Sum(b *Basis, s, z int) sim.Sums {
	if !b.Yearly() {
		return t.Total(s, z)
	}
	if brief := t.Outcomes[s][z].Brief; brief != nil && brief.few != nil {
		return brief.few.covered
	}
	var sum sim.Sums
	for _, y := range b.Years {
		year := t.Year(s, z, y)
		sum.Add(&year)
	}
	return sum
}
