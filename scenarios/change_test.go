package scenarios_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"loamledger/scenarios"
	"loamledger/scenarios/demo"
	"loamledger/scenarios/yamlfile"
	"loamledger/sim/strategy"
	"loamledger/weather/cal"
)

// changedYard has two zones with values that are round in SI: 60 mm/h, AWC 100 mm/m, 20
// cm of roots.
const changedYard = `  - {name: front lawn, area: 100 m2, plant: {k: 0.8, p: 0.4, tolerance: 75%},
     soil: {awc: 100 mm/m, intake: 20 mm/h, surface_storage: 5 mm}, root_depth: 20 cm,
     sprinkler: {kind: spray, rate: 60 mm/h, uniformity: 60%, spray_loss: 5%}, leak: 1 L/h}
  - {name: bed, area: 50 m2, plant: desert plants, soil: loam, sprinkler: {kind: drip, flow: 5 L/min}}`

// changed reads a strategy with the given changes of changedYard.
func changed(t *testing.T, changes string) (*strategy.Strategy, *scenarios.Stack, *scenarios.Scenario) {
	t.Helper()
	sc := mustRead(t, around(changedYard, asFound+"  - {name: changed, like: as found, changes: "+changes+"}\n"), nil)
	return &sc.Strategies[1], &sc.Stacks[1], sc
}

// TestChangesByHand follows one change of each kind.
func TestChangesByHand(t *testing.T) {
	after := func(changes string) (scenarios.Zone, float64) {
		st, stack, _ := changed(t, changes)
		last := len(st.Stretches) - 1
		return stack.Stages[last].Zones[0], st.Stretches[last].Run[0]
	}
	z, run := after("{zones: front lawn, sprinkler: {rate: 15 mm/h, uniformity: 75%}}")
	want(t, "rate", z.PRMMH, 15)
	want(t, "DU", z.DULQ, 0.75)
	want(t, "spray loss, not changed", z.LossShare, 0.05)
	want(t, "run for the same depth, 60/15", run, 4)
	_, run = after("{zones: front lawn, sprinkler: {rate: 15 mm/h}, minutes: same minutes}")
	want(t, "run for the same minutes", run, 1)
	_, run = after("{zones: front lawn, minutes: 80%}")
	want(t, "run of 80%", run, 0.8)
	z, run = after("[{zones: all, sprinkler: {rate: 30 mm/h}}, {zones: front lawn, sprinkler: {rate: 15 mm/h}, minutes: 150%}]")
	want(t, "rate after two changes", z.PRMMH, 15)
	want(t, "run after two changes, 60/30 times 1.5", run, 3)
	z, _ = after("{zones: front lawn, sprinkler: {flow: 50 L/min}}")
	want(t, "rate of a flow, 60·50/100", z.PRMMH, 30)
	z, _ = after("{zones: front lawn, sprinkler: {broken_heads: 10%, overspray: 2%}}")
	want(t, "broken heads", z.BrokenShare, 0.1)
	want(t, "overspray", z.OversprayShare, 0.02)
	z, _ = after("{zones: front lawn, leak: 0 L/h}")
	want(t, "leak", z.LeakMMDay, 0)
	z, run = after("{zones: front lawn, area: 25 m2}")
	want(t, "area", z.AreaM2, 25)
	want(t, "rate on a quarter of the area, whose heads are gone with it", z.PRMMH, 60)
	want(t, "flow", z.FlowLMin, 25)
	want(t, "leak of 24 L a day on 25 m²", z.LeakMMDay, 0.96)
	want(t, "run", run, 1)
	z, run = after("{zones: front lawn, area: none}")
	want(t, "area removed", z.AreaM2, 0)
	want(t, "run of an area removed", run, 0)
	want(t, "leak of an area removed", z.LeakMMDay, 0)
	z, _ = after("{zones: front lawn, soil: {awc: 150 mm/m}}")
	want(t, "TAW of amended soil, 150·0.2", z.TAWMM, 30)
	want(t, "intake, not changed", z.IntakeMMH, 20)
	z, _ = after("{zones: front lawn, root_depth: 30 cm}")
	want(t, "TAW of deeper roots", z.TAWMM, 30)
	z, _ = after("{zones: front lawn, density: 0.5}")
	want(t, "K at half the density", z.K[6], 0.4)
	z, _ = after("{zones: front lawn, plant: {tolerance: 60%}}")
	want(t, "tolerance", z.ToleranceR7, 0.6)
	want(t, "K, not changed", z.K[6], 0.8)
}

