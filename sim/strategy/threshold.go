package strategy

// hair keeps the rounding of unit conversions out of a comparison, in the unit of
// the value: 0.25 in of rain, from a file in inches, reach a threshold of 0.25 in.
const hair = 1e-9

// atLeast reports whether v is limit or more.
func atLeast(v, limit float64) bool { return v >= limit-hair }

// above reports whether v is more than limit.
func above(v, limit float64) bool { return v > limit+hair }

// below reports whether v is less than limit.
func below(v, limit float64) bool { return v < limit-hair }
