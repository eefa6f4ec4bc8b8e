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
// last valve of the controller closes on the longest day of the month; it is empty if
// nothing runs. A site with several controllers has a last column with their names. Any
// error is from w.
func WriteCSV(w io.Writer, s *settings.Sheet) error {
	c := csv.NewWriter(w)
	head := columns()
	if s.Each != nil {
		head = append(head, "controller")
	}
	if err := c.Write(head); err != nil {
		return err
	}
	for _, one := range s.Each {
		if err := writeRows(c, one); err != nil {
			return err
		}
	}
	if s.Each == nil {
		if err := writeRows(c, s); err != nil {
			return err
		}
	}
	c.Flush()
	return c.Error()
}

// writeRows writes the rows of one controller.
func writeRows(c *csv.Writer, s *settings.Sheet) error {
	num := func(v float64) string { return strconv.FormatFloat(math.Round(10*v)/10, 'f', -1, 64) }
	for _, e := range s.Entries() {
		finish := ""
		if t := s.Times[e.Month-1]; t.Waters {
			finish = strategy.ClockText(t.FinishMin)
		}
		row := []string{s.Zones[e.Zone].Name, strconv.Itoa(e.Month), e.Program.Name, strategy.DaysText(e.Program.Days),
			strategy.StartsText(e.Program.Starts),
			num(e.Program.Minutes[e.Zone]), num(100 * e.Percent), num(e.Minutes), strconv.Itoa(e.Cycles), num(e.Program.Cycle),
			num(e.Program.Soak), finish}
		if s.Only != nil {
			row = append(row, s.Controller)
		}
		if err := c.Write(row); err != nil {
			return err
		}
	}
	return nil
}
