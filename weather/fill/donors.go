package fill

import (
	"math"

	"loamledger/weather"
)

// FromDonor fills gaps in s from a second station and extends s by the days
// before and after it, adjusted month by month as in [Fill]. It leaves what it
// cannot fill. It is for a station that is itself a donor: no year is rejected
// and no other rule is used.
func FromDonor(s, donor *weather.Series) []weather.Finding {
	widen(s, donor)
	for c := range weather.Columns {
		if donor.Has(c) {
			s.Add(c)
		}
	}
	w := newWork(s, Options{Donor: donor, tempGapDays: -1, noClimatology: true}.withDefaults())
	w.run()
	w.order()
	w.commit()
	return w.findings
}

// widen extends s to cover the days of other.
func widen(s, other *weather.Series) {
	start, end := min(s.Start, other.Start), max(s.End(), other.End())
	if start == s.Start && end == s.End() {
		return
	}
	wide := weather.NewSeries(s.Station, start, int(end-start)+1)
	for c := range weather.Columns {
		if !s.Has(c) {
			continue
		}
		wide.Add(c)
		for i, v := range s.Data[c] {
			if !math.IsNaN(v) {
				wide.Set(c, int(s.Start-start)+i, v, s.Mark[c][i])
			}
		}
	}
	*s = *wide
}
