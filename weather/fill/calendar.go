package fill

import (
	"loamledger/weather"
	"loamledger/weather/cal"
)

// yearSlots is the length of a leap year, so that a date has the same slot
// every year.
const yearSlots = 366

// leapSlot is the slot of February 29.
const leapSlot = 59

// calendar caches the year and slot of each day.
type calendar struct {
	year  []int16
	month []int8
	slot  []int16 // 0 to 365 in a leap year's calendar
}

func newCalendar(s *weather.Series) *calendar {
	c := &calendar{year: make([]int16, s.Days), month: make([]int8, s.Days), slot: make([]int16, s.Days)}
	y, m, d := s.Start.YMD()
	slot := slotOf(s.Start)
	days := cal.DaysIn(y, m)
	for i := range s.Days {
		c.year[i], c.month[i], c.slot[i] = int16(y), int8(m), int16(slot)
		slot++
		if d++; d > days {
			if m++; m > 12 {
				y, m, slot = y+1, 1, 0
			}
			if m == 3 {
				slot = leapSlot + 1 // Skip February 29, which the year may not have.
			}
			d, days = 1, cal.DaysIn(y, m)
		}
	}
	return c
}

func slotOf(d cal.Date) int {
	slot := d.YearDay() - 1
	if !cal.IsLeap(d.Year()) && slot >= leapSlot {
		slot++
	}
	return slot
}
