package calendarfile

import (
	"bytes"
	"strings"
	"testing"
	"unicode/utf8"

	"loamledger/weather/cal"
)

// TestCalendar by hand from RFC 5545: 3.6 (a calendar and its events), 3.3.4 (dates),
// 3.3.11 (escapes of backslash, semicolon, comma and line feed), 3.3.10 and 3.8.5.3 (rules of a year, and of some months).
func TestCalendar(t *testing.T) {
	var b bytes.Buffer
	err := Write(&b, "Dry Fork; all", cal.Of(2026, 3, 1), []Event{
		{Key: "season-start", On: cal.Of(2026, 4, 15), Yearly: true, Summary: "Turn on, then look", Text: "one\ntwo\\"},
		{Key: "decision", On: cal.Of(2026, 12, 31), Summary: "Decide"},
		{Key: "read", On: cal.Of(2026, 5, 1), Yearly: true, Months: []int{4, 5}, Summary: "Read"},
	})
	want := strings.Join([]string{
		"BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//loamledger//reminders//EN", `X-WR-CALNAME:Dry Fork\; all`,
		"BEGIN:VEVENT", "UID:season-start-20260415@loamledger", "DTSTAMP:20260301T000000Z", "DTSTART;VALUE=DATE:20260415",
		"DTEND;VALUE=DATE:20260416", "RRULE:FREQ=YEARLY", `SUMMARY:Turn on\, then look`, `DESCRIPTION:one\ntwo\\`, "TRANSP:TRANSPARENT",
		"END:VEVENT",
		"BEGIN:VEVENT", "UID:decision-20261231@loamledger", "DTSTAMP:20260301T000000Z", "DTSTART;VALUE=DATE:20261231",
		"DTEND;VALUE=DATE:20270101", "SUMMARY:Decide", "TRANSP:TRANSPARENT", "END:VEVENT",
		"BEGIN:VEVENT", "UID:read-20260501@loamledger", "DTSTAMP:20260301T000000Z", "DTSTART;VALUE=DATE:20260501",
		"DTEND;VALUE=DATE:20260502", "RRULE:FREQ=YEARLY;BYMONTH=4,5;BYMONTHDAY=1", "SUMMARY:Read", "TRANSP:TRANSPARENT", "END:VEVENT",
		"END:VCALENDAR", "",
	}, "\r\n")
	if err != nil || b.String() != want {
		t.Errorf("%v\n%s\nwant\n%s", err, b.String(), want)
	}
}

// TestFolding: no line has more than 75 bytes, none breaks a character, and unfolding
// gives the text back (RFC 5545, 3.1).
func TestFolding(t *testing.T) {
	for _, text := range []string{strings.Repeat("x", 66), strings.Repeat("x", 67), strings.Repeat("é", 200), strings.Repeat("草", 99)} {
		var b bytes.Buffer
		c := &writer{w: &b}
		c.line("SUMMARY:" + text)
		for _, line := range strings.Split(strings.TrimSuffix(b.String(), "\r\n"), "\r\n") {
			if len(line) > 75 || !utf8.ValidString(line) {
				t.Errorf("line of %d bytes: %q", len(line), line)
			}
		}
		if got := strings.ReplaceAll(strings.TrimSuffix(b.String(), "\r\n"), "\r\n ", ""); got != "SUMMARY:"+text || c.err != nil {
			t.Errorf("unfolded %q", got)
		}
	}
}
