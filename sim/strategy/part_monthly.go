package strategy

func monthlyKind() Kind {
	return Kind{
		Key:     "monthly",
		Doc:     "multiplies all minutes by a percentage for each calendar month, January first",
		Example: "monthly: [0, 0, 40, 60, 80, 100, 100, 95, 75, 50, 25, 0]",
		Params:  []Param{{Type: TwelveShares, Required: true, Min: 0, Max: 10, Doc: "twelve percentages"}},
		Make:    func(a Args) Part { return Monthly{a[""].Months} },
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
