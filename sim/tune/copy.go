package tune

import (
	"cmp"
	"context"
	"math"
	"slices"

	"loamledger/sim/replay"
	"loamledger/sim/settings"
	"loamledger/sim/strategy"
	"loamledger/sim/tally"
	"loamledger/sim/timer"
	"loamledger/weather/cal"
	"loamledger/weather/quantity"
)

// A Copied is a sheet based on what a strategy applied on average.
type Copied struct {
	Sheet       *settings.Sheet
	Median, Dry int // the years it was checked in
	Ranked      tally.Ranked
	Basis       tally.Basis // of the runoff events
	Zones       []CopiedZone
}

// A CopiedZone compares the finished, rounded sheet with the strategy.
type CopiedZone struct {
	// Raised is the sheet's weekly run time divided by the strategy's mean weekly
	// run time in its peak month: 1 to CopyMost, or the next whole minute, and less
	// if limits cut it. It is NaN if the strategy applied nothing.
	Raised     float64
	Own, Sheet Short
}

// A Short is the stress and runoff of a zone.
type Short struct {
	MedianDays, DryDays int     // stress days in the median and the dry year
	RunoffEvents        float64 // a year
}

// beyond returns how much worse s is than own.
func (s Short) beyond(own Short) float64 {
	return float64(max(s.MedianDays-own.MedianDays, 0)+max(s.DryDays-own.DryDays, 0)) + s.runoffBeyond(own)
}

func (s Short) runoffBeyond(own Short) float64 { return max(s.RunoffEvents-own.RunoffEvents-1e-9, 0) }

// Drier reports whether the zone has more stress days on the sheet than under
// the strategy, in the median or the dry year.
func (z *CopiedZone) Drier() bool {
	return z.Sheet.MedianDays > z.Own.MedianDays || z.Sheet.DryDays > z.Own.DryDays
}

// CopyMost is the maximum factor by which [Copy] raises run times: an assumption
// by loamledger.
const CopyMost = 1.5

// CopyOptions control how a sheet is made. The zero CopyOptions round percentages
// to 5%.
type CopyOptions struct {
	PercentStep float64  // share; 0 means 0.05
	AsOf        cal.Date // as in [settings.Options]
	// Timer is what the sheet must fit; nil for any timer. It has its own step of
	// percentages. Without cycles on the timer, the sheet has more start times or
	// single runs, whichever does better.
	Timer    *timer.Profile
	Units    quantity.System // of times in the notes of the sheet
	Progress func(zoneReplays int)
}

// Copy makes a sheet for a strategy with its own water balance, from what it
// applied over the record. Percentages follow the site's mean volume in each
// calendar month. A zone's peak month sets its minimum watering days and, by its
// weekly mean, the run time. Run times are raised, by at most a factor of
// CopyMost, until the zone has no more stress days than under the strategy, in
// the median year and in the dry year, and no more runoff. If that is impossible,
// the closest setting is used. Zones reports the replay of the finished sheet
// under the site limits.
//
// The error is from ctx, [ErrNoYear], a [*strategy.UnsaidError] for a part that
// does not declare its place on such a sheet, or [settings.ErrNothing] if the
// strategy applied nothing.
func Copy(ctx context.Context, job *replay.Job, st *strategy.Strategy, o CopyOptions) (*Copied, error) {
	profile := timer.Profile{PercentStep: o.PercentStep}
	if o.Timer != nil {
		profile = *o.Timer
		profile.Cycle = true // the sheet does without, by more start times
	}
	s, err := newSearch(ctx, job, Goal{}, Options{Space: Space{Timer: profile}, Progress: o.Progress})
	if err != nil {
		return nil, err
	}
	s.most = 1
	stays, err := kept(st)
	if err != nil {
		return nil, err
	}
	c := &copier{search: s, st: st, asOf: o.AsOf, timer: o.Timer, units: o.Units, full: int(math.Round(1 / s.space.Timer.PercentStep))}
	if err := c.applied(); err != nil {
		return nil, err
	}
	if !slices.ContainsFunc(c.weekly, func(m float64) bool { return m > 0 }) {
		return nil, settings.ErrNothing
	}
	c.parts = append([]strategy.Part{strategy.Monthly{Share: c.percent.shares(c.full)}}, stays...)
	return c.sheet()
}

