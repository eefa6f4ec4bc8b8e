package replay_test

import (
	"context"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"loamledger/sim"
	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/weather/cal"
)

// drawStretches draws up to four stretches for a strategy of the site; the first has
// the site's zones, and each of the others changes some.
func drawStretches(t *rapid.T, job *replay.Job) []strategy.Stretch {
	out := []strategy.Stretch{{Zones: job.Zones}}
	from := job.Weather.Start
	for range rapid.IntRange(0, 3).Draw(t, "changes") {
		from += cal.Date(rapid.IntRange(1, 150).Draw(t, "from")) // no two on one date
		last := out[len(out)-1]
		s := strategy.Stretch{From: from, Zones: slices.Clone(last.Zones), Run: make([]float64, len(job.Zones)),
			Roots: make([]float64, len(job.Zones)),
			Anew:  make([]bool, len(job.Zones))}
		for z := range s.Zones {
			s.Run[z], s.Roots[z] = 1, 1
			if rapid.Bool().Draw(t, "changes this zone") {
				store := s.Zones[z].WorkingStorage
				s.Zones[z] = drawZone(t, s.Zones[z].Name)
				if store {
					s.Zones[z].WorkingStorage, s.Zones[z].P, s.Zones[z].DULQ, s.Zones[z].Strips = true, 0.5, 1, 1
				}
				s.Run[z] = rapid.Float64Range(0, 2).Draw(t, "run")
				s.Roots[z] = rapid.Float64Range(0.3, 3).Draw(t, "roots")
				if s.Zones[z].Same(&last.Zones[z]) { // roots that differ are another zone
					s.Roots[z] = 1
				}
				s.Anew[z] = rapid.Bool().Draw(t, "anew")
			}
		}
		s.Percent = s.Run
		out = append(out, s)
	}
	return out
}

// drawChanged is a drawn site whose first strategy changes zones.
func drawChanged(t *rapid.T) *site {
	s := drawSite(t, 3, 2, 420)
	drawMore(t, s)
	for i := range s.job.Strategies {
		s.job.Strategies[i].Stretches = drawStretches(t, &s.job)
	}
	return s
}

// TestChangesThatChangeNothing: stretches with the zones as they are, from any dates
// and as many as one likes, give the digits of a strategy without changes.
func TestChangesThatChangeNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSite(t, 3, 2, 420)
		drawMore(t, s)
		plain := tableOf(t, &s.job)
		ones := make([]float64, len(s.job.Zones))
		for z := range ones {
			ones[z] = 1
		}
		for i := range s.job.Strategies {
			list := []strategy.Stretch{{Zones: s.job.Zones}}
			for range rapid.IntRange(0, 3).Draw(t, "dates") {
				from := s.job.Weather.Start + cal.Date(rapid.IntRange(-20, 440).Draw(t, "from"))
				list = append(list, strategy.Stretch{From: from, Zones: slices.Clone(s.job.Zones), Run: ones, Percent: ones, Roots: ones})
			}
			slices.SortFunc(list[1:], func(a, b strategy.Stretch) int { return int(a.From - b.From) })
			s.job.Strategies[i].Stretches = list
		}
		identical(t, "changes that change nothing", plain, tableOf(t, &s.job), same)
	})
}

// TestChangesAfterTheRecord do nothing, whatever they are.
func TestChangesAfterTheRecord(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSite(t, 3, 2, 420)
		plain := tableOf(t, &s.job)
		after := s.job.Weather.Start + cal.Date(s.job.Weather.Days())
		for i := range s.job.Strategies {
			other := drawZones(t, len(s.job.Zones))
			for len(other) < len(s.job.Zones) {
				other = append(other, drawZone(t, "more"))
			}
			s.job.Strategies[i].Stretches = []strategy.Stretch{{Zones: s.job.Zones}, {From: after, Zones: other}}
		}
		identical(t, "changes after the record", plain, tableOf(t, &s.job), same)
	})
}

