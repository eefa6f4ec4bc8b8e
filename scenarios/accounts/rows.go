package accounts

import (
	"math"
	"slices"

	"loamledger/scenarios/study"
	"loamledger/sim"
	"loamledger/sim/portfolio"
	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/sim/tally"
)

// beginPeaks lays out the highest volume of a day by strategy and year.
func (r *Replayer) beginPeaks(job *replay.Job) {
	n, days := len(job.Strategies), job.Weather.Days()
	for len(r.peak) < n {
		r.peak = append(r.peak, nil)
	}
	for s := range r.peak[:n] {
		if len(r.peak[s]) != days {
			r.peak[s] = make([]float64, days)
		}
		clear(r.peak[s])
	}
	r.base = job.Strategies
}

// takePeak adds the days of one strategy on one zone. Zones of a strategy follow each other.
func (r *Replayer) takePeak(s *replay.Sheet) error {
	at := slices.IndexFunc(r.base, func(st strategy.Strategy) bool { return st.Name == s.Strategy })
	if at < 0 {
		return nil // a reference strategy
	}
	days := r.peak[at]
	if s.Pieces != nil {
		for i := range days {
			zone := s.On(i).Zone
			days[i] += s.Volume(i) + float64(zone.LeakMMDay/1000*zone.AreaM2)
		}
		return nil
	}
	r.volume = r.volume[:0]
	for d := range s.Plan.Doses {
		r.volume = append(r.volume, (s.Plan.Doses[d].GrossMM+s.Zone.LeakMMDay)*(s.Zone.AreaM2/1000))
	}
	for i, given := range s.Trace.Dose[:len(days)] {
		days[i] += r.volume[given]
	}
	return nil
}

// A yearSum is one year of a strategy over all zones.
type yearSum struct {
	volume, need, runoff, drained float64 // m³
	stress, quarter, brown, worst float64 // days, all but the worst times area
	events                        float64
	peakMonth, peakDay            float64 // m³
}

// fill makes the rows of a table.
func (r *Replayer) fill(l *study.Study, t *tally.Table, a *Account, plan *plan, own []string) {
	rows := &r.rows
	rows.Results, rows.Months = rows.Results[:0], rows.Months[:0]
	years, whole := t.Years()
	area := 0.0
	for z := range t.Zones {
		area += t.Zones[z].AreaM2
	}
	account, byMeasure := r.codes(l, t, plan)
	rows.Account.Alarms = codes(append(account, own...))
	ranked := t.RankYears()
	least := t.LeastWaterIndex()
	sums := make([]yearSum, len(years))
	for s := range r.base {
		clear(sums)
		for y := range sums {
			sums[y].peakDay = r.peakOf(t, s, years[y])
		}
		sumYears(t, s, least, years[0], sums)
		measured := measureArea(&r.base[s], area)
		for y := range sums {
			u := &sums[y]
			ratio := math.NaN()
			if u.need > 0 {
				ratio = u.volume / u.need
			}
			rows.Results = append(rows.Results, portfolio.Result{
				Account: a.ID, Measure: r.base[s].Name, Reference: s == l.Scenario.Baseline, Year: int32(years[y]),
				WholeYear: whole[y] && t.Counts(years[y]), AreaM2: measured, VolumeM3: u.volume, RequirementM3: u.need, ApplicationRatio: known(ratio),
				StressZoneDays: u.stress / area, StressQuarterDays: u.quarter / area, BrowningDays: u.brown / area, WorstStressDays: u.worst,
				RunoffM3: u.runoff, RunoffEvents: u.events, PercolationM3: u.drained, PeakMonthM3: u.peakMonth, PeakDayM3: u.peakDay,
				Alarms: byMeasure[s],
			})
		}
		r.months(t, s, least, a.ID, portfolio.MedianYear, ranked.Median)
		r.months(t, s, least, a.ID, portfolio.DryYear, ranked.Dry)
		if r.options.AllMonths {
			for _, y := range years {
				r.months(t, s, least, a.ID, portfolio.AllYears, y)
			}
		}
	}
}

