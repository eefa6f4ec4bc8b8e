package catalog

// A Range is where values usually lie, with its source. It serves to warn of a
// value that is probably a mistake; nothing is computed from it.
type Range struct {
	Low, High float64
	Source    string
	Grade     Grade
}

// Known reports whether r has ends.
func (r Range) Known() bool { return r.Source != "" }

// Holds reports whether v lies in r; a value on its end that was written in another
// unit must not fail by rounding.
func (r Range) Holds(v float64) bool {
	const slack = 1e-6
	return v >= r.Low-float64(slack*max(r.Low, -r.Low)) && v <= r.High+float64(slack*max(r.High, -r.High))
}

// Or returns r if it is known, else other.
func (r Range) Or(other Range) Range {
	if r.Known() {
		return r
	}
	return other
}

// Usual returns the range of a figure, with its ends multiplied by low and high: a
// single garden scatters more than the means of a table. It is unknown if the
// figure has no range.
func (f Figure) Usual(low, high float64) Range {
	if !f.Known() || f.High <= f.Low {
		return Range{}
	}
	r := Range{low * f.Low, high * f.High, f.Source, f.Grade}
	if low != 1 || high != 1 {
		r.Source += "; widened, our choice"
	}
	return r
}

// UsualK returns the range of the plant's coefficients over all its sets; unknown for a
// plant without one.
func (p *Plant) UsualK() Range {
	var r Range
	for i := range p.Coefficients {
		c := &p.Coefficients[i]
		low, high := c.Low, c.High
		if high == 0 {
			low, high = c.K[0], c.K[0]
		}
		for _, k := range c.K {
			low, high = min(low, k), max(high, k)
		}
		if i == 0 {
			r = Range{low, high, c.Source, c.Grade}
			continue
		}
		if low < r.Low || high > r.High {
			r.Low, r.High, r.Source, r.Grade = min(r.Low, low), max(r.High, high), "all coefficient sets of "+p.Name, GeneralTable
		}
	}
	return r
}

// Ranges of parameters that depend on no entry of the catalog. Rates [mm/h], flows
// [L/min], areas [m²], volumes [m³], depths [mm], shares of 1.

const (
	ft2     = 0.3048 * 0.3048                                                            // m²
	gallonL = 3.785411784                                                                // L
	gallonM = gallonL / 1000                                                             // m³
	acreFt2 = 43560.0                                                                    // ft²
	ourMost = "; our choice"                                                             // ends a source that rests on our judgment
	pipes   = "a 1-inch pipe at 5 ft/s carries 12 gpm, a 4-inch one at 7.5 ft/s 290 gpm" // area times speed
)

// UsualArea is the range of the areas of one valve.
func UsualArea() Range {
	return Range{5 * ft2, 2 * acreFt2 * ft2, "two acres at a third of an inch an hour take 300 gpm" + ourMost, Guess}
}

// UsualFlow is the range of the flows of one valve.
func UsualFlow() Range { return Range{0.1 * gallonL, 300 * gallonL, pipes + ourMost, Guess} }

// UsualEmitters is the range of the numbers of emitters on one valve.
func UsualEmitters() Range {
	return Range{1, 10_000, "emitters of 0.5 gal/h and more on a valve" + ourMost, Guess}
}

// UsualEmitterFlow is the range of the flows of one drip emitter or bubbler.
func UsualEmitterFlow() Range {
	return Range{0.2 * gallonL / 60, 2 * gallonL, "emitters of 0.2 gal/h to bubblers of 2 gpm, from memory" + ourMost, Guess}
}

// UsualRate is the range of the precipitation rates of a kind of sprinkler.
func (s *Sprinkler) UsualRate() Range {
	if r := s.Rate.Usual(0.5, 1.5); r.Known() {
		return r
	}
	return Range{0.05 * inch, 2 * inch, "emitters of 1 gal/h, one for each 1 to 30 ft² of planting, apply 1.6 to 0.05 in/h" + ourMost, Guess}
}

