package fill

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"sort"

	"loamledger/weather"
	"loamledger/weather/cal"
)

// needed lists the columns required for a replay, unless [Options.Without] lists
// them.
var needed = [...]weather.Column{weather.Tmax, weather.Tmin, weather.Rain}

// Fill fills the gaps in s by the rules in the package comment and returns one
// finding for each column and rule used. Afterwards Tmax, Tmin and Rain have no
// NaN, except for the columns of o.Without.
//
// An error is a [*YearsError], a [*GapError] for each column that cannot be
// filled, or several of them joined; s is then unchanged.
func Fill(s *weather.Series, o Options) ([]weather.Finding, error) {
	o = o.withDefaults()
	for _, c := range o.needed() {
		if !s.Has(c) && (o.Donor == nil || !o.Donor.Has(c)) {
			return nil, &GapError{Column: c, From: s.Start, To: s.End(), Days: s.Days, Why: "the record has no such column"}
		}
	}
	var errs []error
	if err := refused(s, o); err != nil {
		errs = append(errs, err)
	}
	w := newWork(s, o)
	w.run()
	for _, c := range o.needed() {
		if err := w.left(c); err != nil {
			errs = append(errs, err)
		}
	}
	if err := errors.Join(errs...); err != nil {
		return nil, err
	}
	w.order()
	w.leftOut()
	w.commit()
	return w.findings, nil
}

// lacks reports for every day whether a needed column is missing.
func lacks(s *weather.Series, o Options) []bool {
	out := make([]bool, s.Days)
	for _, c := range o.needed() {
		for i := range out {
			out[i] = out[i] || math.IsNaN(s.At(c, i))
		}
	}
	return out
}

// refused returns a [*YearsError] for the years beyond the limits, or nil.
func refused(s *weather.Series, o Options) error {
	missing := lacks(s, o)
	years := map[int]*YearGap{}
	at := func(year int) *YearGap {
		if years[year] == nil {
			years[year] = &YearGap{Year: year}
		}
		return years[year]
	}
	for _, run := range runs(missing) {
		for i := run.from; i < run.to; i++ {
			y := at(s.Date(i).Year())
			y.Days++
			if run.days() > y.LongestRun {
				y.LongestRun, y.RunFrom = run.days(), s.Date(run.from)
			}
		}
	}
	e := &YearsError{MaxDaysInYear: o.MaxDaysInYear, MaxRunDays: o.MaxRunDays}
	for year, y := range years {
		if (y.Days > o.MaxDaysInYear || y.LongestRun > o.MaxRunDays) && !slices.Contains(o.Exclude, year) {
			e.Years = append(e.Years, *y)
		}
	}
	if len(e.Years) == 0 {
		return nil
	}
	sort.SliceStable(e.Years, func(a, b int) bool { return e.Years[a].Year < e.Years[b].Year })
	return e
}

// A run is a range of consecutive days, excluding its end.
type run struct{ from, to int }

func (r run) days() int { return r.to - r.from }

// runs returns the runs of days on which is returns true.
func runs(is []bool) []run {
	var list []run
	for i := 0; i < len(is); i++ {
		if !is[i] {
			continue
		}
		from := i
		for i < len(is) && is[i] {
			i++
		}
		list = append(list, run{from, i})
	}
	return list
}

// work is a copy of the columns to fill.
type work struct {
	s        *weather.Series
	o        Options
	days     *calendar
	data     [weather.Columns][]float64
	mark     [weather.Columns][]weather.Mark
	findings []weather.Finding
}

func newWork(s *weather.Series, o Options) *work {
	w := &work{s: s, o: o, days: newCalendar(s)}
	for c := range weather.Columns {
		if s.Has(c) {
			w.data[c], w.mark[c] = slices.Clone(s.Data[c]), slices.Clone(s.Mark[c])
		}
	}
	for _, c := range o.needed() {
		if w.data[c] == nil {
			blank := weather.NewSeries(s.Station, s.Start, s.Days, c)
			w.data[c], w.mark[c] = blank.Data[c], blank.Mark[c]
		}
	}
	return w
}

func (w *work) run() {
	for _, c := range [...]weather.Column{weather.Tmax, weather.Tmin} {
		w.interpolate(c)
	}
	if w.o.Donor != nil {
		w.donate()
	}
	if !w.o.noClimatology {
		w.sameDay(weather.Tmax)
		w.sameDay(weather.Tmin)
		w.sameRain()
	}
}

// gaps returns the runs of days on which column c is missing.
func (w *work) gaps(c weather.Column) []run {
	missing := make([]bool, len(w.data[c]))
	for i, v := range w.data[c] {
		missing[i] = math.IsNaN(v)
	}
	return runs(missing)
}

// observed reports whether the value of c on day i was observed, not filled.
func (w *work) observed(c weather.Column, i int) bool {
	return !math.IsNaN(w.data[c][i]) && !w.mark[c][i].Filled()
}

