package catalog

import (
	"strings"

	"loamledger/scenarios/names"
)

// A Soil is a texture class of the catalog.
type Soil struct {
	Name    string
	Aliases []string  // what else people type; a name that several soils share could mean any of them
	AWC     Figure    // available water capacity [mm/m]
	Intake  Figure    // basic intake rate under sprinklers [mm/h]
	ASA     [4]Figure // allowable surface storage [mm] by slope class
	Group   byte      // hydrologic soil group, 'A' to 'D'
}

// GroupSource is the source of the soils' hydrologic groups.
const GroupSource = "NRCS TR-55 (1986) appendix A, groups of disturbed soils by texture"

const (
	scheduling = "irrigation-industry scheduling tables (2005)"
	capacity   = "FAO-56 table 19 and USDA NRCS feel-and-appearance pages; University of California drought pages"
	ucWater    = "University of California drought pages, soil characteristics"

	asce         = "; range from ASCE (1949)"
	asceFAO      = asce + " and FAO training manual 5"
	likeLoam     = "same as loam; the scheduling tables have no silt loam"
	likeClayLoam = "same as clay loam; the scheduling tables have no "
	likeSilty    = "same as silty clay; the scheduling tables have no sandy clay"
	asaRange     = "; range 0 to 1.5 times the value, our choice"
)

// LawnIntake is the range of intake rates measured on lawns, whatever the
// texture [mm/h]; the value is that of compacted plots. A default of the soils
// says little about a lawn.
func LawnIntake() Figure {
	return inches(1.3, 0.16, 3.94, Measured,
		"15 home lawns 0.16 to 3.94 in/h, whatever the texture (Hamilton and Waddington 1999); plots 1.3 in/h compacted, "+
			"3.35 in/h undisturbed (Partsch et al. 1993)")
}

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

// awc is an available water capacity with its range, all in in/ft.
func awc(v, low, high float64, source string) Figure {
	return Figure{Value: v * inPerFt, Low: low * inPerFt, High: high * inPerFt, Grade: GeneralTable, Source: source}
}

// intake is an intake rate of the scheduling tables with its range [in/h].
func intake(v, low, high float64, ranges string) Figure {
	return inches(v, low, high, Memory, scheduling+ranges)
}

// printedASA are the surface storages of the scheduling tables [in], by slope
// class.
func printedASA(in ...float64) [4]Figure { return asa(Memory, scheduling, in...) }

func asa(g Grade, source string, in ...float64) (a [4]Figure) {
	for i, v := range in {
		a[i] = inches(v, 0, 1.5*v, g, source+asaRange)
	}
	return a
}

// In the scheduling tables, slope affects only the surface storage, not the
// intake rate.
var soils = []Soil{
	{Name: "sand", Aliases: []string{"sandy", "light soil"}, Group: 'A', AWC: awc(.72, .60, 1.32, capacity),
		Intake: intake(.60, .50, 2.0, asce+" 0.5 to 1.0, top our choice"), ASA: printedASA(.40, .35, .30, .25)},
	{Name: "loamy sand", Aliases: []string{"sandy", "light soil"}, Group: 'A', AWC: awc(.96, .72, 1.44, capacity),
		Intake: intake(.50, .40, 1.6, asce+" for sand, ends our choice"), ASA: printedASA(.36, .30, .26, .22)},
	{Name: "sandy loam", Aliases: []string{"sandy", "light soil"}, Group: 'A', AWC: awc(1.44, 1.25, 1.80, capacity),
		Intake: intake(.40, .20, 1.2, asceFAO), ASA: printedASA(.33, .29, .24, .20)},
	{Name: "loam", Aliases: []string{"loamy", "medium soil"}, Group: 'B', AWC: awc(1.85, 1.50, 2.16, capacity),
		Intake: intake(.35, .10, .80, asceFAO), ASA: printedASA(.30, .25, .21, .17)},
	{Name: "silt loam", Aliases: []string{"silt", "silty", "silty loam"}, Group: 'B', AWC: awc(2.00, 1.50, 2.28, capacity),
		Intake: inches(.35, .10, .80, Guess, likeLoam), ASA: asa(Guess, likeLoam, .30, .25, .21, .17)},
	{Name: "sandy clay loam", Group: 'C', AWC: awc(1.80, 1.50, 2.50, capacity),
		Intake: inches(.20, .10, .50, Guess, likeClayLoam+"sandy clay loam"+asce),
		ASA:    asa(Guess, likeClayLoam+"sandy clay loam", .26, .22, .18, .15)},
	{Name: "clay loam", Aliases: []string{"clayey", "heavy", "clayey loam"}, Group: 'D', AWC: awc(2.16, 1.60, 2.50, capacity),
		Intake: intake(.20, .05, .40, asceFAO), ASA: printedASA(.26, .22, .18, .15)},
	{Name: "silty clay loam", Aliases: []string{"silty"}, Group: 'D', AWC: awc(1.95, 1.56, 2.40, capacity),
		Intake: inches(.20, .05, .40, Guess, likeClayLoam+"silty clay loam"),
		ASA:    asa(Guess, likeClayLoam+"silty clay loam", .26, .22, .18, .15)},
	{Name: "sandy clay", Group: 'D', AWC: awc(2.05, 1.60, 2.50, "middle of the range of "+ucWater),
		Intake: inches(.15, .03, .20, Guess, likeSilty), ASA: asa(Guess, likeSilty, .23, .19, .16, .13)},
	{Name: "silty clay", Group: 'D', AWC: awc(2.04, 1.56, 2.28, capacity),
		Intake: intake(.15, .03, .20, asceFAO), ASA: printedASA(.23, .19, .16, .13)},
	{Name: "clay", Aliases: []string{"heavy clay", "clayey", "heavy", "adobe"}, Group: 'D', AWC: awc(2.04, 1.44, 2.40, capacity),
		Intake: intake(.10, .01, .20, asceFAO), ASA: printedASA(.20, .15, .10, .10)},
}

// Soils returns the soils, coarse to fine. The slice is the caller's.
func Soils() []Soil { return append([]Soil(nil), soils...) }

// FindSoils returns the soils that a name can mean; one, if it is clear. The
// word soil may follow the name.
func FindSoils(name string) []Soil {
	called := func(s Soil) (string, []string) { return s.Name, s.Aliases }
	if found := findAll(soils, name, called); len(found) > 0 {
		return found
	}
	words := names.Words(name)
	if n := len(words) - 1; n > 0 && words[n] == "soil" {
		return findAll(soils, strings.Join(words[:n], " "), called)
	}
	return nil
}

// FindSoil returns the soil of the given name, unless it can mean several.
func FindSoil(name string) (Soil, bool) { return only(FindSoils(name)) }

// SoilNames returns the names of the soils, coarse to fine.
func SoilNames() []string { return namesOf(soils, func(s Soil) string { return s.Name }) }

// DefaultSoil is the soil of a zone without one.
const (
	DefaultSoil       = "loam"
	DefaultSoilSource = "the middle of the texture classes, without a soil survey; common practice, no source"
)

// DefaultSlope is the slope of a zone without one.
func DefaultSlope() Figure {
	return Figure{Value: 0.02, Low: 0, High: 0.03, Grade: Guess, Source: "nearly level ground; our choice"}
}
