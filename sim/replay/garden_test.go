package replay_test

import (
	"math"

	"loamledger/sim"
	"loamledger/weather/cal"
)

// This file goes on with the plain telling: what grows on a day, and how the day
// is graded.

// A modelGarden follows the plants of a zone day by day.
type modelGarden struct {
	z        sim.Zone
	activity []float64 // of the present plant, since it took over
	active   bool
	overseed bool // the second plant is the present one
}

// overseeded reports whether the second plant grows on a date.
func overseeded(z *sim.Zone, date cal.Date) bool {
	if z.Overseed == nil {
		return false
	}
	_, month, day := date.YMD()
	now := float64(month) + float64(day)/100
	from := float64(z.Overseed.From.Month) + float64(z.Overseed.From.Day)/100
	to := float64(z.Overseed.To.Month) + float64(z.Overseed.To.Day)/100
	if from > to { // over the turn of the year
		return !(now > to && now < from)
	}
	return now >= from && now <= to
}

// calendarPlant is the plant as a controller knows it, by the calendar.
func calendarPlant(z *sim.Zone, date cal.Date) modelPlant {
	m := date.Month() - 1
	if overseeded(z, date) {
		return modelPlant{k: z.Overseed.K[m], p: z.Overseed.P}
	}
	return modelPlant{k: z.K[m], p: z.P}
}

// day takes the next day of the walk, day i.
func (g *modelGarden) day(w *modelWeather, i int) modelPlant {
	plant := calendarPlant(&g.z, w.date[i])
	season := g.z.Season
	plant.tolerance, plant.browning = g.z.ToleranceR7, g.z.BrowningR7
	over := overseeded(&g.z, w.date[i])
	if over {
		season, plant.tolerance, plant.browning = g.z.Overseed.Season, g.z.Overseed.ToleranceR7, g.z.Overseed.BrowningR7
	}
	if over != g.overseed {
		g.overseed, g.activity = over, nil
	}
	if season == nil || w.mean == nil {
		if plant.active = plant.k > 0; plant.active {
			plant.a = 1
		}
		return plant
	}
	before := w.mean[max(0, i-30):i]
	if i == 0 {
		before = w.mean[:1]
	}
	plant.knowsT30 = true
	for _, t := range before {
		plant.t30 += t / float64(len(before))
	}
	plant.a = math.Max(0, math.Min(1, (plant.t30-season.T0C)/(season.T1C-season.T0C)))
	if !season.ActivityOnly {
		plant.k = season.Kd + plant.a*(season.Ka-season.Kd)
	}
	// Seven days that agree decide, and the very first alone.
	g.activity = append(g.activity, plant.a)
	if len(g.activity) == 1 {
		g.active = plant.a >= 0.1
	}
	if n := len(g.activity); n >= 7 {
		up, down := true, true
		for _, a := range g.activity[n-7:] {
			up, down = up && a >= 0.1, down && a < 0.1
		}
		g.active = up || g.active && !down
	}
	plant.active = g.active
	return plant
}

// grade grades the last of the days of a record.
func grade(days []modelDay, taw float64, d *modelDay) {
	d.dryWinter = !d.active && d.knowsT30 && d.t30 >= 0 && d.lowQuarter > 0.8*taw
	week := days[max(0, len(days)-7):]
	etc, zone, quarter := 0.0, 0.0, 0.0
	for i := range week {
		etc, zone, quarter = etc+week[i].etc, zone+week[i].eta, quarter+week[i].lowETa
	}
	if d.atEdge = math.Abs(etc-1) < 1e-9; etc < 1 {
		return
	}
	d.hasR7, d.r7Zone, d.r7Quarter = true, zone/etc, quarter/etc
	for _, at := range []float64{d.tolerance, d.browning} {
		d.atEdge = d.atEdge || math.Abs(zone-at*etc) < 3e-9 || math.Abs(quarter-at*etc) < 3e-9
	}
	if d.active {
		d.stressZone, d.stressQuarter = d.r7Zone < d.tolerance, d.r7Quarter < d.tolerance
		d.brownZone, d.brownQuarter = d.r7Zone < d.browning, d.r7Quarter < d.browning
	}
}
