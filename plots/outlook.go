package plots

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"loamledger/weather/cal"
)

// An Outlook is what each strategy would do on the forecast days after the
// record. It is not history. Slices over days have equal lengths.
type Outlook struct {
	Site       string
	Station    string // of the record, as people know it
	Units      Units
	From       cal.Date
	RainMM     []float64 // forecast rain, by day
	Strategies []string
	Zones      []OutlookZone
}

// An OutlookZone is one zone, by strategy and then day.
type OutlookZone struct {
	Name    string
	AreaM2  float64
	Minutes [][]float64
	Stress  [][]bool
	Runoff  [][]bool // days with a runoff event
}

// maxOutlookZones is the number of zones that fit in a panel, largest first.
const maxOutlookZones = 8

// OutlookChart shows run times by zone on the coming days, a panel for each
// strategy, below the rain forecast.
func OutlookChart(o *Outlook) Chart {
	n := len(o.RainMM)
	c := Chart{Kind: OutlookKind, Name: "coming-days", Label: Estimated, Site: o.Site, Station: o.Station,
		From: o.From, To: o.From + cal.Date(n) - 1}
	c.Title = "Coming days, by the forecast: run times by zone"
	zones := o.largest(maxOutlookZones)
	var alt []string
	var most, fewest leader
	total := 0.0
	for st, name := range o.Strategies {
		p, minutes := o.panel(st, zones)
		p.Title = name
		total += minutes
		c.Panels = append(c.Panels, p)
		alt = append(alt, name+": "+p.Note)
		most.offer(st, math.Round(minutes), more)
		fewest.offer(st, math.Round(minutes), fewer)
	}
	c.X = Axis{Label: "day of the month", Min: -0.5, Max: float64(n) - 0.5, Plain: true}
	for i := range n {
		_, m, d := (o.From + cal.Date(i)).YMD()
		label := fmt.Sprint(d)
		if i == 0 || d == 1 {
			label = monthNames[m-1][:3] + " " + label
		}
		c.X.Ticks = append(c.X.Ticks, Tick{At: float64(i), Label: label})
	}
	c.Y = Axis{Label: "zones", Min: -0.6, Max: float64(len(zones)) - 0.4, Down: true, Plain: true}
	for lane, z := range zones {
		c.Y.Ticks = append(c.Y.Ticks, Tick{At: float64(lane), Label: shortName(o.Zones[z].Name)})
	}
	c.Columns, c.HeightPt = 1, 10+float64(15*float64(len(zones)))
	c.Strip = o.rainStrip()
	c.Keys = []Key{{Form: Bars, Role: Applied, Label: "waters, with the minutes"}, {Form: Bars, Role: Stressed, Label: stressKey},
		{Form: Bars, Role: RanOff, Label: "runoff event"}, {Form: Bars, Role: RainFall, Label: "rain forecast"}}
	c.Keys = slices.DeleteFunc(c.Keys, func(k Key) bool { return k.Role != RainFall && !c.holds(k.Role) })
	switch {
	case total == 0:
		c.See = "No strategy waters on the coming days."
	case most.value == fewest.value:
		c.See = "Each box is a zone that waters on that day, with its minutes. All strategies run for the same time."
	default:
		c.See = fmt.Sprintf("Each box is a zone that waters on that day, with its minutes. The most is %s minutes with %s, "+
			"the least %s with %s.", fixed(most.value, 0), most.names(o.Strategies), fixed(fewest.value, 0), fewest.names(o.Strategies))
	}
	c.Notes = []string{"A forecast, not history: these days are excluded from all totals in this report."}
	if len(zones) < len(o.Zones) {
		c.Notes = append(c.Notes, fmt.Sprintf("The chart shows the %d largest of %d zones; minutes and counts are those of all.",
			len(zones), len(o.Zones)))
	}
	c.Alt = fmt.Sprintf("Calendars of the run times of each zone on the coming days, one per strategy, below bars of forecast rain. %s %s.",
		c.See, strings.Join(alt, ". "))
	c.punctuate()
	return c
}

// panel draws strategy st and returns its minutes over all zones and days.
func (o *Outlook) panel(st int, zones []int) (Panel, float64) {
	water := Series{Form: Spans, Role: Applied, Width: 0.66}
	thirst := Series{Form: Spans, Role: Stressed, Width: 0.98}
	ran := Series{Form: Spans, Role: RanOff, Width: 0.16}
	add := func(s *Series, day int, y float64) {
		s.Base, s.X, s.Y = append(s.Base, float64(day)-0.46), append(s.X, float64(day)+0.46), append(s.Y, y)
	}
	for lane, z := range zones {
		for d, minutes := range o.Zones[z].Minutes[st] {
			if o.Zones[z].Stress[st][d] {
				add(&thirst, d, float64(lane))
			}
			if minutes > 0 {
				add(&water, d, float64(lane))
				water.Text = append(water.Text, fixed(minutes, 0))
			}
			if o.Zones[z].Runoff[st][d] {
				add(&ran, d, float64(lane)+0.4)
			}
		}
	}
	minutes, stress, events := 0.0, 0, 0
	for z := range o.Zones {
		for d, v := range o.Zones[z].Minutes[st] {
			minutes += v
			if o.Zones[z].Stress[st][d] {
				stress++
			}
			if o.Zones[z].Runoff[st][d] {
				events++
			}
		}
	}
	p := Panel{Note: fmt.Sprintf("%s minutes, %s, %s", fixed(minutes, 0), count(stress, "zone-day of stress", "zone-days of stress"),
		count(events, "runoff event", "runoff events"))}
	for _, s := range []Series{thirst, water, ran} {
		if len(s.X) > 0 {
			p.Series = append(p.Series, s)
		}
	}
	return p, minutes
}

func (o *Outlook) rainStrip() *Strip {
	x, wettest := make([]float64, len(o.RainMM)), 0.0
	for i, v := range o.RainMM {
		x[i] = float64(i)
		wettest = max(wettest, v)
	}
	u := o.Units
	return &Strip{HeightPt: 30, Y: scaleTo("rain", u.depthUnit()+"/day", u.depth(wettest), 1), Panel: Panel{
		Title: "Rain forecast", Note: u.pick("inches", "mm") + " a day",
		Series: []Series{{Form: Bars, Role: RainFall, X: x, Y: u.depths(o.RainMM), Width: 0.9}},
	}}
}

// largest returns the n zones of largest area, in the order of the site.
func (o *Outlook) largest(n int) []int {
	order := make([]int, len(o.Zones))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(o.Zones[b].AreaM2, o.Zones[a].AreaM2) })
	order = order[:min(n, len(order))]
	slices.Sort(order)
	return order
}

// shortName cuts a name to what fits beside a panel.
func shortName(name string) string {
	const most = 16
	r := []rune(name)
	if len(r) <= most {
		return name
	}
	return string(r[:most-1]) + "…"
}
