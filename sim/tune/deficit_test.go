package tune_test

import (
	"context"
	"math"
	"testing"

	"loamledger/sim"
	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/sim/tune"
)

func fixedStrategy() strategy.Strategy {
	return strategy.Strategy{Name: "fixed", Parts: []strategy.Part{strategy.Programs{List: []strategy.Program{{Name: "p",
		Days: weekdays(1, 3, 5), Starts: []int{300}, Minutes: []float64{18, 25}, Cycle: 6, Soak: 30}}}}}
}

// TestDeficitIsMonotone: under a fixed program, water is proportional to run time,
// and stress never falls as run times are cut.
func TestDeficitIsMonotone(t *testing.T) {
	job := twoZones()
	st := fixedStrategy()
	c, err := tune.Deficit(context.Background(), &job, &st, nil)
	if err != nil {
		t.Fatal(err)
	}
	if len(c.Points) != 15 || c.Points[0].Share != 0.1 || c.Points[14].Share != 1.5 || len(c.Notes) > 0 {
		t.Fatalf("%d points, notes %v", len(c.Points), c.Notes)
	}
	today := c.Points[9]
	if today.Share != 1 {
		t.Fatalf("today is not among the shares: %g", today.Share)
	}
	for i, p := range c.Points {
		for z := range p.Zones {
			if want := today.Zones[z].M3PerYear * p.Share; math.Abs(p.Zones[z].M3PerYear-want) > 1e-9*want {
				t.Errorf("zone %d at %g: %g m³, in proportion %g", z, p.Share, p.Zones[z].M3PerYear, want)
			}
			if i > 0 {
				if a, b := c.Points[i-1].Zones[z], p.Zones[z]; b.StressDaysDry > a.StressDaysDry || b.StressDaysPerYear > a.StressDaysPerYear ||
					b.StressDaysMedian > a.StressDaysMedian {
					t.Errorf("zone %d: stress rises with water from %g to %g: %+v, %+v", z, c.Points[i-1].Share, p.Share, a, b)
				}
			}
		}
	}
	if first, last := c.Points[0].Site, c.Points[14].Site; first.StressDaysPerYear <= last.StressDaysPerYear {
		t.Errorf("the curve is flat: %g and %g stress days a year", first.StressDaysPerYear, last.StressDaysPerYear)
	}
	// Today's point matches the strategy itself, and the bound matches its replay.
	job.Strategies = []strategy.Strategy{st}
	table, err := replay.Run(context.Background(), &job, nil)
	if err != nil {
		t.Fatal(err)
	}
	least := 0.0
	for _, m3 := range c.LeastM3PerYear {
		least += m3
	}
	if want := table.Compare()[2].M3PerYear; len(c.LeastM3PerYear) != 2 || math.Abs(least-want) > 1e-9*want {
		t.Errorf("bounds %v, of the site %g", c.LeastM3PerYear, want)
	}
	row := table.Compare()[0]
	if today.Site.M3PerYear != row.M3PerYear || today.Site.StressDaysDry != row.StressDry ||
		today.Site.StressDaysMedian != row.StressMedian || today.Site.RunoffEvents != row.RunoffEvents {
		t.Errorf("today %+v, replayed %+v", today.Site, row)
	}
}

// TestDeficitTellsWhereLessIsNotLess: a refill with shorter run times waters again
// sooner.
func TestDeficitTellsWhereLessIsNotLess(t *testing.T) {
	job := replay.Job{Zones: []sim.Zone{zone("a", 30, 0.8)}, Weather: invented(2001, 2004, 2)}
	st := strategy.Strategy{Name: "refill", Parts: []strategy.Part{&strategy.Refill{Zones: []bool{true}, MAD: 0.3, CycleMin: 6, SoakMin: 30}}}
	c, err := tune.Deficit(context.Background(), &job, &st, nil)
	if err != nil {
		t.Fatal(err)
	}
	half, today := c.Points[4].Site.M3PerYear, c.Points[9].Site.M3PerYear
	if half < 0.6*today {
		t.Errorf("a refill with half the minutes uses %g of %g m³: it should water again sooner", half, today)
	}
	turns := false
	for i := 1; i < len(c.Points); i++ {
		a, b := c.Points[i-1].Zones[0], c.Points[i].Zones[0]
		turns = turns || b.M3PerYear < a.M3PerYear-1e-9 || b.StressDaysPerYear > a.StressDaysPerYear+1e-9
	}
	if turns != (len(c.Notes) > 0) {
		t.Errorf("the curve turns: %v, notes: %v", turns, c.Notes)
	}
}
