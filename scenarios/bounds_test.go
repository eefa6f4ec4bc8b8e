package scenarios_test

import (
	"errors"
	"strings"
	"testing"

	"loamledger/scenarios/yamlfile"
	"loamledger/weather/diag"
)

// Numbers that are above 0, but by a slip of the pen: each is refused where it is
// written, with the least value that is accepted.
func TestNumbersNextToNothing(t *testing.T) {
	const zones = "  - {name: front lawn, area: 2400 ft2, plant: cool-season turf, sprinkler: spray}"
	sound := around(zones, asFound)
	tests := []struct{ name, old, new, want string }{
		{"area", "2400 ft2", "0.001 ft2", "is outside 0.5 ft2 to"},
		{"root depth", "area:", "root_depth: 0.001 in, area:", "is outside 0.25 in to"},
		{"flow of the main", "strategies:", "limits: {flow: 1e-6 gpm}\nstrategies:", "is outside 0.026 gpm to"}, // 0.1/3.785
		{"longest run", "strategies:", "limits: {max_minutes: 0.01 min}\nstrategies:", "is outside 0.5 min to 1,440 min"},
		{"rate", "sprinkler: spray", "sprinkler: {kind: spray, rate: 1e-9 in/h}", "is outside 0.004 in/h to"}, // 0.1/25.4
		{"flow of a zone", "sprinkler: spray", "sprinkler: {kind: spray, flow: 1e-6 gpm}", "is outside 0.00026 gpm to"},
		{"storage", "sprinkler: spray", "balance: working storage, storage: 1e-6 in, sprinkler: spray", "is outside 0.02 in to"}, // 0.5/25.4
		{"ramp", "cycle: 8 min", "from: 2012-04-15, to: 2012-06-15, ramp_to: 0.001%", "is outside 1% to 1,000%"},
		{"life", "programs: [lawns]", "programs: [lawns], hold: {rain: {at_least: 0.25 in, lasts: {life: 1e-9}}}", "is outside 0.05 to 1,000"},
		{"roots of new plants", "programs: [lawns]", "programs: [lawns], changes: [{zones: all, plant: desert plants, from: 2014-10-15, " +
			"establish: {days: 90 days, root_depth: 1e-9 in}}]", "is outside 0.25 in to"},
	}
	for _, tt := range tests {
		if !strings.Contains(sound, tt.old) {
			t.Fatalf("%s: the scenario does not hold %q", tt.name, tt.old)
		}
		_, err := yamlfile.Read(strings.NewReader(strings.Replace(sound, tt.old, tt.new, 1)), "yard.yaml", files(nil).open)
		var many *diag.Errors
		if !errors.As(err, &many) {
			t.Errorf("%s: got %v", tt.name, err)
			continue
		}
		if one := many.List[0]; one.Code != diag.OutOfRange || !strings.Contains(one.Msg, tt.want) || one.Pos.Line == 0 || one.Fix == "" {
			t.Errorf("%s: got %v", tt.name, many.List[0])
		}
	}
}
