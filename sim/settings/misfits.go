package settings

import (
	"fmt"
	"math"

	"loamledger/weather/quantity"
)

// MinutesText writes minutes for people: whole, or to a tenth.
func MinutesText(v float64) string { return quantity.Number(math.Round(v*10)/10, 1) }

// WholeMinutesText rounds minutes for a controller without a percentage.
func WholeMinutesText(v float64) string {
	if v > 0 {
		v = max(math.Round(v), 1)
	}
	return MinutesText(v)
}

// MostListed is how many zones are named in one list before the rest is counted.
const MostListed = 5

// MisfitTexts says what of a sheet does not fit: what is asked for and what there is
// room for, then the first zones and how many more. Empty where all fits.
func MisfitTexts(s *Sheet) (lines []string) {
	if len(s.Misfits) == 0 {
		return nil
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

// RoomText says what the fullest day asks for and the window holds.
func RoomText(r *Room) string {
	zones := quantity.Count(r.Zones, "zone needs", "zones need")
	pauses := ""
	if r.TakeMin > r.NeedMin+0.5 {
		pauses = fmt.Sprintf(", %s with the pauses between cycles", WholeMinutesText(r.TakeMin))
	}
	return fmt.Sprintf("%s %s min on the fullest day"+pauses+"; the window (%s) holds %s", zones, WholeMinutesText(r.NeedMin), r.Rule,
		WholeMinutesText(r.HoldMin))
}

// misfitText tells of a zone that does not fit.
func misfitText(s *Sheet, m *Misfit) string {
	text := fmt.Sprintf("%s (\"%s\"): %s min asked for", s.Zones[m.Zone].Name, m.Program, MinutesText(m.AskedMin))
	if m.FitMin > 0 {
		text += fmt.Sprintf(", %s min fit", MinutesText(m.FitMin))
	} else {
		text += ", and none of it fits"
	}
	if m.WorstPart != 1 {
		text += fmt.Sprintf(" (at %.0f %%)", 100*m.WorstPart)
	}
	return text + "; " + m.Rule
}
