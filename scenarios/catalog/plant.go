package catalog

// The coefficient sets. They differ by 20 to 40% for the same plant, so a
// result always names the set it used.
const (
	S623  = "S623"   // annual plant factors of ANSI/ASABE S623
	FAO56 = "FAO-56" // single crop coefficients of FAO-56 table 12, mid season
	UC    = "UC"     // monthly turf coefficients of the University of California
	LCM   = "LCM"    // species factors of the landscape coefficient method
)

// Sets returns the names of the coefficient sets.
func Sets() []string { return []string{S623, FAO56, UC, LCM} }

// A Coefficient is a plant's coefficient in one set.
type Coefficient struct {
	Set       string
	K         [12]float64 // by calendar month
	Low, High float64     // range over plantings; both 0 where unknown
	Source    string
	Grade     Grade
}

// A Plant is a kind of planting of the catalog.
type Plant struct {
	Name         string
	Aliases      []string
	Group        Group
	Coefficients []Coefficient // the first is the default
	P            Figure        // stress fraction at ETc 5 mm/d
	RootDepth    Figure        // [m]
	// Ka and Kd are the coefficients in full growth and at rest, T0C and T1C the
	// 30-day mean temperatures [°C] between which the first takes over from the
	// second. Without Ka the coefficient is constant.
	Ka, Kd, T0C, T1C Figure
	// Tolerance and Browning are the shares of the last seven days' need below
	// which the plant is stressed and turns brown.
	Tolerance, Browning Figure
	Cover               string // ground cover for the curve number
}

// CoverGuess is the source of a plant's ground cover.
const CoverGuess = "the most similar cover; our choice"

// Coefficient returns the plant's coefficient in the given set.
func (p *Plant) Coefficient(set string) (Coefficient, bool) {
	for _, c := range p.Coefficients {
		if matches(set, c.Set) {
			return c, true
		}
	}
	return Coefficient{}, false
}

// SetNames returns the sets in which the plant has a coefficient.
func (p *Plant) SetNames() []string {
	return names(p.Coefficients, func(c Coefficient) string { return c.Set })
}

func every(k float64) (m [12]float64) {
	for i := range m {
		m[i] = k
	}
	return m
}

const (
	s623Source  = "ANSI/ASABE S623 plant factors, from memory"
	s623Trees   = "ANSI/ASABE S623 plant factors for trees, from a conference abstract (2014)"
	fao12       = "FAO-56 table 12, mid season"
	fao12Memory = "FAO-56 table 12, mid season, from memory"
	fao22       = "FAO-56 table 22"
	ucTurf      = "University of California turfgrass crop coefficients, table 1, after Meyer et al. (1985)"
	classFactor = "University of California water-need classes (2014); middle of the class"
	tradeRoots  = "common practice for managed landscapes, within 40%, from memory"
	guessP      = "nearest row of FAO-56 table 22 (berries and bushes); our choice"
)

func s623(k, low, high float64) Coefficient {
	return Coefficient{Set: S623, K: every(k), Low: low, High: high, Source: s623Source, Grade: Memory}
}

func fao56Turf(careful, k float64) Coefficient {
	return Coefficient{
		Set: FAO56, K: every(k), Low: careful, High: k, Source: fao12 + "; 0.10 less under careful water management", Grade: GeneralTable,
	}
}

func lcm(k, low, high float64) Coefficient {
	return Coefficient{Set: LCM, K: every(k), Low: low, High: high, Source: classFactor, Grade: GeneralTable}
}

// roots is a root depth in inches.
func roots(v float64) Figure {
	return Figure{Value: v * inchRoot, Low: 0.6 * v * inchRoot, High: 1.4 * v * inchRoot, Source: tradeRoots, Grade: Memory}
}

func tabled(p float64) Figure {
	return Figure{Value: p, Low: 0.9 * p, High: 1.1 * p, Source: fao22 + "; 5 to 10% less on fine soils, more on sands", Grade: GeneralTable}
}

var bushes = Figure{Value: 0.50, Low: 0.40, High: 0.60, Source: guessP, Grade: Guess}

