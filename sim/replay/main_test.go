package replay_test

import (
	"flag"
	"os"
	"testing"
)

// TestMain gives the property tests a fixed seed, so that a run can be
// repeated; -rapid.seed and -rapid.checks on the command line still win.
func TestMain(m *testing.M) {
	for name, value := range map[string]string{"rapid.seed": "20260704", "rapid.checks": "200", "rapid.nofailfile": "true"} {
		if err := flag.Set(name, value); err != nil {
			panic("replay_test: no flag " + name)
		}
	}
	os.Exit(m.Run())
}
