package study

import (
	"fmt"
	"strings"

	"loamledger/sim/settings"
	"loamledger/sim/tally"
	"loamledger/weather/diag"
)

// noRoom refuses a sheet under whose limits some zone gets no water at all: it
// would be entered, and the zone forgotten.
func (l *Study) noRoom(sheet *settings.Sheet) error {
	dry := sheet.Unwatered()
	if len(dry) == 0 {
		return nil
	}
	var names []string
	for _, z := range dry {
		names = append(names, l.Job.Zones[z].Name)
	}
	msg := fmt.Sprintf("%q cannot be entered within the limits: ", sheet.Name)
	if sheet.Room != nil {
		msg += settings.RoomText(sheet.Room) + "; "
	}
	msg += "no water would be left for " + strings.ReplaceAll(someOf(names), ";", ",")
	return &diag.Error{Code: diag.DoesNotFit, Pos: l.limitsAt(), Msg: msg,
		Fix: "water fewer zones a night, with programs of their own on other days; allow more days or a longer window under limits, if the local rules do; or shorten minutes, cycles and pauses"}
}

// limitsAt returns where the scenario states its limits, the window before all
// else, or the scenario where it cannot be told.
func (l *Study) limitsAt() diag.Pos {
	at := diag.Pos{File: l.Scenario.File}
	for i := range l.Scenario.Inputs {
		in := &l.Scenario.Inputs[i]
		if in.Defaulted || !strings.HasPrefix(in.Key, "limits.") {
			continue
		}
		if in.Key == "limits.window" || strings.HasPrefix(in.Key, "limits.window.") {
			return in.Pos
		}
		if at.Line == 0 {
			at = in.Pos
		}
	}
	return at
}

// drierLead names the zones that the sheet, replayed, leaves short of water on
// more days than the strategy does; strategy and sheet are the first two of t.
func drierLead(t *tally.Table) []string {
	ranked := t.RankYears()
	if ranked.Dry == 0 {
		return nil
	}
	var drier []string
	for z := range t.Zones {
		days := func(s, y int) int { return t.Year(s, z, y).StressDays }
		a, b := [2]int{days(0, ranked.Median), days(0, ranked.Dry)}, [2]int{days(1, ranked.Median), days(1, ranked.Dry)}
		if b[0] > a[0] || b[1] > a[1] {
			drier = append(drier, drierText(t.Zones[z].Name, b[0], a[0], b[1], a[1]))
		}
	}
	if len(drier) == 0 {
		return nil
	}
	return []string{fmt.Sprintf("Replayed as rounded here, in the median year (%d) and the 1-in-10 dry year (%d), the sheet leaves MORE days short of water than the strategy in %s.", ranked.Median, ranked.Dry, someOf(drier))}
}

// drierText sets the stress days of a zone on the sheet beside the strategy's.
func drierText(zone string, median, ownMedian, dry, ownDry int) string {
	return fmt.Sprintf("%s (median year: %d days, the strategy %d; dry year: %d, the strategy %d)", zone, median, ownMedian, dry, ownDry)
}
