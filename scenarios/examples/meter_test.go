package examples

import (
	"bytes"
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	"loamledger/scenarios/study"
	"loamledger/sim/meter"
	"loamledger/sim/readsfile"
	"loamledger/sim/replay"
	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/csvfile"
)

// The truth behind the reads of Tansy Court: more flow than the scenario knows, base use
// that varies, and a change of settings.
const (
	trueFlow   = 1.06  // of the scenario's
	trueBase   = 0.59  // of the house [m³/d]: 156 gal
	baseNoise  = 0.04  // of base use, by period
	flowNoise  = 0.05  // of irrigation, by period
	poolM3     = 17.03 // 4,500 gal
	breakM3    = 30
	gallonsM3  = 0.003785411784
	readerStep = 100 // gallons to which the supplier truncates the register
)

func studyOf(t *testing.T, name string) *study.Study {
	t.Helper()
	sc := read(t, name)
	f, err := os.Open(sc.Weather.Files[0].Name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rec, err := csvfile.Read(f, sc.Weather.Files[0].Name, csvfile.Options{})
	if err != nil {
		t.Fatal(err)
	}
	ready, err := study.Prepare(sc, study.Records{Parts: []*weather.Record{rec}})
	if err != nil {
		t.Fatal(err)
	}
	l, err := study.New(sc, ready, nil)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// dailyUse returns what every strategy gives a day [m³].
func dailyUse(t *testing.T, l *study.Study) map[string][]float64 {
	t.Helper()
	out := map[string][]float64{}
	if _, err := replay.Run(context.Background(), &l.Job, func(s *replay.Sheet) error {
		if out[s.Strategy] == nil {
			out[s.Strategy] = make([]float64, s.Days())
		}
		for i := range s.Days() {
			out[s.Strategy][i] += s.Volume(i)
		}
		return nil
	}); err != nil {
		t.Fatal(err)
	}
	return out
}

// readsOf writes the reads of the truth: a register in gallons, truncated to hundreds,
// read on about the fifth of each month; two estimates in one winter, too high, and the
// read that corrects them.
func readsOf(l *study.Study, use map[string][]float64, changed cal.Date) []byte {
	var b bytes.Buffer
	b.WriteString("# Synthetic reads: the strategies of the scenario with 6% more flow, over base use of about 156 gal a day.\n" +
		"date,volume (gal),read_type,notes\n2019-01-04,,,only begins the record\n")
	r := rand.New(rand.NewPCG(21, 1))
	register, shown, estimated := 0.0, 0.0, 0.0
	last := cal.Of(2019, 1, 4)
	for month := 1; month <= 59; month++ {
		to := cal.Of(2019, 1+month, 3+r.IntN(4))
		base := 0.0
		irrigation := 0.0
		for d := last; d < to; d++ {
			of := "as found"
			if d >= changed {
				of = "seasonal percent"
			}
			irrigation += trueFlow * use[of][d-l.Weather.Start]
			base += trueBase
			if d >= cal.Of(2020, 7, 11) && d <= cal.Of(2020, 7, 13) {
				base += poolM3 / 3
			}
			if d == cal.Of(2021, 6, 19) {
				base += breakM3
			}
		}
		register += (irrigation*(1+flowNoise*r.NormFloat64()) + base*(1+baseNoise*r.NormFloat64())) / gallonsM3
		kind, note := "actual", ""
		now := readerStep * math.Floor(register/readerStep)
		switch to.Year()*100 + to.Month() {
		case 202012, 202101:
			kind, now, estimated = "estimated", shown+8200, 1
		default:
			if estimated > 0 && now < shown {
				note = "corrects the two estimates"
			}
			estimated = 0
		}
		fmt.Fprintf(&b, "%v,%.0f,%s,%s\n", to, now-shown, kind, note)
		last, shown = to, now
	}
	return b.Bytes()
}

// The sample reads are as their generator writes them, and what the comparison finds is
// the truth behind them: base use, the flow that the scenario does not know, and a
// verified saving.
func TestMeterOfSampleSite(t *testing.T) {
	l := studyOf(t, "tansy-court.yaml")
	use := dailyUse(t, l)
	m := &l.Scenario.Meters[0]
	name := filepath.Join("meters", "tansy-court-reads.csv")
	want := readsOf(l, use, m.Changed)
	if os.Getenv("UPDATE") == "1" {
		if err := os.WriteFile(name, want, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	got, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Errorf("%s is not what its generator writes; UPDATE=1 renews it", name)
	}
	rows, err := readsfile.Read(bytes.NewReader(got), name)
	if err != nil {
		t.Fatal(err)
	}
	h, err := readsfile.History(rows, m.Name)
	if err != nil {
		t.Fatal(err)
	}
	list, err := l.CompareMeters(context.Background(), []study.MeterInput{{Name: m.Name, File: name, Said: true, Zones: []int{0, 1, 2},
		Use: m.MeterUse, History: h}})
	if err != nil {
		t.Fatal(err)
	}
	c := list[0]
	if base := c.Bases[c.Base].M3Day; math.Abs(base-trueBase) > 0.05*trueBase {
		t.Errorf("base use %.3f m³/d, in truth %.3f", base, trueBase)
	}
	// Hand: with 6% more flow, metered outdoor use exceeds the replay by 6/106 of itself,
	// 5.7%; the errors of single periods add about 2% to the mean.
	season := c.Of(meter.Season)
	if math.Abs(season.NMBE-100*0.06/1.06) > 3 {
		t.Errorf("NMBE of the season %.1f%%", season.NMBE)
	}
	if c.Saving.Status != meter.VerifiedSaving {
		t.Errorf("%q", c.Saving.Lacks)
	}
	truth := 0.0
	for _, i := range c.Comparison.After {
		p := &c.Site.Periods[i]
		for d := p.From; d < p.To; d++ {
			truth += trueFlow * (use["as found"][d-l.Weather.Start] - use["seasonal percent"][d-l.Weather.Start])
		}
	}
	by := c.Saving.By[c.Saving.Claim]
	t.Logf("saving %.1f ± %.1f m³ by %s; in truth %.1f; season: NMBE %.1f%%, CV(RMSE) %.1f%%, n %d", by.M3, by.Plus, by.Model, truth,
		season.NMBE, season.CV, season.N)
	if math.Abs(by.M3-truth) > 2*by.Plus || by.TooClose() {
		t.Errorf("saving %.1f ± %.1f m³ by %s; in truth %.1f", by.M3, by.Plus, by.Model, truth)
	}
}
