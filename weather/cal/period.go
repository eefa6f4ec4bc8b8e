package cal

// A Period is a range of dates. Either end may be open. The zero
// Period is open at both ends.
type Period struct {
	first, last       Date
	hasFirst, hasLast bool
}

// From returns p with d as its first day.
func (p Period) From(d Date) Period {
	p.first, p.hasFirst = d, true
	return p
}

// To returns p with d as its last day.
func (p Period) To(d Date) Period {
	p.last, p.hasLast = d, true
	return p
}

// First returns the first day; ok is false if that end is open.
func (p Period) First() (d Date, ok bool) { return p.first, p.hasFirst }

// Last returns the last day; ok is false if that end is open.
func (p Period) Last() (d Date, ok bool) { return p.last, p.hasLast }

// Holds reports whether d is in the period.
func (p Period) Holds(d Date) bool {
	return (!p.hasFirst || d >= p.first) && (!p.hasLast || d <= p.last)
}
