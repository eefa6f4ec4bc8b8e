package study

import (
	"loamledger/plots"
	"loamledger/sim/tune"
)

// A CurvePoint is the site, or a zone, at a share of its run times; unknown
// values are nil.
type CurvePoint struct {
	Zone         string   `json:"zone,omitempty"`
	Percent      float64  `json:"percent"`
	Today        bool     `json:"today"`
	M3PerYear    *float64 `json:"volume_m3_per_year"`
	StressMedian *float64 `json:"stress_days_median_year"`
	StressDry    *float64 `json:"stress_days_dry_year"`
	StressYear   *float64 `json:"stress_days_per_year"`
	RunoffEvents *float64 `json:"runoff_events_per_year"`
}

// A CurveRecord is a curve for scripts.
type CurveRecord struct {
	Basis      BasisRecord     `json:"basis"`
	DryYear    int             `json:"dry_year"`
	DryIs      string          `json:"dry_year_is,omitempty"`
	MedianYear int             `json:"median_year"`
	Notes      []string        `json:"notes"`
	Points     []CurvePoint    `json:"points"`
	Strategy   string          `json:"strategy"`
	Warnings   []WarningRecord `json:"warnings"`
}

// CurveRecord lists the points, with the site first at each share.
func (l *Study) CurveRecord(c *tune.Curve) CurveRecord {
	var list []CurvePoint
	add := func(zone string, share float64, f *tune.CurveFigures) {
		p := CurvePoint{zone, 100 * share, share == 1, Number(f.M3PerYear), Number(f.StressDaysMedian), Number(f.StressDaysDry),
			Number(f.StressDaysPerYear), Number(f.RunoffEvents)}
		if c.Dry == 0 {
			p.StressMedian, p.StressDry = nil, nil
		}
		list = append(list, p)
	}
	for i := range c.Points {
		add("", c.Points[i].Share, &c.Points[i].Site)
		for z := range c.Zones {
			add(c.Zones[z], c.Points[i].Share, &c.Points[i].Zones[z])
		}
	}
	return CurveRecord{Basis: basisRecord(&c.Basis), DryYear: c.Dry, DryIs: dryIs(&c.Ranked), MedianYear: c.Median, Notes: orEmpty(c.Notes),
		Points: list, Strategy: c.Strategy,
		Warnings: l.Warnings(nil)}
}

// CurveChart returns the chart of a curve.
func (l *Study) CurveChart(c *tune.Curve) plots.Chart {
	v := plots.DeficitView{Site: l.Scenario.Site.Name, Station: l.stationName(), From: l.Weather.Start, To: l.Weather.End(),
		Units: l.chartUnits(), Strategy: c.Strategy, DryYear: c.Dry, Ranked: c.Ranked, Basis: c.Basis}
	for z, name := range c.Zones {
		d := plots.DeficitCurve{Name: name, AreaM2: l.Job.Zones[z].AreaM2, LeastM3: c.LeastM3PerYear[z]}
		for i := range c.Points {
			d.M3PerYear = append(d.M3PerYear, c.Points[i].Zones[z].M3PerYear)
			d.StressDays = append(d.StressDays, stressShown(c, &c.Points[i].Zones[z]))
		}
		v.Zones = append(v.Zones, d)
		v.Whole.AreaM2 += d.AreaM2
		v.Whole.LeastM3 += d.LeastM3
	}
	for i := range c.Points {
		p := &c.Points[i]
		v.Shares = append(v.Shares, p.Share)
		v.Whole.M3PerYear = append(v.Whole.M3PerYear, p.Site.M3PerYear)
		v.Whole.StressDays = append(v.Whole.StressDays, stressShown(c, &p.Site))
	}
	return plots.DeficitCurves(&v)
}

// stressShown returns the stress days of the dry year, or those of the record if
// no year is whole.
func stressShown(c *tune.Curve, f *tune.CurveFigures) float64 {
	if c.Dry == 0 {
		return f.StressDaysPerYear
	}
	return f.StressDaysDry
}
