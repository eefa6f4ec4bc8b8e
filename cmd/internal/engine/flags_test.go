package engine

import (
	"os"
	"strings"
	"testing"
)

// The script of a release builds the engine as the command does.
func TestScriptHasTheSameFlags(t *testing.T) {
	text, err := os.ReadFile("../../../.ci/engine")
	if err != nil {
		t.Skipf("the scripts are not here: %v", err)
	}
	plain := strings.Join(strings.Fields(strings.NewReplacer("'", "", "\\\n", " ").Replace(string(text))), " ")
	if want := strings.Join(Flags(), " "); !strings.Contains(plain, want) {
		t.Errorf(".ci/engine does not have %s", want)
	}
}
