package cli

import (
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"loamledger/plots"
	"loamledger/plots/pngfile"
	"loamledger/sim/tune"
	"loamledger/weather/diag"
)

// freePNG refuses the name of a picture that does not end in .png, or cannot
// be written, before anything is read; an empty name passes.
func freePNG(name string, e existing, example string) error {
	if name == "" {
		return nil
	}
	if strings.ToLower(filepath.Ext(name)) != ".png" {
		return &usageError{diag.BadFlag, fmt.Sprintf("--plot %s does not end in .png, and a PNG is written", name), "name a file such as " + example}
	}
	return e.free(name)
}

// writePNG draws a chart, whole or not at all.
func writePNG(name string, e existing, chart *plots.Chart) error {
	return writeWhole(name, e, func(w io.Writer) error { return pngfile.Draw(chart).Write(w) })
}

// curveChart returns the chart of a curve.
func (l *loaded) curveChart(c *tune.Curve) plots.Chart {
	v := plots.DeficitView{Site: l.Scenario.Site.Name, Station: l.stationName(), From: l.Weather.Start, To: l.Weather.End(), Units: l.chartUnits(), Strategy: c.Strategy, DryYear: c.Dry}
	for z, name := range c.Zones {
		d := plots.DeficitCurve{Name: name, AreaM2: l.Job.Zones[z].AreaM2, LeastM3: c.LeastM3PerYear[z]}
		for i := range c.Points {
			d.M3PerYear, d.StressDays = append(d.M3PerYear, c.Points[i].Zones[z].M3PerYear), append(d.StressDays, stressShown(c, &c.Points[i].Zones[z]))
		}
		v.Zones = append(v.Zones, d)
		v.Whole.AreaM2 += d.AreaM2
		v.Whole.LeastM3 += d.LeastM3
	}
	for i := range c.Points {
		p := &c.Points[i]
		v.Shares = append(v.Shares, p.Share)
		v.Whole.M3PerYear, v.Whole.StressDays = append(v.Whole.M3PerYear, p.Site.M3PerYear), append(v.Whole.StressDays, stressShown(c, &p.Site))
	}
	return plots.DeficitCurves(&v)
}

// stressShown returns the stress days of the dry year, or those of a mean year
// where no year is whole.
func stressShown(c *tune.Curve, f *tune.CurveFigures) float64 {
	if c.Dry == 0 {
		return f.StressDaysPerYear
	}
	return f.StressDaysDry
}
