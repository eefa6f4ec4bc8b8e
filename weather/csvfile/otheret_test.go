package csvfile

import (
	"strings"
	"testing"
)

// TestOtherETColumnsAreNamed: an ET column that is not read as reference ET is
// named with the reason; a file without one names none.
func TestOtherETColumnsAreNamed(t *testing.T) {
	for name, want := range map[string]string{
		"azmet.csv": "eto_azmet is not used: an older method", "coagmet.csv": "et_asce is not used: it is the tall reference",
		"knmi.txt": "EV24 is not used: it is Makkink", "own.csv": "",
	} {
		rec, err := Read(strings.NewReader(fixture(t, name)), name, Options{})
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if got := strings.Join(rec.OtherET, "; "); !strings.HasPrefix(got, want) || want == "" && got != "" {
			t.Errorf("%s: %q, want %q", name, got, want)
		}
	}
}
