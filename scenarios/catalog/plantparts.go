package catalog

// guess, general, local and measured return a figure of the grade.
func guess(v, low, high float64, source string) Figure {
	return Figure{Value: v, Low: low, High: high, Source: source, Grade: Guess}
}

func general(v, low, high float64, source string) Figure {
	return Figure{Value: v, Low: low, High: high, Source: source, Grade: GeneralTable}
}

func local(v, low, high float64, source string) Figure {
	return Figure{Value: v, Low: low, High: high, Source: source, Grade: LocalTable}
}

func measured(v, low, high float64, source string) Figure {
	return Figure{Value: v, Low: low, High: high, Source: source, Grade: Measured}
}

// rootsIn turns a depth in inches into one in meters.
func rootsIn(f Figure) Figure {
	f.Value, f.Low, f.High = f.Value*inchRoot, f.Low*inchRoot, f.High*inchRoot
	return f
}

// tradeRootsIn is a root depth [in] of common practice.
func tradeRootsIn(v float64) Figure {
	return rootsIn(Figure{Value: v, Low: 0.6 * v, High: 1.4 * v, Source: tradeRoots, Grade: Memory})
}

// tabled is a stress fraction of FAO-56 table 22.
func tabled(p float64) Figure { return general(p, 0.9*p, 1.1*p, fao22) }

// factor is a coefficient that is the same in every month.
func factor(set string, k, low, high float64, g Grade, source string) Coefficient {
	return Coefficient{Set: set, K: every(k), Low: low, High: high, Source: source, Grade: g}
}

// staged is a turf coefficient of FAO-56 table 12.
func staged(initial, mid float64) Coefficient {
	c := factor(FAO56, mid, initial-0.10, mid, GeneralTable, fao12Turf)
	c.Stages = [3]float64{initial, mid, mid}
	return c
}

// coolSets are the coefficient sets of cool-season turf.
func coolSets(more ...Coefficient) []Coefficient {
	return append(more,
		factor(S623, 0.8, 0.60, 0.95, GeneralTable, shareOfETo),
		staged(0.90, 0.95),
		Coefficient{Set: UC, K: [12]float64{.61, .64, .75, 1.04, .95, .88, .94, .86, .74, .75, .69, .60}, Low: 0.60, High: 1.04,
			Source: ucTurf, Grade: LocalTable})
}

// warmSets are the coefficient sets of warm-season turf; low and high are the
// range of the yearly factor.
func warmSets(low, high float64, more ...Coefficient) []Coefficient {
	return append([]Coefficient{
		factor(S623, 0.6, low, high, GeneralTable, shareOfETo),
		staged(0.80, 0.85),
		{Set: UC, K: [12]float64{.61, .54, .76, .72, .79, .68, .71, .71, .62, .54, .58, .55}, Low: 0.54, High: 0.79,
			Source: ucTurf + "; other printings give 0.55 for January", Grade: LocalTable},
	}, more...)
}

// A season is when a plant grows: the coefficients at the ends, and the
// temperatures between which the one takes over from the other.
type season struct{ ka, kd, t0, t1 Figure }

func coolSeason(ka, kd Figure) season {
	return season{ka, kd, guess(4, 2, 7, coolTemps), guess(15, 13, 18, coolTemps)}
}

func warmSeason(ka, kd, t0, t1 Figure) season { return season{ka, kd, t0, t1} }

// inLeaf is the season of plants that lose their leaves, with coefficient k in
// leaf.
func inLeaf(k float64) season {
	return season{guess(k, 0, 0, halfAtRest), guess(k/2, 0, 0, halfAtRest), guess(4, 2, 7, halfAtRest), guess(15, 13, 18, halfAtRest)}
}

// dormantAt is where warm-season grasses begin to grow, greenAt where they are
// in full growth.
func dormantAt(low, high float64) Figure { return guess(10, low, high, warmTemps) }

func greenAt(low, high float64) Figure { return guess(20, low, high, warmTemps) }

// follow gives plant p the season s.
func (p Plant) follow(s season) Plant {
	p.Ka, p.Kd, p.T0C, p.T1C = s.ka, s.kd, s.t0, s.t1
	return p
}

// allYear makes the coefficient of plant p constant.
func (p Plant) allYear() Plant {
	p.Constant = sameAll
	return p
}

// marks gives plant p its tolerance, and the browning mark with its range.
func (p Plant) marks(tolerance Figure, browning, low, high float64) Plant {
	p.Tolerance, p.Browning = tolerance, guess(browning, low, high, browningMark)
	return p
}

// woody gives plant p the marks of shrubs, trees and ground covers; low is the
// low end of the tolerance.
func (p Plant) woody(low float64) Plant {
	return p.marks(guess(0.80, low, 0.90, woodyMark), 0.50, 0.30, 0.60)
}

// desert gives plant p the marks and the stress fraction of desert plants.
func (p Plant) desert() Plant {
	p.P = guess(0.60, 0.50, 0.70, desertP)
	return p.marks(guess(0.60, 0.40, 0.80, woodyMark), 0.35, 0.20, 0.50)
}

// noted adds a note.
func (p Plant) noted(note string) Plant {
	p.Note = note
	return p
}
