package replay_test

import (
	"math"
	"testing"

	"loamledger/sim"
	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/weather/cal"
)

// sixDays is a zone of four strips with DU 0.70, so that c = 0.3/0.75 = 0.4 and
// the shares are 0.7, 0.9, 1.1 and 1.3, over six days on which every rule of
// the day comes into play. It starts at 5% of TAW, 1 mm.
func sixDays() replay.Job {
	z := sim.Zone{Name: "slope", AreaM2: 250, TAWMM: 20, P: 0.4, K: everyMonth(0.8), PRMMH: 60, LossShare: 0.1, DULQ: 0.7, Strips: 4,
		IntakeMMH: 12, SurfaceStorageMM: 4, Rain: sim.Rain{Method: sim.CurveNumber, CN: 80}}
	start := cal.Of(2003, 6, 2)
	w := sim.Weather{Start: start, RainMM: []float64{40, 0.5, 0, 0, 0, 0}, EToMM: []float64{4, 6, 5, 5, 10, 16}, TminC: make([]float64, 6),
		WindMS: make([]float64, 6)}
	program := strategy.Program{Name: "every fourth day", Days: strategy.DayRule{Kind: strategy.Interval, Every: 4, From: start},
		Starts:  []int{300},
		Minutes: []float64{20}, Cycle: 8, Soak: 10}
	full := strategy.Programs{List: []strategy.Program{program}}
	half := strategy.Monthly{}
	for m := range half.Share {
		half.Share[m] = 0.5
	}
	return replay.Job{Zones: []sim.Zone{z}, Weather: w, NoSpinUp: true, StartShare: 0.05,
		Strategies: []strategy.Strategy{{Name: "full", Parts: []strategy.Part{full}}, {Name: "half", Parts: []strategy.Part{full, half}}}}
}

// TestSixDaysByHand follows six days with a pocket calculator. Every number is
// hand-worked from the day's equations (FAO-56 eq. 81 to 85 in the early order
// of its example 38, TR-55 eq. 2-2 to 2-4), none comes from this program.
//
// Watering, days 1 and 5: 20 min are cycles of 8, 8 and 4 min with pauses of
// 10 min. Gross 20 mm, spray loss 2 mm. The strips get 37.8, 48.6, 59.4 and
// 70.2 mm/h; their surface stores grow by 0.43, 0.61, 0.79 and 0.97 mm a
// minute, hold 4 mm and lose 2 mm in a pause. They shed
//
//	0.88                                 of 12.6: 11.72 mm enter
//	0.88 + 2.88 + 0.44 =  4.20           of 16.2: 12.00
//	2.32 + 4.32 + 1.16 =  7.80           of 19.8: 12.00
//	3.76 + 5.76 + 1.88 = 11.40           of 23.4: 12.00      mean 24.28/4 = 6.07
//
// Day 1: 1 − 11.72 and three times 1 − 12: percolation (10.72 + 33)/4 = 10.93.
// S = 25400/80 − 254 = 63.5, 0.2 S = 12.7, 27.3²/90.8 = 8.208039648 runs off and
// 31.791960352 percolates. ETc 3.2, p 0.4 + 0.04·1.8 = 0.472.
//
// Day 2: 0.5 mm of rain is below 0.2·6. Day 3: 8 mm is below RAW.
//
// Day 4: Dr 12, RAW 8.8, Ks = 8/(0.56·20) = 0.714285714, ETa 2.857142857.
//
// Day 5: 14.857142857 − 11.72 and − 12. ETc 8, p 0.28, RAW 5.6: no stress.
//
// Day 6: ETc 12.8 makes p 0.088, held to 0.1: RAW 2. The first strip, at
// 11.137142857, has Ks = 8.862857143/18 = 0.492380952, the others
// 9.142857143/18 = 0.507936508.
func TestSixDaysByHand(t *testing.T) {
	job := sixDays()
	_, rows := rowsOf(t, &job)
	type day struct {
		gross, loss, runoff, rainRunoff, evaporated, percIrr, percRain float64
		etc, raw, low, ks, eta, depletion                              float64
		pastRAW                                                        bool
	}
	want := []day{
		{20, 2, 6.07, 8.208039648, 0, 10.93, 31.791960352, 3.2, 9.44, 0, 1, 3.2, 3.2, false},
		{0, 0, 0, 0, 0.5, 0, 0, 4.8, 8.16, 3.2, 1, 4.8, 8, false},
		{0, 0, 0, 0, 0, 0, 0, 4, 8.8, 8, 1, 4, 12, false},
		{0, 0, 0, 0, 0, 0, 0, 4, 8.8, 12, 0.714285714, 2.857142857, 14.857142857, true},
		{20, 2, 6.07, 0, 0, 0, 0, 8, 5.6, 3.137142857, 1, 8, 10.927142857, false},
		{0, 0, 0, 0, 0, 0, 0, 12.8, 2, 11.137142857, 0.504047619, 6.451809524, 17.378952381, true},
	}
	for i, w := range want {
		r := rows[0][0][i]
		got := day{r.GrossMM, r.SprayLossMM, r.IrrRunoffMM, r.RainRunoffMM, r.RainEvapMM, r.PercIrrMM, r.PercRainMM,
			r.ETcMM, r.RAWMM, r.LowQuarterMM, r.Ks, r.ETaMM, r.DepletionMM, r.PastRAW}
		for _, c := range []struct {
			name      string
			got, want float64
		}{
			{"gross", got.gross, w.gross}, {"spray loss", got.loss, w.loss}, {"irrigation runoff", got.runoff, w.runoff},
			{"rain runoff", got.rainRunoff, w.rainRunoff}, {"rain evaporated", got.evaporated, w.evaporated},
			{"percolation of irrigation", got.percIrr, w.percIrr}, {"percolation of rain", got.percRain, w.percRain},
			{"ETc", got.etc, w.etc}, {"RAW", got.raw, w.raw}, {"low-quarter depletion", got.low, w.low},
			{"Ks", got.ks, w.ks}, {"ETa", got.eta, w.eta}, {"depletion", got.depletion, w.depletion},
		} {
			if math.Abs(c.got-c.want) > 1e-9*max(1, c.want) { // worked to nine decimals
				t.Errorf("day %d: %s is %.9f, by hand %.9f", i+1, c.name, c.got, c.want)
			}
		}
		if got.pastRAW != w.pastRAW {
			t.Errorf("day %d: past RAW is %t, by hand %t", i+1, got.pastRAW, w.pastRAW)
		}
	}
}

