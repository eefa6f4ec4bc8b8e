package ask_test

import (
	"strings"
	"testing"

	"loamledger/scenarios/ask"
)

// answers returns answers with one answer, at a place that is asked.
func answers(at ask.At, text string) ask.Answers {
	var a ask.Answers
	asked(&a, at)
	a.Set(at, text)
	return a
}

func TestFaults(t *testing.T) {
	tests := []struct{ question, part, text, msg, fix string }{
		{"place", "position", "north", `"north" is not a number`, "write decimal degrees"},
		{"place", "position", "91", "outside -90 to 90", "write decimal degrees"},
		{"place", "position", "1, 2, 3", "not a latitude", "write decimal degrees"},
		{"place", "elevation", "high", "is not a number with a unit", "ft, in, m"},
		{"place", "elevation", "9000 m", "is outside", "6,000 m"},
		{"place", "climate", "mild", `unknown answer "mild"`, "desert, dry summer"},
		{"weather", "summer_high", "9", "is outside", "write a value from"},
		{"weather", "summer_high", "90 in", "not a unit of temperature", "use"},
		{"weather", "summer_high", "150 F", "is outside", "write a value from"},
		{"weather", "summer_high", "50 F", "not above its low", "correct one"},
		{"weather", "winter_high", "95 F", "warmer by day", "correct one"},
		{"weather", "winter_low", "70 F", "not above its low", "correct one"},
		{"weather", "file", "a\xff.csv", "not printable", "rename"},
		{"price", "rates", "a\tb.yaml", "not printable", "rename"},
		{"weather", "rain", "-3 in", "is outside", "write a value from"},
		{"zones", "area", "1,000", "comma", ""},
		{"zones", "area", "40 ft x 25 gal", "is not a unit", "40 ft x 25 ft"},
		{"zones", "area", "40 ft x 0 ft", "not above 0", "40 ft x 25 ft"},
		{"zones", "area", "0 ft2", "is outside", ""},
		{"zones", "plant", "corn maze", `unknown answer "corn maze"`, "cool lawn, warm lawn"},
		{"zones", "sprinkler", "hose", `unknown answer "hose"`, "spray, rotor"},
		{"zones", "flow", "9 ft", "is not a unit of flow", "gpm"},
		{"zones", "sun", "dim", `unknown answer "dim"`, "part shade"},
		{"zones", "name", "all", "is reserved", "choose another name"},
		{"zones", "name", "=1+1", "formula", "begin it"},
		{"soil", "texture", "mud", `unknown answer "mud"`, "silt loam"},
		{"soil", "ribbon", "4 in", `unknown answer "4 in"`, "no ball, none, short"},
		{"schedule", "days", "sometimes", "not a rule for days", ""},
		{"schedule", "days", "mon, mon", "duplicate day", "remove one"},
		{"schedule", "starts", "dawn", "not a time of day", "05:30"},
		{"schedule", "starts", "5", "could mean", "05:00"},
		{"schedule", "starts", "05:00, 5am", "duplicate start", "remove or change one"},
		{"schedule", "minutes", "12 in", "not a unit of time", "min"},
		{"schedule", "minutes", "1500", "is outside", "0 to 1440"},
		{"months", "on", "spring", `"spring" is not a month`, "Apr-Oct"},
		{"months", "on", "apr, jun, aug", "not in a row", "Apr-Oct"},
		{"timer", "percent", "3%", `unknown answer "3%"`, "5%"},
		{"price", "price", "6.50", "not a price of a volume", "$6.50 per kgal"},
		{"price", "price", "6.50 per kgal", "no currency", "$6.50 per kgal"},
		{"price", "price", "$6.50 per bucket", `"bucket" is not a unit of volume`, "$6.50 per kgal"},
		{"price", "price", "$0 per kgal", "not above 0", "$6.50 per kgal"},
		{"price", "price", "$3 EUR per kgal", "currency twice", "$6.50 per kgal"},
		{"rules", "days", "never", "not a rule for days", ""},
		{"rules", "hours", "evening", "not a time range", "20:00-06:00"},
		{"slope", "slope", "9%", `unknown answer "9%"`, "gentle"},
	}
	for _, tt := range tests {
		at := ask.At{Question: tt.question, Part: tt.part, Zone: -1}
		if !func() bool { b := ask.Answers{}; return b.Set(at, "") }() {
			at.Zone = 0
		}
		a := answers(at, tt.text)
		r, faults := ask.Scenario(a)
		if len(faults) != 1 || faults[0].At != at || r.YAML != nil {
			t.Errorf("%s %s %q: %+v", tt.question, tt.part, tt.text, faults)
			continue
		}
		if f := faults[0]; !strings.Contains(f.Msg, tt.msg) || !strings.Contains(f.Fix, tt.fix) || f.Fix == "" || f.Code == "" {
			t.Errorf("%s %s %q: %s; fix: %s", tt.question, tt.part, tt.text, f.Msg, f.Fix)
		}
	}
}

// All errors are reported at once, in the order of the questions.
func TestAllFaultsAtOnce(t *testing.T) {
	a := ask.Answers{
		Position: "x", Elevation: "5 s", Climate: "x", Figures: "yes",
		SummerHigh: "x", SummerLow: "x", WinterHigh: "x", WinterLow: "x", YearRain: "x",
		Zones: []ask.Zone{{Name: "=", Area: "x", Plant: "x", Sprinkler: "x", Flow: "x", Sun: "x", Minutes: "x"},
			{Name: "bed", Area: "5 s", Minutes: "x", Days: "x"}, {Name: "Bed"}},
		Ribbon: "x", Days: "x", Starts: "x", SameDays: "no", Months: "x", Cycle: "x", PercentStep: "x", Price: "x", RuleDays: "x", RuleHours: "x",
		Slope: "x",
	}
	_, faults := ask.Scenario(a)
	found := map[ask.At]bool{}
	for _, f := range faults {
		if f.Question == "" && !strings.Contains(f.Msg, "more errors") || found[f.At] {
			t.Errorf("%+v", f)
		}
		found[f.At] = true
	}
	if len(faults) < 25 {
		t.Errorf("%d errors: %+v", len(faults), faults)
	}
	order := map[string]int{}
	for i, q := range ask.Questions() {
		order[q.ID] = i
	}
	for i := 1; i < len(faults); i++ {
		if faults[i].Question != "" && order[faults[i].Question] < order[faults[i-1].Question] {
			t.Errorf("%+v after %+v", faults[i], faults[i-1])
		}
	}
}

func TestTooManyZones(t *testing.T) {
	_, faults := ask.Scenario(ask.Answers{Zones: make([]ask.Zone, ask.MaxZones+1)})
	if len(faults) != 1 || !strings.Contains(faults[0].Msg, "49 zones are more than 48") {
		t.Errorf("%+v", faults)
	}
	if _, faults := ask.Scenario(ask.Answers{Zones: make([]ask.Zone, ask.MaxZones)}); len(faults) != 0 {
		t.Errorf("%+v", faults)
	}
}

// What is read but probably a mistake is a warning at its answer.
func TestWarnings(t *testing.T) {
	r, faults := ask.Scenario(ask.Answers{Zones: []ask.Zone{{Area: "20 x 30"}, {Area: "300 x 4000", Flow: "900"}}})
	if len(faults) > 0 || len(r.Warnings) != 1 || r.Warnings[0].At != (ask.At{Question: "zones", Part: "area", Zone: 1}) ||
		!strings.Contains(r.Warnings[0].Text, "usual range") || strings.Contains(r.Warnings[0].Text, "zone 2") {
		t.Errorf("%+v %+v", faults, r.Warnings)
	}
}
