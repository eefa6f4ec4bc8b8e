package settingsfile

import (
	"encoding/csv"
	"io"
	"strconv"

	"loamledger/sim/tune"
)

// WriteCurve writes a curve of water use and stress days as CSV, with one row
// for the site and one for each zone at each share of the run times. Column zone
// is empty for the site. Volumes are in m³. Any error is from w.
func WriteCurve(w io.Writer, c *tune.Curve) error {
	out := csv.NewWriter(w)
	if err := out.Write([]string{"strategy", "zone", "percent", "today", "volume_m3_per_year", "stress_days_median_year",
		"stress_days_dry_year", "stress_days_per_year", "runoff_events_per_year"}); err != nil {
		return err
	}
	num := func(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }
	for i := range c.Points {
		p := &c.Points[i]
		row := func(zone string, f *tune.CurveFigures) error {
			median, dry := num(f.StressDaysMedian), num(f.StressDaysDry)
			if c.Dry == 0 {
				median, dry = "", ""
			}
			return out.Write([]string{c.Strategy, zone, num(100 * p.Share), strconv.FormatBool(p.Share == 1), num(f.M3PerYear), median, dry,
				num(f.StressDaysPerYear), num(f.RunoffEvents)})
		}
		if err := row("", &p.Site); err != nil {
			return err
		}
		for z := range p.Zones {
			if err := row(c.Zones[z], &p.Zones[z]); err != nil {
				return err
			}
		}
	}
	out.Flush()
	return out.Error()
}
