// Package allowance computes the water that a rule allows a landscape: reference
// ET times a factor times the area, in a month or a year.
//
//	allowance = c · max(ETo − share·rain, 0) · [factor·(LA − SLA) + special·SLA]
//
// LA is the landscape area, SLA the part of it with a factor of its own. With c = 0.62
// gal per inch and square foot and special = 1 it is the maximum applied water allowance
// (MAWA) of California's model ordinance, which writes the brackets as
// factor·LA + (1 − factor)·SLA: Code of Regulations, title 23, §492.4, as in city codes
// that repeat it.
//
// # Units
//
// Depths in mm, areas in m², volumes in m³.
package allowance

// A Rule is how much water is allowed.
type Rule struct {
	Factor    float64 // of ETo on the area without a factor of its own, 0 to 2
	Special   float64 // of ETo on SpecialM2, 0 to 2
	AreaM2    float64 // all of the landscape, SpecialM2 included
	SpecialM2 float64 // 0 to AreaM2
	RainShare float64 // of the rain that ETo is reduced by, 0 to 1
	// Conversion is the rule's constant in gallons per inch and square foot; 0 for the
	// exact 0.6234. Rules often round it to 0.62.
	Conversion float64
	// ByMonth is set if no month may exceed its allowance; else the year counts.
	ByMonth bool
}

// M3 returns the allowance [m³] for a period with the given reference ET and rain
// [mm].
func (r *Rule) M3(etoMM, rainMM float64) float64 {
	net := max(etoMM-float64(r.RainShare*rainMM), 0)
	m3 := net / 1000 * (float64(r.Factor*(r.AreaM2-r.SpecialM2)) + float64(r.Special*r.SpecialM2))
	if r.Conversion > 0 {
		m3 *= r.Conversion / galPerInFt2()
	}
	return m3
}

// galPerInFt2 returns the gallons of an inch of water on a square foot, by
// definition: 144 in³ of the 231 in³ of a gallon.
func galPerInFt2() float64 { return 144.0 / 231 }

// slack is the share by which use may exceed an allowance without counting as more:
// the rounding of sums.
const slack = 1e-9

// within reports whether a use stays within an allowance, both in m³.
func within(useM3, allowedM3 float64) bool { return useM3 <= float64(allowedM3*(1+slack))+slack }

// A Month is one calendar month of one strategy, or the part of it that is in a
// record.
type Month struct {
	Year      int // that figures count it for
	UseM3     float64
	EToMM     float64
	RainMM    float64
	AllowedM3 float64 // see [Rule.M3]
}

// A Total is the use and the allowance of some months.
type Total struct {
	UseM3, AllowedM3 float64
	months           int // how many
	Over             int // in how many of them use exceeds the allowance of the month
	Within           bool
}

// Total judges months together: by month, none may exceed its allowance; else their
// sum counts, with the rain of all of them subtracted from all of their ETo.
func (r *Rule) Total(months []Month) (t Total) {
	var eto, rain float64
	for i := range months {
		m := &months[i]
		t.UseM3 += m.UseM3
		t.AllowedM3 += m.AllowedM3
		t.months++
		eto, rain = eto+m.EToMM, rain+m.RainMM
		if !within(m.UseM3, m.AllowedM3) {
			t.Over++
		}
	}
	if r.ByMonth {
		t.Within = t.Over == 0
		return t
	}
	t.AllowedM3 = r.M3(eto, rain)
	t.Within = within(t.UseM3, t.AllowedM3)
	return t
}
