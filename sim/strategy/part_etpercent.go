package strategy

import "loamledger/weather/quantity"

func etPercentKind() Kind {
	return Kind{
		Key:     "et_percent",
		Doc:     "scales minutes by the mean reference ET of the days just past against a design value",
		Example: "et_percent: {design: 0.25 in, over: 7 days, count_rain: true, most: 150 %}",
		Params: []Param{
			{Key: "design", Type: Quantity, Dim: quantity.Depth, Required: true, Min: 0.1, Max: 25, Doc: "ETo of a day for which the program's minutes are meant"},
			{Key: "over", Type: Quantity, Dim: quantity.Days, Default: 7, Min: 1, Max: 60, Doc: "days averaged, up to yesterday", Source: "assumption of this program", Grade: quantity.Guess},
			{Key: "count_rain", Type: Flag, Default: 0, Doc: "take the rain of the same days off their ETo", Source: "assumption of this program", Grade: quantity.Guess, Off: true},
			{Key: "rain_credit", Type: Quantity, Dim: quantity.Fraction, Default: 1, Min: 0, Max: 1, Doc: "share of that rain that counts", Source: "assumption of this program: all of it", Grade: quantity.Guess, Off: true},
			{Key: "least", Type: Quantity, Dim: quantity.Fraction, Default: 0, Min: 0, Max: 10, Doc: "lowest percentage", Source: "assumption of this program", Grade: quantity.Guess, Off: true},
			{Key: "most", Type: Quantity, Dim: quantity.Fraction, Default: 2, Min: 0, Max: 10, Doc: "highest percentage", Source: "assumption of this program", Grade: quantity.Guess},
		},
		Make: func(a Args) Part {
			return ETPercent{DesignMM: a["design"].Number, Over: int(a["over"].Number), CountRain: a["count_rain"].Number != 0, RainIgnored: 1 - a["rain_credit"].Number, Least: a["least"].Number, Most: a["most"].Number}
		},
	}
}

// ETPercent scales minutes each day by
//
//	(mean ETo − (1 − RainIgnored) mean rain, if counted) / design
//
// over the last Over days up to yesterday, held to Least..Most. On the first
// day of a record without spin-up nothing is known and the factor is 1.
type ETPercent struct {
	DesignMM    float64 // ETo of the day the minutes are meant for [mm/d]
	Over        int     // days averaged, at least 1
	CountRain   bool    // take rain off
	RainIgnored float64 // share of the rain that does not count, 0 to 1
	Least, Most float64
}

// Stage returns [Scale].
func (ETPercent) Stage() Stage { return Scale }

// Apply multiplies the draft's factors.
func (e ETPercent) Apply(d *Draft) {
	scale, w := d.scale(), d.Site.Weather
	for i := range scale {
		if i == 0 {
			continue
		}
		// Added up anew each day: a sum carried along keeps its roundings, and
		// would water on after days that asked for nothing.
		sum, days := 0.0, min(i, e.Over)
		for back := range days {
			k := d.Site.Source(i - 1 - back)
			sum += w.EToMM[k]
			if e.CountRain {
				sum -= (1 - e.RainIgnored) * w.RainMM[k]
			}
		}
		scale[i] *= min(max(sum/float64(days)/e.DesignMM, e.Least), e.Most)
	}
}
