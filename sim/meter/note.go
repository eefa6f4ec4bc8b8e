package meter

import (
	"cmp"
	"math"
	"slices"
)

// A NoteCode is a stable code for something that a reader of the comparison should
// look at.
type NoteCode string

// The notes.
const (
	FewPeriods   NoteCode = "few-periods"
	NoSecondYear NoteCode = "no-year-to-hold-out"
	ServesUnsaid NoteCode = "serves-not-stated"
	WholeUnits   NoteCode = "whole-units"
	SpikeRead    NoteCode = "spike"
	VacantWinter NoteCode = "low-winter"
	WinterUse    NoteCode = "use-out-of-season"
	WinterWaters NoteCode = "winter-watering"
	BelowBase    NoteCode = "use-below-base"
	BaseSpread   NoteCode = "base-methods-differ"
	OneMethod    NoteCode = "one-base-method"
	GapInReads   NoteCode = "gap-in-reads"
	NeverRead    NoteCode = "estimate-never-corrected"
	DryDepth     NoteCode = "depth-low"
	WetDepth     NoteCode = "depth-high"
	LargeSaving  NoteCode = "saving-large"
	LargePerArea NoteCode = "saving-large-for-area"
	CloseCall    NoteCode = "too-close-to-call"
)

// A NoteDoc describes a note.
type NoteDoc struct {
	Code NoteCode
	Doc  string
}

var notes = [...]NoteDoc{
	{FewPeriods, "fewer than 12 periods count: the statistics say little"},
	{NoSecondYear, "fewer than two years count before the change: no year can be held out, and no baseline is chosen"},
	{ServesUnsaid, "it is not stated whether the meter serves irrigation only; it is taken as mixed, with base use"},
	{WholeUnits, "the reads are rounded to units so large that rounding alone causes an error"},
	{SpikeRead, "use per day above the third quartile of the same season plus 3 times the distance between quartiles; it counts, check " +
		"the read"},
	{VacantWinter, "a winter period with less than half of the median winter use: perhaps a vacancy; base use may be too low"},
	{WinterUse, "a meter for irrigation only has use in a period in which the replay does not water: a leak, another tap or a longer season"},
	{WinterWaters, "the replay waters in a winter period from which base use is taken: base use may include watering"},
	{BelowBase, "a period has less use than base use"},
	{BaseSpread, "the methods of base use differ by more than a fifth of outdoor use: the choice decides the result"},
	{OneMethod, "only one method gives base use: its error cannot be seen"},
	{GapInReads, "no read covers some days"},
	{NeverRead, "estimates that no read has corrected do not count"},
	{DryDepth, "less than 10 inches a year on the irrigated area; plausible for few landscapes: check the area and the reads"},
	{WetDepth, "more than 90 inches a year on the irrigated area: check the area, and look for leaks and other uses"},
	{LargeSaving, "a saving above 60% of outdoor use is implausible: look for another cause"},
	{LargePerArea, "a saving above 20 gal/ft² a year is implausible: check the area, and look for another cause"},
	{CloseCall, "the saving is too close to call: its uncertainty at 68% confidence is not below half of it"},
}

// NoteDocs returns the descriptions. The slice is the caller's.
func NoteDocs() []NoteDoc { return slices.Clone(notes[:]) }

// Doc returns what a code means.
func (c NoteCode) Doc() string {
	return notes[slices.IndexFunc(notes[:], func(d NoteDoc) bool { return d.Code == c })].Doc
}

// A Note is one thing to look at. Period is the index of a period, -1 for none;
// Value is a number that belongs to it, with a meaning by code: see [Site.Notes].
type Note struct {
	Code   NoteCode
	Period int
	Value  float64
}

// Limits of the notes. Those of depth and saving are limits of alarm, from field
// studies and arithmetic, not defaults.
const (
	spikeSpread   = 3    // of the distance between quartiles (CalTRACK 2.0, 2.3.6)
	leastOfSpike  = 8    // periods of a season that make quartiles
	vacantShare   = 0.5  // our choice
	leastRounding = 1    // CV(RMSE) [%]; our choice
	spreadShare   = 0.2  // our choice
	driestMM      = 254  // 10 inches a year
	wettestMM     = 2286 // 90 inches a year
	mostSaved     = 0.6  // of outdoor use
	mostSavedMM   = 815  // a year: 20 gal/ft²
	leastOfWinter = 3    // winter periods that have a median
)

