package catalog

// A Soil is a texture class of the catalog.
type Soil struct {
	Name   string
	AWC    Figure    // available water capacity [mm/m]
	Intake Figure    // basic intake rate under sprinklers [mm/h]
	ASA    [4]Figure // allowable surface storage [mm] by slope class
	Group  byte      // hydrologic soil group, 'A' to 'D'
}

// GroupSource is the source of the soils' hydrologic groups.
const GroupSource = "NRCS TR-55 (1986) appendix A, groups of disturbed soils by texture"

const (
	scheduling = "sprinkler scheduling tables of the irrigation trade (2005), from memory"
	ucWater    = "University of California drought pages, soil characteristics"

	middleOfRange = "middle of the range of " + ucWater
	likeLoam      = "same as loam; the scheduling tables have no silt loam"
	likeClayLoam  = "same as clay loam; the scheduling tables have no "
	likeSiltyClay = "same as silty clay; the scheduling tables have no sandy clay"
)

// slopeClasses are the upper ends of the slope classes of ASA, as shares; the
// last class has none.
var slopeClasses = [3]float64{0.03, 0.06, 0.12}

// SurfaceStorage returns the allowable surface storage [mm] at a slope given as
// a share. The published classes are 0-3, 4-6, 7-12 and 13% or more; a slope
// between two classes belongs to the steeper one.
func (s *Soil) SurfaceStorage(slope float64) Figure {
	for i, top := range slopeClasses {
		if slope <= top+1e-9 {
			return s.ASA[i]
		}
	}
	return s.ASA[3]
}

// awc is an available water capacity published in in/in, with its range in
// in/ft.
func awc(v, low, high float64) Figure {
	return Figure{Value: v * inPerIn, Low: low * inPerFt, High: high * inPerFt, Grade: Memory, Source: scheduling + "; range from " + ucWater}
}

// awcPerFoot is an available water capacity with its range, all in in/ft.
func awcPerFoot(v, low, high float64, source string) Figure {
	return Figure{Value: v * inPerFt, Low: low * inPerFt, High: high * inPerFt, Grade: GeneralTable, Source: source}
}

// printedIntake is an intake rate of the scheduling tables [in/h].
func printedIntake(v float64) Figure { return inches(v, 0, 0, Memory, scheduling) }

// printedASA are the surface storages of the scheduling tables [in], by slope
// class.
func printedASA(in ...float64) [4]Figure { return asa(Memory, scheduling, in...) }

func asa(g Grade, source string, in ...float64) (a [4]Figure) {
	for i, v := range in {
		a[i] = inches(v, in[3], in[0], g, source)
	}
	return a
}

// In the scheduling tables, slope affects only the surface storage, not the
// intake rate.
var soils = []Soil{
	{Name: "sand", Group: 'A', AWC: awc(.06, .4, 1.25),
		Intake: printedIntake(.60), ASA: printedASA(.40, .35, .30, .25)},
	{Name: "loamy sand", Group: 'A', AWC: awc(.08, .75, 1.25),
		Intake: printedIntake(.50), ASA: printedASA(.36, .30, .26, .22)},
	{Name: "sandy loam", Group: 'A', AWC: awc(.12, 1.25, 1.75),
		Intake: printedIntake(.40), ASA: printedASA(.33, .29, .24, .20)},
	{Name: "loam", Group: 'B', AWC: awc(.17, 1.5, 2.3),
		Intake: printedIntake(.35), ASA: printedASA(.30, .25, .21, .17)},
	{Name: "silt loam", Group: 'B',
		AWC:    awcPerFoot(2, 1.5, 2.3, "University of Nebraska, soil water: about 2 in/ft; range from "+ucWater),
		Intake: inches(.35, 0, 0, Guess, likeLoam), ASA: asa(Guess, likeLoam, .30, .25, .21, .17)},
	{Name: "sandy clay loam", Group: 'C',
		AWC:    awcPerFoot(2.125, 1.75, 2.5, middleOfRange),
		Intake: inches(.20, 0, 0, Guess, likeClayLoam+"sandy clay loam"),
		ASA:    asa(Guess, likeClayLoam+"sandy clay loam", .26, .22, .18, .15)},
	{Name: "clay loam", Group: 'D', AWC: awc(.18, 1.75, 2.5),
		Intake: printedIntake(.20), ASA: printedASA(.26, .22, .18, .15)},
	{Name: "silty clay loam", Group: 'D',
		AWC:    awcPerFoot(2.125, 1.75, 2.5, middleOfRange),
		Intake: inches(.20, 0, 0, Guess, likeClayLoam+"silty clay loam"),
		ASA:    asa(Guess, likeClayLoam+"silty clay loam", .26, .22, .18, .15)},
	{Name: "sandy clay", Group: 'D',
		AWC:    awcPerFoot(2.05, 1.6, 2.5, middleOfRange),
		Intake: inches(.15, 0, 0, Guess, likeSiltyClay), ASA: asa(Guess, likeSiltyClay, .23, .19, .16, .13)},
	{Name: "silty clay", Group: 'D', AWC: awc(.17, 1.6, 2.5),
		Intake: printedIntake(.15), ASA: printedASA(.23, .19, .16, .13)},
	{Name: "clay", Group: 'D', AWC: awc(.17, 1.6, 2.5),
		Intake: printedIntake(.10), ASA: printedASA(.20, .15, .10, .10)},
}

// Soils returns the soils, coarse to fine. The slice is the caller's.
func Soils() []Soil { return append([]Soil(nil), soils...) }

// FindSoil returns the soil of the given name.
func FindSoil(name string) (Soil, bool) {
	for _, s := range soils {
		if matches(name, s.Name) {
			return s, true
		}
	}
	return Soil{}, false
}

// SoilNames returns the names of the soils, coarse to fine.
func SoilNames() []string { return names(soils, func(s Soil) string { return s.Name }) }

// DefaultSoil is the soil of a zone without one.
const (
	DefaultSoil       = "loam"
	DefaultSoilSource = "the middle of the texture classes, without a soil survey; common practice, no source"
)

// DefaultSlope is the slope of a zone without one.
func DefaultSlope() Figure {
	return Figure{Value: 0.02, Low: 0, High: 0.03, Grade: Guess, Source: "nearly level ground; our choice"}
}

func names[T any](list []T, name func(T) string) []string {
	out := make([]string, len(list))
	for i, v := range list {
		out[i] = name(v)
	}
	return out
}
