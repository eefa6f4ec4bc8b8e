package scenarios_test

import (
	"errors"
	"strings"
	"testing"

	"loamledger/scenarios/yamlfile"
	"loamledger/weather/diag"
)

// Schedules that no controller can run as written, one at a time, in a scenario
// without errors. A zone of 20 min in cycles of 8 min with soaks of 30 min takes
// 8 + 30 + 8 + 30 + 4 = 80 min.
func TestSchedulesThatCannotBeRun(t *testing.T) {
	const zones = `  - {name: front lawn, area: 2400 ft2, plant: cool-season turf, sprinkler: spray}
  - {name: bed, area: 600 ft2, plant: desert plants, sprinkler: {kind: drip, flow: 4 gpm}}`
	const strategies = "  - {name: as found, programs: [lawns], refill: {zones: [bed]}}\n"
	sound := around(zones, strategies)
	second := func(days, start string) string {
		return "  - {name: more, days: " + days + `, starts: ["` + start + `"], minutes: {front lawn: 5}}` + "\nstrategies:\n" +
			"  - {name: as found, programs: [lawns, more]}\n  - {name: again, programs: [lawns, more]}\n"
	}
	tests := []struct {
		name, old, new string
		code           diag.Code // "" for none
		want           string
	}{
		{"sound", "", "", "", ""},
		{"starts 79 min apart", `["05:30"]`, `["06:49", "05:30"]`, diag.CannotFinish,
			`yard.yaml:8:45: program "lawns" starts at 06:49 before its start at 05:30 has finished, which takes 80 min with its soaks`},
		{"starts 80 min apart", `["05:30"]`, `["05:30", "06:50"]`, "", ""},
		{"one run of 20 min", `["05:30"], minutes: {front lawn: 20}, cycle: 8 min`, `["05:30", "05:50"], minutes: {front lawn: 20}`, "", ""},
		{"two zones one after the other", `["05:30"], minutes: {front lawn: 20}, cycle: 8 min`,
			`["05:00", "05:30"], minutes: {front lawn: 20, bed: 15}`, diag.Conflict, ``}, // the bed has a refill, which is told first
		// 05:30 + 1,000 min is 22:10; the next day of the program begins at 05:30.
		{"through midnight", `minutes: {front lawn: 20}, cycle: 8 min`, `minutes: {front lawn: 1000}`, "", ""},
		// Days mon and wed are two days apart: 2,880 min.
		{"until two days later", `starts: ["05:30"], minutes: {front lawn: 20}, cycle: 8 min`,
			`starts: ["23:00"], minutes: {front lawn: 1440}`, "", ""},
		{"into its next day", `days: [mon, wed], starts: ["05:30"], minutes: {front lawn: 20}, cycle: 8 min`,
			`days: any, starts: ["04:00", "22:00"], minutes: {front lawn: 500}`, diag.CannotFinish,
			`yard.yaml:8:38: program "lawns" has not finished its start at 22:00, which takes 500 min, when its next day begins at 04:00`},
		// 2 · 800 = 1,600 min.
		{"more than a day", `["05:30"], minutes: {front lawn: 20}, cycle: 8 min`, `["00:00", "12:00"], minutes: {front lawn: 800}`,
			diag.CannotFinish,
			`yard.yaml:8:87: program "lawns": 2 starts of 800 min water zone "front lawn" for 1,600 min a day; a day has 1,440 min`},
		// 600/0.5 = 1,200 cycles.
		{"cycles of seconds", "{front lawn: 20}, cycle: 8 min", "{front lawn: 600}, cycle: 0.5 min", diag.CannotFinish,
			`yard.yaml:8:78: program "lawns": 600 min in cycles of 0.5 min are 1,200 cycles for zone "front lawn"; the maximum is 200`},
		{"a refill that takes days", "flow: 4 gpm", "rate: 0.01 in/h", diag.CannotFinish, ``},
		{"a refill in cycles of seconds", "refill: {zones: [bed]}", "refill: {zones: [bed], cycle: 0.5 min}", diag.CannotFinish, ``},
		// The lawn is watered from 05:30 to 05:38, 06:08 to 06:16 and 06:46 to 06:50.
		{"two programs at once", "strategies:\n" + strategies, second("[wed]", "06:10"), diag.Conflict,
			`yard.yaml:9:39: programs "lawns" and "more" both water zone "front lawn" at 06:10 on the same day`},
		// The habit raises 5 times by a fifth: a factor of 2. 20 min · 1,000% · 1,000% · 2 = 4,000 min.
		{"percentages at their highest", "cycle: 8 min}\nstrategies:\n" + strategies, "cycle: 0.5 min}\nstrategies:\n" +
			"  - {name: as found, programs: [lawns], zone_percent: {front lawn: 1000%}, et_percent: {max: 1000%},\n" +
			"     habit: {edits: 0, raise_by: 20%, steps: 5}}\n", diag.CannotFinish,
			`yard.yaml:8:90: strategy "as found": program "lawns" can water zone "front lawn" for 4,000 min in one start, with every percentage ` +
				`at its highest; in cycles of 0.5 min, these are 8,000 cycles; the maximum is 2,000`},
		// 20 min · 1,000% · 500% = 1,000 min: 2,000 cycles.
		{"percentages at the maximum", "cycle: 8 min}\nstrategies:\n" + strategies, "cycle: 0.5 min}\nstrategies:\n" +
			"  - {name: as found, programs: [lawns], zone_percent: {front lawn: 1000%}, et_percent: {max: 500%}}\n", "", ""},
		// A spray of 1 in/h or more, changed to 0.01 in/h: 20 min · 100 = 2,000 min or more.
		{"a day too short after a change", strategies, "  - {name: as found, programs: [lawns], " +
			"changes: [{zones: front lawn, sprinkler: {rate: 0.01 in/h}}]}\n", diag.CannotFinish, ``},
		{"two manual runs at once", strategies, "  - {name: as found, programs: [lawns], manual: [{date: 2014-07-03, zone: front lawn, " +
			"minutes: 60 min, at: \"18:00\"}, {date: 2014-07-03, zone: front lawn, minutes: 15 min, at: \"18:59\"}]}\n", diag.Conflict,
			`yard.yaml:10:75: strategy "as found": two manual runs water zone "front lawn" at the same time on 2014-07-03`},
		{"two manual runs one after the other", strategies,
			"  - {name: as found, programs: [lawns], manual: [{date: 2014-07-03, zone: front lawn, " +
				"minutes: 60 min, at: \"18:00\"}, {date: 2014-07-03, zone: front lawn, minutes: 15 min, at: \"19:00\"}]}\n", "", ""},
		{"a refill of the whole TAW", "refill: {zones: [bed]}",
			"refill: {zones: [bed], mad: 1%, assumed_rate: 10%, share: 150%, cycle: 0.5 min}",
			diag.CannotFinish, ``},
		{"during the soak of the other", "strategies:\n" + strategies, second("[wed]", "05:50"), "", ""},
		{"on other days", "strategies:\n" + strategies, second("[tue, sun]", "06:10"), "", ""},
		{"on odd days, which may be wednesdays", "strategies:\n" + strategies, second("odd", "06:10"), diag.Conflict,
			`yard.yaml:9:37: programs "lawns" and "more" both water zone "front lawn" at 06:10 on the same day`},
		{"no minute in the window", "strategies:\n" + strategies, "limits: {window: \"20:00-04:00\"}\nstrategies:\n" + strategies +
			"  - {name: less, programs: [lawns], refill: {zones: [bed]}, monthly: auto}\n", diag.DoesNotFit,
			`yard.yaml:8:45: program "lawns" of strategy "less": no minute of zone "front lawn" falls inside the watering window`},
		{"the baseline alone is outside the window", "strategies:\n" + strategies, "limits: {window: \"20:00-04:00\"}\nstrategies:\n" +
			strategies, "", ""},
		{"outside the window, but not bound", "strategies:\n" + strategies, "limits: {window: \"20:00-04:00\"}\nstrategies:\n" + strategies +
			"  - {name: less, programs: [lawns], limits: none}\n", "", ""},
		{"some minutes in the window", "strategies:\n" + strategies, "limits: {window: \"06:00-07:00\"}\nstrategies:\n" + strategies +
			"  - {name: less, programs: [lawns], refill: {zones: [bed]}}\n", "", ""},
	}
	for _, tt := range tests {
		if !strings.Contains(sound, tt.old) {
			t.Fatalf("%s: the scenario does not hold %q", tt.name, tt.old)
		}
		_, err := yamlfile.Read(strings.NewReader(strings.Replace(sound, tt.old, tt.new, 1)), "yard.yaml", files(nil).open)
		var many *diag.Errors
		switch {
		case tt.code == "":
			if err != nil {
				t.Errorf("%s: %v", tt.name, err)
			}
			continue
		case !errors.As(err, &many) || many.List[0].Code != tt.code:
			t.Errorf("%s: got %v, want %s", tt.name, err, tt.code)
			continue
		case len(many.List) > 1:
			t.Errorf("%s: %d errors for one mistake: %v", tt.name, len(many.List), err)
		}
		one := many.List[0]
		if got := one.Pos.String() + ": " + one.Msg; tt.want != "" && got != tt.want || one.Fix == "" || one.Pos.Line == 0 {
			t.Errorf("%s: got\n%s\nwant\n%s", tt.name, got, tt.want)
		}
	}
}

// A new rule about days that leaves a program without one is a warning: what it does
// is worth a replay.
func TestProgramOnForbiddenDays(t *testing.T) {
	text := around("  - {name: front lawn, area: 2400 ft2, plant: cool-season turf, sprinkler: spray}",
		asFound+"  - {name: months, programs: [lawns], monthly: auto}\nlimits: {days: [sat]}\n")
	sc := mustRead(t, text, nil)
	const want = `yard.yaml:7:45: program "lawns" of strategy "months" runs on none of the days that the limits allow, so that zone ` +
		`"front lawn" gets no water from it`
	if len(sc.Warnings) != 1 || sc.Warnings[0].String() != want {
		t.Errorf("got %v", sc.Warnings)
	}
}
