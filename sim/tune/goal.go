package tune

import (
	"slices"
	"strings"

	"loamledger/sim"
)

// A Goal is the limits that no zone may exceed. Days are counted in the dry year
// and in every year ranked as less dry, the median year among them, and the worst
// of these years counts: a wetter year may have a drier month, in which a setting
// fitted to a single year would fail. If the search has a season with dates, only
// months count that are within it from half a month before: no setting can help
// plants while the system is off, and a dry soil takes time to recover.
type Goal struct {
	// StressDays is the maximum of days, at least 0, on which the plants are active
	// and R7 of the whole zone is below their tolerance mark raised by MarkReserve.
	StressDays int
	// MarkReserve, 0 to 0.5, raises the tolerance mark, to at most [MostMark].
	MarkReserve float64
	// BrowningDays is the maximum of browning days of the driest quarter, at least 0.
	BrowningDays int
	RunoffEvents float64 // maximum mean per year, at least 0
}

// MostMark is the highest raised mark: an assumption by loamledger. At a mark of 1,
// any shortfall on the least watered strip would stress the whole zone. A mark
// that is higher as it is stays as it is.
const MostMark = 0.95

// RaisedMark returns a mark raised by the reserve.
func (g *Goal) RaisedMark(mark float64) float64 {
	return max(mark, min(mark+g.MarkReserve, MostMark))
}

// raised returns zones with their tolerance marks raised.
func (s *search) raised(zones []sim.Zone) []sim.Zone {
	if s.goal.MarkReserve == 0 {
		return zones
	}
	zones = slices.Clone(zones)
	for i := range zones {
		z := &zones[i]
		z.ToleranceR7 = s.goal.RaisedMark(z.ToleranceR7)
		if z.Overseed != nil {
			o := *z.Overseed
			o.ToleranceR7 = s.goal.RaisedMark(o.ToleranceR7)
			z.Overseed = &o
		}
	}
	return zones
}

// dryness reports whether stress and browning are within the goal.
func (s *search) dryness(m measured) bool {
	return !m.unknown && s.overStress(m) == 0 && s.overBrown(m) == 0
}

// overStress and overBrown return the days over the goal.
func (s *search) overStress(m measured) int { return max(m.stress-s.goal.StressDays, 0) }
func (s *search) overBrown(m measured) int  { return max(m.brown-s.goal.BrowningDays, 0) }

// cost returns the cost of a measure on zone z. A day of stress or browning over
// the limit counts the same as a runoff event over the limit, and as a run that the
// rules forbid.
func (s *search) cost(z int, m measured) cost {
	if m.unknown {
		return cost{over: 1e9}
	}
	over := float64(s.overStress(m)+s.overBrown(m)+m.breaches) + max(m.runoff-s.goal.RunoffEvents, 0)
	return cost{over, m.grossMM / 1000 * s.job.Zones[z].AreaM2}
}

// binds names the limits that a measure does not meet.
func (s *search) binds(m measured) string {
	var list []string
	if s.overStress(m) > 0 {
		list = append(list, "stress days")
	}
	if s.overBrown(m) > 0 {
		list = append(list, "browning days")
	}
	if m.runoff > s.goal.RunoffEvents+1e-9 {
		list = append(list, "runoff events")
	}
	return strings.Join(list, " and ")
}
