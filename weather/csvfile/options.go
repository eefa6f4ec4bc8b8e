package csvfile

// Options state what a file does not. The zero value assumes nothing.
type Options struct {
	Layout  string // name of the layout to use; "" detects it by content
	Units   string // "", "si" (°C, mm, m/s), "us" (°F, in, mph) or "tenths" (of °C, mm, m/s), for layouts that state none
	Station string // id or name of the station to read; "" requires a file with only one
	// Declared describes the layout and replaces detection; nil means none.
	Declared *Declared

	// Facts about the station that override those in the file; nil keeps them.
	LatDeg, LonDeg, ElevM, WindHeightM *float64

	// SiteElevM is the elevation of the place [m], for layouts that state none and
	// hold columns whose meaning depends on it; nil means unknown.
	SiteElevM *float64
}

// The values of Options.Units.
const (
	unitsSI     = "si"
	unitsUS     = "us"
	unitsTenths = "tenths"
)
