package settings

import (
	"fmt"
	"math"
	"strings"

	"loamledger/sim/strategy"
	"loamledger/weather/quantity"
)

// DayNames and MonthNames are the short names, Sunday and January first.
var (
	DayNames   = [7]string{"Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"}
	MonthNames = [12]string{"Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"}
)

// DaysText says on which days a rule holds.
func DaysText(r strategy.DayRule) string {
	switch r.Kind {
	case strategy.OddDays:
		return "odd dates"
	case strategy.EvenDays:
		return "even dates"
	case strategy.Interval:
		if r.Every == 1 {
			return "every day"
		}
		return fmt.Sprintf("every %d days, counted from %v", r.Every, r.From)
	case strategy.Weekdays:
		var days []string
		for i := range 7 {
			if d := (i + 1) % 7; r.Weekdays[d] {
				days = append(days, DayNames[d])
			}
		}
		switch len(days) {
		case 0:
			return "no day"
		case 7:
			return "every day"
		}
		return strings.Join(days, " ")
	}
	return "every day"
}

// ClockText writes minutes after midnight as a time of day; later days are
// told as such.
func ClockText(minutes float64) string {
	m := int(math.Ceil(minutes - 1e-9))
	text := fmt.Sprintf("%02d:%02d", m/60%24, m%60)
	if m >= 24*60 {
		text += " next day"
	}
	return text
}

// StartsText lists start times.
func StartsText(starts []int) string {
	var out []string
	for _, s := range starts {
		out = append(out, ClockText(float64(s)))
	}
	return strings.Join(out, " ")
}

// PartText says in words what the controller or a sensor is to do by itself;
// ok is false for what needs no setting or has no words.
func PartText(p strategy.Part, sys quantity.System) (text string, ok bool) {
	depth := func(mm float64) string { return quantity.Format(mm, quantity.Depth, sys) }
	switch p := p.(type) {
	case strategy.ETPercent:
		text = fmt.Sprintf("Scaling by weather: minutes are meant for a day with %s of reference ET, averaged over %d days; least %.0f %%, most %.0f %%", depth(p.DesignMM), p.Over, 100*p.Least, 100*p.Most)
		if p.CountRain {
			text += fmt.Sprintf("; %.0f %% of the rain is taken off", 100*(1-p.RainIgnored))
		}
		return text, true
	case strategy.RainSkip:
		if p.Bypass {
			return "Rain shut-off: switched out", true
		}
		if p.DryOutEToMM > 0 {
			return fmt.Sprintf("Rain shut-off: set point %s, until %s of reference ET has dried it", depth(p.AboveMM), depth(p.DryOutEToMM)), true
		}
		return fmt.Sprintf("Rain shut-off: set point %s, watering held back for %s after", depth(p.AboveMM), daysText(p.DryOut)), true
	case strategy.FreezeSkip:
		return "Freeze shut-off: below " + quantity.Format(p.BelowC, quantity.Temperature, sys), true
	case strategy.WindSkip:
		return "Wind shut-off: above " + quantity.Format(p.AboveMS, quantity.Speed, sys), true
	case strategy.ForecastSkip:
		return fmt.Sprintf("Forecast: skip when %s of rain is expected with at least %.0f %% chance, at most %s in a row", depth(p.AboveMM), 100*p.Probability, daysText(p.Most)), true
	case strategy.Season:
		text = "Season:"
		if p.Start != 0 {
			text += fmt.Sprintf(" switch on %d %s,", p.Start%100, MonthNames[p.Start/100-1])
		}
		if p.End != 0 {
			text += fmt.Sprintf(" switch off after %d %s,", p.End%100, MonthNames[p.End/100-1])
		}
		if p.FrostC > -90 {
			text += fmt.Sprintf(" shut down after a night below %s until %s in a row were free of it,", quantity.Format(p.FrostC, quantity.Temperature, sys), daysText(p.ClearDays))
		}
		return strings.TrimSuffix(text, ","), true
	case strategy.Sensor:
		return fmt.Sprintf("Soil sensor in the %s-watered part: permit watering when %.0f %% of the available water is used up", p.Placement, 100*p.PermitAt), true
	case strategy.Round:
		return fmt.Sprintf("Minutes after the percentage are rounded to %s min", number(p.StepMin)), true
	}
	return "", false
}

func daysText(n int) string { return quantity.Count(n, "day", "days") }
