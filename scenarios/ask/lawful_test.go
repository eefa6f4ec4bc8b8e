package ask_test

import (
	"strings"
	"testing"

	"loamledger/scenarios/ask"
)

// Options keep the rules that today's settings break, so that they do not look
// thrifty for water that is forbidden.
func TestOptionsKeepTheRules(t *testing.T) {
	for _, tt := range []struct {
		a     ask.Answers
		lines []string // of the program by the rules; none if there is none
	}{
		{ask.Answers{Days: "mon, wed, fri", RuleDays: "mon-sat"}, nil},
		{ask.Answers{Days: "tue", RuleDays: "tue, sat", Starts: "21:00", RuleHours: "20:00-08:00"}, nil},
		{ask.Answers{Days: "mon, wed, fri", RuleDays: "tue, sat"}, []string{"days: [tue, sat]", `starts: ["05:00"]`}},
		{ask.Answers{Days: "every 2 days", RuleDays: "odd"}, []string{"days: odd"}},
		{ask.Answers{RuleHours: "20:00-04:00"}, []string{"days: [mon, wed, fri]", `starts: ["20:00"]`}},
		// Hand: 3 zones of 22 min take 66 min, in steps of 5 min 70 min.
		{ask.Answers{Starts: "12:00, 13:30", RuleHours: "8pm-8am", Zones: []ask.Zone{{Minutes: "22"}, {Minutes: "22"}, {Minutes: "22"}}},
			[]string{`starts: ["20:00", "21:10"]`}},
	} {
		_, r := read(t, tt.a)
		_, program, found := strings.Cut(string(r.YAML), "program A by the rules\n")
		program, _, _ = strings.Cut(program, "\n\n")
		if found != (tt.lines != nil) {
			t.Errorf("%+v:\n%s", tt.a, r.YAML)
		}
		for _, line := range tt.lines {
			if !strings.Contains(program, line+"\n") {
				t.Errorf("%+v: no %s in\n%s", tt.a, line, program)
			}
		}
		table := replayed(t, tt.a, 2)
		for s, b := range table.Breaches {
			if s > 0 && s < 4 && len(b) > 0 { // the fifth is today's, cut to the rules
				t.Errorf("%+v: strategy %d breaks the rules %d times", tt.a, s, len(b))
			}
		}
	}
}
