package study_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"loamledger/scenarios/study"
	"loamledger/sim"
	"loamledger/sim/soilwater"
	"loamledger/weather"
)

// A trial is a change of the model, tried on the stations.
type trial struct {
	name string
	v    variant
	// series, if not nil, replaces the simulated depletion.
	series func(m *study.Measured, l *study.Study) *soilwater.Series
}

// drains returns the depletion of a bucket that drains the given share of the
// water above field capacity each day, and from which plants draw first; it is 0
// while water is above field capacity. A share of 1 is the replay.
func drains(share float64) func(m *study.Measured, l *study.Study) *soilwater.Series {
	return func(m *study.Measured, l *study.Study) *soilwater.Series {
		s := *m.Series
		z := &l.Job.Zones[0]
		first := slices.IndexFunc(s.MeasuredMM, func(v float64) bool { return !math.IsNaN(v) })
		dr := m.Series.SimMM[max(first, 0)]
		s.SimMM = slices.Clone(s.SimMM)
		for i := max(first, 0) + 1; i < s.Days(); i++ {
			in, _, _ := z.Rain.Split(s.RainMM[i], s.EToMM[i])
			if dr -= in; dr < 0 {
				dr *= 1 - share
			}
			day := sim.Day{ETcMM: s.ETcMM[i], RAWMM: s.RAWMM[i], Slope: 1 / (s.TAWMM - s.RAWMM[i])}
			if dr < 0 {
				dr += s.ETcMM[i]
			} else {
				dr, _ = sim.Step(dr, s.TAWMM, &day, 0)
			}
			s.SimMM[i] = max(dr, 0)
		}
		return &s
	}
}

// only keeps the named columns of a record.
func only(keep ...weather.Column) func(*weather.Record) {
	return func(rec *weather.Record) {
		for c := range weather.Columns {
			if !slices.Contains(keep, c) {
				rec.Data[c] = nil
				rec.Mark[c] = nil
			}
		}
	}
}

func byZone(change func(z *sim.Zone)) func(*study.Study) {
	return func(l *study.Study) { change(&l.Job.Zones[0]) }
}

// trials are the changes that were tried; the first is the model as it is.
func trials() []trial {
	share := func(percent string) variant {
		return variant{zone: ", rain: {method: share, effective: " + percent + "}"}
	}
	plain := variant{}
	return []trial{
		{name: "the model as it is", v: plain},
		{name: "start from a spin-up year, not from the measured depletion", v: variant{job: func(l *study.Study) { repeatYear(l) }}},
		{name: "drainage: the same bucket, written for this test", v: plain, series: drains(1)},
		{name: "drainage: 63% a day above field capacity", v: plain, series: drains(1 - math.Exp(-1))},
		{name: "drainage: over two days", v: plain, series: drains(1 - math.Exp(-0.5))},
		{name: "drainage: over three days", v: plain, series: drains(1 - math.Exp(-1.0/3))},
		{name: "p 0.40 constant", v: variant{plant: "{name: cool-season turf, p_adjust: false}"}},
		{name: "p 0.50 adjusted", v: variant{plant: "{name: cool-season turf, p: 0.5}"}},
		{name: "p 0.50 constant", v: variant{plant: "{name: cool-season turf, p: 0.5, p_adjust: false}"}},
		{name: "p 0.30 adjusted", v: variant{plant: "{name: cool-season turf, p: 0.3}"}},
		{name: "rain: curve number 60", v: variant{soil: ", curve_number: 60"}},
		{name: "rain: curve number 85", v: variant{soil: ", curve_number: 85"}},
		{name: "rain: all of it", v: share("100%")},
		{name: "rain: 90% of it", v: share("90%")},
		{name: "rain: 80% of it", v: share("80%")},
		{name: "rain: light rain enters, too", v: variant{job: byZone(func(z *sim.Zone) { z.Rain.KeepLight = true })}},
		{name: "wind 1 m/s, not 2", v: variant{weather: ", default_wind: 1 m/s"}},
		{name: "wind 3 m/s", v: variant{weather: ", default_wind: 3 m/s"}},
		{name: "ETo from radiation and temperature only", v: variant{record: only(weather.Tmax, weather.Tmin, weather.Rain, weather.Rs)}},
		{name: "ETo from temperature only (Hargreaves)", v: variant{record: only(weather.Tmax, weather.Tmin, weather.Rain)}},
	}
}

