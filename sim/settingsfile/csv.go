package settingsfile

import (
	"encoding/csv"
	"io"
	"math"
	"strconv"

	"loamledger/sim/settings"
	"loamledger/sim/strategy"
)

// columns returns the columns of the sheet.
func columns() []string {
	return []string{"zone", "month", "program", "days", "starts", "program_minutes", "percent", "minutes", "cycles", "cycle_minutes",
		"soak_minutes", "finish"}
}

// WriteCSV writes the sheet, one row for each zone, program and month.
// Numbers are rounded to a tenth. Column finish is the time of day when the
// site's last valve closes on the longest day of the month; it is empty if
// nothing runs. Any error is from w.
func WriteCSV(w io.Writer, s *settings.Sheet) error {
	c := csv.NewWriter(w)
	if err := c.Write(columns()); err != nil {
		return err
	}
	num := func(v float64) string { return strconv.FormatFloat(math.Round(10*v)/10, 'f', -1, 64) }
	for _, e := range s.Entries() {
		finish := ""
		if t := s.Times[e.Month-1]; t.Waters {
			finish = strategy.ClockText(t.FinishMin)
		}
		if err := c.Write([]string{s.Zones[e.Zone].Name, strconv.Itoa(e.Month), e.Program.Name, strategy.DaysText(e.Program.Days),
			strategy.StartsText(e.Program.Starts),
			num(e.Program.Minutes[e.Zone]), num(100 * e.Percent), num(e.Minutes), strconv.Itoa(e.Cycles), num(e.Program.Cycle),
			num(e.Program.Soak), finish}); err != nil {
			return err
		}
	}
	c.Flush()
	return c.Error()
}