// TestPlantsTakeTheirRootsWithThem: what rests on the old plants goes with them unless
// the change gives it.
func TestPlantsTakeTheirRootsWithThem(t *testing.T) {
	of := func(keys string) scenarios.Zone {
		st, stack, _ := changed(t, "{zones: front lawn, "+keys+"}")
		return stack.Stages[len(st.Stretches)-1].Zones[0]
	}
	desert := zone(t, "area: 100 m2, plant: desert plants, soil: loam, sprinkler: spray")
	z := of("plant: desert plants")
	want(t, "roots of the new plants", z.RootDepthM, desert.RootDepthM)
	want(t, "tolerance of the new plants", z.ToleranceR7, desert.ToleranceR7)
	want(t, "K of the new plants", z.K[6], desert.K[6])
	want(t, "soil, not changed", z.AWCMMPerM, 100)
	if z = of("plant: desert plants, root_depth: 25 cm"); z.RootDepthM != 0.25 {
		t.Errorf("roots of %g m, given as 25 cm", z.RootDepthM)
	}
	z = of("sprinkler: {kind: drip, rate: 10 mm/h}")
	drip := zone(t, "area: 100 m2, plant: desert plants, soil: loam, sprinkler: {kind: drip, rate: 10 mm/h}")
	want(t, "DU of the new kind", z.DULQ, drip.DULQ)
	want(t, "spray loss of the new kind", z.LossShare, drip.LossShare)
}

// TestRestatedZonesAreTheSame: a change to what every zone of the demo is already, key by
// key and all together, is no change.
func TestRestatedZonesAreTheSame(t *testing.T) {
	sc := mustRead(t, demo.Scenario, nil)
	list := sc.Canonical.Get("zones")
	for z := range sc.Zones {
		var all []string
		for _, e := range list.Items[z].Entries {
			switch e.Key {
			case "name", "strips", "balance", "storage":
				continue
			}
			all = append(all, e.Key+": "+flow(e.Value))
		}
		for _, keys := range append(slices.Clone(all), strings.Join(all, ", ")) {
			text := demo.Scenario + "  - {name: restated, like: as found, changes: {zones: [" + sc.Zones[z].Name + "], " + keys + "}}\n"
			got := mustRead(t, text, nil)
			st := got.Strategies[len(got.Strategies)-1]
			s := st.Stretches[len(st.Stretches)-1]
			for k := range s.Zones {
				if !s.Zones[k].Same(&sc.Zones[k].Zone) {
					t.Errorf("%s restated in %s: %+v, was %+v", keys, sc.Zones[z].Name, s.Zones[k], sc.Zones[k].Zone)
				}
				if s.Run[k] != 1 || s.Percent[k] != 1 {
					t.Errorf("%s restated in %s: run times times %g", keys, sc.Zones[z].Name, s.Run[k])
				}
			}
		}
	}
}

// flow writes a tree as YAML on one line.
func flow(n *scenarios.Node) string {
	switch n.Kind {
	case scenarios.List:
		var items []string
		for _, item := range n.Items {
			items = append(items, flow(item))
		}
		return "[" + strings.Join(items, ", ") + "]"
	case scenarios.Map:
		var keys []string
		for _, e := range n.Entries {
			keys = append(keys, e.Key+": "+flow(e.Value))
		}
		return "{" + strings.Join(keys, ", ") + "}"
	}
	return "'" + n.Text + "'"
}

// TestOrderOfIndependentChanges: changes of different zones, or of different things in
// one zone, come to the same in any order, dated or not.
func TestOrderOfIndependentChanges(t *testing.T) {
	list := []string{
		"{zones: front lawn, sprinkler: {uniformity: 75%}, from: 2013-04-01}",
		"{zones: front lawn, soil: {awc: 150 mm/m}}",
		"{zones: bed, plant: 'shrubs, dry climate', from: 2014-04-01, establish: {days: 60 days}}",
		"{zones: all, leak: 2 L/h, minutes: 90%, from: 2013-04-01}",
	}
	first, _, _ := changed(t, "["+strings.Join(list, ", ")+"]")
	slices.Reverse(list)
	second, _, _ := changed(t, "["+strings.Join(list, ", ")+"]")
	if len(first.Stretches) != len(second.Stretches) {
		t.Fatalf("%d and %d stretches", len(first.Stretches), len(second.Stretches))
	}
	for k := range first.Stretches {
		a, b := &first.Stretches[k], &second.Stretches[k]
		if a.From != b.From || !slices.Equal(a.Run, b.Run) || !slices.Equal(a.Percent, b.Percent) || !slices.Equal(a.Roots, b.Roots) {
			t.Errorf("stretch %d: %+v and %+v", k, a, b)
		}
		for z := range a.Zones {
			if !a.Zones[z].Same(&b.Zones[z]) {
				t.Errorf("stretch %d, zone %d: %+v and %+v", k, z, a.Zones[z], b.Zones[z])
			}
		}
	}
}

