package ledgerfile

import (
	"context"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"loamledger/sim"
	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/sim/tally"
	"loamledger/weather/cal"
)

// replaySite replays days of invented weather, which start and end within a
// year, on invented zones under a schedule and a sensor that interrupts it.
func replaySite(t testing.TB, days, zones int, sink func(*replay.Sheet) error) *tally.Table {
	t.Helper()
	r := rand.New(rand.NewPCG(5, 1))
	w := sim.Weather{Start: cal.Of(2001, 11, 20), RainMM: make([]float64, days), EToMM: make([]float64, days), TminC: make([]float64, days),
		TmaxC:  make([]float64, days),
		Filled: make([]bool, days)}
	for i := range days {
		w.Filled[i] = i%37 == 5
		w.EToMM[i] = math.Round((3.5-2.5*math.Cos(2*math.Pi*float64(i)/365.25)+r.Float64())*100) / 100
		w.TminC[i] = 8 - 14*math.Cos(2*math.Pi*float64(i)/365.25)
		w.TmaxC[i] = w.TminC[i] + 9
		if r.Float64() < 0.25 {
			w.RainMM[i] = math.Round(60*r.ExpFloat64()) / 10
		}
	}
	names := []string{`the "low" lawn`, "bank, upper", "beds", "strip", "oak", "court", "verge", "slope"}
	job := &replay.Job{Weather: w}
	minutes, all := make([]float64, zones), make([]bool, zones)
	for i := range zones {
		f := float64(i)
		z := sim.Zone{
			Name: names[i], AreaM2: 120.5 + 31*f, TAWMM: 18 + 7.3*f, P: 0.4 + 0.03*f, PRMMH: 38 - 3*f, LossShare: 0.03, OversprayShare: 0.02,
			BrokenShare: 0.01, FillDrainMM: 0.1, LeakMMDay: 0.05 * f, DULQ: 0.5 + 0.05*f,
			Strips: 8, IntakeMMH: 6, SurfaceStorageMM: 2, Rain: sim.Rain{CN: 70 + f}, ToleranceR7: 0.8, BrowningR7: 0.5,
		}
		if i%2 == 0 {
			z.Season = &sim.Season{Ka: 0.9, Kd: 0.3, T0C: 4, T1C: 15}
		}
		for m := range z.K {
			z.K[m] = 0.8 - 0.01*f + 0.02*float64(m%6)
		}
		job.Zones = append(job.Zones, z)
		minutes[i], all[i] = 14+f/3, true
	}
	programs := strategy.Programs{List: []strategy.Program{{
		Name: "p", Days: strategy.DayRule{Kind: strategy.Interval, Every: 3, From: w.Start}, Starts: []int{300}, Minutes: minutes, Cycle: 6,
		Soak: 10,
	}}}
	job.Strategies = []strategy.Strategy{
		{Name: "as found, mostly", Parts: []strategy.Part{programs}},
		{Name: "sensor", Parts: []strategy.Part{programs, strategy.Sensor{PermitAt: 0.4, Zones: all, Placement: "average"}}},
	}
	table, err := replay.Run(context.Background(), job, sink)
	if err != nil {
		t.Fatal(err)
	}
	return table
}

// cloned returns a sheet that outlives the call it was handed to.
func cloned(s *replay.Sheet) *replay.Sheet {
	c, z, p, tr := *s, *s.Zone, *s.Plan, *s.Trace
	c.Zone, c.Plan, c.Trace = &z, &p, &tr
	for _, col := range []*[]float64{
		&c.Weather.RainMM, &c.Weather.EToMM, &tr.ShortMM, &tr.LowShortMM, &tr.PercIrrMM, &tr.PercRainMM, &tr.ETaMM, &tr.DepletionMM,
		&tr.LowQuarterMM, &tr.Ks,
	} {
		*col = slices.Clone(*col)
	}
	c.Forcing, p.Doses, p.Dose, p.Reason, tr.Dose = slices.Clone(c.Forcing), slices.Clone(p.Doses), slices.Clone(p.Dose),
		slices.Clone(p.Reason), slices.Clone(tr.Dose)
	g := *s.Growth
	g.K, g.Activity, g.Phase, g.WeekETcMM = slices.Clone(g.K), slices.Clone(g.Activity), slices.Clone(g.Phase), slices.Clone(g.WeekETcMM)
	c.Growth = &g
	return &c
}

// oneDay is a sheet of a single day, all of whose numbers come from num, and
// rain from rain, since the sheet works out its parting anew.
func oneDay(date cal.Date, strategyName, zone string, reason sim.Reason, cycles int, rain float64,
	num func(key string) float64) *replay.Sheet {
	z := &sim.Zone{Name: zone, TAWMM: num("taw_mm"), Rain: sim.Rain{CN: 74}}
	growth := &sim.Growth{K: []float64{num("k")}, Activity: []float64{num("activity")}, Phase: []sim.Phase{sim.Active},
		WeekETcMM: []float64{0}}
	return &replay.Sheet{
		Strategy: strategyName, Zone: z, Calendar: sim.NewCalendar(date, 1),
		Weather: sim.Weather{Start: date, RainMM: []float64{rain}, EToMM: []float64{num("eto_mm")}},
		Growth:  growth,
		Forcing: []sim.Day{{ETcMM: num("etc_mm"), RAWMM: num("raw_mm")}},
		Plan: &sim.Plan{Dose: []int32{1}, Reason: []sim.Reason{reason}, Doses: []sim.Dose{{}, {
			Minutes: num("minutes"), Cycles: cycles, GrossMM: num("gross_mm"), SprayLossMM: num("spray_loss_mm"),
			RunoffMM:    num("irrigation_runoff_mm"),
			OversprayMM: num("overspray_mm"), BrokenMM: num("broken_mm"), FillDrainMM: num("fill_drain_mm"),
		}}},
		Trace: &sim.Trace{
			Dose: []int32{1}, PercIrrMM: []float64{num("percolation_irrigation_mm")}, PercRainMM: []float64{num("percolation_rain_mm")},
			ETaMM:       []float64{num("eta_mm")},
			DepletionMM: []float64{num("depletion_mm")}, LowQuarterMM: []float64{num("low_quarter_depletion_mm")}, Ks: []float64{num("ks")},
			ShortMM: []float64{0}, LowShortMM: []float64{0},
		},
	}
}
