package study

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"loamledger/plots"
	"loamledger/sim/strategy"
	"loamledger/sim/tally"
	"loamledger/weather/cal"
)

// A Reminder is something to do on a day, once or every year.
type Reminder struct {
	Key    string `json:"key"`
	On     string `json:"on"` // a date
	Yearly bool   `json:"yearly"`
	What   string `json:"what"`
	How    string `json:"how,omitempty"`
	Months []int  `json:"months,omitempty"` // if it is for the first of several months

	date cal.Date
}

// Date is the day of the reminder, the first one of a yearly reminder.
func (r *Reminder) Date() cal.Date { return r.date }

// yearDay is a day of the year.
type yearDay struct{ month, day int }

// next returns the first such day on a date or after it.
func (d yearDay) next(from cal.Date) cal.Date {
	y := from.Year()
	day := min(d.day, cal.DaysIn(y, d.month)) // Feb 29
	if on := cal.Of(y, d.month, day); on >= from {
		return on
	}
	return cal.Of(y+1, d.month, min(d.day, cal.DaysIn(y+1, d.month)))
}

// seasonOf returns the first and the last day of watering under strategy s: its season
// or, without one, the months in which water was applied in the replay. ok is false if
// it waters all year or never.
func (l *Study) seasonOf(t *tally.Table, s int) (first, last yearDay, ok bool) {
	for _, p := range l.Job.Strategies[s].Parts {
		if part, is := p.(strategy.Season); is && part.Start > 0 && part.End > 0 {
			return yearDay{part.Start / 100, part.Start % 100}, yearDay{part.End / 100, part.End % 100}, true
		}
	}
	var wet [12]bool
	for z := range t.Zones {
		for i, span := range t.Spans {
			if m := t.Month(s, z, i); m.GrossMM > 0 {
				wet[span.Month-1] = true
			}
		}
	}
	begin := -1
	for m := range wet {
		if wet[m] && !wet[(m+11)%12] {
			begin = m
		}
	}
	if begin < 0 {
		return first, last, false
	}
	end := begin
	for wet[(end+1)%12] {
		end = (end + 1) % 12
	}
	return yearDay{begin + 1, 1}, yearDay{end + 1, cal.DaysIn(2001, end+1)}, true
}

// reminders lists what to do when, from a date on, for strategy s: the one that the
// verdict names.
func (l *Study) reminders(t *tally.Table, s int, from cal.Date) []Reminder {
	var list []Reminder
	add := func(key string, on cal.Date, yearly bool, what, how string) {
		list = append(list, Reminder{Key: key, On: on.String(), Yearly: yearly, What: what, How: how, date: on})
	}
	if d := l.Scenario.Decision; d != nil && d.By != nil {
		add("decision", *d.By, false, "Decision due"+byWhom(d.Who), "The first sheet of the report has the answer, the doubts and the options.")
	}
	first, last, ok := l.seasonOf(t, s)
	name := "“" + t.Strategies[s] + "”"
	begin := from
	if ok {
		begin = first.next(from)
		add("walk", max(begin-14, from), true, "Walk the system with the water on",
			"Look for leaks, broken and tilted heads, mist and wet pavement; have the backflow device tested where that is required.")
		add("measure", max(begin-7, from), true, "Measure flow and uniformity",
			"Read the meter over five minutes of each zone; set out catch cans in the largest zone. Enter both in the scenario and run it again.")
		add("rules", max(begin-7, from), true, "Ask the water provider for the rules in force", "Days, hours and drought stages.")
	}
	if s == t.Baseline {
		add("start", begin, ok, "Turn the system on and read the meter", "Write down date and reading, and the programs as they are set.")
	} else {
		add("start", begin, ok, "Enter the settings for "+name+" and read the meter", "The settings sheet has the values: loamledger settings.")
	}
	for k, days := range []cal.Date{14, 28} {
		add(fmt.Sprintf("look-%d", k+1), begin+days, ok, "Look at the plants, the driest spots first",
			"If they are thirsty, go back one step; if they are fine, take the next step. Two weeks a step is common practice, no source.")
	}
	list = append(list, l.monthlyReminders(s, from, first, last, ok)...)
	if ok {
		add("end", last.next(begin), true, "Turn the system off and read the meter", "Drain it where the ground freezes.")
	}
	for k, when := range []string{"12", "24"} {
		add("verify-"+when, yearsAfter(begin, k+1), false, "Compare metered use with the plan, after "+when+" months",
			"Replay the baseline on the weather of these months, and subtract what the meter shows. See Measuring the saving.")
	}
	slices.SortStableFunc(list, func(a, b Reminder) int { return cmp.Compare(a.date, b.date) })
	return list
}

// yearsAfter returns the same day n years later, the last of February for Feb 29.
func yearsAfter(d cal.Date, n int) cal.Date {
	y, m, day := d.YMD()
	return cal.Of(y+n, m, min(day, cal.DaysIn(y+n, m)))
}

func byWhom(who string) string {
	if who == "" {
		return ""
	}
	return ": " + who
}

// monthlyReminders are one for the reads of the meter in season, and one for each month
// with a new percentage.
func (l *Study) monthlyReminders(s int, from cal.Date, first, last yearDay, seasonal bool) (list []Reminder) {
	var share *[12]float64
	for _, p := range l.Job.Strategies[s].Parts {
		if part, is := p.(strategy.Monthly); is && !part.Auto {
			share = &part.Share
		}
	}
	reads := Reminder{Key: "read", Yearly: true, What: "Read the water meter, on the first of each month in season",
		How: "Write down date and reading.", date: math.MaxInt32}
	for m := 1; m <= 12; m++ {
		if seasonal && !inMonths(m, first.month, last.month) {
			continue
		}
		on := yearDay{m, 1}.next(from)
		reads.Months, reads.date = append(reads.Months, m), min(reads.date, on)
		if share != nil && share[m-1] != share[(m+10)%12] {
			list = append(list, Reminder{Key: fmt.Sprintf("month-%02d", m), On: on.String(), Yearly: true, date: on,
				What: fmt.Sprintf("Set the seasonal percentage to %.0f%%", 100*share[m-1])})
		}
	}
	reads.On = reads.date.String()
	return append(list, reads)
}

// inMonths reports whether a month is in a season that may span the new year.
func inMonths(m, first, last int) bool {
	if first <= last {
		return m >= first && m <= last
	}
	return m >= first || m <= last
}

// reminderView lists reminders by date.
func reminderView(list []Reminder) View {
	g := &Grid{Head: []string{"from", "how often", "what", "how"}, Columns: toTheRight(4, 4)}
	g.Columns[2].Width, g.Columns[3].Width = 40, 56
	for i := range list {
		often := "once"
		switch {
		case len(list[i].Months) > 0:
			often = "every month"
		case list[i].Yearly:
			often = "every year"
		}
		g.add(plots.DayText(list[i].date), often, list[i].What, list[i].How)
	}
	return View{Head: []string{"", "What to do when:", ""}, Grid: g}
}
