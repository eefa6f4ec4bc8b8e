package csvfile

// Options settle what a file cannot state. The zero value guesses nothing.
type Options struct {
	Layout  string // name of a layout to force; "" recognises it by content
	Units   string // "", "si" (°C, mm, m/s), "us" (°F, in, mph) or "tenths" (of °C, mm, m/s), for layouts that state none
	Station string // id or name of the one station to read; "" means that the file must hold only one
	// Declared describes the layout outright and is used instead of
	// recognising one; nil means none.
	Declared *Declared

	// Facts about the station that override those of the file; nil keeps them.
	LatDeg, LonDeg, ElevM, WindHeightM *float64

	// SiteElevM is the elevation of the place [m], for layouts that state none and
	// hold columns whose meaning depends on it; nil means unknown.
	SiteElevM *float64
}

// The systems that Options.Units names.
const (
	unitsSI     = "si"
	unitsUS     = "us"
	unitsTenths = "tenths"
)