// TestEstablishmentByHand: 21 days in three steps of a week, whose middles are at 3.5/21,
// 10.5/21 and 17.5/21 of the way: roots from 5 to 20 cm, coefficient from 40 to 100%, run
// times from 200 to 100% of half, after ten days with dead plants.
func TestEstablishmentByHand(t *testing.T) {
	st, stack, _ := changed(t, "{zones: front lawn, plant: {k: 0.5, tolerance: 60%}, root_depth: 20 cm, minutes: 50%, from: 2014-10-11, "+
		"removal: 10 days, establish: {days: 21 days, root_depth: 5 cm, k: 40%, minutes: 200%}}")
	day := cal.Of(2014, 10, 11)
	for k, w := range []struct {
		from               cal.Date
		k, roots, run, tol float64
	}{
		{0, 0.8, 0.20, 1, 0.75},
		{day - 10, 0.15, 0.20, 0, 0},
		{day, 0.5 * (0.4 + 0.6/6), 0.05 + 0.15/6, 0.5 * (2 - 1.0/6), 0.9},
		{day + 7, 0.5 * (0.4 + 0.6/2), 0.05 + 0.15/2, 0.5 * 1.5, 0.9},
		{day + 14, 0.5 * (0.4 + 0.6*5/6), 0.05 + 0.15*5/6, 0.5 * (2 - 5.0/6), 0.9},
		{day + 21, 0.5, 0.20, 0.5, 0.6},
	} {
		if k >= len(st.Stretches) {
			t.Fatalf("%d stretches", len(st.Stretches))
		}
		s, z := &st.Stretches[k], &stack.Stages[k].Zones[0]
		if s.From != w.from || stack.Stages[k].From != w.from {
			t.Errorf("stretch %d from %v, want %v", k, s.From, w.from)
		}
		if math.Abs(z.K[6]-w.k) > 1e-12 || math.Abs(z.RootDepthM-w.roots) > 1e-12 || math.Abs(s.Run[0]-w.run) > 1e-12 || z.ToleranceR7 != w.tol {
			t.Errorf("stretch %d: K %g, roots %g, run %g, tolerance %g; by hand %+v", k, z.K[6], z.RootDepthM, s.Run[0], z.ToleranceR7, w)
		}
		if math.Abs(z.TAWMM-100*w.roots) > 1e-9 {
			t.Errorf("stretch %d: TAW %g", k, z.TAWMM)
		}
		if grows := k >= 2 && k <= 4; s.Establishing[0] != grows {
			t.Errorf("stretch %d: establishing %v", k, s.Establishing[0])
		}
		if fresh := k == 1 || k == 2; s.Anew[0] != fresh {
			t.Errorf("stretch %d: anew %v", k, s.Anew[0])
		}
	}
}

// TestLikeAddsChanges: a strategy like one with changes has those first, then its own.
func TestLikeAddsChanges(t *testing.T) {
	sc := mustRead(t, around(changedYard, asFound+
		"  - {name: nozzles, like: as found, changes: {zones: front lawn, sprinkler: {rate: 30 mm/h}}}\n"+
		"  - {name: more, like: nozzles, changes: {zones: front lawn, sprinkler: {rate: 15 mm/h}}}\n"+
		"  - {name: same, like: nozzles}\n"), nil)
	if len(sc.Stacks[2].Changes) != 2 || len(sc.Stacks[3].Changes) != 1 || sc.Stacks[0].Changes != nil {
		t.Fatalf("%d, %d and %d changes", len(sc.Stacks[2].Changes), len(sc.Stacks[3].Changes), len(sc.Stacks[0].Changes))
	}
	want(t, "run of both", sc.Strategies[2].Stretches[0].Run[0], 4)
	e := &sc.Stacks[2].Effects[1]
	want(t, "run of the second alone, 60/15", e.Alone[0].Run[0], 4)
	want(t, "run of the first of both", sc.Stacks[2].Effects[0].UpTo[0].Run[0], 2)
}