// UsualDU is the range of the uniformities of a kind of sprinkler.
func (s *Sprinkler) UsualDU() Range {
	if s.Name == "drip" {
		return Range{0.50, 0.97, dripTests + "; widened, our choice", Guess}
	}
	return Range{0.30, 0.85, homeTests + ": 35% to 60% in homes, rarely above 75%; widened, our choice", Guess}
}

// UsualK is the range of plant coefficients of any planting.
func UsualK() Range {
	return Range{0.05, 1.25, "0.05 for very low need (landscape coefficient method) to 1.25 (FAO-56 table 12)", Memory}
}

// UsualP is the range of stress fractions of any planting.
func UsualP() Range {
	return Range{0.20, 0.75, "FAO-56 table 22: 0.2 to 0.7; succulents 0.75, our choice", GeneralTable}
}

// UsualAWC is the range of available water capacities of any soil.
func UsualAWC() Range {
	return Range{0.50 * inPerFt, 3 * inPerFt, "sand to clay 0.6 to 2.5 in/ft, " + capacity + "; widened, our choice", GeneralTable}
}

// UsualIntake is the range of intake rates; low is that of the soil, 0 for any.
func UsualIntake(low float64) Range {
	if low == 0 {
		low = 0.01 * inch
	}
	lawns := LawnIntake()
	return Range{min(low, lawns.Low), lawns.High, lawns.Source + "; the low end from " + scheduling, lawns.Grade}
}

// UsualStorage is the range of surface storages.
func UsualStorage() Range {
	return Range{0, 0.60 * inch, "0.10 to 0.40 in in " + scheduling + "; widened, our choice", Memory}
}

// UsualCurveNumber is the range of curve numbers of planted ground.
func UsualCurveNumber() Range {
	return Range{30, 98, "NRCS TR-55 (1986) tables 2-2: woods on group A 30, pavement 98", GeneralTable}
}

// UsualSlope is the range of slopes.
func UsualSlope() Range {
	return Range{0, 0.50, "banks steeper than 1 in 2 are rarely planted to be watered" + ourMost, Guess}
}

// UsualRoots is the range of root depths of a custom planting [m].
func UsualRoots() Range {
	return Range{1.5 * inchRoot, 60 * inchRoot, "close-cut turf to trees; most roots lie in the upper 5 ft" + ourMost, Guess}
}

// UsualLoss is the range of spray losses of a kind of sprinkler.
func (s *Sprinkler) UsualLoss() Range {
	most := max(2*s.Loss.High, 0.10)
	return Range{0, most, airborne + "15%; doubled, and 10% for drip, our choice", Guess}
}

// UsualWaste is the range of overspray and of losses through broken heads.
func UsualWaste() Range {
	return Range{0, 0.30, "more than a third would be seen from the street" + ourMost, Guess}
}

// UsualFillDrain is the range of volumes that fill and drain pipes.
func UsualFillDrain() Range {
	return Range{0, 40 * gallonM, "250 ft of 2-inch pipe holds 41 gal" + ourMost, Guess}
}

// UsualLeak is the range of leak flows.
func UsualLeak() Range {
	return Range{0, 1 * gallonL, "a 1/32-inch hole at 60 psi leaks about 6,300 gal a month, 0.15 gpm" + ourMost, Guess}
}

// UsualWorkingStorage is the range of the water held by a plain store.
func UsualWorkingStorage() Range {
	return Range{0.2 * inch, 6 * inch, "public test landscapes hold 0.5 to 2.5 in" + ourMost, Guess}
}

// UsualTemperature is the range of a temperature between which plants grow and rest,
// about that of the plant; it is widened by 2 °C, which a factor cannot do.
func UsualTemperature(f Figure) Range {
	if r := f.Usual(1, 1); r.Known() {
		return Range{r.Low - 2, r.High + 2, r.Source + "; widened by 2 °C, our choice", r.Grade}
	}
	return Range{0, 30, "from cool-season turf at rest to warm-season turf in full growth" + ourMost, Guess}
}

// UsualMark is the range of the marks of plants whose own have none.
func UsualMark() Range { return Range{0.10, 1, "from succulents to bluegrass" + ourMost, Guess} }
