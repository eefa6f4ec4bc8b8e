package explain

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"loamledger/sim"
	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/weather/cal"
	"loamledger/weather/quantity"
)

// job is one even lawn of 20 mm TAW, watered by 30 minutes at 20 mm/h on the
// second of three days: 10 mm.
func job() *replay.Job {
	z := sim.Zone{Name: "lawn", AreaM2: 100, TAWMM: 20, P: 0.5, PConstant: true, PRMMH: 20, DULQ: 1, Strips: 1, IntakeMMH: 30,
		SurfaceStorageMM: 5, Rain: sim.Rain{CN: 74}}
	for m := range z.K {
		z.K[m] = 0.8
	}
	p := strategy.Program{Name: "p", Days: strategy.DayRule{Kind: strategy.EvenDays}, Starts: []int{300}, Minutes: []float64{30}}
	return &replay.Job{
		Zones: []sim.Zone{z}, NoSpinUp: true, StartShare: 0.5,
		Weather:    sim.Weather{Start: cal.Of(2030, 7, 1), RainMM: []float64{0, 0, 30}, EToMM: []float64{5, 5, 5}, TminC: []float64{10, 10, 10}},
		Strategies: []strategy.Strategy{{Name: "even days", Parts: []strategy.Part{strategy.Programs{List: []strategy.Program{p}}}}},
	}
}

// Worked by hand. July 1: Dr 10 = RAW, so Ks is 1 and the lawn draws 0.8 x 5 = 4.
// July 2: Dr 14, 10 mm enter, Dr 4, no stress, draws 4: Dr 8. July 3: rain of
// 30 mm; S = 25400/74 - 254 = 89.2, 0.2 S = 17.85, Q = 12.15²/(12.15 + 89.24) =
// 1.456; 28.54 enter, 20.54 percolate.
func TestTextByHand(t *testing.T) {
	days := []struct {
		date cal.Date
		want []string
	}{
		{cal.Of(2030, 7, 1), []string{"ETc = K x ETo = 0.80 x 5.00 = 4.00 mm", "RAW = p x TAW = 0.500 x 20.00 = 10.00 mm", "not scheduled",
			"not past RAW", "depletion 10.000 - 14.000 = -4.000 mm"}},
		{cal.Of(2030, 7, 2), []string{"gross = minutes x PR / 60 = 30.00 x 20.00 / 60 = 10.000 mm", "a program ran",
			"depletion 14.000 - 8.000 = 6.000 mm"}},
		{cal.Of(2030, 7, 3), []string{"S = 25400/CN - 254 = 25400/74 - 254 = 89.2 mm; 0.2 S = 17.8 mm", "= 1.46 mm", "percolation 20.544"}},
	}
	for _, day := range days {
		m, ok := replay.At(job(), 0, 0, day.date)
		if !ok {
			t.Fatalf("%v is not in the record", day.date)
		}
		text := Text(&m, Ground{}, quantity.SI)
		for _, want := range day.want {
			if !strings.Contains(text, want) {
				t.Errorf("%v: %q is not in\n%s", day.date, want, text)
			}
		}
	}
	if _, ok := replay.At(job(), 0, 0, cal.Of(2030, 7, 4)); ok {
		t.Error("a day after the record is explained")
	}
}

// TAW = 160 mm/m x 0.125 m = 20 mm; 160 mm/m is 1.92 in/ft and 0.125 m is
// 4.921 in, which give 1.92 x 4.921/12 = 0.787 in.
func TestAvailableWaterIsWorkedOut(t *testing.T) {
	m, _ := replay.At(job(), 0, 0, cal.Of(2030, 7, 1))
	ground := Ground{AWCMMPerM: 160, RootDepthM: 0.125}
	for sys, want := range map[quantity.System]string{
		quantity.SI: "TAW = AWC x root depth = 160 mm/m x 0.125 m = 20.00 mm  [eq. 82]",
		quantity.US: "TAW = AWC x root depth = 1.92 in/ft x 4.921 in / 12 = 0.787 in  [eq. 82]",
	} {
		if text := Text(&m, ground, sys); !strings.Contains(text, want) {
			t.Errorf("%q is not in\n%s", want, text)
		}
	}
}

// A plain store of 12 mm that leaks 0.5 mm a day, worked by hand. It starts at
// 6 mm. July 1: 6 + 4 = 10. July 2: 10 + 4 - 10 = 4. July 3: 4 + 4 - 28.544 =
// -20.544 percolates. From 11 mm instead, July 1 needs 15 of 12: 3 are short.
func TestStoreByHand(t *testing.T) {
	j := job()
	z := &j.Zones[0]
	z.WorkingStorage, z.TAWMM, z.LeakMMDay = true, 12, 0.5
	for _, day := range []struct {
		start float64
		date  cal.Date
		want  []string
	}{
		{0.5, cal.Of(2030, 7, 1), []string{"leak = 0.500 mm", "6.000 + 4.000 - 0.000 - 0.000 = 10.000",
			"ETa = ETc - shortage = 4.000;  depletion at night 10.000", "not past RAW"}},
		{0.5, cal.Of(2030, 7, 2), []string{"10.000 + 4.000 - 10.000 - 0.000 = 4.000", "watering 10.500 + rain"}},
		{0.5, cal.Of(2030, 7, 3), []string{"4.000 + 4.000 - 0.000 - 28.544 = -20.544", "watering before rain: 0.000 + 20.544",
			"depletion at night 0.000"}},
		{11. / 12, cal.Of(2030, 7, 1), []string{"= 15.000\n", "shortage, anything above 12.00: 3.000", "= 1.000;  depletion at night 12.000",
			"= 15.000 mm; the store = 12.000 mm: a day past RAW"}},
	} {
		j.StartShare = day.start
		m, _ := replay.At(j, 0, 0, day.date)
		text := Text(&m, Ground{}, quantity.SI)
		for _, want := range day.want {
			if !strings.Contains(text, want) {
				t.Errorf("%v: %q is not in\n%s", day.date, want, text)
			}
		}
		if strings.Contains(text, "strip by strip") {
			t.Errorf("a store is shown strip by strip:\n%s", text)
		}
	}
}

// The explanation matches the ledger.
func TestTextHoldsTheLedger(t *testing.T) {
	j := job()
	_, err := replay.Run(context.Background(), j, func(s *replay.Sheet) error {
		for i := range s.Days() {
			row := s.Row(i)
			for st, name := range []string{"even days", "no watering", "least water at full supply"} {
				if name != row.Strategy {
					continue
				}
				m, _ := replay.At(j, st, 0, row.Date)
				if m.Row != row {
					t.Errorf("%v %s: %+v, the ledger has %+v", row.Date, name, m.Row, row)
				}
				if text := Text(&m, Ground{}, quantity.US); !strings.Contains(text, fmt.Sprintf("= %.4f in; RAW", row.LowQuarterMM/25.4)) ||
					strings.Contains(text, "mm") {
					t.Errorf("%v %s:\n%s", row.Date, name, text)
				}
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}
