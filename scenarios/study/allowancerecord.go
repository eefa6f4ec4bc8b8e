package study

import "loamledger/sim/tally"

// An AllowanceRecord is the water that a rule allows the site and what strategies use
// of it, for scripts. Volumes are in m³.
type AllowanceRecord struct {
	Form       string              `json:"form,omitempty"`
	Rule       string              `json:"rule"`
	ByMonth    bool                `json:"by_month"` // no month may use more; else the year counts
	Factor     float64             `json:"factor"`
	AreaM2     float64             `json:"area_m2"`
	MonthsM3   [12]float64         `json:"allowed_by_month_m3"` // of an average year
	Strategies []AllowanceStrategy `json:"strategies"`
}

// An AllowanceStrategy is how one strategy keeps to the allowance.
type AllowanceStrategy struct {
	Strategy   string          `json:"strategy"`
	UseM3      float64         `json:"use_m3_per_year"`
	AllowedM3  float64         `json:"allowed_m3_per_year"`
	MonthsOver float64         `json:"months_over_per_year"`
	Within     bool            `json:"within"` // in every year
	Years      []AllowanceYear `json:"years"`
}

// An AllowanceYear is one whole year.
type AllowanceYear struct {
	Year       int     `json:"year"`
	UseM3      float64 `json:"use_m3"`
	AllowedM3  float64 `json:"allowed_m3"`
	MonthsOver int     `json:"months_over"`
	Within     bool    `json:"within"`
}

// allowanceRecord returns the allowance; nil if the scenario has none.
func (l *Study) allowanceRecord(t *tally.Table) *AllowanceRecord {
	a := l.allowed(t)
	if a == nil {
		return nil
	}
	own := l.Scenario.Allowance
	out := &AllowanceRecord{Form: own.Form, Rule: a.ruleText(l), ByMonth: a.rule.ByMonth, Factor: a.rule.Factor, AreaM2: a.rule.AreaM2}
	if len(a.months) > 0 {
		for m, v := range a.monthMM() {
			area := 0.0
			for z := range t.Zones {
				area += t.Zones[z].AreaM2
			}
			out.MonthsM3[m] = v / 1000 * area
		}
	}
	for s := range a.months {
		k := a.kept(s)
		row := AllowanceStrategy{Strategy: t.Strategies[s], UseM3: k.useM3, AllowedM3: k.allowedM3, MonthsOver: k.over,
			Within: k.within == k.years, Years: []AllowanceYear{}}
		for _, y := range a.basis.Years {
			one := a.year(s, y)
			row.Years = append(row.Years, AllowanceYear{y, one.UseM3, one.AllowedM3, one.Over, one.Within})
		}
		out.Strategies = append(out.Strategies, row)
	}
	return out
}
