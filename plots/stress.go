package plots

import (
	"fmt"
	"math"
	"strings"

	"loamledger/sim/tally"
	"loamledger/weather/cal"
)

// Stress returns the stress days of every month of the record as a calendar: a
// panel for each strategy and for no watering, months across, years down.
func Stress(s *Study) Chart {
	c := s.frame(StressKind, "stress-days", "Stress days, month by month")
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
	var most, fewest leader
	for st := range s.Table.LeastWaterIndex() {
		p := Panel{Title: s.Table.Strategies[st], Reference: st == s.Table.NoWaterIndex()}
		cells := Series{Form: Cells, Role: Heat}
		total := 0.0
		for i, span := range s.Table.Spans {
			days := 0.0
			for z := range s.Table.Zones {
				days += float64(s.Table.Month(st, z, i).StressDays) * s.Table.Zones[z].AreaM2 / area
			}
			if s.Table.Covers(&basis, cal.Of(span.Year, span.Month, 1)) {
				total += days
			}
			column := span.Month
			if basis.South { // a year begins in July
				column = (span.Month+5)%12 + 1
			}
			cells.X, cells.Y = append(cells.X, float64(column)), append(cells.Y, float64(row[s.Table.YearOf(&s.Table.Spans[i])]))
			cells.Base = append(cells.Base, stressClass(days))
		}
		p.Series = []Series{cells}
		total /= s.years()
		p.Note = fixed(total, 0) + " " + s.per()
		if dry := s.Table.StressDays(st, ranked.Dry); !math.IsNaN(dry) {
			p.Note += "; dry year " + fixed(dry, 0)
		}
		alt = append(alt, p.Title+": "+p.Note)
		if !p.Reference {
			most.offer(st, math.Round(total), more)
			fewest.offer(st, math.Round(total), fewer)
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
	for i, label := range []string{"none", "up to 5 days", "6 to 10", "11 to 20", "more than 20 days in the month"} {
		c.Keys = append(c.Keys, Key{Form: Cells, Role: Heat, Class: float64(i), Label: label})
	}
	darker := "Darker months have more stress days: "
	c.See = fmt.Sprintf("%sfrom %s (%s) to %s (%s) %s.", darker,
		fixed(fewest.value, 0), fewest.names(s.Table.Strategies), fixed(most.value, 0), most.names(s.Table.Strategies), s.per())
	if most.value == fewest.value {
		c.See = fmt.Sprintf("%s%s %s with %s.", darker, fixed(most.value, 0), s.per(), most.names(s.Table.Strategies))
	}
	c.Alt = "Calendars of stress days, one per strategy, months across and years down. " + strings.Join(alt, ". ") + "."
	c.Notes = []string{"Stress days: " + s.about("stress_days") + "; averages over zones, weighted by area. A month without a box is outside the record. The reference " + quote(tally.LeastWater) +
		" never has stress and is not shown."}
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
