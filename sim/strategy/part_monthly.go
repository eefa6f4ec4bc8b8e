package strategy

import "math"

func monthlyKind() Kind {
	return Kind{
		Key:     "monthly",
		Doc:     "multiplies all minutes by a percentage for each calendar month, January first; auto derives them from the record",
		Example: "monthly: [0, 0, 40, 60, 80, 100, 100, 95, 75, 50, 25, 0]",
		Params:  []Param{{Type: TwelveShares, Required: true, Min: 0, Max: 10, Doc: "twelve percentages, or auto", Choices: []string{"auto"}}},
		Make: func(a Args) Part {
			if a[""].Word == "auto" {
				return MonthlyAuto{}
			}
			return Monthly{a[""].Months}
		},
	}
}

// Monthly multiplies minutes by a share for each calendar month, as entered
// twelve times on a controller.
type Monthly struct{ Share [12]float64 }

// Stage returns [Scale].
func (Monthly) Stage() Stage { return Scale }

// Apply multiplies the draft's factors.
func (m Monthly) Apply(d *Draft) {
	scale, month := d.scale(), d.Site.Calendar.Month
	for i := range scale {
		scale[i] *= m.Share[month[d.Site.Source(i)]-1]
	}
}

// MonthlyAuto is [Monthly] with the percentages of [MonthlyFromETo].
type MonthlyAuto struct{}

// Stage returns [Scale].
func (MonthlyAuto) Stage() Stage { return Scale }

// Apply multiplies the draft's factors.
func (MonthlyAuto) Apply(d *Draft) { Monthly{MonthlyFromETo(d.Site)}.Apply(d) }

// MonthlyFromETo returns twelve shares: the record's mean ETo of each calendar
// month over that of the greatest, rounded to 5 %. A month that the record
// lacks gets 1. It looks at the whole record, as somebody does who sets a
// controller by past climate.
func MonthlyFromETo(site *Site) [12]float64 {
	var sum, days, share [12]float64
	for i, m := range site.Calendar.Month {
		sum[m-1] += site.Weather.EToMM[i]
		days[m-1]++
	}
	greatest := 0.0
	for m := range sum {
		if days[m] > 0 {
			share[m] = sum[m] / days[m]
			greatest = max(greatest, share[m])
		}
	}
	for m := range share {
		if days[m] == 0 || greatest == 0 {
			share[m] = 1
			continue
		}
		share[m] = math.Round(share[m]/greatest*20) / 20
	}
	return share
}
