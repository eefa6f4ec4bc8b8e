package plots

import "fmt"

// An AllowanceLine is the water that a rule allows the site.
type AllowanceLine struct {
	MonthMM [12]float64 // by calendar month of an average year, as a depth over the zones
	ByMonth bool        // no month may use more; else the year counts
	Kept    []Kept      // by strategy, without the references
}

// Kept is how a strategy keeps to the allowance.
type Kept struct {
	Share  float64 // use as a share of the allowance, on the days that figures cover
	Years  int     // that count; 1 without a whole year
	Within int     // how many of them stay within it
}

// allowanceSee says how many strategies keep to the allowance; empty without one.
func (s *Study) allowanceSee() string {
	if s.Allowance == nil {
		return ""
	}
	within := 0
	for _, k := range s.Allowance.Kept {
		if k.Within == k.Years {
			within++
		}
	}
	base := s.Allowance.Kept[s.base()]
	of := count(len(s.Allowance.Kept), "option", "options")
	text := fmt.Sprintf("%d of %s stay within the allowance", within, of)
	switch within {
	case 0:
		text = "No option stays within the allowance"
	case 1:
		text = fmt.Sprintf("1 of %s stays within the allowance", of)
	}
	each := "in every year"
	if s.Allowance.ByMonth {
		each = "in every month"
	}
	return fmt.Sprintf("%s %s; over the year, %s uses %s of it.", text, each, quote(s.Table.Strategies[s.base()]), percent(base.Share))
}
