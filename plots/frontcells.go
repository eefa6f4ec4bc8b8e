package plots

import (
	"fmt"
	"strings"

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
		text += " of " + fixed(float64(s.daysOf(f.Over)), 0)
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
		return ", " + s.per()
	}
	return ", typical year"
}

// thirstiest returns the zone with the most stress days under strategy st, in the
// median year or, if no year is whole, in the record, and its sums.
func (s *Study) thirstiest(st int) (zone int, most sim.Sums) {
	return s.worstOf(st, func(x *sim.Sums) [2]int { return [2]int{x.StressZoneDays, x.BrownDays} })
}

// brownest returns the same for browning days of the driest quarter.
func (s *Study) brownest(st int) (zone int, most sim.Sums) {
	return s.worstOf(st, func(x *sim.Sums) [2]int { return [2]int{x.BrownDays, x.StressZoneDays} })
}

// worstOf returns the zone with the most days, the second of two counts deciding between
// equal ones.
func (s *Study) worstOf(st int, days func(*sim.Sums) [2]int) (zone int, most sim.Sums) {
	t, ranked := s.Table, s.Table.RankYears()
	of := func(z int) sim.Sums { return t.Year(st, z, ranked.Median) }
	if ranked.Median == 0 {
		of = func(z int) sim.Sums { return t.Total(st, z) }
	}
	zone, most = 0, of(0)
	for z := range t.Zones {
		x := of(z)
		if a, b := days(&x), days(&most); a[0] > b[0] || a[0] == b[0] && a[1] > b[1] {
			zone, most = z, x
		}
	}
	return zone, most
}

// worstCells name the thirstiest zone under strategy st and, in small print, the zone
// whose driest quarter browns on the most days.
func (s *Study) worstCells(st int) (thirsty, brown string) {
	z, most := s.thirstiest(st)
	thirsty = "none"
	if most.StressZoneDays > 0 {
		thirsty = fmt.Sprintf("%s: %d", s.Table.Zones[z].Name, most.StressZoneDays)
	}
	b, most := s.brownest(st)
	switch {
	case most.BrownDays == 0:
		return thirsty, "none browns"
	case b == z && thirsty != "none":
		return thirsty, fmt.Sprintf("part browns: %d", most.BrownDays)
	}
	return thirsty, fmt.Sprintf("%s browns: %d", s.Table.Zones[b].Name, most.BrownDays)
}

// meetsRule says whether strategy st may be recommended and, if not, why: each part of
// the rule that it fails.
func (s *Study) meetsRule(rows []tally.Row, st int) (answer, why string) {
	if st == s.base() {
		return "baseline", ""
	}
	if s.Table.IsCut(st) {
		return "not an option", ""
	}
	var fails []string
	bars := s.bars(st)
	for i := range bars {
		fails = append(fails, s.shortBar(&bars[i]))
	}
	if extra := s.extraStress(rows, st); extra > extraStressDays {
		fails = append(fails, s.thirst(rows, st).words())
	}
	if len(fails) == 0 {
		return "yes", ""
	}
	return "no", "Fails: " + strings.Join(fails, "; ") + "."
}

// MeetRules says for each strategy whether it may be recommended and, if not, why.
func (s *Study) MeetRules() (answers, whys []string) {
	rows := s.Table.Compare()
	for st := range rows {
		answer, why := s.meetsRule(rows, st)
		answers, whys = append(answers, answer), append(whys, why)
	}
	return answers, whys
}

// WorstText names the thirstiest zone under strategy st and its stress days; empty on a
// site with one zone.
func (s *Study) WorstText(st int) string {
	if len(s.Table.Zones) < 2 {
		return ""
	}
	thirsty, _ := s.worstCells(st)
	return thirsty
}

// shortBar says in few words what is wrong, for the small print of a row.
func (s *Study) shortBar(b *Bar) string {
	when := "in these days"
	if basis := s.Table.Basis(); basis.Yearly() {
		when = map[bool]string{false: "of a typical year", true: "of a dry year"}[b.Dry]
	}
	days, base := fixed(b.Days, 0), fixed(b.Base, 0)
	switch b.Code {
	case breaksRules:
		return "set to run " + days + " times when local rules forbid it"
	case brownsMore:
		return fmt.Sprintf("part of %s browns on %s days %s (baseline %s)", quote(b.Zone), days, when, base)
	}
	return fmt.Sprintf("%s is thirsty on %s days %s (baseline %s)", quote(b.Zone), days, when, base)
}

// ruleNote states the rule by which an option is recommended, whole; empty if there is
// nothing to choose.
func (s *Study) ruleNote(f *Facts) string {
	if len(s.others()) == 0 {
		return ""
	}
	r := s.rules()
	browns := "more days"
	if r.BrowningDays > 0 {
		browns = fmt.Sprintf("over %d more days", r.BrowningDays)
	}
	local := "no run when local rules forbid it"
	if f.Legal == "" {
		local += " (not checked: none are given)"
	}
	years, either, year := "", "", " in these days"
	if basis := s.Table.Basis(); basis.Yearly() {
		years, either, year = ", in the typical year, the dry year and on average", ", in either year", " in the typical year"
	}
	text := fmt.Sprintf("recommended is the option with the least water of those with (1) at most %d more thirsty days %s over the site "+
		"than the baseline%s; (2) no zone whose driest part browns on %s%s; (3) no zone thirsty on over %d days%s, or no more than "+
		"under the baseline; (4) %s. It must save at least %s",
		extraStressDays, s.per(), years, browns, either, r.StressDays, year, local, percent(tooClose))
	if f.Ranges != nil {
		text += " and pass in nine of ten tries"
	}
	return text + ". “Fails” names the worst case of each."
}
