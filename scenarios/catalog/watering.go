package catalog

// An Interval is the number of days between two waterings. Low and High are the
// shortest and the longest published; both are 0 if none is. Printed is what
// cities print for one month, 0 if none was found.
type Interval struct {
	Low, High float64 // [d]
	Printed   float64 // [d]
	Note      string
}

// Known reports whether a range is published.
func (i Interval) Known() bool { return i.High > 0 }

// A Watering says how often established plants of a kind, two years in the
// ground, are watered in the low desert, and how deep. It serves to warn of
// schedules in the low desert, and to bound those that a search proposes: see
// [Plant.BetweenWaterings].
type Watering struct {
	Name                       string
	Summer, SpringFall, Winter Interval
	DepthLowM, DepthHighM      float64 // depth to wet [m]
	MAD                        Figure  // share of TAW that may be used before watering
}

// The sources of the intervals: summer and winter, and the others.
const (
	WateringSource = "Arizona Municipal Water Users Association table, as printed by Master Gardeners; Arizona Arboretums; " +
		"cities of Avondale (June) and Mesa (December 2017)"
	WateringSource2 = "spring, fall and what is marked Tucson: landscape watering guidelines for Tucson, the same table with four seasons, " +
		"as printed by a local landscaper"
)

// The names of the rows.
const (
	desertTreesRow  = "desert trees"
	treesRow        = "other trees, palms, conifers"
	desertShrubsRow = "desert shrubs"
	shrubsRow       = "other shrubs"
	desertCoversRow = "desert ground cover, vines"
	coversRow       = "other ground cover, vines"
	cactiRow        = "cacti, succulents"
	flowersRow      = "annual flowers"
	warmGrassRow    = "warm-season grass"
	coolGrassRow    = "cool-season grass, winter rye"
)

const (
	thirdToHalf = "water when a third to half of the root zone is dry, University of Arizona Cochise County Extension (2005)"
	desertMAD   = "from the stress fraction of desert plants; our choice"
)

var waterings = []Watering{
	{desertTreesRow, Interval{7, 21, 16, ""}, Interval{14, 30, 0, ""}, Interval{30, 60, 45, ""}, 24 * inchRoot, 36 * inchRoot,
		guess(0.60, 0.50, 0.70, desertMAD)},
	{treesRow, Interval{7, 10, 8, ""}, Interval{7, 12, 0, ""}, Interval{14, 30, 21, ""}, 24 * inchRoot, 36 * inchRoot,
		general(0.50, 0.33, 0.50, thirdToHalf)},
	{desertShrubsRow, Interval{7, 21, 12, ""}, Interval{14, 30, 0, ""}, Interval{30, 45, 28, ""}, 18 * inchRoot, 24 * inchRoot,
		guess(0.60, 0.50, 0.70, desertMAD)},
	{shrubsRow, Interval{5, 7, 5, "Tucson 2 to 7"}, Interval{7, 10, 0, ""}, Interval{10, 14, 14, ""}, 18 * inchRoot, 24 * inchRoot,
		general(0.50, 0.33, 0.50, thirdToHalf)},
	{desertCoversRow, Interval{7, 21, 12, ""}, Interval{14, 30, 0, ""}, Interval{21, 45, 28, ""}, 8 * inchRoot, 12 * inchRoot,
		guess(0.60, 0.50, 0.70, desertMAD)},
	{coversRow, Interval{2, 5, 5, ""}, Interval{7, 10, 0, ""}, Interval{10, 14, 14, ""}, 8 * inchRoot, 12 * inchRoot,
		general(0.50, 0.33, 0.50, thirdToHalf)},
	{cactiRow, Interval{14, 30, 19, "printed: 18 to 20"}, Interval{21, 45, 0, ""}, Interval{Note: "normally none"}, 8 * inchRoot,
		12 * inchRoot, guess(0.60, 0.50, 0.75, desertMAD)},
	{flowersRow, Interval{2, 5, 3, "printed: 1 to 3; Tucson daily"}, Interval{1, 2, 0, "Tucson"}, Interval{7, 10, 0, "Tucson 2 to 3"},
		8 * inchRoot, 12 * inchRoot, measured(0.40, 0.30, 0.50, flowersP)},
	{warmGrassRow, Interval{3, 5, 3, "Tucson daily"}, Interval{1, 2, 0, "Tucson"}, Interval{21, 30, 0, "dormant; Tucson 15 to 30"},
		6 * inchRoot, 10 * inchRoot, general(0.50, 0.33, 0.50, thirdToHalf)},
	{coolGrassRow, Interval{Note: "none: not grown in summer"}, Interval{2, 7, 0, "Tucson"}, Interval{10, 14, 0, "Tucson 3 to 10"},
		6 * inchRoot, 10 * inchRoot, general(0.50, 0.33, 0.50, thirdToHalf)},
}

// Waterings returns the rows. The slice is the caller's.
func Waterings() []Watering { return append([]Watering(nil), waterings...) }

// FindWatering returns the row of the given name.
func FindWatering(name string) (Watering, bool) {
	for _, w := range waterings {
		if matches(name, w.Name) {
			return w, true
		}
	}
	return Watering{}, false
}