// A copier makes one sheet.
type copier struct {
	*search
	st          *strategy.Strategy
	asOf        cal.Date
	timer       *timer.Profile
	units       quantity.System
	full        int // steps in 100%
	percent     row
	parts       []strategy.Part
	weekly      []float64 // by zone: minutes a week at 100%
	often       []float64 // by zone: watering days a week in its peak month
	own         []Short
	median, dry int
	basis       tally.Basis
}

// kept returns the parts of a strategy that the controller handles itself under
// the sheet. The error is a [*strategy.UnsaidError].
func kept(st *strategy.Strategy) (parts []strategy.Part, err error) {
	for _, p := range st.Parts {
		entry, err := strategy.OnCopy(p)
		if err != nil {
			return nil, err
		}
		if entry.Use == strategy.KeptUse {
			parts = append(parts, p)
		}
	}
	return parts, nil
}

// applied replays the strategy and takes the averages of what it applied.
func (c *copier) applied() error {
	return c.replay(c.limits, c.zones, []strategy.Strategy{*c.st}, func(_ int, t *tally.Table, k int) {
		ranked := t.RankYears()
		c.median, c.dry, c.basis = ranked.Median, ranked.Dry, t.Basis()
		c.own = shorts(t, k, c.median, c.dry)
		var days, volume [12]float64
		minutes, on := make([][12]float64, len(t.Zones)), make([][12]float64, len(t.Zones))
		for i, span := range t.Spans {
			if !t.Counts(span.Year) {
				continue
			}
			m := span.Month - 1
			days[m] += float64(span.To - span.From)
			for z := range t.Zones {
				sum := &t.Outcomes[k][z].Months[i]
				minutes[z][m] += sum.Minutes
				on[z][m] += float64(sum.WateringDays)
				volume[m] += float64(sum.Minutes * t.Zones[z].FlowLMin())
			}
		}
		for m := range volume {
			volume[m] /= max(days[m], 1)
		}
		c.percent = nearestRow(smoothed(volume), c.full)
		for z := range t.Zones {
			most, weekly, often := 0.0, 0.0, 0.0
			for m := range days {
				if mean := 7 * minutes[z][m] / max(days[m], 1); mean > most {
					// Outside the site's peak month, the percentage reduces the run time.
					most, often = mean, 7*on[z][m]/days[m]
					weekly = mean * float64(c.full) / float64(max(c.percent[m], 1))
				}
			}
			c.weekly, c.often = append(c.weekly, weekly), append(c.often, often)
		}
	})
}

// shorts measures the zones of strategy k of a table.
func shorts(t *tally.Table, k, median, dry int) []Short {
	out := make([]Short, len(t.Zones))
	basis := t.Basis()
	for z := range out {
		all := t.Sum(&basis, k, z)
		m, d := t.Year(k, z, median), t.Year(k, z, dry)
		out[z] = Short{m.StressZoneDays, d.StressZoneDays, float64(all.RunoffEvents) / basis.Divisor()}
	}
	return out
}

// sheet tries days, cycles and run times and finishes the best.
func (c *copier) sheet() (*Copied, error) {
	sheet, zones, err := c.best(c.space.Cycles, true)
	if err == nil && c.timer != nil && !c.timer.Cycle {
		// Start times replaced the cycles; perhaps single runs do better.
		single, its, err := c.best([]Cycle{{}}, false)
		if err != nil {
			return nil, err
		}
		if cmp.Or(cmp.Compare(len(single.Unwatered()), len(sheet.Unwatered())), cmp.Compare(c.sum(its), c.sum(zones))) < 0 {
			sheet, zones = single, its
		}
	}
	if err != nil {
		return nil, err
	}
	out := &Copied{Sheet: sheet, Median: c.median, Dry: c.dry, Ranked: c.ranked, Basis: c.basis}
	for z := range zones {
		raised := math.NaN()
		if c.weekly[z] > 0 {
			raised = c.perWeek(sheet, z) / c.weekly[z]
		}
		out.Zones = append(out.Zones, CopiedZone{Raised: raised, Own: c.own[z], Sheet: zones[z]})
	}
	return out, nil
}

