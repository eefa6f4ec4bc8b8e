package settings

import (
	"fmt"
	"math"

	"loamledger/sim"
	"loamledger/weather/quantity"
)

// MinutesText writes minutes for people, rounded to a tenth.
func MinutesText(v float64) string { return quantity.Number(math.Round(v*10)/10, 1) }

// WholeMinutes rounds minutes for a controller without percentages, to at least 1
// if above 0.
func WholeMinutes(v float64) float64 {
	if v > 0 {
		v = max(sim.RoundHalfUp(v, 1), 1)
	}
	return v
}

// WholeMinutesText writes minutes in whole minutes.
func WholeMinutesText(v float64) string { return MinutesText(WholeMinutes(v)) }

// MostListed is the maximum number of zones named in a list; the rest are counted.
const MostListed = 5

// MisfitTexts describes what does not fit on a sheet: the time needed and the
// time available, then the first zones and the number of others. It is empty if
// everything fits.
func MisfitTexts(s *Sheet) (lines []string) {
	if len(s.Misfits) == 0 {
		return nil
	}
	if s.Each != nil {
		for _, one := range s.Each {
			lines = append(lines, MisfitTexts(one)...)
		}
		return lines
	}
	if s.Room != nil {
		lines = append(lines, RoomText(s.Room)+".")
	}
	for i := range s.Misfits {
		if i == MostListed {
			lines = append(lines, fmt.Sprintf("and %d more.", len(s.Misfits)-MostListed))
			break
		}
		lines = append(lines, misfitText(s, &s.Misfits[i]))
	}
	return lines
}

// RoomText compares the time needed on the busiest day with the watering window.
func RoomText(r *Room) string {
	zones := quantity.Count(r.Zones, "zone needs", "zones need")
	soaks := ""
	if r.TakeMin > r.NeedMin+0.5 {
		soaks = fmt.Sprintf(", %s with soaks between cycles", WholeMinutesText(r.TakeMin))
	}
	return fmt.Sprintf("%s %s min on the busiest day"+soaks+"; the watering window (%s) allows %s", zones, WholeMinutesText(r.NeedMin), r.Rule,
		WholeMinutesText(r.HoldMin))
}

// misfitText describes a zone that does not fit.
func misfitText(s *Sheet, m *Misfit) string {
	text := fmt.Sprintf("%s in %q: %s min requested", s.Zones[m.Zone].Name, m.Program, MinutesText(m.AskedMin))
	if m.FitMin > 0 {
		text += fmt.Sprintf(", %s min fit", MinutesText(m.FitMin))
	} else {
		text += ", none of it fits"
	}
	if m.WorstPart != 1 {
		text += fmt.Sprintf(" (at %.0f%%)", 100*m.WorstPart)
	}
	return text + "; " + m.Rule
}
