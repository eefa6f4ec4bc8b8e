// Package sample makes up a study for tests of charts and report: a sample site
// with synthetic weather. Its water balance is a simple bucket that closes and
// looks like a replay but is not realistic: pictures must not change with the
// engine. Only tests import it.
package sample

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"

	"loamledger/plots"
	"loamledger/sim"
	"loamledger/sim/tally"
	"loamledger/weather/cal"
	"loamledger/weather/portable"
)

// Options describe the study.
type Options struct {
	Strategies  int // 1 to 12, references not counted
	Zones       int // 1 to 6
	Years       int // at least 1
	LongNames   bool
	WholeRecord bool // trace all years rather than the last summer
	Units       plots.Units
}

// station is the name of the weather station.
const station = "Dry Fork (synthetic)"

// The names are made up; the long ones have at least 40 letters.
var (
	zoneNames = [6]string{"front lawn", "back lawn", "rose bed", "street strip", "shade garden", "slope"}
	names     = [12]string{
		"as found", "months", "rain skip", "every third day", "refill when due", "half",
		"two cycles", "odd days", "summer only", "sensor", "weather", "light and often",
	}
	longPrefix = "Program B with monthly percentages, revised "
)

// Study returns the study.
func Study(o Options) *plots.Study {
	w := weather(o.Years)
	cl := sim.NewCalendar(w.Start, w.Days())
	t := &tally.Table{Spans: cl.Spans, DrynessMM: tally.AppendDryness(nil, cl.Spans, &w)}
	for i := range o.Strategies {
		n := names[i]
		if o.LongNames {
			n = longPrefix + fmt.Sprintf("%02d (%s)", i+1, n)
		}
		t.Strategies = append(t.Strategies, n)
	}
	t.Strategies = append(t.Strategies, tally.NoWater, tally.LeastWater)
	for z := range o.Zones {
		t.Zones = append(t.Zones, zone(z, o.LongNames))
	}
	s := &plots.Study{
		Site: "Juniper Court", Station: station, From: w.Start, To: w.Start + cal.Date(w.Days()) - 1, Units: o.Units, Table: t,
	}
	season := cal.Of(w.Start.Year()+o.Years-1, 4, 1)
	first, days := int(season-w.Start), 214
	if o.WholeRecord {
		season, first, days = w.Start, 0, w.Days()
	}
	t.Outcomes = make([][]tally.Outcome, len(t.Strategies))
	for z := range t.Zones {
		zn := &t.Zones[z]
		trace := plots.DepletionTrace{
			Zone: zn.Name, Start: season, Strategies: t.Strategies, RainMM: w.RainMM[first : first+days],
		}
		for st := range t.Strategies {
			b := bucket{zone: zn, kind: st}
			switch st {
			case len(t.Strategies) - 2:
				b.kind = noWater
			case len(t.Strategies) - 1:
				b.kind = leastWater
			}
			months := b.run(w, cl)
			t.Outcomes[st] = append(t.Outcomes[st], tally.Outcome{Months: months})
			trace.LowQuarterMM = append(trace.LowQuarterMM, b.low[first:first+days])
			trace.RAWMM = append(trace.RAWMM, b.raw[first:first+days])
			trace.TAWMM = append(trace.TAWMM, slices.Repeat([]float64{zn.TAWMM}, days))
			trace.Stress, trace.Browning = append(trace.Stress, b.stress[first:first+days]), append(trace.Browning, b.brown[first:first+days])
		}
		s.Traces = append(s.Traces, trace)
	}
	return s
}

// weather makes up years from 2012: warm dry summers, a few storms, some years
// drier than others.
func weather(years int) sim.Weather {
	r := rand.New(rand.NewPCG(3, 14))
	w := sim.Weather{Start: cal.Of(2012, 1, 1)}
	for y := range years {
		wet := 0.5 + float64(r.Float64())
		for d := w.Start + cal.Date(w.Days()); d < cal.Of(2013+y, 1, 1); d++ {
			season := (1 - portable.Cos(2*math.Pi*float64(d.YearDay()-10)/365)) / 2
			eto := 0.9 + float64(5.6*season*(1.1-float64(0.1*wet))) + float64(r.NormFloat64()*0.6)
			fall := 0.0
			if r.Float64() < 0.16*wet*(1.2-float64(0.7*season)) {
				fall = r.ExpFloat64() * 9
				eto *= 0.6
			}
			w.EToMM, w.RainMM = append(w.EToMM, max(eto, 0.2)), append(w.RainMM, fall)
		}
	}
	return w
}

func zone(i int, long bool) sim.Zone {
	f := float64(i)
	z := sim.Zone{Name: zoneNames[i], AreaM2: 90 + float64(60*f), TAWMM: 22 + float64(9*f), P: 0.4,
		PRMMH: 38 - float64(4*f), LossShare: 0.04, DULQ: 0.55 + float64(0.04*f),
		Strips: 8, IntakeMMH: 9 + 2*f, SurfaceStorageMM: 4, Rain: sim.Rain{CN: 70}}
	if long {
		z.Name += " along the northern boundary fence"
	}
	for m := range z.K {
		z.K[m] = 0.85 - float64(0.08*f)
	}
	return z
}
