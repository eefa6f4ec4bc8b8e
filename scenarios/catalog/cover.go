package catalog

// A Cover is a kind of ground cover with its curve numbers by hydrologic soil
// group, for initial abstraction 0.2 S.
type Cover struct {
	Name string
	CN   [4]float64 // groups A, B, C, D
}

// CoverSource is the source of the curve numbers.
const CoverSource = "NRCS TR-55 (1986) tables 2-2a and 2-2c"

// The fair and poor brush rows for groups B and C are from memory; the rest is
// from a published copy of the tables.
var covers = []Cover{
	{"lawn, good", [4]float64{39, 61, 74, 80}},  // grass on more than 75%
	{"lawn, fair", [4]float64{49, 69, 79, 84}},  // grass on 50 to 75%
	{"lawn, poor", [4]float64{68, 79, 86, 89}},  // grass on less than 50%
	{"brush, good", [4]float64{30, 48, 65, 73}}, // ground cover above 75%
	{"brush, fair", [4]float64{35, 56, 70, 77}},
	{"brush, poor", [4]float64{48, 67, 77, 83}},
	{"woods and grass, good", [4]float64{32, 58, 72, 79}},
	{"natural desert", [4]float64{63, 77, 85, 88}},
	{"gravel over weed barrier", [4]float64{96, 96, 96, 96}},
	{"bare, newly graded", [4]float64{77, 86, 91, 94}},
	{"paved", [4]float64{98, 98, 98, 98}},
}

// Covers returns the kinds of ground cover. The slice is the caller's.
func Covers() []Cover { return append([]Cover(nil), covers...) }

// FindCover returns the cover of the given name.
func FindCover(name string) (Cover, bool) {
	for _, c := range covers {
		if matches(name, c.Name) {
			return c, true
		}
	}
	return Cover{}, false
}

// CoverNames returns the names of the covers.
func CoverNames() []string { return namesOf(covers, func(c Cover) string { return c.Name }) }

// CurveNumber returns the curve number of cover c on soil group g, 'A' to 'D'.
func (c Cover) CurveNumber(g byte) float64 { return c.CN[g-'A'] }

// GroupFromIntake returns the hydrologic soil group of a soil with a final
// intake rate [mm/h] by the transmission rates of wet soil in NRCS TR-55
// (1986) appendix A: above 0.30 in/h A, 0.15 to 0.30 B, 0.05 to 0.15 C, below D.
func GroupFromIntake(mmPerHour float64) byte {
	switch in := mmPerHour / inch; {
	case in > 0.30:
		return 'A'
	case in >= 0.15:
		return 'B'
	case in >= 0.05:
		return 'C'
	}
	return 'D'
}