// TestUndatedChangesAreAnotherSite: a strategy that changes zones for the whole record
// gives the digits of a site with those zones, and requires what that site requires.
func TestUndatedChangesAreAnotherSite(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSite(t, 3, 1, 420)
		drawMore(t, s)
		other := s.job
		other.Zones = nil
		for z := range s.job.Zones {
			zone := drawZone(t, s.job.Zones[z].Name)
			zone.AreaM2 = s.job.Zones[z].AreaM2
			other.Zones = append(other.Zones, zone)
		}
		want := tableOf(t, &other)
		s.job.Strategies = slices.Clone(s.job.Strategies)
		for i := range s.job.Strategies {
			s.job.Strategies[i].Stretches = []strategy.Stretch{{Zones: other.Zones}}
		}
		got := tableOf(t, &s.job)
		for i := range s.job.Strategies {
			for z := range other.Zones {
				if !sameBits(got.Outcomes[i][z].Months, want.Outcomes[i][z].Months) {
					t.Fatalf("strategy %d, zone %d: not that of a site with the zones", i, z)
				}
				if !sameBits(got.Outcomes[got.LeastRow(i)][z].Months, want.Outcomes[want.LeastWaterIndex()][z].Months) {
					t.Fatalf("strategy %d, zone %d: the requirement is not that of a site with the zones", i, z)
				}
			}
		}
	})
}

// TestNothingBeforeTheChange: up to the day of a change every row is that of the
// strategy without it.
func TestNothingBeforeTheChange(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSite(t, 3, 1, 420)
		_, before := rowsOf(t, &s.job)
		list := drawStretches(t, &s.job)
		s.job.Strategies[0].Stretches = list
		_, after := rowsOf(t, &s.job)
		if len(list) < 2 {
			return
		}
		for z := range s.job.Zones {
			for i := range min(int(list[1].From-s.job.Weather.Start), s.job.Weather.Days()) {
				if before[0][z][i] != after[0][z][i] {
					t.Fatalf("zone %d, day %d differs before any change: %+v, %+v", z, i, before[0][z][i], after[0][z][i])
				}
			}
		}
	})
}

// TestBalanceClosesOverChanges closes the balance of every day and month, the days of
// changes included.
func TestBalanceClosesOverChanges(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawChanged(t)
		closes(t, &s.job)
	})
}

// TestChangesOnAnyNumberOfGoroutines, with a ledger or without, in briefs, and as
// variations, give the same digits.
func TestChangesOnAnyNumberOfGoroutines(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawChanged(t)
		first := tableOf(t, &s.job)
		many := s.job
		many.Workers = rapid.IntRange(2, 4).Draw(t, "workers")
		again, _ := rowsOf(t, &many)
		identical(t, "goroutines", first, again, same)
		plain := s.job
		plain.Strategies = nil
		var r replay.Runner
		if _, err := r.Run(context.Background(), &plain, nil); err != nil {
			t.Fatalf("%v", err)
		}
		varied, err := r.Vary(context.Background(), s.job.Strategies, nil)
		if err != nil {
			t.Fatalf("%v", err)
		}
		basis := first.Basis()
		for i := range s.job.Strategies {
			for z := range s.job.Zones {
				if a, b := first.Sum(&basis, i, z), varied.Sum(&basis, i, z); !slices.Equal(bits(a), bits(b)) {
					t.Fatalf("varied: %+v, run: %+v", b, a)
				}
			}
		}
	})
}

// TestSumsOfChangedZones: the sums of months are those of the ledger's rows, depths
// times the area of the day.
func TestSumsOfChangedZones(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawChanged(t)
		table, rows := rowsOf(t, &s.job)
		for k := range s.job.Strategies {
			for z := range s.job.Zones {
				for m, span := range table.Spans {
					var gross, eta float64
					stress := 0
					for _, r := range rows[k][z][span.From:span.To] {
						gross += r.GrossMM * r.AreaM2
						eta += r.ETaMM * r.AreaM2
						if r.StressZone {
							stress++
						}
					}
					sum, area := &table.Outcomes[k][z].Months[m], s.job.Zones[z].AreaM2
					if !near(gross/area, sum.GrossMM) || !near(eta/area, sum.ETaMM) || stress != sum.StressZoneDays {
						t.Fatalf("rows: gross %g, ETa %g, %d stress days; month %+v", gross/area, eta/area, stress, sum)
					}
				}
			}
		}
	})
}

