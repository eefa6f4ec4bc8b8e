// Package calendarfile writes reminders as an iCalendar file, which calendars on phones
// and computers read: RFC 5545. Equal reminders give equal bytes.
package calendarfile

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"loamledger/weather/cal"
	"loamledger/weather/visible"
)

// An Event is one reminder, for a whole day.
type Event struct {
	Key     string // tells it from the others of the calendar
	On      cal.Date
	Yearly  bool  // every year from On
	Months  []int // also on the first of these months, 1 to 12, every year; none for no others
	Summary string
	Text    string
}

// Write writes the events as a calendar of the given name, as of a date, which stands
// for the moment of writing. An error is that of w.
func Write(w io.Writer, name string, asOf cal.Date, events []Event) error {
	c := &writer{w: w}
	c.line("BEGIN:VCALENDAR")
	c.line("VERSION:2.0")
	c.line("PRODID:-//loamledger//reminders//EN")
	c.line("X-WR-CALNAME:" + escaped(name))
	for i := range events {
		e := &events[i]
		c.line("BEGIN:VEVENT")
		c.line(fmt.Sprintf("UID:%s-%s@loamledger", e.Key, compact(e.On)))
		c.line("DTSTAMP:" + compact(asOf) + "T000000Z")
		c.line("DTSTART;VALUE=DATE:" + compact(e.On))
		c.line("DTEND;VALUE=DATE:" + compact(e.On+1))
		switch {
		case len(e.Months) > 0:
			c.line("RRULE:FREQ=YEARLY;BYMONTH=" + numbers(e.Months) + ";BYMONTHDAY=1")
		case e.Yearly:
			c.line("RRULE:FREQ=YEARLY")
		}
		c.line("SUMMARY:" + escaped(e.Summary))
		if e.Text != "" {
			c.line("DESCRIPTION:" + escaped(e.Text))
		}
		c.line("TRANSP:TRANSPARENT")
		c.line("END:VEVENT")
	}
	c.line("END:VCALENDAR")
	return c.err
}

// numbers writes numbers with commas between them.
func numbers(list []int) string {
	texts := make([]string, len(list))
	for i, n := range list {
		texts[i] = fmt.Sprint(n)
	}
	return strings.Join(texts, ",")
}

// compact writes a date as RFC 5545, 3.3.4, wants it.
func compact(d cal.Date) string {
	y, m, day := d.YMD()
	return fmt.Sprintf("%04d%02d%02d", y, m, day)
}

// escaped writes a text as RFC 5545, 3.3.11, wants it.
func escaped(s string) string {
	return strings.NewReplacer(`\`, `\\`, ";", `\;`, ",", `\,`, "\n", `\n`).Replace(visible.Text(s))
}

type writer struct {
	w   io.Writer
	err error
}

// most is the length of a line without its end [bytes]: RFC 5545, 3.1.
const most = 75

// line writes a content line, folded between characters.
func (c *writer) line(s string) {
	for room := most; c.err == nil; room = most - 1 { // the space before a folded line counts
		n := len(s)
		if n > room {
			for n = room; !utf8.RuneStart(s[n]); n-- {
			}
		}
		if _, c.err = io.WriteString(c.w, s[:n]+"\r\n"); n == len(s) || c.err != nil {
			return
		}
		s = s[n:]
		_, c.err = io.WriteString(c.w, " ")
	}
}
