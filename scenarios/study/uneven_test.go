package study

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"

	"loamledger/plots"
	"loamledger/sim"
	"loamledger/sim/tune"
)

// Hand: with a DU of 55%, eight strips get the shares 0.475, 0.625 … 1.525 of the mean
// (c = 0.45/0.75 = 0.6). With 1/(0.4 + 0.6·0.55) = 1/0.73 times the need, the two
// driest get 0.475/0.73 = 0.6507 and 0.625/0.73 = 0.8562 of it, the third
// 0.775/0.73 > 1 and the rest more. The whole zone then gets
// (0.6507 + 0.8562 + 6)/8 = 0.9384 of its need.
func TestUnevenZoneAtTheYardstickIsNotThirsty(t *testing.T) {
	zoneGets := func(du float64) (sum float64) {
		zone := sim.Zone{Strips: 8, DULQ: du}
		for _, w := range sim.Shares(8, du) {
			sum += min(1, w*zone.RunTimeMultiplier()) / 8
		}
		return sum
	}
	if got := zoneGets(0.55); math.Abs(got-0.9384) > 5e-5 {
		t.Errorf("the zone gets %.5f of its need", got)
	}
	// The highest mark of the catalog but one is 0.80, and a search keeps 0.1 above it.
	for du := 0.40; du <= 1; du += 0.05 {
		if got := zoneGets(du); got < 0.80+0.1 {
			t.Errorf("with a DU of %.2f, the zone gets %.3f of its need", du, got)
		}
	}
}

// The first page, a search and a settings sheet judge unevenness by one number, and a
// controller with its own water balance adds the same to its run times.
func TestOneYardstickOfUnevenness(t *testing.T) {
	l := studyOf(t, `site: {name: one lawn, latitude: 38.9, elevation: 490 m}
units: us
weather: {file: weather.csv, wind_height: 2 m}
zones:
  - {name: lawn, area: 1000 ft2, plant: tall fescue, soil: loam, sprinkler: {kind: spray, rate: 1.5 in/h, uniformity: 55%, spray_loss: 3%}}
programs:
  - {name: p, days: any, starts: ["05:00"], minutes: {lawn: 12}}
strategies:
  - {name: ran, programs: [p]}
  - {name: refill, refill: {mad: 40%}}
`, climate(t, 0, 1))
	table, err := l.Replay(context.Background(), nil)
	if err != nil {
		t.Fatal(err)
	}
	// Hand: one zone, DU 55%, 3% lost in the air: 1/(0.73·0.97) = 1.4122.
	uneven := table.UnevenRatio()
	if math.Abs(uneven-1.4122) > 5e-5 {
		t.Errorf("the yardstick is %.5f", uneven)
	}
	found, err := l.Tune(context.Background(), &TuneOptions{Kinds: []tune.Kind{tune.Refill}, Goal: tuneGoal})
	if err != nil {
		t.Fatal(err)
	}
	if got := found.Kinds[0].All.Uneven(); math.Abs(got-uneven) > 1e-9 {
		t.Errorf("a search has %.6f", got)
	}
	sheet, err := l.Sheet(context.Background(), &l.Job.Strategies[0], &SheetOptions{})
	if err != nil {
		t.Fatal(err)
	}
	said := ""
	for _, f := range l.SheetFigures(sheet) {
		said += f.What + "\n"
	}
	if want := fmt.Sprintf("uneven coverage and losses: %.2f", uneven); !strings.Contains(said, want) {
		t.Errorf("no %q on the sheet:\n%s", want, said)
	}
	front := plots.NewReport(l.ChartData(table, NewSeason(&l.Job, 0)), l.Facts(table, 0)).Diagnosis
	if want := fmt.Sprintf("uneven coverage and losses account for about %.2f times", uneven); !strings.Contains(front, want) {
		t.Errorf("no %q in %q", want, front)
	}
	// Refilling waters all strips, so it uses about as much: by the same multiplier.
	if got := table.Compare()[1].ApplicationRatio; got < 1 || got > 1.1*uneven {
		t.Errorf("a refill uses %.2f times the least water, where %.2f is the yardstick", got, uneven)
	}
}