// TestMeasuresByHand works out the measures of the same six days; all
// hand-worked.
//
// Least water: an even strip is at 3.2, 8, 12 in the evenings of days 1 to 3.
// Day 4 wants 12 − 8.8 = 3.2, day 5 12.8 − 5.6 = 7.2, day 6 13.6 − 2 = 11.6:
// 22 mm together.
//
// Adequacy (3.2 + 4.8 + 4 + 2.857142857 + 8 + 6.451809524)/36.8; excess
// (12.14 + 10.93 + 4)/40; severity 0.285714286 + 0.495952381.
func TestMeasuresByHand(t *testing.T) {
	job := sixDays()
	table := tableOf(t, &job)
	rows := table.Compare()
	full, half := rows[0], rows[1]
	sum := table.Total(0, 0)
	for _, c := range []struct {
		name      string
		got, want float64
	}{
		{"requirement [mm]", table.Total(table.LeastWaterIndex(), 0).GrossMM, 22},
		{"application ratio", full.ApplicationRatio, 40.0 / 22},
		{"application ratio at half the minutes", half.ApplicationRatio, 20.0 / 22},
		{"change at half the minutes", half.Change, -0.5},
		{"need_met", full.NeedMet, 29.308952381 / 36.8},
		{"share_lost", full.ShareLost, 27.07 / 40},
		{"severity [d]", sum.SeverityDays, 0.781666667},
		{"days past RAW", float64(sum.PastRAWDays), 2},
		{"runoff events", float64(sum.RunoffEvents), 2},
		{"rain runoff days", float64(sum.RainRunoffDays), 1},
		{"volume in these six days [m³]", full.M3PerYear, 0.040 * 250},
		{"storage change [mm]", sum.StorageMM, 1 - 17.378952381},
	} {
		if math.Abs(c.got-c.want) > 1e-9*max(1, math.Abs(c.want)) { // worked to nine decimals
			t.Errorf("%s is %.9f, by hand %.9f", c.name, c.got, c.want)
		}
	}
}