// TestFaultsOfChanges: each mistake is told with its place and what to write.
func TestFaultsOfChanges(t *testing.T) {
	for _, test := range []struct{ changes, want string }{
		{"{sprinkler: {rate: 1 in/h}}", "zones is missing"},
		{"{zones: front lawn}", "changes nothing"},
		{"{zones: nowhere, minutes: 80%}", "nowhere"},
		{"{zones: front lawn, strips: 4}", "strips"},
		{"{zones: front lawn, minutes: 80}", "minutes is the value \"80\""},
		{"{zones: front lawn, minutes: less}", "minutes is the value \"less\""},
		{"{zones: front lawn, sprinkler: {uniformity: 5%}}", "uniformity"},
		{"{zones: front lawn, sprinkler: {kind: hose}}", "hose"},
		{"{zones: front lawn, establish: {days: 30 days}, from: 2013-01-01}", "establish has no effect without plant"},
		{"{zones: front lawn, plant: desert plants, removal: 30 days}", "removal requires from"},
		{"{zones: front lawn, plant: desert plants, from: 2013-01-01, establish: {root_depth: 2 in}}", "days is missing"},
		{"{zones: front lawn, plant: plastic}", "plastic"},
		{"{zones: front lawn, from: soon, minutes: 80%}", "from is the value \"soon\""},
		{"nozzles", "not a list of changes"},
	} {
		text := around(changedYard, asFound+"  - {name: changed, like: as found, changes: "+test.changes+"}\n")
		_, err := yamlfile.Read(strings.NewReader(text), "yard.yaml", files{}.open)
		if err == nil || !strings.Contains(err.Error(), test.want) || !strings.Contains(err.Error(), "yard.yaml:") {
			t.Errorf("%s: error %v, want one with %q and its place", test.changes, err, test.want)
		}
	}
}

// TestPartsWithDates: each date of a part begins a stretch in which it is in force or
// not; a part that only has a life has none.
func TestPartsWithDates(t *testing.T) {
	read := func(hold string) *strategy.Strategy {
		sc := mustRead(t, around(changedYard, asFound+"  - {name: dated, like: as found, hold: {rain: {at_least: 6 mm"+hold+"}}}\n"), nil)
		return &sc.Strategies[1]
	}
	st := read(", from: 2013-05-01, until: 2015-06-30, off: {from: 2014-01-01, to: 2014-02-28}")
	want := []struct {
		from    cal.Date
		without bool
	}{
		{0, true}, {cal.Of(2013, 5, 1), false}, {cal.Of(2014, 1, 1), true}, {cal.Of(2014, 3, 1), false}, {cal.Of(2015, 7, 1), true},
	}
	if len(st.Stretches) != len(want) {
		t.Fatalf("%d stretches, by hand %d", len(st.Stretches), len(want))
	}
	for k, w := range want {
		at := slices.IndexFunc(st.Parts, func(p strategy.Part) bool { return p.Kind().Key == "hold.rain" })
		if s := &st.Stretches[k]; s.From != w.from || s.Without[at] != w.without {
			t.Errorf("stretch %d from %v, without the part: %v; by hand %+v", k, s.From, s.Without[at], w)
		}
		parts := 2
		if w.without {
			parts = 1
		}
		if in := st.In(k); len(in.Parts) != parts {
			t.Errorf("stretch %d has %d parts, by hand %d", k, len(in.Parts), parts)
		}
	}
	if st = read(", lasts: {life: 8}"); st.Stretches != nil || len(st.Terms) != 2 {
		t.Errorf("a life makes %d stretches and %d terms", len(st.Stretches), len(st.Terms))
	}
	if st = read(""); st.Stretches != nil || st.Terms != nil {
		t.Error("a part without dates has some")
	}
	for _, wrong := range []string{", from: 2015-01-01, until: 2014-01-01", ", off: {from: 2015-01-01}", ", lasts: {seed: 3}",
		", lasts: {life: 3, fails_at: 2}", ", lasts: {life: 0}"} {
		text := around(changedYard, asFound+"  - {name: dated, like: as found, hold: {rain: {at_least: 6 mm"+wrong+"}}}\n")
		if _, err := yamlfile.Read(strings.NewReader(text), "yard.yaml", files{}.open); err == nil {
			t.Errorf("%s is read", wrong)
		}
	}
}