// TestMomentIsTheRowOverChanges: a day taken out for explaining is the ledger's row
// and begins where the day before ended, after the step of a change.
func TestMomentIsTheRowOverChanges(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawChanged(t)
		_, rows := rowsOf(t, &s.job)
		k := rapid.IntRange(0, len(s.job.Strategies)-1).Draw(t, "strategy")
		z := rapid.IntRange(0, len(s.job.Zones)-1).Draw(t, "zone")
		i := rapid.IntRange(0, s.job.Weather.Days()-1).Draw(t, "day")
		want := rows[k][z][i]
		m, ok := replay.At(&s.job, k, z, want.Date)
		if !ok || m.Row != want {
			t.Fatalf("the moment %+v is not the row %+v", m.Row, want)
		}
		morning := 0.0
		for _, dr := range m.MorningMM {
			morning += dr / float64(len(m.MorningMM))
		}
		if i > 0 && !near(morning, rows[k][z][i-1].DepletionMM+want.SoilChangeMM) {
			t.Fatalf("%v begins at %g mm, the day before ended at %g, the change adds %g", want.Date, morning, rows[k][z][i-1].DepletionMM,
				want.SoilChangeMM)
		}
		in := make([]float64, len(m.InfiltMM))
		if d := m.Zone.Dose(m.Runs, m.Shares, in); d != m.Dose || !slices.Equal(in, m.InfiltMM) {
			t.Fatalf("the runs %+v make %+v and %v, the moment has %+v and %v", m.Runs, d, in, m.Dose, m.InfiltMM)
		}
	})
}

// changing is a site of one plain zone over ten dry days with ETo 4 mm, from full,
// watered 5 min on every day; the given change comes on the sixth.
func changing(change func(z *sim.Zone, s *strategy.Stretch)) replay.Job {
	w := still(cal.Of(2003, 6, 1), 10, 4)
	zone := plainZone("lawn")
	after := strategy.Stretch{From: w.Start + 5, Zones: []sim.Zone{zone}}
	change(&after.Zones[0], &after)
	program := strategy.Program{Name: "daily", Starts: []int{300}, Minutes: []float64{5}}
	return replay.Job{Zones: []sim.Zone{zone}, Weather: w, NoSpinUp: true, StartShare: 0.5, Strategies: []strategy.Strategy{{
		Name: "changed", Parts: []strategy.Part{strategy.Programs{List: []strategy.Program{program}}},
		Stretches: []strategy.Stretch{{Zones: []sim.Zone{zone}}, after},
	}}}
}

// TestChangesByHand follows each kind of change with a pocket calculator. The zone has
// TAW 100 mm, p 0.4 (RAW 40), K 1, 60 mm/h: 5 min are 5 mm. It starts at 50 mm, past
// RAW. With 5 mm in and Ks·4 out, Ks = (100 − Dr)/60:
//
//	day 1: 45, Ks 55/60 = 0.916667, ETa 3.666667 → 48.666667
//
// From there on only the sums of irrigation and the step of the change are compared:
// five days before the change, five after it.
func TestChangesByHand(t *testing.T) {
	for _, test := range []struct {
		name    string
		change  func(z *sim.Zone, s *strategy.Stretch)
		grossMM float64 // over the record, mean of the old area
		step    func(dr float64) float64
	}{
		// 5·5 + 5·2.5: half the rate for the same minutes.
		{"rate, same minutes", func(z *sim.Zone, _ *strategy.Stretch) { z.PRMMH = 30 }, 37.5, nil},
		// 5·5 + 5·(10 min at 30 mm/h = 5).
		{"rate, same depth", func(z *sim.Zone, s *strategy.Stretch) { z.PRMMH, s.Run = 30, []float64{2} }, 50, nil},
		// 5·5 + 5·4.
		{"80% of the minutes", func(_ *sim.Zone, s *strategy.Stretch) { s.Run = []float64{0.8} }, 45, nil},
		// 5·5 + 5·(5 + 1).
		{"a leak of 1 mm a day", func(z *sim.Zone, _ *strategy.Stretch) { z.LeakMMDay = 1 }, 55, nil},
		// 5·5 + 5·5·60/100: 40 of 100 m² taken out.
		{"area", func(z *sim.Zone, _ *strategy.Stretch) { z.AreaM2 = 60 }, 40, nil},
		// 5·5: nothing is left to water.
		{"area taken out", func(z *sim.Zone, s *strategy.Stretch) { z.AreaM2, s.Run = 0, []float64{0} }, 25, nil},
		// Roots of double depth reach soil at field capacity: the depletion stays.
		{"deeper roots", func(z *sim.Zone, s *strategy.Stretch) { z.TAWMM, s.Roots = 200, []float64{2} }, 50,
			func(float64) float64 { return 0 }},
		// Of half the depth, they leave half of it behind.
		{"shorter roots", func(z *sim.Zone, s *strategy.Stretch) { z.TAWMM, s.Roots = 50, []float64{0.5} }, 50,
			func(dr float64) float64 { return -dr / 2 }},
		// Soil that holds 20 mm more lacks 20 mm more.
		{"amended soil", func(z *sim.Zone, _ *strategy.Stretch) { z.TAWMM = 120 }, 50, func(float64) float64 { return 20 }},
		// Both: 150 mm are reached, of which the soil then holds 180.
		{"deeper roots in amended soil", func(z *sim.Zone, s *strategy.Stretch) { z.TAWMM, s.Roots = 180, []float64{1.5} }, 50,
			func(float64) float64 { return 30 }},
		{"uniformity", func(z *sim.Zone, _ *strategy.Stretch) { z.Strips, z.DULQ = 8, 0.55 }, 50, func(float64) float64 { return 0 }},
		{"plants", func(z *sim.Zone, s *strategy.Stretch) { z.K, s.Anew = everyMonth(0.5), []bool{true} }, 50,
			func(float64) float64 { return 0 }},
	} {
		job := changing(test.change)
		table, rows := rowsOf(t, &job)
		days := rows[0][0]
		if !near(days[0].DepletionMM, 45+4*55/60.0) {
			t.Errorf("%s: day 1 ends at %g mm", test.name, days[0].DepletionMM)
		}
		if got := table.Total(0, 0).GrossMM; !near(got, test.grossMM) {
			t.Errorf("%s: gross %g mm, by hand %g", test.name, got, test.grossMM)
		}
		if test.step != nil && !near(days[5].SoilChangeMM, test.step(days[4].DepletionMM)) {
			t.Errorf("%s: the change adds %g mm, by hand %g", test.name, days[5].SoilChangeMM, test.step(days[4].DepletionMM))
		}
	}
}

