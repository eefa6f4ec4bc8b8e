package fill

import (
	"fmt"
	"math"

	"loamledger/weather"
)

// How a second station's column is adjusted to the first station.
type bridge uint8

const (
	byShift bridge = iota // add the mean difference
	byRatio               // multiply by the ratio of sums
)

// donated lists the columns filled from a second station, and how.
var donated = [...]struct {
	column weather.Column
	bridge bridge
}{
	{weather.Tmax, byShift}, {weather.Tmin, byShift}, {weather.Tdew, byShift},
	{weather.Rain, byRatio}, {weather.Wind, byRatio}, {weather.Rs, byRatio},
}

const (
	minCommonMonth = 40  // days needed for a month's adjustment; own threshold
	minCommon      = 120 // days needed for the year's adjustment; own threshold
	minCommonMM    = 20  // rain needed for a ratio [mm]; own threshold
)

// donate fills from the second station.
func (w *work) donate() {
	for _, d := range donated {
		if w.data[d.column] == nil || !w.o.Donor.Has(d.column) {
			continue
		}
		w.donateColumn(d.column, d.bridge)
	}
}

func (w *work) donateColumn(c weather.Column, how bridge) {
	gaps := w.gaps(c)
	if len(gaps) == 0 {
		return
	}
	adjust, detail := w.adjustment(c, how)
	if adjust == nil {
		w.findings = append(w.findings, weather.Finding{Code: weather.CodeSecondStationUnused,
			What: fmt.Sprintf("a second station needs at least %d days in common", minCommon), Column: c.Key(),
			Count: len(gaps), Worst: w.s.Date(gaps[0].from), Detail: detail, Action: "not used for this column",
			Source: "common practice, no source"})
		return
	}
	t := tally{column: c, mark: weather.Donated, detail: detail}
	for _, g := range gaps {
		from := g.from
		for i := g.from; i < g.to; i++ {
			v := w.donorAt(c, i)
			if math.IsNaN(v) {
				t.add(run{from, i})
				from = i + 1
				continue
			}
			if how == byRatio {
				v = max(0, v*adjust[w.days.month[i]])
			} else {
				v += adjust[w.days.month[i]]
			}
			w.data[c][i], w.mark[c][i] = v, weather.Donated
		}
		t.add(run{from, g.to})
	}
	what := "gaps are filled from the second station, shifted by the month's mean difference"
	if how == byRatio {
		what = "gaps are filled from the second station, scaled by the ratio of the month's sums"
	}
	t.tell(w, what)
}

// donorAt returns the second station's own value on day i of the first, NaN if
// it has none or only a filled one.
func (w *work) donorAt(c weather.Column, i int) float64 {
	d := w.o.Donor
	j := int(w.s.Date(i) - d.Start)
	// Values the donor got from its own donor are accepted; other fills are not.
	if j < 0 || j >= d.Days || d.Mark[c][j].Filled() && d.Mark[c][j] != weather.Donated {
		return math.NaN()
	}
	return d.Data[c][j]
}

// adjustment returns the offsets or factors by month (1 to 12), or nil if the
// stations have too few days in common, and a description.
func (w *work) adjustment(c weather.Column, how bridge) (*[13]float64, string) {
	var days [13]int
	var here, there [13]float64
	for i := range w.data[c] {
		if !w.observed(c, i) {
			continue
		}
		v := w.donorAt(c, i)
		if math.IsNaN(v) {
			continue
		}
		for _, k := range [2]int8{0, w.days.month[i]} {
			days[k]++
			here[k] += w.data[c][i]
			there[k] += v
		}
	}
	enough := func(k, least int) bool {
		return days[k] >= least && (how == byShift || there[k] > 0 && (c != weather.Rain || there[k] >= minCommonMM))
	}
	if !enough(0, minCommon) {
		return nil, fmt.Sprintf("only %d days in common", days[0])
	}
	var a [13]float64
	for k := range a {
		n := k
		if !enough(k, minCommonMonth) {
			n = 0
		}
		if how == byRatio {
			a[k] = here[n] / there[n]
		} else {
			a[k] = (here[n] - there[n]) / float64(days[n])
		}
	}
	form := "mean difference %+.2f " + c.Unit()
	if how == byRatio {
		form = "ratio of sums %.2f"
	}
	return &a, fmt.Sprintf(form+" on %d days in common%s", a[0], days[0], weather.Between(w.s.Station, w.o.Donor.Station))
}