// interpolate fills short gaps linearly between the days on either side.
func (w *work) interpolate(c weather.Column) {
	t := tally{column: c, mark: weather.Interpolated}
	d := w.data[c]
	for _, g := range w.gaps(c) {
		if g.days() > w.o.tempGapDays || g.from == 0 || g.to == len(d) || !w.observed(c, g.from-1) || !w.observed(c, g.to) {
			continue
		}
		a, b := d[g.from-1], d[g.to]
		for i := g.from; i < g.to; i++ {
			d[i] = a + (b-a)*float64(i-g.from+1)/float64(g.days()+1)
			w.mark[c][i] = weather.Interpolated
		}
		t.add(g)
	}
	t.tell(w, fmt.Sprintf("gaps of up to %d days are interpolated linearly between the days on either side", w.o.tempGapDays))
}

// tally counts what one rule did to one column.
type tally struct {
	column  weather.Column
	mark    weather.Mark
	days    int
	longest run
	detail  string
}

func (t *tally) add(g run) {
	t.days += g.days()
	if g.days() > t.longest.days() {
		t.longest = g
	}
}

// tell adds the finding, if anything was filled.
func (t *tally) tell(w *work, what string) {
	if t.days == 0 {
		return
	}
	detail := fmt.Sprintf("longest gap %d days from %v", t.longest.days(), w.s.Date(t.longest.from))
	if t.detail != "" {
		detail += "; " + t.detail
	}
	w.findings = append(w.findings, weather.Finding{Code: code(t.mark), What: what, Column: t.column.Key(), Count: t.days,
		Worst: w.s.Date(t.longest.from), Detail: detail, Action: "filled: " + t.mark.String(), Source: "common practice, no source"})
}

func code(m weather.Mark) weather.Code {
	switch m {
	case weather.Interpolated:
		return weather.CodeFilledInterpolated
	case weather.Donated:
		return weather.CodeFilledSecondStation
	}
	return weather.CodeFilledDayOfYear
}

// left returns a [*GapError] if column c still has missing days.
func (w *work) left(c weather.Column) error {
	gaps := w.gaps(c)
	if len(gaps) == 0 {
		return nil
	}
	e := &GapError{Column: c, From: w.s.Date(gaps[0].from), To: w.s.Date(gaps[0].to - 1),
		Why: fmt.Sprintf("fewer than %d other years have these days, and no second station is given", minRainYears)}
	for _, g := range gaps {
		e.Days += g.days()
	}
	switch {
	case w.o.noClimatology && w.o.Donor == nil:
		e.Why = "no second station is given, and day-of-year filling is off"
	case w.o.noClimatology:
		e.Why = "the second station lacks these days or has too few in common, and day-of-year filling is off"
	case w.o.Donor != nil:
		e.Why = "the second station lacks these days or has too few in common, and too few other years have them"
	}
	return e
}

// order repairs filled values of Tmax below Tmin, which can occur because the
// columns are filled separately. Observed values are kept.
func (w *work) order() {
	tmax, tmin := w.data[weather.Tmax], w.data[weather.Tmin]
	if tmax == nil || tmin == nil {
		return
	}
	var first cal.Date
	n := 0
	for i := range tmax {
		if !(tmax[i] < tmin[i]) { // Also true for unknown values.
			continue
		}
		filledMax, filledMin := w.mark[weather.Tmax][i].Filled(), w.mark[weather.Tmin][i].Filled()
		switch {
		case filledMax && filledMin:
			tmax[i], tmin[i] = tmin[i], tmax[i]
		case filledMax:
			tmax[i] = tmin[i]
		case filledMin:
			tmin[i] = tmax[i]
		default:
			continue // Both observed: the quality checks handle that.
		}
		if n == 0 {
			first = w.s.Date(i)
		}
		n++
	}
	if n > 0 {
		w.findings = append(w.findings, weather.Finding{Code: weather.CodeFilledTmaxBelowTmin, What: "a filled Tmax was below Tmin",
			Column: weather.Tmax.Key(), Count: n,
			Worst: first, Detail: "first such day", Action: "filled value limited to the observed one; two filled values swapped",
			Source: "common practice, no source"})
	}
}

// leftOut reports years that were filled without limit.
func (w *work) leftOut() {
	n, first := 0, 0
	for i, missing := range lacks(w.s, w.o) {
		if missing && slices.Contains(w.o.Exclude, int(w.days.year[i])) {
			if n == 0 {
				first = i
			}
			n++
		}
	}
	if n > 0 {
		w.findings = append(w.findings, weather.Finding{Code: weather.CodeYearsLeftOut,
			What: "excluded years are filled without limit, so that the water balance can run through them", Count: n,
			Worst: w.s.Date(first), Detail: "first such day", Action: "filled; excluded from all results", Source: "common practice, no source"})
	}
}

// commit stores the filled columns in the series.
func (w *work) commit() {
	for c := range weather.Columns {
		if w.data[c] != nil {
			w.s.Data[c], w.s.Mark[c] = w.data[c], w.mark[c]
		}
	}
}
