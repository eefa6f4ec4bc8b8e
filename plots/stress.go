package plots

import (
	"fmt"
	"math"
	"strings"

	"loamledger/sim/tally"
	"loamledger/weather/cal"
)

// Stress returns the stress days of every month of the record as a calendar: a
// panel for each strategy and for no watering, months across, years down. Cells
// are shaded by stress days of whole zones, and dots mark browning days of their
// driest quarters.
func Stress(s *Study) Chart {
	c := s.frame(StressKind, "stress-days", "Stress and browning days, month by month")
	years, _ := s.Table.Years()
	basis := s.Table.Basis()
	row := map[int]int{}
	for i, y := range years {
		row[y] = i
	}
	ranked := s.Table.RankYears()
	area := 0.0
	for z := range s.Table.Zones {
		area += s.Table.Zones[z].AreaM2
	}
	var alt []string
	rows := s.Table.Compare()
	var most, fewest, mostBrown, fewestBrown leader
	for st := range s.Table.LeastWaterIndex() {
		p := Panel{Title: s.Table.Strategies[st], Reference: st == s.Table.NoWaterIndex()}
		cells := Series{Form: Cells, Role: Heat}
		dots := Series{Form: Marks, Role: Browned}
		total, totalBrown := 0.0, 0.0
		for i, span := range s.Table.Spans {
			days, brown := 0.0, 0.0
			for z := range s.Table.Zones {
				month := s.Table.Month(st, z, i)
				days += float64(month.StressDays) * s.Table.Zones[z].AreaM2 / area
				brown += float64(month.BrownDays) * s.Table.Zones[z].AreaM2 / area
			}
			if s.Table.Covers(&basis, cal.Of(span.Year, span.Month, 1)) {
				total += days
				totalBrown += brown
			}
			column := span.Month
			if basis.South { // a year begins in July
				column = (span.Month+5)%12 + 1
			}
			x, y := float64(column), float64(row[s.Table.YearOf(&s.Table.Spans[i])])
			cells.X, cells.Y, cells.Base = append(cells.X, x), append(cells.Y, y), append(cells.Base, stressClass(days))
			if class, ok := brownClass(brown); ok {
				dots.X, dots.Y, dots.Base = append(dots.X, x), append(dots.Y, y), append(dots.Base, class)
			}
		}
		p.Series = []Series{cells, dots}
		total /= s.years()
		totalBrown /= s.years()
		p.Note = grades(total, totalBrown) + " " + s.per()
		if ranked.Dry != 0 {
			p.Note += fmt.Sprintf("; dry year %s and %s", fixed(rows[st].StressDry, 0), fixed(rows[st].BrownDry, 0))
		}
		alt = append(alt, p.Title+": "+p.Note)
		if !p.Reference {
			most.offer(st, math.Round(total), more)
			fewest.offer(st, math.Round(total), fewer)
			mostBrown.offer(st, math.Round(totalBrown), more)
			fewestBrown.offer(st, math.Round(totalBrown), fewer)
		}
		c.Panels = append(c.Panels, p)
	}
	c.X = monthAxis()
	if basis.South {
		for i := range c.X.Ticks {
			c.X.Ticks[i].Label = monthNames[(i+6)%12][:1]
		}
	}
	c.Y = Axis{Label: "year", Min: -0.5, Max: float64(len(years)) - 0.5, Down: true, Plain: true}
	for i, y := range years {
		c.Y.Ticks = append(c.Y.Ticks, Tick{At: float64(i), Label: tally.YearName(y, basis.South)})
	}
	c.Columns = columns(len(c.Panels))
	c.HeightPt = float64(len(years)) * min(max(200/float64(max(len(years), 1)), 5), 10)
	for i, label := range []string{"no stress", stressKey + ": up to 5 days a month", "6 to 10", "11 to 20", "more than 20"} {
		c.Keys = append(c.Keys, Key{Form: Cells, Role: Heat, Class: float64(i), Label: label})
	}
	for i, label := range []string{brownKey + ": up to 10 days a month", "more than 10"} {
		c.Keys = append(c.Keys, Key{Form: Marks, Role: Browned, Class: float64(i), Label: label})
	}
	c.See = "Darker months have more stress days of whole zones; dots mark browning of their driest quarters."
	if len(most.at) > 0 {
		c.See += " " + extremes("Stress days", s.per(), &most, &fewest, s.Table.Strategies) + ". " +
			extremes("Browning days", s.per(), &mostBrown, &fewestBrown, s.Table.Strategies) + "."
	}
	c.Alt = "Calendars of stress and browning days, one per strategy, months across and years down. " + strings.Join(alt, ". ") + "."
	c.Notes = []string{"Both are area-weighted means over zones, so single zones can have many more. " +
		"A dot without shade: zones as a whole are fine, but a driest quarter browns. A month without a box is outside the record. " +
		"The reference " + quote(tally.LeastWater) + " never has stress and is not shown."}
	return c
}

// stressClass returns the shade of the stress days of a month, 0 to 4.
func stressClass(days float64) float64 {
	for class, limit := range [4]float64{0.5, 5.5, 10.5, 20.5} {
		if days < limit {
			return float64(class)
		}
	}
	return 4
}

// brownClass returns the size of the dot of a month's browning days; false for
// none.
func brownClass(days float64) (class float64, ok bool) {
	if days >= 10.5 {
		return 1, true
	}
	return 0, days >= 0.5
}
