package explain

import (
	"strings"
	"testing"

	"loamledger/sim"
	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/weather/cal"
	"loamledger/weather/quantity"
)

// TestStepsByHand checks decisions and doses worked by hand.
//
// The uneven zone: PR 30 mm/h, loss 20%, so 24 mm/h reach the ground; DU 0.55
// on four strips: shares 0.55, 0.85, 1.15, 1.45. Intake 12 mm/h, ASA 2 mm. 25
// minutes at 80% are 20, in cycles of 8 with soaks of 5 min (1 mm). Strip 3
// is watered at 27.6 mm/h, grows 15.6 x 8/60 = 2.08 a cycle and 1.04 in the
// last; 0.08 runs off, it soaks to 1, 1.08 runs off, it soaks to 1, 0.04 runs off:
// 1.20 of 9.2 mm. The refill: 10 mm of depletion is its trigger; 1 mm takes 60/20 = 3
// minutes, at 50% 15. The sensor: half of 20 mm is 10, read without error,
// against 8 or 12 mm.
func TestStepsByHand(t *testing.T) {
	uneven := job()
	z := &uneven.Zones[0]
	z.PRMMH, z.LossShare, z.DULQ, z.Strips, z.IntakeMMH, z.SurfaceStorageMM = 30, 0.2, 0.55, 4, 12, 2
	daily := func(minutes, cycle, soak float64) strategy.Part {
		return strategy.Programs{List: []strategy.Program{{Name: "p",
			Days: strategy.DayRule{Kind: strategy.Interval, Every: 1, From: cal.Of(2030, 7, 1)}, Starts: []int{270}, Minutes: []float64{minutes},
			Cycle: cycle, Soak: soak}}}
	}
	eighty := strategy.Monthly{}
	for m := range eighty.Share {
		eighty.Share[m] = 0.8
	}
	half := strategy.Monthly{}
	for m := range half.Share {
		half.Share[m] = 0.5
	}
	sensor := func(at float64) strategy.Part {
		return strategy.Sensor{PermitAt: at, Zones: []bool{true}, Placement: "average"}
	}
	elsewhere := func(at float64) strategy.Part {
		return strategy.Sensor{PermitAt: at, Zones: []bool{true}, ReadZone: 1, Placement: "average"}
	}
	refill := &strategy.Refill{Zones: []bool{true}, MAD: 0.5, Days: strategy.DayRule{Kind: strategy.AnyDay}, Extra: -1}
	lazy := &strategy.Refill{Zones: []bool{true}, MAD: 0.6, Days: strategy.DayRule{Kind: strategy.AnyDay}, Extra: -1}
	leaky := job()
	leaky.Zones[0].LeakMMDay = 0.5
	for _, tt := range []struct {
		name  string
		job   *replay.Job
		parts []strategy.Part
		want  []string
		not   string
	}{
		{"cycles on uneven strips", uneven, []strategy.Part{daily(25, 8, 5), eighty}, []string{
			`program "p", start 04:30: set minutes x percentages = 25.00 x 0.8000 = 20.00`,
			"start 1: 20.00 min in 3 cycles: 2 of 8.00 min and one of 4.00 min, with 5 min soaks between them",
			"minutes = 24.000 mm/h", "a soak takes in IR x 5 / 60 = 1.000 mm",
			"3  1.150   27.600     2.080     1.040    1.200     8.000", "1  0.550   13.200     0.160     0.080    0.000     4.400"},
			"infiltrated = rate"},
		{"one cycle without runoff", job(), []strategy.Part{daily(30, 0, 0)}, []string{
			"in 1 cycle\n", "no strip is watered faster", "1  1.000   20.000    10.000", "1 strip: the zone is watered evenly"}, "ASA"},
		{"rounding", job(), []strategy.Part{daily(31, 0, 0), half, strategy.Round{StepMin: 5}},
			[]string{"31.00 x 0.5000 = 15.50, to the nearest multiple of 5 min = 15.00"}, "limits"},
		{"a refill that is due", job(), []strategy.Part{refill, half}, []string{
			"own depletion at dawn = 10.000 mm; it waters at 10.000 mm or more", "60 x 1.0000 / (20.00 x (1 - 0.000)) = 3.0000",
			"10.000 x 1.00 x 3.0000 x 0.500 = 15.00"}, "program"},
		{"a refill that is not", job(), []strategy.Part{lazy},
			[]string{"own depletion at dawn = 10.000 mm; it waters at 12.000 mm or more", "none"}, "minutes for 1 mm"},
		{"a sensor that permits", job(), []strategy.Part{daily(30, 0, 0), sensor(0.4)},
			[]string{"reads 10.000 mm; set point 8.000 mm: dry enough"}, "too wet"},
		{"a sensor that does not", job(), []strategy.Part{daily(30, 0, 0), sensor(0.6)},
			[]string{"reads 10.000 mm; set point 12.000 mm: too wet", "sensor wet", "none"}, "dry enough"},
		{"a sensor that governs others", job(), []strategy.Part{daily(30, 0, 0), elsewhere(0.6)},
			[]string{`soil sensor in "lawn"`, "set point 12.000 mm: too wet"}, "dry enough"},
		{"a leak on a dry day", leaky, nil, []string{"leak = 0.500 mm", "none"}, "start"},
	} {
		tt.job.Strategies = []strategy.Strategy{{Name: "s", Parts: tt.parts}}
		m, ok := replay.At(tt.job, 0, 0, cal.Of(2030, 7, 1))
		if !ok {
			t.Fatal("the day is not in the record")
		}
		text := Text(&m, Ground{}, quantity.SI)
		for _, want := range tt.want {
			if !strings.Contains(text, want) {
				t.Errorf("%s: %q is not in\n%s", tt.name, want, text)
			}
		}
		if strings.Contains(text, tt.not) {
			t.Errorf("%s: %q is in\n%s", tt.name, tt.not, text)
		}
	}
}

// TestReferenceByHand: from 14 mm of depletion on July 2, RAW being 10, the
// least-water reference applies 4 mm, and no rate, surface or cycle is shown.
func TestReferenceByHand(t *testing.T) {
	j := job()
	j.Zones[0].LeakMMDay = 0.5
	m, _ := replay.At(j, 2, 0, cal.Of(2030, 7, 2))
	text := Text(&m, Ground{}, quantity.SI)
	if want := "14.000 - 0.000 - 10.000 = 4.000 mm"; !strings.Contains(text, want) || !strings.Contains(text, "the need itself, 4.000 mm") {
		t.Errorf("%q is not in\n%s", want, text)
	}
	for _, not := range []string{"ASA", "minutes", "cycle", "leak"} {
		if strings.Contains(text, not) {
			t.Errorf("%q is in\n%s", not, text)
		}
	}
}

// TestLimitsCutMinutes: 30 minutes are requested and 20 are allowed.
func TestLimitsCutMinutes(t *testing.T) {
	j := job()
	j.Limits = &strategy.Limits{Always: strategy.Rule{MaxMinutes: 20}}
	m, _ := replay.At(j, 0, 0, cal.Of(2030, 7, 2))
	text := Text(&m, Ground{}, quantity.SI)
	if want := "site limits allow 20.00 of the 30.00 min requested"; !strings.Contains(text, want) ||
		m.Runs[0] != (sim.Run{Minutes: 20}) {
		t.Errorf("%q is not in\n%s", want, text)
	}
}