// TestMeasuredTrials tries changes of the model on the stations and records the
// figures. The stations are split in two halves, by turns in order of their
// numbers: a change that helps must help in both, and at Manhattan.
func TestMeasuredTrials(t *testing.T) {
	if testing.Short() {
		t.Skip("replays every station twenty times")
	}
	list, long := stations(t)
	var b strings.Builder
	b.WriteString("Changes of the model, tried against measured soil water. K follows the season, soil of the record, no watering.\n" +
		"Renew: UPDATE=1 go test ./scenarios/study -run Measured\n\n")
	fmt.Fprintf(&b, "%-60s%30s%30s%26s%38s\n", "", "median RMSE, % of TAW", "median days past RAW off", "mean RMSE change, better",
		"Manhattan, warm-season turf")
	fmt.Fprintf(&b, "%-60s%10s%10s%10s%10s%10s%10s%13s%11s%10s%16s%14s\n", "", "all", "half A", "half B", "all", "half A", "half B",
		"half A", "half B", "RMSE, %", "spring bias, %", "days a year")
	got := map[string]float64{}
	var asIs [2][]outcome
	for _, tr := range trials() {
		run := func(st *station, v variant) outcome {
			m, l, _ := st.measure(t, v)
			s := m.Series
			if tr.series != nil {
				s = tr.series(m, l)
			}
			return outcomeOf(m, s)
		}
		var half [2][]outcome
		for i, st := range list {
			half[i%2] = append(half[i%2], run(st, tr.v))
		}
		v := tr.v
		if v.plant == "" {
			v.plant = following
		}
		v.plant = strings.Replace(v.plant, "cool-season", "warm-season", 1)
		o := run(long, v)
		all := slices.Concat(half[0], half[1])
		if asIs[0] == nil {
			asIs = half
		}
		fmt.Fprintf(&b, "%-60s", tr.name)
		for _, of := range [2]func(list []outcome) []float64{
			func(list []outcome) []float64 { rmse, _, _, _ := figures(list); return rmse },
			func(list []outcome) []float64 { _, days, _, _ := figures(list); return days },
		} {
			for _, list := range [][]outcome{all, half[0], half[1]} {
				fmt.Fprintf(&b, "%10.1f", soilwater.Quantile(of(list), 0.5))
			}
		}
		for k := range half {
			change, better := 0.0, 0
			for i := range half[k] {
				d := half[k][i].rmse - asIs[k][i].rmse
				change += d / float64(len(half[k]))
				if d < -0.05 {
					better++
				}
			}
			if math.Abs(change) < 0.05 {
				change = 0 // not −0
			}
			fmt.Fprintf(&b, "%8.1f%3d/%d", change, better, len(half[k]))
		}
		fmt.Fprintf(&b, "%10.1f%14.1f%14.0f\n", o.rmse, o.spring, o.daysOff)
		rmse, _, _, _ := figures(all)
		got[tr.name] = soilwater.Quantile(rmse, 0.5)
	}
	if a, c := got["the model as it is"], got["drainage: the same bucket, written for this test"]; math.Abs(a-c) > 0.05 {
		t.Errorf("the bucket of the drainage trials gives %.2f%%, the replay %.2f%%", c, a)
	}
	fmt.Fprintf(&b, "\nETo of the stations by other inputs, as a share of the full method with wind 2 m/s, median and range: %s\n",
		etoShares(t, list))
	fmt.Fprintf(&b, "Fitted to odd months, scored on even months, RMSE %% of TAW, median: %s\n", fitted(t, list))
	t.Log("\n" + b.String())
	recorded(t, "trials.txt", b.String())
}

// repeatYear puts the record's first year before it, so that a comparison starts
// from a spin-up.
func repeatYear(l *study.Study) {
	w := &l.Job.Weather
	n := min(365, w.Days())
	twice := func(v []float64) []float64 {
		if v == nil {
			return nil
		}
		return slices.Concat(v[:n], v)
	}
	w.Start -= 365
	w.RainMM, w.EToMM, w.TmaxC, w.TminC, w.WindMS = twice(w.RainMM), twice(w.EToMM), twice(w.TmaxC), twice(w.TminC), twice(w.WindMS)
	w.Filled = nil
}

// etoShares compares reference ET from fewer inputs with that of the full method.
func etoShares(t *testing.T, list []*station) string {
	sum := func(st *station, v variant) float64 {
		_, l, _ := st.measure(t, v)
		total := 0.0
		for _, mm := range l.Job.Weather.EToMM {
			total += mm
		}
		return total
	}
	var out []string
	for _, tr := range trials() {
		if !strings.HasPrefix(tr.name, "wind") && !strings.HasPrefix(tr.name, "ETo") {
			continue
		}
		var shares []float64
		for _, st := range list {
			shares = append(shares, sum(st, tr.v)/sum(st, variant{}))
		}
		out = append(out, fmt.Sprintf("%s %.2f (%.2f to %.2f)", tr.name, soilwater.Quantile(shares, 0.5), slices.Min(shares), slices.Max(shares)))
	}
	return strings.Join(out, "; ")
}

// fitted fits K, and K with AWC, at each station, and scores the months held out.
func fitted(t *testing.T, list []*station) string {
	var out []string
	for _, keys := range [][]study.FitKey{{study.FitK}, {study.FitK, study.FitAWC}} {
		var before, after []float64
		better := 0
		for _, st := range list {
			m, _, _ := st.measure(t, variant{fit: keys})
			f := m.Fit
			before, after = append(before, 100*f.Before[1].RMSEMM/m.MeasuredTAW), append(after, 100*f.After[1].RMSEMM/m.MeasuredTAW)
			if f.Better() {
				better++
			}
		}
		out = append(out, fmt.Sprintf("%v %.1f before, %.1f after, clearly better at %d of %d", keys, soilwater.Quantile(before, 0.5),
			soilwater.Quantile(after, 0.5),
			better, len(list)))
	}
	return strings.Join(out, "; ")
}
