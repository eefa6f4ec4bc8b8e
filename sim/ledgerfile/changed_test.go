package ledgerfile

import (
	"bytes"
	"context"
	"math"
	"testing"

	"loamledger/sim"
	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/weather/cal"
)

// TestLedgersHaveTheZoneOfTheDay: with ETo 4 mm on ten dry days, a zone has TAW 100 mm, p 0.4
// (RAW 40), K 1, 60 mm/h and 100 m². On the sixth day its soil is amended to 120 mm (RAW 48), its
// plants are others of K 0.5, its sprinklers give 30 mm/h and 40 m² are taken out: both files
// say so day by day, and that the soil lacks 20 mm more on that day.
func TestLedgersHaveTheZoneOfTheDay(t *testing.T) {
	const days, change = 10, 5
	w := sim.Weather{Start: cal.Of(2003, 6, 1), RainMM: make([]float64, days), EToMM: make([]float64, days)}
	for i := range w.EToMM {
		w.EToMM[i] = 4
	}
	zone := sim.Zone{Name: "lawn", AreaM2: 100, TAWMM: 100, P: 0.4, PConstant: true, PRMMH: 60, DULQ: 1, Strips: 1, IntakeMMH: 1000}
	for m := range zone.K {
		zone.K[m] = 1
	}
	after := zone
	after.TAWMM, after.PRMMH, after.AreaM2 = 120, 30, 60
	for m := range after.K {
		after.K[m] = 0.5
	}
	program := strategy.Program{Name: "daily", Starts: []int{300}, Minutes: []float64{5}}
	job := replay.Job{Zones: []sim.Zone{zone}, Weather: w, NoSpinUp: true, StartShare: 0.2, Strategies: []strategy.Strategy{{
		Name: "changed", Parts: []strategy.Part{strategy.Programs{List: []strategy.Program{program}}},
		Stretches: []strategy.Stretch{{Zones: []sim.Zone{zone}}, {From: w.Start + change, Zones: []sim.Zone{after}, Anew: []bool{true}}},
	}}}
	var text, file bytes.Buffer
	c, p := NewCSV(&text, Columns()), NewParquet(&file, nil, Columns())
	_, err := replay.Run(context.Background(), &job, func(s *replay.Sheet) error {
		if err := c.Write(s); err != nil {
			return err
		}
		return p.Write(s)
	})
	if err != nil || c.Close() != nil || p.Close() != nil {
		t.Fatal(err)
	}
	parquet, err := ReadParquet(bytes.NewReader(file.Bytes()), int64(file.Len()), Columns())
	if err != nil {
		t.Fatal(err)
	}
	for name, l := range map[string]*Ledger{"CSV": readCSV(t, text.String(), Columns()), "Parquet": parquet} {
		for key, want := range map[string][2]float64{
			"taw_mm": {100, 120}, "raw_mm": {40, 48}, "k": {1, 0.5}, "rate_mm_h": {60, 30}, "irrigated_area_m2": {100, 60}, "etc_mm": {4, 2},
			"gross_mm": {5, 2.5},
		} {
			for i, got := range l.Floats(key)[:days] {
				by := want[0]
				if i >= change {
					by = want[1]
				}
				if math.Abs(got-by) > 1e-9 {
					t.Errorf("%s: %s is %g on day %d, by hand %g", name, key, got, i+1, by)
				}
			}
		}
		for i, got := range l.Floats("soil_change_mm")[:days] {
			if want := map[bool]float64{true: 20}[i == change]; math.Abs(got-want) > 1e-9 {
				t.Errorf("%s: day %d adds %g mm, by hand %g", name, i+1, got, want)
			}
		}
	}
}
