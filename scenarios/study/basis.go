package study

import (
	"fmt"

	"loamledger/sim/replay"
	"loamledger/sim/tally"
	"loamledger/weather/quantity"
)

// A BasisRecord says which days the figures cover, for scripts. Keys that end with
// _per_year are sums over the days covered if no year is whole.
type BasisRecord struct {
	Per        string `json:"per"`         // year; or days if no year is whole
	Years      []int  `json:"years"`       // the whole years, by the year in which they begin
	FirstMonth int    `json:"first_month"` // of a year: 7 in the southern hemisphere
	Days       int    `json:"days"`        // days covered
	Text       string `json:"text"`
}

func basisRecord(b *tally.Basis) BasisRecord {
	out := BasisRecord{Per: "days", Years: []int{}, FirstMonth: 1, Days: b.Days, Text: b.Sentence()}
	if b.Yearly() {
		out.Per, out.Years = "year", b.Years
	}
	if b.South {
		out.FirstMonth = 7
	}
	return out
}

// dryIs says what the dry year is; empty if no year is whole.
func dryIs(r *tally.Ranked) string {
	if r.Dry == 0 {
		return ""
	}
	return r.DryName()
}

// south reports whether the site is in the southern hemisphere. If its latitude is
// not given, that of the station counts.
func (l *Study) south() bool {
	if lat := l.Scenario.Site.LatDeg; lat < 0 || lat >= 0 {
		return lat < 0
	}
	return l.Weather.Station.LatDeg < 0
}

// basis returns what the yearly figures of a replay will cover.
func (l *Study) basis() tally.Basis { return replay.BasisOf(&l.Job) }

// startText says how the depletion on the first day was found.
func (l *Study) startText() string {
	switch {
	case l.Job.NoSpinUp:
		return "depletion of " + quantity.Format(l.Job.StartShare, quantity.Fraction, quantity.SI) + " of TAW"
	case l.Job.SpinUp() == 0:
		return fmt.Sprintf("full root zone; no spin-up, since the record has fewer than %d days", replay.SpinUpDays)
	}
	return fmt.Sprintf("spin-up over the first %d days from a full root zone", replay.SpinUpDays)
}

// rankedText names the median and the dry year in the notes below a table.
func rankedText(r *tally.Ranked) string {
	return fmt.Sprintf("median year %s, %s", r.Name(r.Median), r.DryText())
}
