package tune

import (
	"context"
	"fmt"

	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/sim/tally"
)

// A Curve is water use and stress days as the run times of a strategy are scaled.
type Curve struct {
	Strategy string
	Zones    []string
	Median   int // year of the median figures; 0 if no year is whole
	Dry      int // the dry year
	Ranked   tally.Ranked
	Basis    tally.Basis // what yearly figures cover
	Points   []CurvePoint
	// LeastM3PerYear is the water needed, by zone, with perfect foresight and
	// without stress, losses or uneven coverage [m³ a year].
	LeastM3PerYear []float64
	// Notes point out where water does not rise, or stress does not fall.
	Notes []string
}

// A CurvePoint is the strategy at a share of its run times.
type CurvePoint struct {
	Share float64 // 1 is as set today
	Site  CurveFigures
	Zones []CurveFigures
}

// CurveFigures are the results at one share of the run times. Site figures are
// total water and area-weighted mean days. Figures a year are sums over the record
// if no year is whole.
type CurveFigures struct {
	M3PerYear         float64
	StressDaysMedian  float64
	StressDaysDry     float64
	StressDaysPerYear float64 // mean of the whole years
	RunoffEvents      float64 // a year; for the site, the total of all zones
}

// CurveShares returns the default shares: 10% to 150% in steps of 10%.
func CurveShares() []float64 {
	var out []float64
	for i := 1; i <= 15; i++ {
		out = append(out, float64(i)/10)
	}
	return out
}

// Deficit replays strategy st of the job with its run times at each share, under
// the site limits. At share 1 it equals the strategy itself, to the last digit.
// shares must ascend; nil means [CurveShares]. The error is from ctx.
func Deficit(ctx context.Context, job *replay.Job, st *strategy.Strategy, shares []float64) (*Curve, error) {
	if shares == nil {
		shares = CurveShares()
	}
	j := *job
	j.Strategies = nil
	for _, share := range shares {
		at := strategy.Strategy{Name: st.Name, Unbound: st.Unbound, Parts: append([]strategy.Part(nil), st.Parts...)}
		if share != 1 {
			var all strategy.Monthly
			for m := range all.Share {
				all.Share[m] = share
			}
			at.Parts = append(at.Parts, all)
		}
		j.Strategies = append(j.Strategies, at)
	}
	t, err := replay.Run(ctx, &j, nil)
	if err != nil {
		return nil, err
	}
	ranked := t.RankYears()
	c := &Curve{Strategy: st.Name, Median: ranked.Median, Dry: ranked.Dry, Ranked: ranked, Basis: t.Basis()}
	for z := range j.Zones {
		c.Zones = append(c.Zones, j.Zones[z].Name)
		c.LeastM3PerYear = append(c.LeastM3PerYear, c.figures(t, t.LeastWaterIndex(), z).M3PerYear)
	}
	for s, share := range shares {
		p := CurvePoint{Share: share}
		area := 0.0
		for z := range j.Zones {
			f := c.figures(t, s, z)
			p.Zones = append(p.Zones, f)
			a := j.Zones[z].AreaM2
			area += a
			p.Site.M3PerYear += f.M3PerYear
			p.Site.RunoffEvents += f.RunoffEvents
			p.Site.StressDaysMedian += float64(a * f.StressDaysMedian)
			p.Site.StressDaysDry += float64(a * f.StressDaysDry)
			p.Site.StressDaysPerYear += float64(a * f.StressDaysPerYear)
		}
		p.Site.StressDaysMedian /= area
		p.Site.StressDaysDry /= area
		p.Site.StressDaysPerYear /= area
		c.Points = append(c.Points, p)
	}
	c.explain()
	return c, nil
}

func (c *Curve) figures(t *tally.Table, s, z int) CurveFigures {
	sum, years := t.Sum(&c.Basis, s, z), c.Basis.Divisor()
	return CurveFigures{
		M3PerYear: sum.GrossMM / 1000 * t.Zones[z].AreaM2 / years, StressDaysPerYear: float64(sum.StressZoneDays) / years,
		RunoffEvents:     float64(sum.RunoffEvents) / years,
		StressDaysMedian: float64(t.Year(s, z, c.Median).StressZoneDays), StressDaysDry: float64(t.Year(s, z, c.Dry).StressZoneDays),
	}
}

// explain notes where more run time does not mean more water or less stress: a
// strategy with a water balance or a sensor waters on other days when its run
// times change.
func (c *Curve) explain() {
	for z, name := range c.Zones {
		for i := 1; i < len(c.Points); i++ {
			a, b := c.Points[i-1].Zones[z], c.Points[i].Zones[z]
			if b.M3PerYear < a.M3PerYear-1e-9 || b.StressDaysPerYear > a.StressDaysPerYear+1e-9 {
				c.Notes = append(c.Notes, fmt.Sprintf("%s: from %.0f%% to %.0f%% of the run time, water use does not rise or stress does not fall: "+
					"when run times change, the strategy waters on different days.", name, 100*c.Points[i-1].Share, 100*c.Points[i].Share))
				break
			}
		}
	}
}
