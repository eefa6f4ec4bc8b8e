// Package meter compares a replay with the reads of a water meter: periods of
// metered use, use that is not irrigation, statistics, baselines and what may be
// claimed from them.
//
// # Units
//
// Use is in m³, use per day in m³/d, depths in mm over the watered area. Dates
// are days; a period covers the day of the read before, and not the day of its
// own read.
//
// # Promises
//
// Nothing is dropped in silence: a period that does not count keeps its place
// in the list, with a coded reason. The package reads no file, clock or random
// source.
package meter

import "loamledger/weather/cal"

// A Period is the use between two reads of a meter.
type Period struct {
	Meter string
	// From is the day of the read before, To the day of the read; the use is
	// that of the days From <= d < To.
	From, To cal.Date
	M3       float64 // use [m³]
	Kind     Kind
	Left     bool   // excluded from statistics
	Why      Reason // why it is excluded; empty if it counts
}

// Days returns the number of days of the period.
func (p Period) Days() int { return int(p.To - p.From) }

// PerDay returns the mean use per day [m³/d].
func (p Period) PerDay() float64 { return p.M3 / float64(p.Days()) }

// A Kind says how the use of a period is known.
type Kind string

// The kinds of periods.
const (
	Actual    Kind = "actual"
	Estimated Kind = "estimated" // by the supplier, and never corrected
	Customer  Kind = "customer"  // read by the customer
	Corrected Kind = "corrected" // a run of estimates and the read that corrects it, as one
)

// A Reason is a stable code that says why a period does not count. [Reasons]
// describes each.
type Reason string

// The reasons.
const (
	NotRead     Reason = "estimated"
	TooShort    Reason = "too-short"
	TooLong     Reason = "too-long"
	OutOfRecord Reason = "outside-weather"
	Straddles   Reason = "straddles-change"
	InEvent     Reason = "event"
	Reset       Reason = "meter-replaced"
)

// A ReasonDoc describes a reason.
type ReasonDoc struct {
	Reason Reason
	Doc    string
}

var reasons = [...]ReasonDoc{
	{NotRead, "the use is an estimate of the supplier that no read has corrected"},
	{TooShort, "fewer days than a bill has"},
	{TooLong, "more days than a bill has, so that seasons run together"},
	{OutOfRecord, "the weather record does not cover all days of the period"},
	{Straddles, "the date of the change lies within the period"},
	{InEvent, "something that is not routine happened in the period"},
	{Reset, "the meter was replaced or its register reset within the period, and the use is unknown"},
}

// Reasons returns the description of every reason. The slice is the caller's.
func Reasons() []ReasonDoc { return append([]ReasonDoc(nil), reasons[:]...) }
