package ledgerfile

import (
	"fmt"
	"io"
	"strconv"

	"loamledger/sim/tally"
)

// WriteTally writes the sums of a replay as CSV: a line for each strategy,
// zone and calendar year, in the order of the table, with the columns of
// [TallyColumns].
func WriteTally(w io.Writer, t *tally.Table) error {
	var b []byte
	for i, key := range keys(TallyColumns()) {
		if i > 0 {
			b = append(b, ',')
		}
		b = append(b, key...)
	}
	b = append(b, '\n')
	years, _ := t.Years()
	for s := range t.Strategies {
		for z := range t.Zones {
			names := quoted(t.Strategies[s]) + "," + quoted(t.Zones[z].Name) + ","
			for _, y := range years {
				b = append(b, names...)
				var err error
				if b, err = tallyLine(b, t, s, z, y); err != nil {
					return err
				}
			}
		}
	}
	_, err := w.Write(b)
	return err
}

// tallyLine appends the columns from the year on.
func tallyLine(b []byte, t *tally.Table, s, z, year int) ([]byte, error) {
	sum := t.Year(s, z, year)
	least := t.Year(t.LeastWaterIndex(), z, year)
	area := t.Zones[z].AreaM2
	b = strconv.AppendInt(b, int64(year), 10)
	for _, n := range [4]int{sum.Days, sum.WateringDays, sum.StressDays, sum.LongestStreak} {
		b = strconv.AppendInt(append(b, ','), int64(n), 10)
	}
	b = comma(b, sum.SeverityDays)
	for _, n := range [2]int{sum.RunoffEvents, sum.RainRunoffDays} {
		b = strconv.AppendInt(append(b, ','), int64(n), 10)
	}
	zero := 0.0
	for _, v := range [18]float64{
		sum.Minutes, sum.EToMM, sum.ETcMM, sum.RainMM, sum.GrossMM, sum.SprayLossMM, sum.IrrRunoffMM, sum.RainRunoffMM, sum.RainEvapMM,
		sum.PercIrrMM, sum.PercRainMM, sum.ETaMM, sum.StorageMM, area, sum.GrossMM / 1000 * area, least.GrossMM, sum.Adequacy(), sum.Excess(),
	} {
		zero += 0 * v
		b = comma(b, v)
	}
	losses := [4]float64{sum.OversprayMM, sum.BrokenMM, sum.FillDrainMM, sum.LeakMM}
	for _, v := range losses {
		zero += 0 * v
	}
	if zero += 0 * sum.SeverityDays; zero != 0 {
		return nil, fmt.Errorf("tally: strategy %q, zone %q, %d: a sum is no number", t.Strategies[s], t.Zones[z].Name, year)
	}
	b = append(b, ',')
	if least.GrossMM > 0 {
		b = appendFloat(b, sum.GrossMM/least.GrossMM)
	}
	for _, v := range losses {
		b = comma(b, v)
	}
	return append(b, '\n'), nil
}