// sumYears adds up the months of strategy s by year.
func sumYears(t *tally.Table, s, least, first int, sums []yearSum) {
	for z := range t.Zones {
		area := t.Zones[z].AreaM2
		months, needs := t.Outcomes[s][z].Months, t.Outcomes[least][z].Months
		zone := make([]int, len(sums))
		for i := range t.Spans {
			m, y := &months[i], t.YearOf(&t.Spans[i])-first
			u := &sums[y]
			u.volume += float64(m.GrossMM / 1000 * area)
			u.need += float64(needs[i].GrossMM / 1000 * area)
			u.runoff += float64(m.IrrRunoffMM / 1000 * area)
			u.drained += float64(m.PercIrrMM / 1000 * area)
			u.stress += float64(float64(m.StressZoneDays) * area)
			u.quarter += float64(float64(m.StressDays) * area)
			u.brown += float64(float64(m.BrownDays) * area)
			u.events += float64(m.RunoffEvents)
			zone[y] += m.StressZoneDays
		}
		for y := range sums {
			sums[y].worst = max(sums[y].worst, float64(zone[y]))
		}
	}
	for i := range t.Spans {
		volume := 0.0
		for z := range t.Zones {
			volume += float64(t.Outcomes[s][z].Months[i].GrossMM / 1000 * t.Zones[z].AreaM2)
		}
		u := &sums[t.YearOf(&t.Spans[i])-first]
		u.peakMonth = max(u.peakMonth, volume)
	}
}

// peakOf returns the highest volume of a day of strategy s in a year [m³].
func (r *Replayer) peakOf(t *tally.Table, s, year int) (most float64) {
	for i := range t.Spans {
		if t.YearOf(&t.Spans[i]) == year {
			for _, v := range r.peak[s][t.Spans[i].From:t.Spans[i].To] {
				most = max(most, v)
			}
		}
	}
	return most
}

// measureArea returns the irrigated area after all changes of a strategy [m²].
func measureArea(st *strategy.Strategy, before float64) float64 {
	if len(st.Stretches) == 0 {
		return before
	}
	return areaOf(st.Stretches[len(st.Stretches)-1].Zones)
}

func areaOf(zones []sim.Zone) (sum float64) {
	for z := range zones {
		sum += zones[z].AreaM2
	}
	return sum
}

// months adds the months of a year of strategy s; year 0 is none.
func (r *Replayer) months(t *tally.Table, s, least int, id, weather string, year int) {
	if year == 0 {
		return
	}
	for i := range t.Spans {
		span := &t.Spans[i]
		if t.YearOf(span) != year {
			continue
		}
		row := portfolio.Month{Account: id, Measure: r.base[s].Name, Weather: weather, Year: int32(span.Year), Month: int32(span.Month)}
		for z := range t.Zones {
			row.VolumeM3 += float64(t.Outcomes[s][z].Months[i].GrossMM / 1000 * t.Zones[z].AreaM2)
			row.RequirementM3 += float64(t.Outcomes[least][z].Months[i].GrossMM / 1000 * t.Zones[z].AreaM2)
		}
		r.rows.Months = append(r.rows.Months, row)
	}
}

// codes returns the codes of an account, and those of each measure, joined.
func (r *Replayer) codes(l *study.Study, t *tally.Table, plan *plan) (account []string, byMeasure []string) {
	list := make([][]string, len(r.base))
	for _, w := range l.Codes(t) {
		at := slices.IndexFunc(r.base, func(st strategy.Strategy) bool { return st.Name == w.Strategy })
		if at < 0 {
			account = append(account, w.Code)
			continue
		}
		list[at] = append(list[at], w.Code)
	}
	for s := range r.base {
		if slices.Contains(plan.left, r.base[s].Name) {
			list[s] = append(list[s], string(partOmitted))
		}
		byMeasure = append(byMeasure, codes(list[s]))
	}
	return account, byMeasure
}
