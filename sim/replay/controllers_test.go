package replay_test

import (
	"context"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"loamledger/sim"
	"loamledger/sim/clock"
	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/weather/cal"
)

// Controllers that share no flow are separate sites: under windows that queues of zones
// exceed, the water of every zone on every day is that of its controller by itself, to the
// digit.
func TestControllersAreSeparateSites(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 6).Draw(t, "zones")
		var zones []sim.Zone
		wiring := &clock.Wiring{AtOnce: []int{1, 1, 2}, MeterLMin: []float64{0}, Meter: make([]int, n)}
		p := strategy.Program{Name: "p", Starts: []int{rapid.IntRange(0, 120).Draw(t, "start")}}
		for z := range n {
			zone := hardZone()
			zone.Name = string(rune('a' + z))
			zones = append(zones, zone)
			wiring.Controller = append(wiring.Controller, rapid.IntRange(0, 2).Draw(t, "controller"))
			p.Minutes = append(p.Minutes, float64(rapid.IntRange(1, 90).Draw(t, "minutes")))
		}
		job := &replay.Job{Zones: zones, Weather: dryDays(20), NoSpinUp: true, StartShare: 0.5, Wiring: wiring,
			Limits:     &strategy.Limits{Always: strategy.Rule{Name: "town", Windows: []clock.Window{{FromMin: 0, ToMin: 150}}}},
			Strategies: []strategy.Strategy{{Name: "s", Parts: []strategy.Part{strategy.Programs{List: []strategy.Program{p}}}}}}
		whole := grossOf(t, job)
		for c := range wiring.AtOnce {
			own, q := *job, p
			own.Zones, q.Minutes, own.Wiring = nil, nil, &clock.Wiring{AtOnce: wiring.AtOnce[c : c+1], MeterLMin: []float64{0}}
			for z := range zones {
				if wiring.Controller[z] == c {
					own.Zones, q.Minutes = append(own.Zones, zones[z]), append(q.Minutes, p.Minutes[z])
				}
			}
			if len(own.Zones) == 0 {
				continue
			}
			own.Strategies = []strategy.Strategy{{Name: "s", Parts: []strategy.Part{strategy.Programs{List: []strategy.Program{q}}}}}
			for name, days := range grossOf(t, &own) {
				if !slices.Equal(days, whole[name]) {
					t.Fatalf("zone %s: %v, on its own %v", name, whole[name], days)
				}
			}
		}
	})
}

// grossOf returns the gross depth of each zone on each day under the first strategy.
func grossOf(t interface{ Fatal(...any) }, job *replay.Job) map[string][]float64 {
	out := map[string][]float64{}
	_, err := replay.Run(context.Background(), job, func(s *replay.Sheet) error {
		if s.Strategy == "s" {
			for i := range s.Days() {
				out[s.Zone.Name] = append(out[s.Zone.Name], s.Row(i).GrossMM)
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// hardZone is a zone without losses or strips.
func hardZone() sim.Zone {
	z := sim.Zone{Name: "a", AreaM2: 100, TAWMM: 50, P: 0.5, PConstant: true, Strips: 1, DULQ: 1, PRMMH: 12, IntakeMMH: 50,
		SurfaceStorageMM: 5, Rain: sim.Rain{Method: sim.FixedShare, EffectiveShare: 1}}
	for m := range z.K {
		z.K[m] = 1
	}
	return z
}

// dryDays is weather without rain and with an ETo of 5 mm.
func dryDays(n int) sim.Weather {
	w := sim.Weather{Start: cal.Of(2014, 6, 1)}
	for range n {
		w.RainMM, w.EToMM = append(w.RainMM, 0), append(w.EToMM, 5)
		w.TmaxC, w.TminC = append(w.TmaxC, 30), append(w.TminC, 15)
	}
	return w
}

// Hand: at 12 mm/h, a zone of 100 m² draws 20 L/min. Controllers A and B water from 01:00,
// A for 60 min and B for 30, on the same meter of 30 L/min: 40 L/min for 30 min from 01:00,
// on each of 3 days; with 40 L/min, none. Running past midnight counts on the day it does:
// A from 23:30 to 00:30 and B from 00:10 to 00:40 overlap for 20 min from 00:10 on the days
// after the first. Both from 23:30 to 00:30 overlap for 60 min, told once for each night.
func TestOverdrawsOfARecord(t *testing.T) {
	program := func(name string, at int, minutes ...float64) strategy.Program {
		return strategy.Program{Name: name, Starts: []int{at}, Minutes: minutes}
	}
	wiring := &clock.Wiring{AtOnce: []int{1, 1}, MeterLMin: []float64{30}, Controller: []int{0, 1}, Meter: []int{0, 0}}
	job := &replay.Job{Zones: []sim.Zone{hardZone(), hardZone()}, Weather: dryDays(3), NoSpinUp: true, Wiring: wiring,
		Strategies: []strategy.Strategy{
			{Name: "s", Parts: []strategy.Part{strategy.Programs{List: []strategy.Program{program("a", 60, 60, 0), program("b", 60, 0, 30)}}}},
			{Name: "late", Parts: []strategy.Part{strategy.Programs{List: []strategy.Program{program("a", 1410, 60, 0), program("b", 10, 0, 30)}}}},
			{Name: "over midnight", Parts: []strategy.Part{strategy.Programs{List: []strategy.Program{program("a", 1410, 60, 0),
				program("b", 1410, 0, 60)}}}},
		}}
	got := replay.Overdraws(job)
	if len(got[0]) != 3 || got[0][0].Date != job.Weather.Start ||
		got[0][0].Overdraw != (clock.Overdraw{AtMin: 60, WantLMin: 40, Minutes: 30}) {
		t.Errorf("%+v", got[0])
	}
	if len(got[1]) != 2 || got[1][0].Date != job.Weather.Start+1 ||
		got[1][0].Overdraw != (clock.Overdraw{AtMin: 10, WantLMin: 40, Minutes: 20}) {
		t.Errorf("%+v", got[1])
	}
	if len(got[2]) != 3 || got[2][0].Overdraw != (clock.Overdraw{AtMin: 1410, WantLMin: 40, Minutes: 60}) {
		t.Errorf("%+v", got[2])
	}
	wiring.MeterLMin[0] = 40
	if got = replay.Overdraws(job); got[0] != nil || got[1] != nil {
		t.Errorf("with flow enough: %+v", got)
	}
}
