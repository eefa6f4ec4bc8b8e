package ledgerfile

import (
	"math"
	"math/rand/v2"

	"loamledger/sim"
	"loamledger/sim/replay"
	"loamledger/sim/tally"
	"loamledger/weather/cal"
)

// A pair is a sheet and the monthly sums of the same replay.
type pair struct {
	sheet  *replay.Sheet
	months []sim.Sums
}

// invented replays n days of invented weather on one invented zone, with
// watering every `every` days (0 for never), all from one seed.
func invented(seed uint64, n, every int, strategy, zone string) pair {
	r := rand.New(rand.NewPCG(seed, 1))
	z := &sim.Zone{
		Name: zone, AreaM2: 20 + 200*r.Float64(), TAWMM: 15 + 60*r.Float64(), P: 0.3 + 0.3*r.Float64(), PRMMH: 10 + 30*r.Float64(),
		LossShare: 0.1 * r.Float64(), DULQ: 0.4 + 0.5*r.Float64(), Strips: 8, IntakeMMH: 6, SurfaceStorageMM: 2, Rain: sim.Rain{CN: 74},
	}
	for m := range z.K {
		z.K[m] = 0.5 + 0.4*r.Float64()
	}
	w := sim.Weather{Start: cal.Of(2001, 11, 20), RainMM: make([]float64, n), EToMM: make([]float64, n)}
	for i := range n {
		w.EToMM[i] = math.Round((3.5+2.5*math.Sin(2*math.Pi*float64(i)/365.25)+r.Float64())*100) / 100
		if r.Float64() < 0.25 {
			w.RainMM[i] = math.Round(30*r.ExpFloat64()) / 10
		}
	}
	c := sim.NewCalendar(w.Start, n)
	days := sim.Forcing(nil, z, w, c)
	p := &sim.Plan{}
	p.Reset(0, n, z.Strips)
	if every > 0 {
		d := p.AddDose(z, sim.Shares(z.Strips, z.DULQ), []sim.Run{{Minutes: 18, CycleMin: 7, SoakMin: 20}})
		for i := 0; i < n; i += every {
			p.Dose[i], p.Reason[i] = d, sim.Watered
		}
	}
	tr := &sim.Trace{}
	tr.Grow(n)
	months := make([]sim.Sums, len(c.Spans))
	b := new(sim.Balance)
	b.Reset(z, 0.3*z.TAWMM)
	for i, s := range c.Spans {
		sim.WeatherSums(&months[i], z, w, days, s)
		b.Replay(days[s.From:s.To], p, s.From, &months[i], tr, s.From)
	}
	return pair{&replay.Sheet{Strategy: strategy, Zone: z, Calendar: c, Weather: w, Forcing: days, Plan: p, Trace: tr}, months}
}

// site is two zones under a first strategy and the two references, which here
// are invented schedules too: the writers do not care how water was decided.
func site(n int) ([]*replay.Sheet, *tally.Table) {
	names := []string{"as found, mostly", tally.NoWater, tally.LeastWater}
	every := []int{3, 0, 5}
	t := &tally.Table{Strategies: names, Outcomes: make([][]tally.Outcome, len(names))}
	var sheets []*replay.Sheet
	for s := range names {
		for z, zone := range []string{`the "low" lawn`, "bank"} {
			one := invented(uint64(z+1), n, every[s], names[s], zone)
			sheets = append(sheets, one.sheet)
			t.Outcomes[s] = append(t.Outcomes[s], tally.Outcome{Months: one.months})
			if s == 0 {
				t.Zones = append(t.Zones, *one.sheet.Zone)
				t.Spans = one.sheet.Calendar.Spans
			}
		}
	}
	return sheets, t
}
