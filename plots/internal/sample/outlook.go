package sample

import (
	"fmt"

	"loamledger/plots"
	"loamledger/weather/cal"
)

// Outlook returns made-up coming days.
func Outlook(strategies, zones, days int, long bool) *plots.Outlook {
	o := &plots.Outlook{Site: "Sample site", Station: "sample weather", From: cal.Of(2031, 6, 27)}
	for d := range days {
		o.RainMM = append(o.RainMM, float64(d*7%11))
	}
	name := func(word string, i int) string {
		if long {
			return fmt.Sprintf("a %s with a name of several words, number %d", word, i+1)
		}
		return fmt.Sprintf("%s %d", word, i+1)
	}
	for st := range strategies {
		o.Strategies = append(o.Strategies, name("strategy", st))
	}
	for z := range zones {
		zone := plots.OutlookZone{Name: name("zone", z), AreaM2: float64(100 + z)}
		for st := range strategies {
			minutes, stress, runoff := make([]float64, days), make([]bool, days), make([]bool, days)
			for d := range days {
				if (d+z+st)%3 == 0 {
					minutes[d] = float64(10 + 5*z)
				}
				stress[d], runoff[d] = (d+z+2*st)%5 == 0, minutes[d] > 20
			}
			zone.Minutes, zone.Stress, zone.Runoff = append(zone.Minutes, minutes), append(zone.Stress, stress), append(zone.Runoff, runoff)
		}
		o.Zones = append(o.Zones, zone)
	}
	return o
}