// TestPlantsChangeByHand: with K 0.5 from the sixth day ETc is 2 mm; R7 of the new
// plants begins on that day, so the thirst of the old ones does not count.
func TestPlantsChangeByHand(t *testing.T) {
	for _, anew := range []bool{false, true} {
		job := changing(func(z *sim.Zone, s *strategy.Stretch) {
			z.K, s.Anew, z.ToleranceR7 = everyMonth(0.5), []bool{anew}, 0.99
		})
		job.Zones[0].ToleranceR7 = 0.99
		job.Strategies[0].Stretches[0].Zones[0].ToleranceR7 = 0.99
		_, rows := rowsOf(t, &job)
		d := rows[0][0][5]
		if !near(d.ETcMM, 2) || !near(d.K, 0.5) {
			t.Errorf("ETc %g mm with K %g on the day of the change", d.ETcMM, d.K)
		}
		short, need := 0.0, 5*4.0+2 // five days of the old plants, one of the new
		for _, r := range rows[0][0][:6] {
			short += r.ShortMM
		}
		if anew {
			short, need = d.ShortMM, 2
		}
		if want := 1 - short/need; !near(d.R7Zone, want) {
			t.Errorf("anew %v: R7 %g, by hand %g", anew, d.R7Zone, want)
		}
	}
}

// TestPartsInForce: a strategy whose parts have dates applies, on each day, what the
// strategy with the parts of that day applies, as far as soil does not decide.
func TestPartsInForce(t *testing.T) {
	w := invented(900)
	zone := plainZone("lawn")
	program := strategy.Programs{List: []strategy.Program{{Name: "daily", Starts: []int{300}, Minutes: []float64{5}}}}
	half := strategy.Monthly{}
	for m := range half.Share {
		half.Share[m] = 0.5
	}
	full := strategy.Strategy{Name: "full", Parts: []strategy.Part{program}}
	less := strategy.Strategy{Name: "half", Parts: []strategy.Part{program, half}}
	dated := less
	dated.Name = "dated"
	from, until := w.Start+400, w.Start+700
	dated.Terms = []strategy.Term{{}, {From: from, Until: until - 1}}
	zones := []sim.Zone{zone}
	dated.Stretches = []strategy.Stretch{
		{Zones: zones, Without: []bool{false, true}}, {From: from, Zones: zones, Without: []bool{false, false}},
		{From: until, Zones: zones, Without: []bool{false, true}},
	}
	job := replay.Job{Zones: zones, Weather: w, Strategies: []strategy.Strategy{full, less, dated}}
	_, rows := rowsOf(t, &job)
	for i := range rows[2][0] {
		want := rows[0][0][i].GrossMM
		if i >= 400 && i < 700 {
			want = rows[1][0][i].GrossMM
		}
		if rows[2][0][i].GrossMM != want {
			t.Fatalf("day %d: %g mm, by hand %g", i, rows[2][0][i].GrossMM, want)
		}
	}
}