var plants = []Plant{
	{Name: "cool-season turf", Aliases: []string{"cool turf"}, Group: CoolTurf,
		Coefficients: []Coefficient{
			s623(0.8, 0, 0),
			{Set: FAO56, K: every(0.95), Low: 0.85, High: 0.95, Source: fao12 + "; 0.10 less under careful water management", Grade: GeneralTable},
			{Set: UC, K: [12]float64{.61, .64, .75, 1.04, .95, .88, .94, .86, .74, .75, .69, .60}, Source: ucTurf, Grade: LocalTable},
		},
		P: tabled(0.40), RootDepth: roots(6), Cover: "lawn, good"},
	{Name: "warm-season turf", Aliases: []string{"warm turf"}, Group: WarmTurf,
		Coefficients: []Coefficient{
			s623(0.6, 0, 0),
			{Set: FAO56, K: every(0.85), Low: 0.75, High: 0.85, Source: fao12 + "; 0.10 less under careful water management", Grade: GeneralTable},
			{Set: UC, Source: ucTurf + "; other printings give 0.55 for January", Grade: LocalTable,
				K: [12]float64{.61, .54, .76, .72, .79, .68, .71, .71, .62, .54, .58, .55}},
		},
		P: tabled(0.50), RootDepth: roots(6), Cover: "lawn, good"},
	{Name: "annual flowers", Aliases: []string{"flowers"}, Group: Flowers,
		Coefficients: []Coefficient{s623(0.8, 0, 0)},
		P:            Figure{Value: 0.40, Low: 0.30, High: 0.50, Source: "same as cool-season turf; our choice", Grade: Guess},
		RootDepth:    roots(8), Cover: "lawn, fair"},
	{Name: "shrubs, dry climate", Aliases: []string{"woody plants, dry climate", "perennials, dry climate"}, Group: Deciduous,
		Coefficients: []Coefficient{s623(0.5, 0, 0)}, P: bushes, RootDepth: roots(15), Cover: "brush, good"},
	{Name: "shrubs, humid climate", Aliases: []string{"woody plants, humid climate", "perennials, humid climate"}, Group: Deciduous,
		Coefficients: []Coefficient{s623(0.7, 0, 0)}, P: bushes, RootDepth: roots(15), Cover: "brush, good"},
	{Name: "ground cover, dry climate", Group: GroundCover,
		Coefficients: []Coefficient{s623(0.5, 0, 0)}, P: bushes, RootDepth: roots(10), Cover: "lawn, good"},
	{Name: "ground cover, humid climate", Group: GroundCover,
		Coefficients: []Coefficient{s623(0.7, 0, 0)}, P: bushes, RootDepth: roots(10), Cover: "lawn, good"},
	{Name: "trees, dry climate", Group: Deciduous,
		Coefficients: []Coefficient{{Set: S623, K: every(0.5), Source: s623Trees, Grade: GeneralTable}},
		P:            bushes, RootDepth: roots(24), Cover: "woods and grass, good"},
	{Name: "trees, humid climate", Group: Deciduous,
		Coefficients: []Coefficient{{Set: S623, K: every(0.7), Source: s623Trees, Grade: GeneralTable}},
		P:            bushes, RootDepth: roots(24), Cover: "woods and grass, good"},
	{Name: "conifers", Group: Evergreen,
		Coefficients: []Coefficient{{Set: FAO56, K: every(1.0), Source: fao12Memory, Grade: Memory}},
		P:            tabled(0.70), RootDepth: roots(24), Cover: "woods and grass, good"},
	{Name: "palms", Group: Evergreen,
		Coefficients: []Coefficient{{Set: FAO56, K: every(0.95), Source: fao12Memory + " (date palm)", Grade: Memory}},
		P:            tabled(0.65), RootDepth: roots(24), Cover: "woods and grass, good"},
	{Name: "desert plants", Group: Desert,
		Coefficients: []Coefficient{s623(0.3, 0, 0)}, P: bushes, RootDepth: roots(18), Cover: "natural desert"},
	{Name: "high-need planting", Group: Mixed,
		Coefficients: []Coefficient{lcm(0.8, 0.7, 0.9)}, P: bushes, RootDepth: roots(12), Cover: "brush, good"},
	{Name: "moderate-need planting", Group: Mixed,
		Coefficients: []Coefficient{lcm(0.5, 0.4, 0.6)}, P: bushes, RootDepth: roots(15), Cover: "brush, good"},
	{Name: "low-need planting", Group: Mixed,
		Coefficients: []Coefficient{lcm(0.2, 0.1, 0.3)}, P: bushes, RootDepth: roots(18), Cover: "brush, fair"},
	{Name: "very low-need planting", Group: Mixed,
		Coefficients: []Coefficient{lcm(0.05, 0, 0.1)}, P: bushes, RootDepth: roots(18), Cover: "natural desert"},
}

// Plants returns the plantings. The slice is the caller's.
func Plants() []Plant { return append([]Plant(nil), plants...) }

// FindPlant returns the planting of the given name; commas are optional.
func FindPlant(name string) (Plant, bool) {
	for _, p := range plants {
		if matches(noComma(name), noComma(p.Name)) {
			return p, true
		}
		for _, a := range p.Aliases {
			if matches(noComma(name), noComma(a)) {
				return p, true
			}
		}
	}
	return Plant{}, false
}

// PlantNames returns the names of the plantings.
func PlantNames() []string { return names(plants, func(p Plant) string { return p.Name }) }

// DefaultDensity is the density factor of a zone without one.
func DefaultDensity() Figure {
	return Figure{Value: 1, Low: 0.5, High: 1.3, Grade: Memory,
		Source: "Costello and Jones (2000): average planting 1, sparse 0.5 to 0.9, dense 1.1 to 1.3, from memory"}
}

// DefaultMicroclimate is the microclimate factor of a zone without one.
func DefaultMicroclimate() Figure {
	return Figure{Value: 1, Low: 0.5, High: 1.4, Grade: Memory,
		Source: "Costello and Jones (2000): average 1, shaded 0.5 to 0.9, exposed 1.1 to 1.4, from memory"}
}

// DefaultP is the stress fraction of a custom plant without one.
func DefaultP() Figure {
	return Figure{Value: 0.50, Low: 0.30, High: 0.70, Grade: Guess, Source: "middle of FAO-56 table 22; our choice"}
}
