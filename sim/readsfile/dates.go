package readsfile

import (
	"fmt"
	"slices"
	"strings"
	"time"
)

// dateLayouts are ways to write a day that a spreadsheet or a bill has; a text that fits
// two of them with different days is ambiguous.
var dateLayouts = [...]string{"2006/1/2", "2006-1-2", "2006.1.2", "20060102", "1/2/2006", "2/1/2006", "1-2-2006", "2-1-2006", "2.1.2006",
	"1/2/06", "2/1/06", "2 Jan 2006", "2-Jan-2006", "2-Jan-06", "Jan 2 2006", "Jan 2, 2006", "2 January 2006", "January 2 2006",
	"January 2, 2006",
	"2006-01-02T15:04:05", "2006-01-02 15:04:05", "2006-01-02 15:04"}

// dateFix says how to write the day that a text may mean. A day and a month that could
// change places are never guessed.
func dateFix(text string) string {
	var days []string
	for _, layout := range dateLayouts {
		if t, err := time.Parse(layout, strings.TrimSpace(text)); err == nil {
			if day := t.Format("2006-01-02"); !slices.Contains(days, day) {
				days = append(days, day)
			}
		}
	}
	switch len(days) {
	case 0:
		return "write year, month and day, such as 2024-01-31"
	case 1:
		return fmt.Sprintf("write year, month and day: %s", days[0])
	}
	return fmt.Sprintf("write year, month and day: %s, whichever it is", strings.Join(days, " or "))
}
