package plots

import (
	"strings"
	"testing"

	"loamledger/weather/cal"
)

// twoDays is two zones, two strategies and two days, made up.
func twoDays() *Outlook {
	return &Outlook{Site: "A", Station: "s", Units: SI, From: cal.Of(2031, 5, 31), RainMM: []float64{0, 12},
		Strategies: []string{"all", "less"},
		Zones: []OutlookZone{
			{Name: "lawn", AreaM2: 100, Minutes: [][]float64{{20, 20}, {20, 0}}, Stress: [][]bool{{false, false}, {true, false}},
				Runoff: [][]bool{{true, false}, {false, false}}},
			{Name: "a bed with a very long name", AreaM2: 50, Minutes: [][]float64{{10, 0}, {0, 0}}, Stress: [][]bool{{false, false}, {true, true}},
				Runoff: [][]bool{{false, false}, {false, false}}},
		}}
}

// By hand: 50 minutes and 1 runoff event against 20 minutes and 3 zone-days of
// stress.
func TestOutlookChart(t *testing.T) {
	c := OutlookChart(twoDays())
	if len(c.Panels) != 2 || c.Panels[0].Note != "50 minutes, 0 zone-days of stress, 1 runoff event" ||
		c.Panels[1].Note != "20 minutes, 3 zone-days of stress, 0 runoff events" {
		t.Errorf("panels %+v", c.Panels)
	}
	if !strings.Contains(c.See, "The most is 50 minutes with “all,” the least 20 with “less.”") {
		t.Errorf("see %q", c.See)
	}
	if c.From != cal.Of(2031, 5, 31) || c.To != cal.Of(2031, 6, 1) || c.X.Ticks[0].Label != "May 31" || c.X.Ticks[1].Label != "Jun 1" {
		t.Errorf("days %v to %v, ticks %v", c.From, c.To, c.X.Ticks)
	}
	if c.Strip == nil || c.Strip.Series[0].Y[1] != 12 {
		t.Error("no rain forecast above the panels")
	}
	if got := c.Y.Ticks[1].Label; got != "a bed with a ve…" {
		t.Errorf("long name %q", got)
	}
	water := c.Panels[0].Series[0]
	if water.Role != Applied || strings.Join(water.Text, " ") != "20 20 10" {
		t.Errorf("boxes %+v", water)
	}
	if c.Notes[0] != "A forecast, not history: these days are excluded from all totals in this report." {
		t.Errorf("notes %q", c.Notes)
	}
}

// Nine zones are one more than fit: the smallest is left out of the picture, not
// of the counts.
func TestOutlookChartOfManyZones(t *testing.T) {
	o := twoDays()
	for len(o.Zones) < maxOutlookZones+1 {
		o.Zones = append(o.Zones, o.Zones[0])
	}
	c := OutlookChart(o)
	if len(c.Y.Ticks) != maxOutlookZones || !strings.Contains(strings.Join(c.Notes, " "), "8 largest of 9 zones") {
		t.Errorf("%d lanes, notes %q", len(c.Y.Ticks), c.Notes)
	}
	if want := "330 minutes, 0 zone-days of stress, 8 runoff events"; c.Panels[0].Note != want { // 8 · 40 + 10
		t.Errorf("note %q, want %q", c.Panels[0].Note, want)
	}
}
