package quality

import (
	"fmt"
	"math"

	"loamledger/weather"
	"loamledger/weather/et0"
	"loamledger/weather/quantity"
)

const (
	minFullDays  = 60   // full days needed for a verdict on a column
	aridityIndex = 0.05 // FAO-56 annex 6
	zeroMM       = 0.5  // computed ETo at which a supplied 0 is impossible
	farMM        = 3.0  // reported difference on one day if all inputs were measured
	farGuessMM   = 4.0  // and if some were not
	r2Wrong      = 0.6  // squared correlation below which a column is not ETo
	zerosWrong   = 0.1  // share of impossible zeros above which it is not ETo
	ratioWrong   = 2.0  // ratio, either way, beyond which it is in another unit or not ETo
)

// supplied compares supplied ETo, and the dryness of the site, with the
// record's own inputs.
func (k *checker) supplied() {
	r, kept, err := et0.DailyKept(k.s, et0.Options{IgnoreSupplied: true})
	k.computed = kept
	if err != nil {
		return // The step that needs ETo reports what is missing.
	}
	k.aridity(&r)
	if k.s.Has(weather.ETo) && !k.mislabeled(&r) {
		k.suppliedDays(&r)
		k.windHeight(&r)
	}
	k.tallBelowShort()
}

// mislabeled rejects a column labeled ETo that cannot be ETo.
func (k *checker) mislabeled(r *et0.Result) bool {
	c := r.Compare
	if c.Basis != et0.FullEquation || c.N < minFullDays {
		return false
	}
	zeros := 0
	for i, v := range k.s.Data[weather.ETo] {
		if impossibleZero(v, r, i) {
			zeros++
		}
	}
	if !(c.R2 < r2Wrong) && c.Ratio < ratioWrong && c.Ratio > 1/ratioWrong && float64(zeros) < zerosWrong*float64(c.N) {
		return false
	}
	var suspect weather.Suspicion
	detail := c.String()
	if zeros > 0 {
		detail += fmt.Sprintf(", %d impossible days of 0", zeros)
	}
	for _, u := range [...]struct {
		factor float64
		read   string
	}{{quantity.InchMM, "inches"}, {10, "centimeters"}, {0.1, "tenths of a millimeter"}} {
		if q := c.Ratio / u.factor; q > 0.8 && q < 1.25 && c.R2 >= r2Wrong {
			detail += ", as if " + u.read + " were read as mm"
			suspect = weather.OtherUnit
		}
	}
	n := k.s.Days - k.s.CountMissing(weather.ETo)
	k.s.Data[weather.ETo], k.s.Mark[weather.ETo] = nil, nil
	k.findings = append(k.findings, weather.Finding{Code: weather.CodeEToColumnMislabeled, Column: weather.ETo.Key(), Count: n,
		Worst: k.s.Date(c.WorstDay),
		What: fmt.Sprintf("supplied ETo correlates with computed ETo (r² %g or more), is within half to twice its value, and is 0 on at "+
			"most one in ten days that cannot have 0", r2Wrong), Detail: detail,
		Suspect: suspect, Action: "column ignored: swapped, mislabeled or in another unit", Source: ownThreshold})
	return true
}

// impossibleZero reports whether v is 0 on a day whose measurements give more.
func impossibleZero(v float64, r *et0.Result, i int) bool {
	return v == 0 && r.Methods[i].Way == et0.FullEquation && r.ComputedMM[i] >= zeroMM
}

// suppliedDays checks single days of supplied ETo.
func (k *checker) suppliedDays(r *et0.Result) {
	zero := tally{rule: rule{code: weather.CodeSuppliedEToZero, column: weather.ETo,
		what: fmt.Sprintf("supplied ETo of 0 although the day's own measurements give %g mm or more", zeroMM), action: dropped,
		source: ownThreshold}}
	far := tally{rule: rule{code: weather.CodeSuppliedEToFar, column: weather.ETo,
		what:   fmt.Sprintf("supplied and computed ETo differ by more than %g mm on one day (%g if an input was missing)", farMM, farGuessMM),
		action: kept, source: ownThreshold}}
	last := 0
	for i, v := range k.s.Data[weather.ETo] {
		way, d := r.Methods[i].Way, math.Abs(v-r.ComputedMM[i])
		switch {
		case impossibleZero(v, r, i):
			if zero.hit(i, r.ComputedMM[i]) {
				zero.detail = fmt.Sprintf("computed %.2f mm", r.ComputedMM[i])
			}
			if k.days.doy[i] == 366 {
				last++
			}
			k.drop(weather.ETo, i)
		case way == et0.FullEquation && d > farMM, way == et0.WithEstimates && d > farGuessMM:
			if far.hit(i, d) {
				far.detail = fmt.Sprintf("supplied %.2f, computed %.2f mm (%v)", v, r.ComputedMM[i], r.Methods[i])
			}
		}
	}
	if last > 0 {
		zero.detail += fmt.Sprintf("; %d of them the last day of a leap year", last)
	}
	k.tell(&zero)
	k.tell(&far)
}

// aridity reports a site whose air is drier than over watered ground.
func (k *checker) aridity(r *et0.Result) {
	full := 0
	for _, m := range r.Methods {
		if m.Way == et0.FullEquation {
			full++
		}
	}
	if full < minYearOfRH {
		return
	}
	bare := *k.s
	for _, c := range [...]weather.Column{weather.Ea, weather.Tdew, weather.RHmax, weather.RHmin, weather.RHmean} {
		bare.Data[c], bare.Mark[c] = nil, nil
	}
	g, err := et0.Daily(&bare, et0.Options{IgnoreSupplied: true})
	if err != nil {
		return
	}
	var measured, guessed float64
	n := 0
	for i, m := range r.Methods {
		if m.Way == et0.FullEquation {
			measured, guessed, n = measured+r.ComputedMM[i], guessed+g.ComputedMM[i], n+1
		}
	}
	if n < minYearOfRH || guessed <= 0 || measured/guessed-1 <= aridityIndex {
		return
	}
	k.findings = append(k.findings, weather.Finding{Code: weather.CodeAridSite, Column: weather.Ea.Key(), Count: n, Worst: k.s.Start,
		What: fmt.Sprintf("ETo with measured humidity is more than %.0f%% above ETo with the dew point at Tmin: the site may not be watered "+
			"grass", 100*aridityIndex),
		Detail: fmt.Sprintf("%.1f%% above, over %d full days; ETo may be too high for a watered landscape", 100*(measured/guessed-1), n),
		Action: kept, Source: annex6})
}

// tallBelowShort reports swapped ETo and ETr columns.
func (k *checker) tallBelowShort() {
	var short, tall float64
	n := 0
	for i := range k.s.Days {
		if a, b := k.s.At(weather.ETo, i), k.s.At(weather.ETr, i); known(a) && known(b) {
			short, tall, n = short+a, tall+b, n+1
		}
	}
	if n < minFullDays || tall >= short {
		return
	}
	k.findings = append(k.findings, weather.Finding{Code: weather.CodeETrBelowETo, Column: weather.ETr.Key(), Count: n, Worst: k.s.Start,
		What: "tall reference ET is above short", Detail: fmt.Sprintf("means %.2f and %.2f mm: the two columns may be swapped", tall/float64(n),
			short/float64(n)), Action: kept, Source: "ASCE-EWRI 2005 table 1"})
}
