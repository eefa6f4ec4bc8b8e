package plots

import (
	"cmp"
	"fmt"
	"sort"
	"strings"

	"loamledger/sim/tally"
)

// A CycleTrial is a zone whose runoff under a strategy was at least halved when
// the strategy was replayed in shorter cycles.
type CycleTrial struct {
	Strategy, Zone    int
	CycleMin, SoakMin float64
	Starts            bool    // the timer has no cycle and soak, so that each cycle takes a start time
	BeforeM3, AfterM3 float64 // irrigation runoff a year, or in a record without a whole year [m³]
}

// Words describes the trial in words.
func (c *CycleTrial) Words() string {
	return fmt.Sprintf("cycles of %s min with %s min soaks", fixed(c.CycleMin, 0), fixed(c.SoakMin, 0))
}

// A ZoneRunoff is the irrigation runoff of one zone under one strategy.
type ZoneRunoff struct {
	strategy, Zone int
	Events         float64 // a year, or in a record without a whole year
	M3             float64 // likewise [m³]
	Nights         float64 // a week in season
}

// Runoff lists the zones with irrigation runoff under strategy st, worst first.
func Runoff(t *tally.Table, measures []tally.Measure, st int) []ZoneRunoff {
	cells := t.Cells()
	of := func(key string, z int, over tally.Over) float64 {
		for i := range measures {
			if measures[i].Key == key {
				return cells.Zone(&measures[i], st, z, over)
			}
		}
		return 0
	}
	var out []ZoneRunoff
	for z := range t.Zones {
		r := ZoneRunoff{strategy: st, Zone: z, Events: of("runoff_events", z, tally.PerYear), M3: of("runoff_m3", z, tally.PerYear),
			Nights: of("runoff_nights_per_week", z, tally.Record)}
		if r.Events > 0 {
			out = append(out, r)
		}
	}
	sort.SliceStable(out, func(a, b int) bool { return cmp.Less(out[b].M3, out[a].M3) })
	return out
}

// maxRunoffRows is how many zones of one strategy the report lists.
const maxRunoffRows = 8

// runoffTable lists the zones that run off, worst first, and the cycles that
// halve it; nil if none does.
func (s *Study) runoffTable(trials []CycleTrial) *Table {
	basis := s.Table.Basis()
	t := &Table{
		Caption: "Irrigation runoff by zone, worst first. A night with runoff is a day on which at least 0.25 mm (0.01 in) runs off; " +
			"weeks are those of months with watering. Cycles are shown where a replay with them at least halves the zone’s runoff.",
		First: "Zone",
		Head: []string{"Strategy", "Runoff (" + s.Units.volumeUnit() + basis.Unit() + ")", "Events per " + basis.Each(),
			"Nights a week in season", "Shorter cycles"},
		Words: []bool{true, false, false, false, true},
	}
	for st := range s.own() {
		list := Runoff(s.Table, s.measures(), st)
		for _, r := range list[:min(len(list), maxRunoffRows)] {
			better := none
			if c := trialOf(trials, st, r.Zone); c != nil {
				better = c.Words() + ": " + s.Units.volumeText(c.AfterM3)
			}
			t.Rows = append(t.Rows, TableRow{Name: s.Table.Zones[r.Zone].Name, Cells: []string{
				s.Table.Strategies[st], rounded(s.Units.volume(r.M3)), events(r.Events), fixed(r.Nights, 1), better,
			}})
		}
	}
	if t.Rows == nil {
		return nil
	}
	return t
}

func trialOf(trials []CycleTrial, st, z int) *CycleTrial {
	for i := range trials {
		if trials[i].Strategy == st && trials[i].Zone == z {
			return &trials[i]
		}
	}
	return nil
}

// RunoffLines says which zones run off, worst first, and which cycles halve it:
// under the first strategy, and under the one that the verdict is about.
func (s *Study) RunoffLines(trials []CycleTrial) (lines []string) {
	strategies := []int{0}
	if _, at := s.verdict(s.Table.Compare()); at > 0 {
		strategies = append(strategies, at)
	}
	per := s.per()
	for _, st := range strategies {
		var zones, better []string
		list := Runoff(s.Table, s.measures(), st)
		for _, r := range list[:min(len(list), maxNamed)] {
			zones = append(zones, fmt.Sprintf("%s %s %s in %s events, %s nights a week in season", s.Table.Zones[r.Zone].Name,
				s.Units.volumeText(r.M3), per, events(r.Events), fixed(r.Nights, 1)))
			if c := trialOf(trials, st, r.Zone); c != nil {
				better = append(better, fmt.Sprintf("%s to %s %s in %s", s.Table.Zones[r.Zone].Name, s.Units.volumeText(c.AfterM3), per, c.Words()))
			}
		}
		if len(zones) == 0 {
			continue
		}
		if n := len(list) - len(zones); n > 0 {
			zones = append(zones, count(n, "more zone", "more zones"))
		}
		lines = append(lines, punctuated(fmt.Sprintf("Runoff under %s, worst zone first: %s.", quote(s.Table.Strategies[st]),
			strings.Join(zones, "; "))))
		if len(better) > 0 {
			lines = append(lines, "  Replayed in shorter cycles, runoff falls: "+strings.Join(better, "; ")+".")
		}
	}
	return lines
}

// cycleStep is what to do next about runoff under strategy st; empty if nothing
// tried halves it.
func (s *Study) cycleStep(trials []CycleTrial, st int) string {
	for _, r := range Runoff(s.Table, s.measures(), st) {
		if c := trialOf(trials, st, r.Zone); c != nil {
			same := "with the same total run time"
			if c.Starts {
				same = "each by a start time, since the timer has no cycle and soak"
			}
			text := fmt.Sprintf("Split each run of %s into %s, %s: its runoff then falls from %s to %s %s, if the soil is as assumed.",
				quote(s.Table.Zones[r.Zone].Name), c.Words(), same, s.Units.volumeText(c.BeforeM3), s.Units.volumeText(c.AfterM3), s.per())
			if st == s.base() {
				text = "One change that " + quote(s.Table.Strategies[st]) + " can take now: " + lowerFirst(text)
			}
			return punctuated(text)
		}
	}
	return ""
}
