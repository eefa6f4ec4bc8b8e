package study

import (
	"fmt"
	"strings"

	"loamledger/sim/settings"
	"loamledger/sim/tally"
	"loamledger/weather/diag"
)

// noRoom rejects settings that leave a zone without water because of the
// limits: the zone could be overlooked.
func (l *Study) noRoom(sheet *settings.Sheet) error {
	dry := sheet.Unwatered()
	if len(dry) == 0 {
		return nil
	}
	var names []string
	for _, z := range dry {
		names = append(names, l.Job.Zones[z].Name)
	}
	msg := fmt.Sprintf("%q does not fit within the limits: ", sheet.Name)
	if sheet.Room != nil {
		msg += settings.RoomText(sheet.Room) + "; "
	}
	msg += "no water is left for " + strings.ReplaceAll(someOf(names), ";", ",")
	return &diag.Error{Code: diag.DoesNotFit, Pos: l.limitsAt(), Msg: msg,
		Fix: "water fewer zones a night, with separate programs on other days; allow more days or a longer window under limits, " +
			"if local rules do; or shorten run times, cycles and soaks"}
}

// limitsAt returns the position of the limits in the scenario, preferably of
// the window, or the scenario file if unknown.
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

// drierLead names the zones with more stress days under the settings, replayed,
// than under the strategy; t has the strategy and the settings first.
func drierLead(t *tally.Table) []string {
	ranked := t.RankYears()
	if ranked.Dry == 0 {
		return nil
	}
	var drier []string
	for z := range t.Zones {
		days := func(s, y int) int { return t.Year(s, z, y).StressZoneDays }
		a, b := [2]int{days(0, ranked.Median), days(0, ranked.Dry)}, [2]int{days(1, ranked.Median), days(1, ranked.Dry)}
		if b[0] > a[0] || b[1] > a[1] {
			drier = append(drier, drierText(t.Zones[z].Name, b[0], a[0], b[1], a[1]))
		}
	}
	if len(drier) == 0 {
		return nil
	}
	return []string{fmt.Sprintf("Replayed as rounded here, in the %s, "+
		"the settings cause MORE stress days than the strategy in %s.", checkedIn(&ranked), someOf(drier))}
}

// checkedIn names the years in which settings are compared with a strategy.
func checkedIn(r *tally.Ranked) string {
	return fmt.Sprintf("median year (%s) and the %s (%s)", r.Name(r.Median), r.DryName(), r.Name(r.Dry))
}

// drierText compares the stress days of a zone under the settings with those
// under the strategy.
func drierText(zone string, median, ownMedian, dry, ownDry int) string {
	return fmt.Sprintf("%s (median year: %d days, strategy %d; dry year: %d, strategy %d)", zone, median, ownMedian, dry, ownDry)
}
