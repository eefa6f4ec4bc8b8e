package study

import (
	"strings"
	"testing"

	"loamledger/scenarios"
)

// Runoff figures from default intake rates have a caution with a code. A given
// intake rate has none, nor has a zone watered more slowly than the slowest lawn
// took water in, 0.16 in/h = 4.06 mm/h.
func TestDefaultIntakesAreCautioned(t *testing.T) {
	given := "soil: {name: clay loam, intake: 9 mm/h}"
	for _, tt := range []struct {
		name, old, new string
		zones          float64
		zone           string // if there is one
	}{
		{"both zones", "", "", 2, ""},
		{"one given", "soil: clay loam", given, 1, "back"},
		{"one slow", "rate: 14 mm/h", "rate: 4.05 mm/h", 1, "front"},
	} {
		st := yard(t, 1)
		st.Scenario = readYard(t, strings.Replace(yardText, tt.old, tt.new, 1))
		got := st.defaultIntakes()
		if len(got) != 1 || got[0].Code != scenarios.DefaultIntake || got[0].Value != tt.zones || got[0].Zone != tt.zone {
			t.Errorf("%s: %+v", tt.name, got)
		}
		if lines := st.intakeLines(); len(lines) != 1 || !strings.Contains(lines[0], "4.06 mm/h") && !strings.Contains(lines[0], "4.1 mm/h") {
			t.Errorf("%s: %q", tt.name, lines)
		}
	}
	st := yard(t, 1)
	st.Scenario = readYard(t, strings.NewReplacer("soil: clay loam", given, "soil: loam", given).Replace(yardText))
	if got := st.defaultIntakes(); got != nil {
		t.Errorf("both are given: %+v", got)
	}
}
