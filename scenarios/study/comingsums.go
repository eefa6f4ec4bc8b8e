package study

import (
	"loamledger/plots"
	"loamledger/sim"
	"loamledger/sim/replay"
	"loamledger/weather/cal"
)

// ComingSums total the coming days of one strategy. Stress days are
// area-weighted means over zones; runoff events are summed over zones.
type ComingSums struct {
	WateringDays int     `json:"watering_days"` // days on which some zone waters
	Minutes      float64 `json:"minutes"`       // over all zones
	WaterM3      float64 `json:"water_m3"`
	StressDays   float64 `json:"stress_days"`
	WorstZone    string  `json:"worst_zone,omitempty"` // with the most stress days; empty if none has any
	WorstDays    int     `json:"worst_zone_stress_days"`
	RunoffEvents int     `json:"runoff_events"`
	RunoffM3     float64 `json:"runoff_m3"`
}

// thirsty reports whether a day is a stress day of the whole zone.
func thirsty(row *replay.Row) bool { return row.StressZone }

// runsOff reports whether a day is a runoff event.
func runsOff(row *replay.Row) bool { return row.IrrRunoffMM >= sim.EventRunoffMM }

// sums totals the coming days of a strategy.
func (c *Coming) sums(strategy string) ComingSums {
	var out ComingSums
	area := 0.0
	waters := make([]bool, len(c.days))
	for z, rows := range c.rows[strategy] {
		stress := 0
		for d := range rows {
			row := &rows[d]
			out.Minutes += row.Minutes
			out.WaterM3 += row.GrossMM * c.areaM2[z] / 1000
			out.RunoffM3 += row.IrrRunoffMM * c.areaM2[z] / 1000
			waters[d] = waters[d] || row.Minutes > 0
			if runsOff(row) {
				out.RunoffEvents++
			}
			if thirsty(row) {
				stress++
			}
		}
		out.StressDays += float64(float64(stress) * c.areaM2[z])
		area += c.areaM2[z]
		if stress > out.WorstDays {
			out.WorstDays, out.WorstZone = stress, c.zones[z]
		}
	}
	for _, is := range waters {
		if is {
			out.WateringDays++
		}
	}
	if area > 0 {
		out.StressDays /= area
	}
	return out
}

// A ComingRecord is the coming days for scripts, in SI. It is not history.
type ComingRecord struct {
	Days       []ComingDayRecord      `json:"days"`
	Strategies []ComingStrategyRecord `json:"strategies"`
	Usual      map[string]int         `json:"days_with_usual_value,omitempty"` // by weather column
}

// A ComingDayRecord is the forecast for one day.
type ComingDayRecord struct {
	Date   string   `json:"date"`
	Issued string   `json:"issued"`
	RainMM *float64 `json:"rain_mm"`
	EToMM  *float64 `json:"eto_mm"`
	TminC  *float64 `json:"tmin_c"`
}

// A ComingStrategyRecord is one strategy on the coming days.
type ComingStrategyRecord struct {
	Strategy string `json:"strategy"`
	ComingSums
	Zones []ComingZoneRecord `json:"zones"`
}

// A ComingZoneRecord is one zone by day.
type ComingZoneRecord struct {
	Zone     string    `json:"zone"`
	Minutes  []float64 `json:"minutes"`
	Reasons  []string  `json:"reasons"`
	Stress   []bool    `json:"stress"`
	RunoffMM []float64 `json:"irrigation_runoff_mm"`
}

// ComingRecord returns the coming days for scripts; nil if there are none.
func (l *Study) ComingRecord(c *Coming) *ComingRecord {
	if c == nil {
		return nil
	}
	out := &ComingRecord{}
	for i := range c.days {
		d := &c.days[i]
		out.Days = append(out.Days, ComingDayRecord{d.date.String(), d.issued.String(), Number(d.rainMM), Number(d.etoMM), Number(d.tminC)})
	}
	for _, name := range l.StrategyNames() {
		one := ComingStrategyRecord{Strategy: name, ComingSums: c.sums(name)}
		for z, rows := range c.rows[name] {
			zone := ComingZoneRecord{Zone: c.zones[z]}
			for d := range rows {
				row := &rows[d]
				zone.Minutes, zone.Reasons = append(zone.Minutes, row.Minutes), append(zone.Reasons, row.Reason.String())
				zone.Stress, zone.RunoffMM = append(zone.Stress, thirsty(row)), append(zone.RunoffMM, row.IrrRunoffMM)
			}
			one.Zones = append(one.Zones, zone)
		}
		out.Strategies = append(out.Strategies, one)
	}
	for _, col := range comingColumns() {
		if n := c.usual[col]; n > 0 {
			if out.Usual == nil {
				out.Usual = map[string]int{}
			}
			out.Usual[col.Key()] = n
		}
	}
	return out
}

// ComingChart returns the chart of the coming days; nil if there are none.
func (l *Study) ComingChart(c *Coming) *plots.Chart {
	if c == nil {
		return nil
	}
	o := &plots.Outlook{Site: l.Scenario.Site.Name, Station: l.stationName(), Units: l.chartUnits(), From: c.days[0].date,
		Strategies: l.StrategyNames()}
	for i := range c.days {
		o.RainMM = append(o.RainMM, c.days[i].rainMM)
	}
	for z, name := range c.zones {
		zone := plots.OutlookZone{Name: name, AreaM2: c.areaM2[z]}
		for _, strategy := range o.Strategies {
			rows := c.rows[strategy][z]
			minutes, stress, runoff := make([]float64, len(rows)), make([]bool, len(rows)), make([]bool, len(rows))
			for d := range rows {
				minutes[d], stress[d], runoff[d] = rows[d].Minutes, thirsty(&rows[d]), runsOff(&rows[d])
			}
			zone.Minutes, zone.Stress, zone.Runoff = append(zone.Minutes, minutes), append(zone.Stress, stress), append(zone.Runoff, runoff)
		}
		o.Zones = append(o.Zones, zone)
	}
	chart := plots.OutlookChart(o)
	return &chart
}

// ComingPart returns the coming days for the report, every strategy day by day;
// nil if there are none.
func (l *Study) ComingPart(c *Coming) *plots.TextPart {
	if c == nil {
		return nil
	}
	views := []View{*l.comingTotals(c), *l.comingDays(c, l.StrategyNames())}
	for _, name := range l.StrategyNames() {
		v := *l.comingZones(c, name)
		v.Notes = nil
		views = append(views, v)
	}
	p := textPart(views)
	p.Lead = "What each strategy would do on the days after the record, " + period(c.days[0].date, c.days[len(c.days)-1].date) +
		", if the forecast comes true. It is excluded from all totals above."
	p.Notes = append(p.Notes, l.comingNotes(c)...)
	return p
}

func period(from, to cal.Date) string { return from.String() + " to " + to.String() }
