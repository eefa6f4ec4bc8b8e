package fill

import (
	"fmt"
	"math"

	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/portable"
)

const (
	aroundDays    = 7  // days on either side of the same day of the year
	minAround     = 20 // days needed for the mean, more than one year has
	rainAround    = 15 // days on either side used to compare years
	rainChunkDays = 31 // longest run copied from one year
	minRainYears  = 3  // years needed with rain on the days of a gap
)

// sameDay fills column c with the mean of the days around the same day of the year.
func (w *work) sameDay(c weather.Column) {
	gaps := w.gaps(c)
	if len(gaps) == 0 {
		return
	}
	var sum [yearSlots]float64
	var count [yearSlots]int
	for i, v := range w.data[c] {
		if w.observed(c, i) {
			sum[w.days.slot[i]] += v
			count[w.days.slot[i]]++
		}
	}
	var mean [yearSlots]float64
	for k := range mean {
		total, n := 0.0, 0
		for j := k - aroundDays; j <= k+aroundDays; j++ {
			m := (j + yearSlots) % yearSlots
			total, n = total+sum[m], n+count[m]
		}
		mean[k] = math.NaN()
		if n >= minAround {
			mean[k] = total / float64(n)
		}
	}
	rho := w.memory(c, &mean)
	t := tally{column: c, mark: weather.Climatology, detail: fmt.Sprintf("day-to-day correlation %.2f", rho)}
	for _, g := range gaps {
		before, after := w.anomaly(c, &mean, g.from-1), w.anomaly(c, &mean, g.to)
		from := g.from
		for i := g.from; i < g.to; i++ {
			v := mean[w.days.slot[i]]
			if math.IsNaN(v) {
				t.add(run{from, i})
				from = i + 1
				continue
			}
			v += bridgeAnomaly(rho, before, after, i-g.from+1, g.to-i)
			w.data[c][i], w.mark[c][i] = v, weather.Climatology
		}
		t.add(run{from, g.to})
	}
	t.tell(w, "remaining gaps are filled with the mean of the 15 days around the same date in all years, adjusted toward the days on "+
		"either side by the day-to-day correlation")
}

// anomaly returns how far column c on day i is above the mean of its day of the
// year, 0 if unknown.
func (w *work) anomaly(c weather.Column, mean *[yearSlots]float64, i int) float64 {
	if i < 0 || i >= len(w.data[c]) || !w.observed(c, i) {
		return 0
	}
	if a := w.data[c][i] - mean[w.days.slot[i]]; !math.IsNaN(a) {
		return a
	}
	return 0
}

// memory returns the lag-one correlation of the anomalies of column c, limited
// to 0..0.95.
func (w *work) memory(c weather.Column, mean *[yearSlots]float64) float64 {
	var pairs, squares float64
	for i := 1; i < len(w.data[c]); i++ {
		a, b := w.anomaly(c, mean, i-1), w.anomaly(c, mean, i)
		if a != 0 && b != 0 {
			pairs, squares = pairs+float64(a*b), squares+float64((float64(a*a)+float64(b*b))/2)
		}
	}
	if squares == 0 {
		return 0
	}
	return max(0, min(0.95, pairs/squares))
}

// bridgeAnomaly returns the conditional mean of an anomaly that lies days after
// the last known one and until before the next, if anomalies follow a
// first-order autoregression with correlation rho.
//
//	(ρ^m (1 − ρ^2n) a + ρ^n (1 − ρ^2m) b) / (1 − ρ^2(m+n))
func bridgeAnomaly(rho, before, after float64, days, until int) float64 {
	m, n := portable.Pow(rho, float64(days)), portable.Pow(rho, float64(until))
	return (float64(m*(1-float64(n*n))*before) + float64(n*(1-float64(m*m))*after)) / (1 - float64(m*m*n*n))
}

