package meter

import (
	"slices"

	"loamledger/weather/cal"
)

// A Status says what kind of statement a saving is.
type Status string

// The two statuses, which never mix.
const (
	EstimatedSaving Status = "estimated"
	VerifiedSaving  Status = "verified at this meter"
)

// A StatusDoc describes a status.
type StatusDoc struct {
	Status Status
	Doc    string
}

var statuses = [...]StatusDoc{
	{EstimatedSaving, "from two replays, or from a replay and reads before the change; made before anything was changed"},
	{VerifiedSaving, "baseline use under the weather of the days after the change, less metered use of the same days"},
}

// Statuses returns the descriptions. The slice is the caller's.
func Statuses() []StatusDoc { return slices.Clone(statuses[:]) }

// A Lack is a stable code for a requirement of a verified saving that is not met.
type Lack string

// What may be lacking.
const (
	NoChange     Lack = "no-date-of-change"
	NoUseAfter   Lack = "no-use-after-change"
	PartYear     Lack = "less-than-a-year-after-change"
	NoYearBefore Lack = "less-than-a-year-before-change"
	NoModel      Lack = "no-baseline-tested"
	EventsUnsaid Lack = "events-not-stated"
)

// A LackDoc describes what is lacking.
type LackDoc struct {
	Lack Lack
	Doc  string
	Fix  string
}

var lacks = [...]LackDoc{
	{NoChange, "the date of the change is not given", "add changed, the day from which the new settings ran, to the meter"},
	{NoUseAfter, "no period after the change counts", "add the reads after the change"},
	{PartYear, "the periods after the change that count do not cover a year", "wait for the rest of the year: watering is seasonal"},
	{NoYearBefore, "the periods before the change that count do not cover a year", "add earlier reads"},
	{NoModel, "no baseline that follows the weather could be tested on a year held out",
		"add reads: two years before the change, within the weather"},
	{EventsUnsaid, "events that are not routine are not stated", "add events to the meter, or events: none"},
}

// Lacks returns the descriptions. The slice is the caller's.
func Lacks() []LackDoc { return slices.Clone(lacks[:]) }

// A Saving is what the meter says about a change.
type Saving struct {
	Status Status
	Lacks  []Lack // what is not met; none if verified
	// By has the saving by each baseline that could predict every period after the
	// change that counts, in the order of the ladder; none if there are no such periods.
	By []SavingBy
	// Claim is the index in By of the saving to state: by the best baseline that
	// follows the weather, or by the best of all, whichever is smaller; -1 if none.
	Claim     int
	DaysAfter int // of the periods that count
	From, To  cal.Date
}

// A SavingBy is the saving by one baseline.
type SavingBy struct {
	Model      Model
	BaselineM3 float64 // what the baseline says of the periods after the change
	MeteredM3  float64
	M3         float64 // baseline less metered; below 0 for an increase
	// Plus is the uncertainty [m³] at a confidence of 68%; PlusOK is false if it is
	// not known.
	Plus   float64
	PlusOK bool
}

// TooClose reports whether the saving is too close to call: its uncertainty at 68%
// confidence is not below half of it.
func (s *SavingBy) TooClose() bool { return !s.PlusOK || s.Plus >= abs(s.M3)/2 }

func abs(v float64) float64 { return max(v, -v) }

// Confidence is that of the uncertainty of a saving, two-sided.
const Confidence = 0.68

// Saving works out what the meter says about the change on a day, 0 for none.
// eventsStated says whether events that are not routine were stated, be it that
// there were none.
func (s *Site) Saving(c *Comparison, changed cal.Date, eventsStated bool) *Saving {
	out := &Saving{Status: VerifiedSaving, Claim: -1}
	lack := func(is bool, l Lack) {
		if is {
			out.Status, out.Lacks = EstimatedSaving, append(out.Lacks, l)
		}
	}
	before := 0
	for _, i := range c.Before {
		before += s.Periods[i].Days()
	}
	for k, i := range c.After {
		p := &s.Periods[i]
		if out.To = p.To; k == 0 {
			out.From = p.From
		}
		out.DaysAfter += p.Days()
	}
	for i := range c.Ladder.Rungs {
		if by, ok := s.savingBy(c, &c.Ladder.Rungs[i]); ok {
			out.By = append(out.By, by)
			if i == c.Ladder.Chosen || i == c.Ladder.Follows {
				if k := len(out.By) - 1; out.Claim < 0 || by.M3 < out.By[out.Claim].M3 {
					out.Claim = k
				}
			}
		}
	}
	lack(changed == 0, NoChange)
	lack(changed != 0 && len(c.After) == 0, NoUseAfter)
	lack(len(c.After) > 0 && float64(out.DaysAfter) < leastOfYear*365, PartYear)
	lack(float64(before) < leastOfYear*365, NoYearBefore)
	lack(c.Ladder.Follows < 0, NoModel)
	lack(!eventsStated, EventsUnsaid)
	return out
}

// savingBy works out the saving by one baseline.
func (s *Site) savingBy(c *Comparison, r *Rung) (by SavingBy, ok bool) {
	predict, fitted := s.fit(r.Model, c.Before)
	if predict == nil || len(c.After) == 0 {
		return by, false
	}
	m, sim, missed := s.pairs(c.After, predict)
	if missed > 0 {
		return by, false
	}
	by.Model = r.Model
	days := 0
	for k := range m {
		by.MeteredM3, by.BaselineM3 = by.MeteredM3+m[k], by.BaselineM3+sim[k]
		days += s.Periods[c.After[k]].Days()
	}
	by.M3 = by.BaselineM3 - by.MeteredM3
	was, fit, _ := s.pairs(c.Before, predict)
	if u, known := Uncertainty(was, fit, fitted, len(c.After), float64(days)/monthDays, Confidence); known {
		by.Plus, by.PlusOK = u*by.BaselineM3, true
	}
	return by, true
}

// monthDays is the mean length of a month [d].
const monthDays = 365.25 / 12
