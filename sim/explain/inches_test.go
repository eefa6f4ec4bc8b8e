package explain

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/weather/cal"
	"loamledger/weather/quantity"
)

var closing = regexp.MustCompile(`in - out - into the soil = (\S+) (\S+)`)

// TestUSTextIsInInches: a scenario in US units is explained in them alone, and the
// day closes. Hand, on July 2: gross 30 min of 20 mm/h = 0.7874 in/h is 0.3937
// in; on July 3: S = 1000/74 − 10 = 3.514 in, runoff 1.456 mm = 0.0573 in.
func TestUSTextIsInInches(t *testing.T) {
	j := job()
	j.Strategies = append(j.Strategies, strategy.Strategy{Name: "refill", Parts: []strategy.Part{
		&strategy.Refill{Zones: []bool{true}, MAD: 0.4, Extra: -1}, strategy.Sensor{PermitAt: 0.3, Zones: []bool{true}, Placement: "average"}}})
	all := ""
	for st := range 4 {
		for _, d := range []cal.Date{cal.Of(2030, 7, 1), cal.Of(2030, 7, 2), cal.Of(2030, 7, 3)} {
			m, _ := replay.At(j, st, 0, d)
			before := m.Row
			text := Text(&m, Ground{}, quantity.US)
			if strings.Contains(text, "mm") {
				t.Errorf("millimeters in\n%s", text)
			}
			got := closing.FindStringSubmatch(text)
			if got == nil || got[2] != "in" {
				t.Fatalf("no closing line in\n%s", text)
			}
			if v, err := strconv.ParseFloat(got[1], 64); err != nil || v > 1e-9 || v < -1e-9 {
				t.Errorf("closes to %s in\n%s", got[1], text)
			}
			if m.Row != before {
				t.Error("the moment itself was changed")
			}
			all += text
		}
	}
	for _, want := range []string{
		"gross = minutes x PR / 60 = 30.000 x 0.787 / 60 = 0.3937 in",
		"S = 1000/CN - 10 = 1000/74 - 10 = 3.514 in",
		"= 0.057 in  [TR-55 eq. 2-3]",
		"minutes for 1 in = 60 x multiplier / (PR x (1 - loss)) = 60 x 1.0000 / (0.787",
		"all in inches",
	} {
		if !strings.Contains(all, want) {
			t.Errorf("%q is not in\n%s", want, all)
		}
	}
}
