package settings

import (
	"fmt"
	"slices"
	"strings"

	"loamledger/sim/strategy"
	"loamledger/sim/timer"
	"loamledger/weather/quantity"
)

// Refusals lists what of the sheet does not fit a timer.
func (s *Sheet) Refusals(p *timer.Profile) []timer.Refusal {
	top := slices.Max(s.Percent[:])
	if top <= 0 {
		top = 1
	}
	return p.Check(s.Programs, s.Percent, top)
}

// Nearest completes the refusals of a sheet with what a sheet that fits has
// instead.
func Nearest(refused []timer.Refusal, fits *Sheet) []timer.Refusal {
	out := slices.Clone(refused)
	for i := range out {
		out[i].Nearest = fits.insteadOf(&out[i])
	}
	return out
}

// insteadOf describes what the sheet has instead of what was refused.
func (s *Sheet) insteadOf(r *timer.Refusal) string {
	p := s.holding(r.Program)
	switch {
	case r.Reason == timer.TooManyPrograms:
		text := quantity.Count(len(s.Programs), "program", "programs")
		var into []string
		for _, m := range s.Merged {
			if q := s.holding(m.Into); q != nil {
				into = append(into, fmt.Sprintf("%s run as one program, %s", quotedList(m.Of), strategy.DaysText(q.Days)))
			}
		}
		if len(into) > 0 {
			text += ": " + strings.Join(into, "; ")
		}
		return text
	case r.Reason == timer.PercentOffStep:
		if share := s.Percent[r.Month-1]; share > 0 {
			return quantity.Number(100*share, 1) + "%"
		}
		return "off"
	case p == nil:
		return fmt.Sprintf("%s below, each with %s", quantity.Count(len(s.Programs), "program", "programs"), s.startsRange())
	case r.Reason == timer.RunTooShort:
		return MinutesText(p.Minutes[r.Zone]) + " min"
	case r.Reason == timer.NoCycle && len(p.Starts) == 1:
		return fmt.Sprintf("one run of up to %s min without a soak; water may run off", MinutesText(slices.Max(p.Minutes)))
	}
	return fmt.Sprintf("%s with runs of up to %s min", quantity.Count(len(p.Starts), "start time", "start times"),
		MinutesText(slices.Max(p.Minutes)))
}

// startsRange counts the start times of the programs.
func (s *Sheet) startsRange() string {
	low, high := len(s.Programs[0].Starts), 0
	for i := range s.Programs {
		low, high = min(low, len(s.Programs[i].Starts)), max(high, len(s.Programs[i].Starts))
	}
	if low < high {
		return fmt.Sprintf("%d to %d start times", low, high)
	}
	return quantity.Count(high, "start time", "start times")
}

// holding returns the program of a name, or the one into which it was merged; nil
// if there is none.
func (s *Sheet) holding(name string) *strategy.Program {
	for _, m := range s.Merged {
		if slices.Contains(m.Of, name) {
			name = m.Into
		}
	}
	for i := range s.Programs {
		if s.Programs[i].Name == name {
			return &s.Programs[i]
		}
	}
	return nil
}

func quotedList(names []string) string {
	var out []string
	for _, n := range names {
		out = append(out, fmt.Sprintf("%q", n))
	}
	return strings.Join(out, " and ")
}

// RefusalTexts describes what does not fit a timer, each with what fits instead.
// Months are listed in one line. The lines begin without a capital.
func RefusalTexts(refused []timer.Refusal, zones []string) (lines []string) {
	var months []string
	step := 0.0
	for i := range refused {
		r := &refused[i]
		if r.Reason == timer.PercentOffStep {
			text := fmt.Sprintf("%s %s%%", strategy.MonthNames[r.Month-1], quantity.Number(100*r.Asked, 1))
			if r.Nearest != "" {
				text += " → " + r.Nearest
			}
			months, step = append(months, text), r.Has
			continue
		}
		line := r.Text(zones)
		if r.Nearest != "" {
			line += ". Nearest: " + r.Nearest
		}
		lines = append(lines, line+".")
	}
	if len(months) > 0 {
		lines = append(lines, fmt.Sprintf("percentages between the timer's steps of %s%%: %s.", quantity.Number(100*step, 1),
			strings.Join(months, ", ")))
	}
	return lines
}
