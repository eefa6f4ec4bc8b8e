package catalog

import (
	"strings"
	"testing"
)

// TestMeasuresAreDefinitions: each has lines to paste, settings that say how sure they
// are and why, and what field studies found or that none was consulted.
func TestMeasuresAreDefinitions(t *testing.T) {
	names := map[string]bool{}
	for _, m := range Measures() {
		if names[m.Name] || m.Name == "" || m.What == "" || len(m.YAML) == 0 || len(m.Settings) == 0 || len(m.Found) == 0 ||
			(m.Before == "") != (m.Against == "") {
			t.Errorf("%q is not defined, or twice", m.Name)
		}
		names[m.Name] = true
		for _, s := range m.Settings {
			if s.Key == "" || s.Value == "" || s.Source == "" {
				t.Errorf("%s: %+v has no value or no source", m.Name, s)
			}
			if ours := strings.Contains(s.Source, "our choice"); ours && s.Grade != Guess && s.Grade != Measured {
				t.Errorf("%s: %s is our choice, graded %v", m.Name, s.Key, s.Grade)
			}
		}
	}
	for _, m := range Measures() {
		for _, f := range m.Found {
			if f.What == "" || f.Source == "" || f.Seen.String() == "" {
				t.Errorf("%s: %+v has no words or no source", m.Name, f)
			}
		}
	}
	if len(names) < 16 {
		t.Errorf("%d measures", len(names))
	}
}