// Notes returns what to look at. areaM2 is the area that the meter waters; saidServes
// is false if it is not stated whether it serves irrigation only. Values are those of
// the note's period [m³/d], the depth [mm/yr] for depths, a share for shares, the
// number of days of gaps, the number of estimates, the unit [m³] for whole units.
func (s *Site) Notes(h *History, c *Comparison, saving *Saving, areaM2 float64, saidServes bool) (out []Note) {
	note := func(is bool, code NoteCode, period int, value float64) {
		if is {
			out = append(out, Note{code, period, value})
		}
	}
	note(!saidServes, ServesUnsaid, -1, 0)
	note(c.FewWhole, FewPeriods, -1, float64(len(c.Before)))
	note(len(c.Ladder.Years) == 0, NoSecondYear, -1, 0)
	total := 0.0
	for _, i := range c.Before {
		total += s.Periods[i].M3
	}
	note(h.UnitM3 > 0 && total > 0 && RoundingCV(h.UnitM3, total/float64(len(c.Before))) >= leastRounding, WholeUnits, -1, h.UnitM3)
	note(h.GapDays > 0, GapInReads, -1, float64(h.GapDays))
	never := 0
	for i := range s.Periods {
		if s.Periods[i].Why == NotRead {
			never++
		}
	}
	note(never > 0, NeverRead, -1, float64(never))
	out = append(out, s.spikes(c)...)
	out = append(out, s.baseNotes(c)...)
	outdoor, years := s.outdoorPerYear(c)
	if years > 0 && areaM2 > 0 {
		mm := 1000 * outdoor / areaM2
		note(mm < driestMM, DryDepth, -1, mm)
		note(mm > wettestMM, WetDepth, -1, mm)
	}
	if saving.Claim >= 0 {
		by := &saving.By[saving.Claim]
		base := float64(c.baseDay() * float64(saving.DaysAfter))
		if was := by.BaselineM3 - base; was > 0 {
			note(by.M3 > mostSaved*was, LargeSaving, -1, by.M3/was)
		}
		perYear := by.M3 / float64(saving.DaysAfter) * 365.25
		note(areaM2 > 0 && 1000*perYear/areaM2 > mostSavedMM, LargePerArea, -1, 1000*perYear/areaM2)
		note(by.TooClose(), CloseCall, -1, by.Plus/math.Max(abs(by.M3), 1e-9))
	}
	return out
}

// baseDay returns base use [m³/d], 0 if it is not known.
func (c *Comparison) baseDay() float64 {
	if c.Base < 0 {
		return 0
	}
	return c.Bases[c.Base].M3Day
}

// outdoorPerYear returns metered outdoor use a year before the change [m³], over
// whole years; years is 0 if there is none.
func (s *Site) outdoorPerYear(c *Comparison) (m3 float64, years int) {
	days := 0
	for _, y := range s.Years(c.Before) {
		for _, i := range y.At {
			p := &s.Periods[i]
			m3, days = m3+p.M3-float64(c.baseDay()*float64(p.Days())), days+p.Days()
		}
		years++
	}
	if years == 0 {
		return 0, 0
	}
	return m3 / float64(days) * 365.25, years
}

// OutdoorPerYear returns metered outdoor use a year before the change [m³]; ok is
// false without a whole year or base use.
func (s *Site) OutdoorPerYear(c *Comparison) (m3 float64, ok bool) {
	m3, years := s.outdoorPerYear(c)
	return m3, years > 0 && c.Base >= 0
}

// spikes finds use per day far above that of other winters, or of the rest of the year.
func (s *Site) spikes(c *Comparison) (out []Note) {
	var halves [2][]int
	in := BaseInput{south: s.South}
	for _, i := range append(slices.Clone(c.Before), c.After...) {
		half := 0
		if _, winter := in.inWinter(&s.Periods[i]); winter {
			half = 1
		}
		halves[half] = append(halves[half], i)
	}
	for _, at := range halves {
		if len(at) < leastOfSpike {
			continue
		}
		var v []float64
		for _, i := range at {
			v = append(v, s.Periods[i].PerDay())
		}
		slices.Sort(v)
		q1, q3 := quantile(v, 0.25), quantile(v, 0.75)
		for _, i := range at {
			if d := s.Periods[i].PerDay(); d > q3+float64(spikeSpread*(q3-q1)) && q3 > q1 {
				out = append(out, Note{SpikeRead, i, d})
			}
		}
	}
	slices.SortFunc(out, func(a, b Note) int { return cmp.Compare(a.Period, b.Period) })
	return out
}

// quantile returns the quantile of sorted values, between neighbors in proportion.
func quantile(v []float64, q float64) float64 {
	at := float64(q * float64(len(v)-1))
	i := int(at)
	if i+1 >= len(v) {
		return v[len(v)-1]
	}
	return v[i] + float64((at-float64(i))*(v[i+1]-v[i]))
}

// baseNotes looks at base use.
func (s *Site) baseNotes(c *Comparison) (out []Note) {
	if s.Only {
		for _, i := range c.Before {
			if d := s.Periods[i].PerDay(); d > 0 && c.Pairs[i].SimM3 == 0 {
				out = append(out, Note{WinterUse, i, d})
			}
		}
		return out
	}
	low, high, n := Spread(c.Bases)
	if n == 1 {
		out = append(out, Note{OneMethod, -1, 0})
	}
	if outdoor, years := s.outdoorPerYear(c); years > 0 && n > 1 {
		if share := (high - low) * 365.25 / math.Max(outdoor, 1e-9); share > spreadShare {
			out = append(out, Note{BaseSpread, -1, share})
		}
	}
	var winter []float64
	in := BaseInput{south: s.South}
	for _, i := range c.Before {
		if _, ok := in.inWinter(&s.Periods[i]); ok {
			winter = append(winter, s.Periods[i].PerDay())
		}
	}
	slices.Sort(winter)
	for _, i := range c.Before {
		p := &s.Periods[i]
		if _, ok := in.inWinter(p); ok && len(winter) >= leastOfWinter && p.PerDay() < vacantShare*quantile(winter, 0.5) {
			out = append(out, Note{VacantWinter, i, p.PerDay()})
		}
		if c.Base >= 0 && p.PerDay() < 0.9*c.Bases[c.Base].M3Day {
			out = append(out, Note{BelowBase, i, p.PerDay()})
		}
	}
	if c.Base >= 0 && c.Bases[c.Base].Method == LowestWinter {
		for _, i := range c.Bases[c.Base].from {
			if c.Pairs[i].SimM3 > 0 {
				out = append(out, Note{WinterWaters, i, c.Pairs[i].SimM3 / float64(s.Periods[i].Days())})
			}
		}
	}
	return out
}