// best tries the given cycles, and those of the strategy if own is set.
func (c *copier) best(cycles []Cycle, own bool) (sheet *settings.Sheet, zones []Short, err error) {
	options, allowed, err := c.options(cycles, own)
	if err != nil {
		return nil, nil, err
	}
	found, err := c.tryAll(options, allowed)
	if err != nil {
		return nil, nil, err
	}
	// If zones do not fit the window together, fewer days a week, or groups with
	// separate days, may make room. The last resort is runs without soaks, at the
	// cost of runoff.
	for _, f := range found {
		for _, mostDays := range []float64{7, 4, 2.5, 1.5} {
			if sheet != nil && len(sheet.Misfits) == 0 {
				break
			}
			some := slices.Clone(f.costs)
			for o := range some {
				if c.perWeekOf(options[o].days) > mostDays {
					some[o] = slices.Repeat([]cost{{math.Inf(1), 0}}, len(c.zones))
				}
			}
			of := pick(some, c.space.Timer.Programs)
			if math.IsInf(some[of[0]][0].over, 1) {
				break
			}
			for groups := 1; groups <= 4 && (sheet == nil || len(sheet.Misfits) > 0); groups++ {
				all, in, at := c.grouped(options, of, f.minutes, groups)
				st := c.build(c.st.Name, all, in, at, c.parts)
				now, nowZones, err := c.finish(&st)
				if err != nil {
					return nil, nil, err
				}
				if sheet == nil || cmp.Or(cmp.Compare(len(now.Unwatered()), len(sheet.Unwatered())), cmp.Compare(c.sum(nowZones), c.sum(zones))) < 0 {
					sheet, zones = now, nowZones
				}
			}
		}
	}
	return sheet, zones, nil
}

// sum adds up how much worse the zones are than under the strategy.
func (c *copier) sum(zones []Short) (over float64) {
	for z := range zones {
		over += zones[z].beyond(c.own[z])
	}
	return over
}

// perWeek returns the weekly run time of a zone on a sheet at 100% [min].
func (c *copier) perWeek(sheet *settings.Sheet, z int) (minutes float64) {
	for i := range sheet.Programs {
		p := &sheet.Programs[i]
		minutes += float64(p.Minutes[z] * float64(len(p.Starts)) * c.perWeekOf(p.Days))
	}
	return minutes
}

// perWeekOf returns the days a week of a rule.
func (c *copier) perWeekOf(r strategy.DayRule) float64 {
	calendar, n := c.calendar(), 0
	for i := range calendar.Days() {
		if r.Runs(calendar, i) {
			n++
		}
	}
	return 7 * float64(n) / float64(max(calendar.Days(), 1))
}

// finish makes the rounded sheet of a strategy under the limits and replays it.
func (c *copier) finish(st *strategy.Strategy) (*settings.Sheet, []Short, error) {
	site := settings.NewSite(c.zones, c.job.Weather, c.limits, c.job.Wiring)
	sheet, err := settings.Make(site, st, settings.Options{PercentStep: c.space.Timer.PercentStep, AsOf: c.asOf, OneAfter: true,
		Timer: c.timer, Units: c.units})
	if err != nil {
		return nil, nil, err
	}
	var zones []Short
	err = c.replay(c.limits, c.zones, []strategy.Strategy{sheet.Strategy()}, func(_ int, t *tally.Table, k int) {
		zones = shorts(t, k, c.median, c.dry)
	})
	return sheet, zones, err
}
