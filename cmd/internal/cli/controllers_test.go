package cli_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// ocotilloRows writes the sample site with two controllers and an added strategy to a folder.
func ocotilloRows(t *testing.T, strategy string) string {
	t.Helper()
	const folder = "../../../scenarios/examples/"
	dir := t.TempDir()
	name := filepath.Join(dir, "rows.yaml")
	for to, text := range map[string][]byte{
		name: append(read(t, folder+"ocotillo-rows.yaml"), strategy...),
		filepath.Join(dir, "ocotillo-rows-weather.csv"): read(t, folder+"ocotillo-rows-weather.csv"),
	} {
		if err := os.WriteFile(to, text, 0o666); err != nil {
			t.Fatal(err)
		}
	}
	return name
}

// A balance that would water after the hours of clock B, which end at 06:00, waters none of
// its zones; the sheet does not say that the strategy leaves them out.
func TestZonesOutsideTheHoursOfTheirController(t *testing.T) {
	name := ocotilloRows(t, "  - {name: late, refill: {zones: all, mad: 50%, at: \"06:30\"}}\n")
	got := done(t, "settings", name, "--strategy", "late")
	for _, want := range []string{"CONTROLLER CLOCK A", "street shrubs: no water, since the strategy applied no water to it in the record"} {
		if !strings.Contains(got, want) {
			t.Errorf("%q is not in\n%s", want, got)
		}
	}
}
