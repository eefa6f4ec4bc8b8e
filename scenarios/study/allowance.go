package study

import (
	"loamledger/plots"
	"loamledger/sim/allowance"
	"loamledger/sim/tally"
	"loamledger/weather/cal"
)

// An allowed is the allowance of the site next to the use of every strategy. Months
// are those of the table's spans.
type allowed struct {
	rule   *allowance.Rule
	table  *tally.Table
	basis  tally.Basis
	months [][]allowance.Month // by strategy, then span
}

// allowed compares the strategies with the allowance; nil if the scenario has none.
func (l *Study) allowed(t *tally.Table) *allowed {
	own := l.Scenario.Allowance
	if own == nil {
		return nil
	}
	a := &allowed{rule: &own.Rule, table: t, basis: t.Basis()}
	w := &l.Job.Weather
	sum := func(days []float64, from, to int) (s float64) {
		for _, v := range days[from:min(to, len(days))] {
			s += v
		}
		return s
	}
	spans := make([]allowance.Month, len(t.Spans))
	for i := range t.Spans {
		span := &t.Spans[i]
		m := &spans[i]
		m.Year = t.YearOf(span)
		m.EToMM, m.RainMM = sum(w.EToMM, span.From, span.To), sum(w.RainMM, span.From, span.To)
	}
	switch {
	case own.EToMM != nil:
		l.spread(t, *own.EToMM, func(i int, mm float64) { spans[i].EToMM = mm })
	case own.MeanETo:
		eto := a.means(spans, func(m *allowance.Month) float64 { return m.EToMM })
		rain := a.means(spans, func(m *allowance.Month) float64 { return m.RainMM })
		l.spread(t, eto, func(i int, mm float64) { spans[i].EToMM = mm })
		l.spread(t, rain, func(i int, mm float64) { spans[i].RainMM = mm })
	}
	for i := range spans {
		spans[i].AllowedM3 = a.rule.M3(spans[i].EToMM, spans[i].RainMM)
	}
	for s := range t.NoWaterIndex() {
		months := append([]allowance.Month(nil), spans...)
		for i := range months {
			for z := range t.Zones {
				months[i].UseM3 += float64(t.Month(s, z, i).GrossMM / 1000 * t.Zones[z].AreaM2)
			}
		}
		a.months = append(a.months, months)
	}
	return a
}

// spread sets every span to its days' share of a depth of the calendar month.
func (l *Study) spread(t *tally.Table, mm [12]float64, set func(i int, mm float64)) {
	for i := range t.Spans {
		s := &t.Spans[i]
		set(i, mm[s.Month-1]*float64(s.To-s.From)/float64(cal.DaysIn(s.Year, s.Month)))
	}
}

// means returns the mean of a depth in each whole calendar month, over the days that
// yearly figures cover.
func (a *allowed) means(spans []allowance.Month, of func(*allowance.Month) float64) (mm [12]float64) {
	var months [12]float64
	for i := range spans {
		s := &a.table.Spans[i]
		if a.covers(i) {
			mm[s.Month-1] += of(&spans[i])
			months[s.Month-1] += float64(s.To-s.From) / float64(cal.DaysIn(s.Year, s.Month))
		}
	}
	for m := range mm {
		if months[m] > 0 {
			mm[m] /= months[m]
		}
	}
	return mm
}

// covers reports whether yearly figures cover span i.
func (a *allowed) covers(i int) bool {
	s := &a.table.Spans[i]
	return a.table.Covers(&a.basis, cal.Of(s.Year, s.Month, 1))
}

// year judges strategy s in one year.
func (a *allowed) year(s, year int) allowance.Total {
	var months []allowance.Month
	for _, m := range a.months[s] {
		if m.Year == year {
			months = append(months, m)
		}
	}
	return a.rule.Total(months)
}

// A kept is how a strategy keeps to the allowance, over the years that figures
// cover or, without a whole year, over their days, which then count as one.
type kept struct {
	useM3, allowedM3 float64 // a year
	years, within    int     // how many years there are, and in how many it stays within
	over             float64 // months a year above their allowance
}

// share is the use as a share of the allowance; 0 if nothing is allowed.
func (k *kept) share() float64 {
	if k.allowedM3 == 0 {
		return 0
	}
	return k.useM3 / k.allowedM3
}

func (a *allowed) kept(s int) (k kept) {
	add := func(t allowance.Total) {
		k.useM3, k.allowedM3, k.over = k.useM3+t.UseM3, k.allowedM3+t.AllowedM3, k.over+float64(t.Over)
		k.years++
		if t.Within {
			k.within++
		}
	}
	for _, y := range a.basis.Years {
		add(a.year(s, y))
	}
	if !a.basis.Yearly() {
		var months []allowance.Month
		for i := range a.months[s] {
			if a.covers(i) {
				months = append(months, a.months[s][i])
			}
		}
		add(a.rule.Total(months))
	}
	n := float64(k.years)
	k.useM3, k.allowedM3, k.over = k.useM3/n, k.allowedM3/n, k.over/n
	return k
}

// monthMM returns the allowance of each calendar month in an average year as a depth
// over the area of the zones [mm].
func (a *allowed) monthMM() (mm [12]float64) {
	if len(a.months) == 0 {
		return mm
	}
	area := 0.0
	for z := range a.table.Zones {
		area += a.table.Zones[z].AreaM2
	}
	mm = a.means(a.months[0], func(m *allowance.Month) float64 { return 1000 * m.AllowedM3 / area })
	return mm
}

// allowanceLine is the allowance for the chart of months; nil for none.
func (l *Study) allowanceLine(t *tally.Table) *plots.AllowanceLine {
	a := l.allowed(t)
	if a == nil {
		return nil
	}
	line := &plots.AllowanceLine{MonthMM: a.monthMM(), ByMonth: a.rule.ByMonth}
	for s := range a.months {
		k := a.kept(s)
		line.Kept = append(line.Kept, plots.Kept{Share: k.share(), Years: k.years, Within: k.within})
	}
	return line
}
