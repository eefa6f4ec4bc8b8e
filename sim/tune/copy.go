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
	"loamledger/weather/cal"
)

// A Copied is a sheet drawn from what a strategy applied on average.
type Copied struct {
	Sheet       *settings.Sheet
	Median, Dry int // the years it is held to
	Zones       []CopiedZone
}

// A CopiedZone sets the sheet, finished and rounded, beside the strategy.
type CopiedZone struct {
	// Raised is the minutes a week on the sheet over those that the strategy
	// applied on average in the month in which it applied most: 1 to CopyMost, or
	// the next whole minute; less where limits cut them. NaN where it applied
	// nothing.
	Raised     float64
	Own, Sheet Short
}

// A Short is how a zone fares.
type Short struct {
	MedianDays, DryDays int     // stress days in the median and the 1-in-10 dry year
	RunoffEvents        float64 // a year
}

// beyond returns by how much s is worse than own.
func (s Short) beyond(own Short) float64 {
	return float64(max(s.MedianDays-own.MedianDays, 0)+max(s.DryDays-own.DryDays, 0)) + s.runoffBeyond(own)
}

func (s Short) runoffBeyond(own Short) float64 { return max(s.RunoffEvents-own.RunoffEvents-1e-9, 0) }

// Drier reports whether the zone has more stress days on the sheet than under
// the strategy, in the median or the dry year.
func (z *CopiedZone) Drier() bool {
	return z.Sheet.MedianDays > z.Own.MedianDays || z.Sheet.DryDays > z.Own.DryDays
}

// CopyMost is the most by which [Copy] raises minutes: an assumption of this
// program.
const CopyMost = 1.5

// CopyOptions say how a sheet is drawn. The zero CopyOptions round percentages
// to 5 %.
type CopyOptions struct {
	PercentStep float64  // share; 0 means 0.05
	AsOf        cal.Date // as in [settings.Options]
	Progress    func(zoneReplays int)
}

// Copy draws the sheet of a strategy that decides by a balance of its own from
// what it applied over the record. Percentages follow the site's mean volume of
// each calendar month. Days are at least as many as it watered on in the month
// in which the zone got most, and that month's mean a week gives the minutes.
// They are raised, by no more than CopyMost, until the zone has neither more
// stress days than the strategy in the median and in the dry year nor more
// runoff; where that cannot be had, what comes nearest is taken. What is told
// of the zones is the replay of the finished sheet under the limits of the site.
//
// The error is that of ctx, [ErrNoYear], a [*strategy.UnsaidError] of a part
// that does not say what becomes of it, or [settings.ErrNothing] where the
// strategy applied nothing.
func Copy(ctx context.Context, job *replay.Job, st *strategy.Strategy, o CopyOptions) (*Copied, error) {
	s, err := newSearch(ctx, job, Goal{}, Options{Space: Space{PercentStep: o.PercentStep}, Progress: o.Progress})
	if err != nil {
		return nil, err
	}
	s.most = 1
	stays, err := kept(st)
	if err != nil {
		return nil, err
	}
	c := &copier{search: s, st: st, asOf: o.AsOf, full: int(math.Round(1 / s.space.PercentStep))}
	if err := c.applied(); err != nil {
		return nil, err
	}
	if !slices.ContainsFunc(c.weekly, func(m float64) bool { return m > 0 }) {
		return nil, settings.ErrNothing
	}
	c.parts = append([]strategy.Part{strategy.Monthly{Share: c.percent.shares(c.full)}}, stays...)
	return c.sheet()
}

// A copier draws one sheet.
type copier struct {
	*search
	st          *strategy.Strategy
	asOf        cal.Date
	full        int // steps of 100 %
	percent     row
	parts       []strategy.Part
	weekly      []float64 // by zone: minutes a week at 100 %
	often       []float64 // by zone: days a week with water in the month with most
	own         []Short
	median, dry int
}

// kept returns what of a strategy a controller does by itself under the sheet,
// as its parts say. The error is a [*strategy.UnsaidError].
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