// sameRain fills rain with the same days of another year.
func (w *work) sameRain() {
	t := tally{column: weather.Rain, mark: weather.Climatology}
	gaps := w.gaps(weather.Rain)
	if len(gaps) == 0 {
		return
	}
	y := w.rainByYear()
	for _, g := range gaps {
		before := w.countNaN(g)
		for from := g.from; from < g.to; from += rainChunkDays {
			w.rainChunk(y, run{from, min(from+rainChunkDays, g.to)})
		}
		if got := before - w.countNaN(g); got > 0 {
			t.add(run{g.from, g.from + got})
		}
	}
	t.tell(w, "remaining gaps are filled with the same dates of the year whose surrounding rain is closest to the mean of all years")
}

func (w *work) countNaN(g run) (n int) {
	for _, v := range w.data[weather.Rain][g.from:g.to] {
		if math.IsNaN(v) {
			n++
		}
	}
	return n
}

// rainYears is the observed rain by year and day of the year, NaN if missing.
// The years follow each other, so that a window may cross New Year.
type rainYears struct {
	first, years int
	mm           []float64
}

func (w *work) rainByYear() *rainYears {
	if len(w.days.year) == 0 {
		return &rainYears{}
	}
	first, last := int(w.days.year[0]), int(w.days.year[len(w.days.year)-1])
	y := &rainYears{first: first, years: last - first + 1}
	y.mm = make([]float64, y.years*yearSlots)
	for i := range y.mm {
		y.mm[i] = math.NaN()
	}
	for i, v := range w.data[weather.Rain] {
		if w.observed(weather.Rain, i) {
			y.mm[(int(w.days.year[i])-first)*yearSlots+int(w.days.slot[i])] = v
		}
	}
	for k := range y.years { // A missing February 29 is read as March 1.
		if at := k*yearSlots + leapSlot; !cal.IsLeap(first + k) {
			y.mm[at] = y.mm[at+1]
		}
	}
	return y
}

// rainChunk fills the days of g from one year, or in halves from two if fewer
// than three years have all of them.
func (w *work) rainChunk(y *rainYears, g run) {
	lo := int(w.days.year[g.from])*yearSlots + int(w.days.slot[g.from])
	hi := int(w.days.year[g.to-1])*yearSlots + int(w.days.slot[g.to-1])
	type candidate struct {
		shift  int
		meanMM float64
	}
	var candidates []candidate
	sum := 0.0
	for k := range y.years {
		shift := (y.first + k - int(w.days.year[g.from])) * yearSlots
		if shift == 0 || !y.whole(lo+shift, hi+shift) {
			continue
		}
		total, days := 0.0, 0
		for at := lo + shift - rainAround; at <= hi+shift+rainAround; at++ {
			if v := y.at(at); !math.IsNaN(v) {
				total, days = total+v, days+1
			}
		}
		mean := total / float64(days)
		candidates = append(candidates, candidate{shift, mean})
		sum += mean
	}
	if len(candidates) < minRainYears {
		if g.days() > 1 {
			half := g.from + g.days()/2
			w.rainChunk(y, run{g.from, half})
			w.rainChunk(y, run{half, g.to})
		}
		return
	}
	want, best := sum/float64(len(candidates)), candidates[0]
	for _, c := range candidates[1:] {
		if math.Abs(c.meanMM-want) < math.Abs(best.meanMM-want) {
			best = c
		}
	}
	for i := g.from; i < g.to; i++ {
		w.data[weather.Rain][i] = y.at(int(w.days.year[i])*yearSlots + int(w.days.slot[i]) + best.shift)
		w.mark[weather.Rain][i] = weather.Climatology
	}
}

// at returns the rain of a slot counted from year 0, NaN outside the record.
func (y *rainYears) at(slot int) float64 {
	slot -= y.first * yearSlots
	if slot < 0 || slot >= len(y.mm) {
		return math.NaN()
	}
	return y.mm[slot]
}

// whole reports whether every day from lo to hi was observed.
func (y *rainYears) whole(lo, hi int) bool {
	for at := lo; at <= hi; at++ {
		if math.IsNaN(y.at(at)) {
			return false
		}
	}
	return true
}
