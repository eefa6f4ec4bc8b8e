package explain

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"loamledger/sim"
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

// TestUSWeekIsInInches: hand, 4 mm of ETc a day are 0.1575 in, three days 0.4724
// in; the least graded week, 1 mm, is 0.039 in.
func TestUSWeekIsInInches(t *testing.T) {
	j := job()
	m, _ := replay.At(j, 0, 0, cal.Of(2030, 7, 3))
	text := Text(&m, Ground{}, quantity.US)
	for _, want := range []string{
		"2030-07-03   0.1575    0.1575    0.1575\n", "sum   0.4724    0.4724    0.4724\n", "R7 zone    = 0.4724 / 0.4724 = 1.000",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not in\n%s", want, text)
		}
	}
	j.Weather.EToMM = []float64{0.3, 0.3, 0.3}
	m, _ = replay.At(j, 0, 0, cal.Of(2030, 7, 3))
	if text, want := Text(&m, Ground{}, quantity.US), "the sum of ETc is below 0.039 in"; !strings.Contains(text, want) {
		t.Errorf("%q is not in\n%s", want, text)
	}
}

// TestUSStripsLineUp: every row of a table in inches is as wide as its head, also
// where a last cycle has its own column. Strip 3 grows 15.6 mm/h x 4/60 = 1.04 mm
// = 0.0409 in in the last cycle.
func TestUSStripsLineUp(t *testing.T) {
	j := job()
	z := &j.Zones[0]
	z.PRMMH, z.LossShare, z.DULQ, z.Strips, z.IntakeMMH, z.SurfaceStorageMM = 30, 0.2, 0.55, 4, 12, 2
	program := strategy.Program{Name: "p", Days: strategy.DayRule{Kind: strategy.AnyDay}, Starts: []int{270}, Minutes: []float64{20},
		Cycle: 8, Soak: 5}
	j.Strategies = []strategy.Strategy{{Name: "s", Parts: []strategy.Part{strategy.Programs{List: []strategy.Program{program}}}}}
	m, _ := replay.At(j, 0, 0, cal.Of(2030, 7, 1))
	text := Text(&m, Ground{}, quantity.US)
	if want := "3 1.1500   1.0866    0.0819    0.0409   0.0472    0.3150"; !strings.Contains(text, want) {
		t.Errorf("%q is not in\n%s", want, text)
	}
	head := 0
	for line := range strings.Lines(text) {
		fields := strings.Fields(line)
		if len(fields) > 0 && fields[0] == "strip" {
			head = len(line)
		} else if len(fields) > 0 {
			if _, err := strconv.Atoi(fields[0]); err == nil && len(line) != head {
				t.Errorf("%q is %d wide, its head %d", line, len(line), head)
			}
		}
	}
	if head == 0 {
		t.Errorf("no table in\n%s", text)
	}
}

// TestTemperaturesInTheUnitsAsked: hand, T30 = 10 °C is 50 °F, T0 = 4 °C is 39.2 °F and T1 =
// 15 °C is 59 °F; a = 6/11 = 10.8/19.8 = 0.545 in both.
func TestTemperaturesInTheUnitsAsked(t *testing.T) {
	m, _ := replay.At(job(), 0, 0, cal.Of(2030, 7, 3))
	m.T30C, m.TempsKnown, m.Planted.Season = 10, true, &sim.Season{Kd: 0.4, Ka: 0.9, T0C: 4, T1C: 15}
	m.Row.Activity = 6.0 / 11
	for sys, want := range map[quantity.System][2]string{
		quantity.US: {"before = 50.00 °F\n", "= (50.00 - 39.20)/(59.00 - 39.20) = 0.545"},
		quantity.SI: {"before = 10.00 °C\n", "= (10.00 - 4.00)/(15.00 - 4.00) = 0.545"},
	} {
		text := Text(&m, Ground{}, sys)
		if !strings.Contains(text, want[0]) || !strings.Contains(text, want[1]) {
			t.Errorf("%q are not in\n%s", want, text)
		}
	}
}
