package catalogue

// A Soil is a texture class of the catalogue.
type Soil struct {
	Name   string
	AWC    Figure    // available water capacity [mm/m]
	Intake Figure    // basic intake rate under sprinklers [mm/h]
	ASA    [4]Figure // allowable surface storage [mm] by slope class
	Group  byte      // hydrologic soil group, 'A' to 'D'
}

// GroupSource is where the hydrologic groups of the soils are from.
const GroupSource = "NRCS TR-55 (1986) appendix A, groups of disturbed soils by texture"

const (
	scheduling = "sprinkler scheduling tables of the irrigation trade (2005), from memory"
	ucWater    = "University of California drought pages, soil characteristics"
)

// slopeClasses are the upper ends of the slope classes of ASA, as shares; the
// last class has none.
var slopeClasses = [3]float64{0.03, 0.06, 0.12}

// SurfaceStorage returns the allowable surface storage [mm] at a slope given as
// a share. The classes are printed as 0-3, 4-6, 7-12 and 13 % and more; a slope
// between two classes belongs to the steeper one.
func (s *Soil) SurfaceStorage(slope float64) Figure {
	for i, top := range slopeClasses {
		if slope <= top+1e-9 {
			return s.ASA[i]
		}
	}
	return s.ASA[3]
}

// awc is an available water figure printed in in/in, with its range in in/ft.
func awc(v, low, high float64) Figure {
	return Figure{Value: v * inPerIn, Low: low * inPerFt, High: high * inPerFt, Grade: Memory, Source: scheduling + "; range from " + ucWater}
}

func asa(g Grade, source string, in ...float64) (a [4]Figure) {
	for i, v := range in {
		a[i] = inches(v, in[3], in[0], g, source)
	}
	return a
}

// In the scheduling set, slope acts through the surface storage alone: the
// intake rate is not reduced as well.
var soils = []Soil{
	{Name: "sand", AWC: awc(.06, .4, 1.25), Intake: inches(.60, 0, 0, Memory, scheduling), ASA: asa(Memory, scheduling, .40, .35, .30, .25), Group: 'A'},
	{Name: "loamy sand", AWC: awc(.08, .75, 1.25), Intake: inches(.50, 0, 0, Memory, scheduling), ASA: asa(Memory, scheduling, .36, .30, .26, .22), Group: 'A'},
	{Name: "sandy loam", AWC: awc(.12, 1.25, 1.75), Intake: inches(.40, 0, 0, Memory, scheduling), ASA: asa(Memory, scheduling, .33, .29, .24, .20), Group: 'A'},
	{Name: "loam", AWC: awc(.17, 1.5, 2.3), Intake: inches(.35, 0, 0, Memory, scheduling), ASA: asa(Memory, scheduling, .30, .25, .21, .17), Group: 'B'},
	{Name: "silt loam",
		AWC:    Figure{Value: 2 * inPerFt, Low: 1.5 * inPerFt, High: 2.3 * inPerFt, Grade: GeneralTable, Source: "University of Nebraska, soil water: about 2 in/ft; range from " + ucWater},
		Intake: inches(.35, 0, 0, Guess, "taken as for loam; the scheduling tables have no silt loam"),
		ASA:    asa(Guess, "taken as for loam; the scheduling tables have no silt loam", .30, .25, .21, .17), Group: 'B'},
	{Name: "sandy clay loam",
		AWC:    Figure{Value: 2.125 * inPerFt, Low: 1.75 * inPerFt, High: 2.5 * inPerFt, Grade: GeneralTable, Source: "middle of the range of " + ucWater},
		Intake: inches(.20, 0, 0, Guess, "taken as for clay loam; the scheduling tables have no sandy clay loam"),
		ASA:    asa(Guess, "taken as for clay loam; the scheduling tables have no sandy clay loam", .26, .22, .18, .15), Group: 'C'},
	{Name: "clay loam", AWC: awc(.18, 1.75, 2.5), Intake: inches(.20, 0, 0, Memory, scheduling), ASA: asa(Memory, scheduling, .26, .22, .18, .15), Group: 'D'},
	{Name: "silty clay loam",
		AWC:    Figure{Value: 2.125 * inPerFt, Low: 1.75 * inPerFt, High: 2.5 * inPerFt, Grade: GeneralTable, Source: "middle of the range of " + ucWater},
		Intake: inches(.20, 0, 0, Guess, "taken as for clay loam; the scheduling tables have no silty clay loam"),
		ASA:    asa(Guess, "taken as for clay loam; the scheduling tables have no silty clay loam", .26, .22, .18, .15), Group: 'D'},
	{Name: "sandy clay",
		AWC:    Figure{Value: 2.05 * inPerFt, Low: 1.6 * inPerFt, High: 2.5 * inPerFt, Grade: GeneralTable, Source: "middle of the range of " + ucWater},
		Intake: inches(.15, 0, 0, Guess, "taken as for silty clay; the scheduling tables have no sandy clay"),
		ASA:    asa(Guess, "taken as for silty clay; the scheduling tables have no sandy clay", .23, .19, .16, .13), Group: 'D'},
	{Name: "silty clay", AWC: awc(.17, 1.6, 2.5), Intake: inches(.15, 0, 0, Memory, scheduling), ASA: asa(Memory, scheduling, .23, .19, .16, .13), Group: 'D'},
	{Name: "clay", AWC: awc(.17, 1.6, 2.5), Intake: inches(.10, 0, 0, Memory, scheduling), ASA: asa(Memory, scheduling, .20, .15, .10, .10), Group: 'D'},
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

// DefaultSoil is taken where a zone names none.
const (
	DefaultSoil       = "loam"
	DefaultSoilSource = "the middle of the texture classes, where no soil survey is at hand; common practice, no source"
)

// DefaultSlope is taken where a zone names none.
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