// applied replays the strategy and takes from it what it applied on average.
func (c *copier) applied() error {
	return c.replay(c.limits, c.zones, []strategy.Strategy{*c.st}, func(_ int, t *tally.Table, k int) {
		ranked := t.RankYears()
		c.median, c.dry = ranked.Median, ranked.Dry
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
				volume[m] += sum.Minutes * t.Zones[z].FlowLMin()
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
					// In a month that is not the site's greatest the percentage takes its share.
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
	years := float64(t.Days()) / 365.25
	for z := range out {
		all := t.Total(k, z)
		m, d := t.Year(k, z, median), t.Year(k, z, dry)
		out[z] = Short{m.StressDays, d.StressDays, float64(all.RunoffEvents) / years}
	}
	return out
}

// sheet tries days, cycles and minutes and finishes the best.
func (c *copier) sheet() (*Copied, error) {
	options, allowed, err := c.options()
	if err != nil {
		return nil, err
	}
	found, err := c.tryAll(options, allowed)
	if err != nil {
		return nil, err
	}
	var sheet *settings.Sheet
	var zones []Short
	// Where zones do not fit the window together, fewer days a week, and groups
	// with days of their own, may make room; then runs without pauses, at the
	// price of runoff.
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
			of := pick(some, c.space.MostPrograms)
			if math.IsInf(some[of[0]][0].over, 1) {
				break
			}
			for groups := 1; groups <= 4 && (sheet == nil || len(sheet.Misfits) > 0); groups++ {
				all, in, at := c.grouped(options, of, f.minutes, groups)
				st := c.build(c.st.Name, all, in, at, c.parts)
				now, nowZones, err := c.finish(&st)
				if err != nil {
					return nil, err
				}
				if sheet == nil || cmp.Or(cmp.Compare(len(now.Unwatered()), len(sheet.Unwatered())), cmp.Compare(c.sum(nowZones), c.sum(zones))) < 0 {
					sheet, zones = now, nowZones
				}
			}
		}
	}
	out := &Copied{Sheet: sheet, Median: c.median, Dry: c.dry}
	for z := range zones {
		raised := math.NaN()
		if c.weekly[z] > 0 {
			raised = c.perWeek(sheet, z) / c.weekly[z]
		}
		out.Zones = append(out.Zones, CopiedZone{Raised: raised, Own: c.own[z], Sheet: zones[z]})
	}
	return out, nil
}

// sum adds up by how much zones are worse than under the strategy.
func (c *copier) sum(zones []Short) (over float64) {
	for z := range zones {
		over += zones[z].beyond(c.own[z])
	}
	return over
}

// perWeek returns the minutes a week of a zone on a sheet at 100 %.
func (c *copier) perWeek(sheet *settings.Sheet, z int) (minutes float64) {
	for i := range sheet.Programs {
		p := &sheet.Programs[i]
		minutes += p.Minutes[z] * float64(len(p.Starts)) * c.perWeekOf(p.Days)
	}
	return minutes
}

// perWeekOf returns on how many days a week a rule holds.
func (c *copier) perWeekOf(r strategy.DayRule) float64 {
	calendar, n := c.calendar(), 0
	for i := range calendar.Days() {
		if r.Runs(calendar, i) {
			n++
		}
	}
	return 7 * float64(n) / float64(max(calendar.Days(), 1))
}

// finish makes the sheet of a strategy, legal and rounded, and replays it.
func (c *copier) finish(st *strategy.Strategy) (*settings.Sheet, []Short, error) {
	site := settings.NewSite(c.zones, c.job.Weather, c.limits)
	sheet, err := settings.Make(site, st, settings.Options{PercentStep: c.space.PercentStep, AsOf: c.asOf, OneAfter: true})
	if err != nil {
		return nil, nil, err
	}
	var zones []Short
	err = c.replay(c.limits, c.zones, []strategy.Strategy{sheet.Strategy()}, func(_ int, t *tally.Table, k int) {
		zones = shorts(t, k, c.median, c.dry)
	})
	return sheet, zones, err
}
