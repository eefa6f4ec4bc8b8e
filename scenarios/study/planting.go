package study

import (
	"fmt"

	"loamledger/scenarios"
	"loamledger/weather/cal"
	"loamledger/weather/quantity"
)

// PlantingLines say what the changes of a strategy do to the plants of a zone on a date:
// old ones that are dead, and new ones that are not yet established.
func (l *Study) PlantingLines(st, zone int, date cal.Date) (lines []string) {
	if st >= len(l.Job.Strategies) {
		return nil
	}
	stack := l.stackOf(st)
	if stack == nil {
		return nil
	}
	share := func(v float64) string { return quantity.Format(v, quantity.Fraction, l.Scenario.Units) }
	for i := range stack.Changes {
		c := &stack.Changes[i]
		dead, grows, since := c.Phase(zone, date)
		if dead {
			lines = append(lines, fmt.Sprintf("The old plants are dead until the planting on %v (change “%s”): little evaporates, programs do "+
				"not water, and no stress is counted.", c.From, c.Name))
		}
		if grows {
			e := c.Establish
			lines = append(lines, fmt.Sprintf("Day %d of %d in which new plants are established (change “%s”). This week, of their full "+
				"values: K %s, run times %s; stress is counted below %s, for new plants.", since+1, e.Days, c.Name,
				share(rounded(e.Ramp(e.KShare, since))), share(rounded(e.Ramp(e.Minutes, since))), share(scenarios.NewPlantTolerance)))
		}
	}
	return lines
}

// rounded rounds a share to a whole percentage.
func rounded(share float64) float64 { return float64(int(float64(100*share)+0.5)) / 100 }
