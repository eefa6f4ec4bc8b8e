package strategy

import (
	"fmt"
	"strings"

	"loamledger/weather/cal"
)

// A Describer is a part that has something to tell once the weather is known,
// such as the percentages it came to.
type Describer interface {
	Describe(site *Site) string
}

// Describe returns what the parts of the strategy have to tell about a site,
// one sentence each.
func (st *Strategy) Describe(site *Site) []string {
	var out []string
	for _, p := range st.Parts {
		if d, ok := p.(Describer); ok {
			if text := d.Describe(site); text != "" {
				out = append(out, text)
			}
		}
	}
	return out
}

// Describe tells the percentages as they came out.
func (MonthlyAuto) Describe(site *Site) string {
	return "monthly percentages from the record's mean ETo, January first: " + percents(MonthlyFromETo(site))
}

// Describe tells what the person has in mind, where the record says it.
func (h Habit) Describe(site *Site) string {
	if h.Edits == 0 || h.Towards != nil {
		return ""
	}
	return "the percentages that the late changes aim at, from the record's mean ETo, January first: " + percents(MonthlyFromETo(site))
}

// Describe tells that there is no forecast to act on.
func (f ForecastSkip) Describe(site *Site) string {
	if f.Source == SiteForecast && len(site.Forecast.RainMM) == 0 {
		return "no forecast is given for the site: the forecast skip never holds back"
	}
	return ""
}

// Describe tells that there is no wind to act on.
func (WindSkip) Describe(site *Site) string {
	if site.Weather.WindMS == nil {
		return "the record has no wind: the wind skip never holds back"
	}
	return ""
}

// outside reports whether days from one date to another all lie outside the
// record; 0 leaves an end open.
func (s *Site) outside(from, to cal.Date) bool {
	return to != 0 && to < s.Weather.Start || from != 0 && from >= s.Weather.Start+cal.Date(s.Weather.Days())
}

// Describe tells that the run is on no day of the record.
func (m Manual) Describe(site *Site) string {
	if site.outside(m.Date, m.Date) {
		return fmt.Sprintf("the run by hand on %v is on no day of the record", m.Date)
	}
	return ""
}

// Describe tells that the suspension is on no day of the record.
func (s Suspend) Describe(site *Site) string {
	if site.outside(s.From, s.To) {
		return fmt.Sprintf("the suspension from %v to %v is on no day of the record", s.From, s.To)
	}
	return ""
}

// Describe names the programs that are in force on no day of the record.
func (p Programs) Describe(site *Site) string {
	var names []string
	for i := range p.List {
		if site.outside(p.List[i].From, p.List[i].To) {
			names = append(names, p.List[i].Name)
		}
	}
	if len(names) == 0 {
		return ""
	}
	return "in force on no day of the record: " + strings.Join(names, ", ")
}

func percents(share [12]float64) string {
	var texts []string
	for _, s := range share {
		texts = append(texts, fmt.Sprintf("%.0f", 100*s))
	}
	return strings.Join(texts, ", ") + " %"
}
