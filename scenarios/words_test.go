package scenarios

import (
	"slices"
	"testing"
)

// Hand: what each phrase says; a count of days does not say which, an interval not
// when it begins.
func TestDaysMeant(t *testing.T) {
	every := interval
	for _, tt := range []struct {
		text  string
		want  []string
		clear bool
	}{
		{"Daily", []string{"any"}, true}, {"every day", []string{"any"}, true}, {"every 1 day", []string{"any"}, true},
		{"7 x week", []string{"any"}, true}, {"odd days", []string{"odd"}, true},
		{"every 3 days", []string{every(3)}, false}, {"3 days", []string{every(3)}, false}, {"every third day", []string{every(3)}, false},
		{"every other day", []string{every(2), "odd", "even"}, false}, {"every 2nd day", []string{every(2), "odd", "even"}, false},
		{"every 2 weeks", []string{every(14)}, false}, {"biweekly", []string{"[mon, thu]", "[tue, fri]", every(14)}, false},
		{"2 x week", []string{"[mon, thu]", "[tue, fri]"}, false}, {"2x/week", []string{"[mon, thu]", "[tue, fri]"}, false},
		{"Twice a week", []string{"[mon, thu]", "[tue, fri]"}, false}, {"2 \u00d7 week", []string{"[mon, thu]", "[tue, fri]"}, false},
		{"three times per week", []string{"[mon, wed, fri]", "[tue, thu, sat]"}, false}, {"weekly", []string{"[wed]", "[sat]"}, false},
		{"tue, sat", []string{"[tue, sat]"}, true}, {"mon/wed/fri", []string{"[mon, wed, fri]"}, true},
		{"Tuesdays and Saturday", []string{"[tue, sat]"}, true}, {"MWF", []string{"[mon, wed, fri]"}, true},
		{"TTh", []string{"[tue, thu]"}, true}, {"mon-fri", []string{"[mon, tue, wed, thu, fri]"}, true},
		{"fri to mon", []string{"[fri, sat, sun, mon]"}, true}, {"weekends", []string{"[sat, sun]"}, true},
		{"M T", []string{"[mon, tue]", "[mon, thu]"}, false}, {"S", []string{"[sat]", "[sun]"}, false},
		{"sometimes", nil, false}, {"", nil, false}, {"8 x week", nil, false}, {"mon to", nil, false}, {"0 x week", nil, false},
	} {
		got, clear := daysMeant(tt.text)
		if !slices.Equal(got, tt.want) || clear != tt.clear && len(got) > 0 {
			t.Errorf("%q: %q, %v; want %q, %v", tt.text, got, clear, tt.want, tt.clear)
		}
	}
}

// Hand: minutes after midnight. 330 is 03:30 without its colon, or 330 minutes,
// as some programs save 5:30.
func TestClockMeant(t *testing.T) {
	for text, want := range map[string][]int{
		"05:30": {330}, "5:30": {330}, "0530": {330}, "4:30am": {270}, "4:30 AM": {270}, "4:30 p.m.": {990}, "12am": {0}, "12:15 pm": {735},
		"6 pm": {1080}, "noon": {720}, "16": {960}, "0": {0}, "5": {300, 1020}, "12": {0, 720}, "330": {210, 330}, "1630": {990},
		"1230": {750, 1230}, "24:00": nil, "13 pm": nil, "0 am": nil, "5:3": nil, "": nil, "5.30": nil, "99": nil,
	} {
		if got := clockMeant(text); !slices.Equal(got, want) {
			t.Errorf("%q: %v, want %v", text, got, want)
		}
	}
}

// Hand: 100 times the month, and the day.
func TestYearDays(t *testing.T) {
	for text, want := range map[string][]int{
		"05-01": {501}, "5-1": {501}, "May 1": {501}, "1 May": {501}, "sept. 15th": {915}, "4/15": {415}, "15/4": {415}, "5/1": {501, 105},
		"5/5": {505}, "02-29": {229}, "02-30": nil, "13-01": nil, "May": nil, "2012-05-01": nil, "ma 1": nil,
	} {
		if got := yearDays(text); !slices.Equal(got, want) {
			t.Errorf("%q: %v, want %v", text, got, want)
		}
	}
}
