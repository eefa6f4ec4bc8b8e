package plots

import (
	"slices"
	"strings"
	"testing"

	"loamledger/sim/tally"
	"loamledger/weather/cal"
)

// TestDepletionFollowsTheChangedZone: a strategy that deepens roots from 40 to 60 mm of TAW on
// the third day, RAW being half, is drawn with its own lines and named; the others are not.
func TestDepletionFollowsTheChangedZone(t *testing.T) {
	no := []bool{false, false, false, false}
	tr := &DepletionTrace{
		Zone: "lawn", Start: cal.Of(2001, 6, 1), Strategies: []string{"as found", "deeper", tally.NoWater}, RainMM: make([]float64, 4),
		LowQuarterMM: [][]float64{{10, 10, 10, 10}, {10, 10, 50, 50}, {30, 31, 32, 33}},
		RAWMM:        [][]float64{{20, 20, 20, 20}, {20, 20, 30, 30}, {20, 20, 20, 20}},
		TAWMM:        [][]float64{{40, 40, 40, 40}, {40, 40, 60, 60}, {40, 40, 40, 40}},
		Stress:       [][]bool{no, {false, false, true, true}, no}, Browning: [][]bool{no, no, no},
	}
	c := DrySeason(&Study{Units: SI, Table: &tally.Table{}}, tr)
	lines := func(st int, role Role) (y []float64) {
		for _, s := range c.Panels[st].Series {
			if s.Role == role {
				y = s.Y
			}
		}
		return y
	}
	for st, want := range [][2][]float64{
		{{40}, {20, 20, 20, 20}}, {{40, 40, 60, 60}, {20, 20, 30, 30}}, {{40}, {20, 20, 20, 20}},
	} {
		if taw, raw := lines(st, EmptyLine), lines(st, StressLine); !slices.Equal(taw, want[0]) || !slices.Equal(raw, want[1]) {
			t.Errorf("%s: TAW %v and RAW %v, by hand %v", tr.Strategies[st], taw, raw, want)
		}
	}
	s := c.Panels[1].Series[0]
	if ends := slices.Concat(s.Base, s.Y); s.Role != Stressed || !slices.Contains(ends, 60) || slices.Contains(ends, 40) {
		t.Errorf("stress days of the deeper roots are shaded from %v to %v, by hand from 30 to 60", s.Y, s.Base)
	}
	notes := strings.Join(c.Notes, " ")
	if c.Panels[1].Title != "deeper, zone changed" || c.Panels[0].Title != "as found" || !strings.Contains(notes, "“deeper”") ||
		strings.Contains(notes, "“as found”") {
		t.Errorf("panels %q and %q, notes %q", c.Panels[0].Title, c.Panels[1].Title, notes)
	}
	if c.Y.Max < 60 {
		t.Errorf("the axis ends at %g, and TAW is 60", c.Y.Max)
	}
}
