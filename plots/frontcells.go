package plots

import (
	"fmt"
	"math"

	"loamledger/sim"
	"loamledger/sim/tally"
)

// thousands is the unit of volumes on the first page where gallons are in use.
const thousands = 1000

// frontHeading is the heading of a figure on the first page, with its unit. Gallons are
// in thousands there.
func (s *Study) frontHeading(f *tally.Figure, b *tally.Basis) string {
	head := frontHead(f, b)
	if f.Measure.Kind != tally.Volume || s.Units != US {
		return s.Units.withUnit(head, f, b)
	}
	unit := "1,000 gal"
	if f.Over == tally.PerYear && b.Yearly() {
		unit += b.Unit()
	}
	return head + " (" + unit + ")"
}

// frontCell writes a value of a figure on the first page.
func (s *Study) frontCell(cells *tally.Cells, f *tally.Figure, st int) string {
	if f.Measure.Kind == tally.Volume && s.Units == US {
		return rounded(s.Units.volume(cells.Site(f.Measure, st, f.Over)) / thousands)
	}
	text := s.cell(cells, f, st)
	if f.Rest {
		text = fixed(float64(s.daysOf(f.Over))-math.Round(cells.Site(f.Measure, st, f.Over)), 0) + " / " + text
	}
	return text
}

// daysOf returns how many days a figure on the first page covers.
func (s *Study) daysOf(over tally.Over) int {
	basis, ranked := s.Table.Basis(), s.Table.RankYears()
	year := ranked.Median
	if over == tally.DryYear {
		year = ranked.Dry
	}
	if year == 0 || over != tally.MedianYear && over != tally.DryYear {
		return basis.Days
	}
	from, to := tally.YearSpan(year, s.Table.South)
	return int(to - from)
}

// typical is what follows days of the typical year; empty if no year is whole.
func (s *Study) typical() string {
	if s.Table.RankYears().Median == 0 {
		return " " + s.per()
	}
	return ", typical year"
}

// thirstiest returns the zone with the most stress days under strategy st, in the
// median year or, if no year is whole, in the record, and its sums.
func (s *Study) thirstiest(st int) (zone int, most sim.Sums) {
	t, ranked := s.Table, s.Table.RankYears()
	of := func(z int) sim.Sums { return t.Year(st, z, ranked.Median) }
	if ranked.Median == 0 {
		of = func(z int) sim.Sums { return t.Total(st, z) }
	}
	zone, most = 0, of(0)
	for z := range t.Zones {
		if x := of(z); x.StressZoneDays > most.StressZoneDays || x.StressZoneDays == most.StressZoneDays && x.BrownDays > most.BrownDays {
			zone, most = z, x
		}
	}
	return zone, most
}

// worstCell names the thirstiest zone under strategy st.
func (s *Study) worstCell(st int) string {
	z, most := s.thirstiest(st)
	if most.StressZoneDays == 0 {
		return "none"
	}
	return fmt.Sprintf("%s: %d", s.Table.Zones[z].Name, most.StressZoneDays)
}

// meetsRule says whether strategy st may be recommended and, if not, why.
func (s *Study) meetsRule(rows []tally.Row, st int) (answer, why string) {
	if st == s.base() {
		return "baseline", ""
	}
	if s.Table.IsCut(st) {
		return "not an option", ""
	}
	if bars := s.bars(st); len(bars) > 0 {
		return "no", "Fails: " + s.barWords(&bars[0]) + "."
	}
	if extra := s.extraStress(rows, st); extra > extraStressDays {
		return "no", "Fails: has " + s.thirst(rows, st).words() + "."
	}
	return "yes", ""
}

// MeetsRule says whether strategy st may be recommended and, if not, why.
func (s *Study) MeetsRule(st int) (answer, why string) { return s.meetsRule(s.Table.Compare(), st) }

// WorstText names the thirstiest zone under strategy st and its stress days; empty on a
// site with one zone.
func (s *Study) WorstText(st int) string {
	if len(s.Table.Zones) < 2 {
		return ""
	}
	return s.worstCell(st)
}

// ruleNote states the rule of the last column, and whether local rules were checked;
// empty if there is nothing to choose.
func (s *Study) ruleNote(checked bool) string {
	if len(s.others()) == 0 {
		return ""
	}
	r := s.rules()
	browns := ""
	if r.BrowningDays > 0 {
		browns = fmt.Sprintf(" by over %d days", r.BrowningDays)
	}
	local := "no local rule broken"
	if !checked {
		local = "local rules not checked"
	}
	return fmt.Sprintf("The rule: at most %d more thirsty days %s, no zone browner%s, none thirsty on over %d days of a typical year "+
		"unless it "+
		"is now, %s.", extraStressDays, s.per(), browns, r.StressDays, local)
}
