package settings

import (
	"fmt"
	"math"
	"strings"

	"loamledger/sim/clock"
	"loamledger/sim/strategy"
	"loamledger/weather/quantity"
)

// ClockText writes a time for people [min after midnight]: in US units with AM and
// PM. A time before midnight of the day, below 0, or past its end is said to be of
// the day before or the next day.
func ClockText(minutes float64, sys quantity.System) string {
	m := int(math.Ceil(minutes - 1e-9))
	day := int(math.Floor(float64(m) / clock.Day))
	at := m - day*clock.Day
	text := fmt.Sprintf("%02d:%02d", at/60, at%60)
	if sys == quantity.US {
		half := "AM"
		if at >= clock.Day/2 {
			half = "PM"
		}
		text = fmt.Sprintf("%d:%02d %s", (at/60+11)%12+1, at%60, half)
	}
	switch {
	case day == -1:
		text += " the day before"
	case day < -1:
		text += fmt.Sprintf(" %d days before", -day)
	case day == 1:
		text += " the next day"
	case day > 1:
		text += fmt.Sprintf(" %d days later", day)
	}
	return text
}

// StartsText lists start times for people.
func StartsText(starts []int, sys quantity.System) string {
	var out []string
	for _, at := range starts {
		out = append(out, ClockText(float64(at), sys))
	}
	return strings.Join(out, ", ")
}

// spanText writes a duration in hours and minutes.
func spanText(minutes float64) string {
	m := int(math.Ceil(minutes - 1e-9))
	switch {
	case m < 60:
		return fmt.Sprintf("%d min", m)
	case m%60 == 0:
		return fmt.Sprintf("%d h", m/60)
	}
	return fmt.Sprintf("%d h %d min", m/60, m%60)
}

// lateMin is the time after which watering on the longest day is called late, and
// earlyMin the time by which it should finish instead [min after midnight]: common
// practice is to water before the wind and heat of the day; our choice.
const (
	lateMin  = 10 * 60
	earlyMin = 8 * 60
)

// idleMin is the longest pause without an open valve in what counts as one stretch
// of watering [min]: an assumption by loamledger.
const idleMin = 120

// A Shift is how much earlier a late sheet must start to finish in the morning.
type Shift struct {
	Month             int     // 1 to 12: of the longest day
	FromMin, ToMin    float64 // of that day [min after midnight]
	EarlierMin        float64
	NewFromMin, ByMin float64 // the first valve opens then, maybe on the day before, and the last closes by then
}

// Text describes the shift.
func (s *Shift) Text(sys quantity.System) string {
	text := fmt.Sprintf("The longest day, in %s, waters from %s to %s. To finish by %s, start every program %s earlier: the first at %s",
		strategy.MonthNames[s.Month-1], ClockText(s.FromMin, sys), ClockText(s.ToMin, sys), ClockText(s.ByMin, sys), spanText(s.EarlierMin),
		ClockText(s.NewFromMin, sys))
	if s.NewFromMin < 0 {
		text += "; a start before midnight needs the days set one day earlier"
	}
	return text + "."
}

// shift finds how much earlier the sheet must start if its longest stretch of
// watering ends late, nil if none does, if a window sets the hours, or if no start
// within a day would do.
func (b *maker) shift() *Shift {
	if b.site.Limits != nil && windowRule(b.rules()) != nil {
		return nil
	}
	var out *Shift
	b.walk(func(d *day) {
		from, end, idle := d.table.Openings[0].FromMin, 0.0, 0.0
		for k, o := range d.table.Openings {
			if k > 0 {
				idle = max(idle, o.FromMin-end)
			}
			end = max(end, o.ToMin)
		}
		if from >= lateMin || end <= lateMin || idle > idleMin || end-from > clock.Day || out != nil && out.ToMin >= end {
			return
		}
		out = &Shift{Month: d.month + 1, FromMin: from, ToMin: end, EarlierMin: math.Ceil(end - earlyMin - 1e-9), ByMin: earlyMin}
		out.NewFromMin = from - out.EarlierMin
	})
	return out
}
