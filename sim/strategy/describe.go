package strategy

import (
	"fmt"
	"strings"
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
	if f.Source == "site" && len(site.Forecast.RainMM) == 0 {
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

func percents(share [12]float64) string {
	var texts []string
	for _, s := range share {
		texts = append(texts, fmt.Sprintf("%.0f", 100*s))
	}
	return strings.Join(texts, ", ") + " %"
}
