package plots

import "image/color"

// The palette of Okabe and Ito, in order of lightness. It was made to be
// distinct under the common forms of color-vision deficiency.
//
// Source: Okabe and Ito (2008), Color Universal Design; the same values in
// Wong (2011), Points of view: color blindness, Nature Methods 8, 441. Values
// from memory.
const (
	inkBlack      = 0x000000
	inkBlue       = 0x0072B2
	inkVermillion = 0xD55E00
	inkGreen      = 0x009E73
	inkPurple     = 0xCC79A7
	inkSky        = 0x56B4E9
	inkOrange     = 0xE69F00
	inkYellow     = 0xF0E442
)

// Palette returns the palette, darkest first.
func Palette() []color.NRGBA {
	out := make([]color.NRGBA, 0, 8)
	for _, rgb := range []uint32{inkBlack, inkBlue, inkVermillion, inkGreen, inkPurple, inkSky, inkOrange, inkYellow} {
		out = append(out, ink(rgb))
	}
	return out
}

func ink(rgb uint32) color.NRGBA {
	return color.NRGBA{R: uint8(rgb >> 16), G: uint8(rgb >> 8), B: uint8(rgb), A: 0xFF}
}

// tint mixes rgb with white; share 1 returns rgb.
func tint(rgb uint32, share float64) color.NRGBA {
	c := ink(rgb)
	mix := func(v uint8) uint8 { return uint8(255 - float64(share*(255-float64(v))) + 0.5) }
	return color.NRGBA{R: mix(c.R), G: mix(c.G), B: mix(c.B), A: 0xFF}
}

// shade mixes rgb with black; share 1 returns rgb.
func shade(rgb uint32, share float64) color.NRGBA {
	c := ink(rgb)
	mix := func(v uint8) uint8 { return uint8(float64(share*float64(v)) + 0.5) }
	return color.NRGBA{R: mix(c.R), G: mix(c.G), B: mix(c.B), A: 0xFF}
}

// A Role is the meaning of a series; it has the same look in every chart.
type Role uint8

// The roles.
const (
	Applied       Role = iota // gross irrigation
	Need                      // the least-water reference
	RainFall                  // rain
	Deficit                   // depletion of the low quarter
	StressLine                // RAW
	EmptyLine                 // TAW
	Stressed                  // stress days of the whole zone
	Browned                   // browning days of the driest quarter, in a calendar by class
	ToPlants                  // stayed in the root zone
	RanOff                    // runoff
	Percolated                // drained below the root zone
	ToAir                     // spray loss, rain that evaporated
	Heat                      // stress days of a month, by class
	Warmth                    // from the mean lowest to the mean highest temperature
	Extremes                  // from the lowest to the highest value of some days
	ClearSky                  // radiation of a clear sky
	Sunshine                  // solar radiation
	RefET                     // reference ET of a whole year
	PartRefET                 // reference ET of an incomplete or excluded year
	Gap                       // no value
	PutIn                     // a filled value
	MadeUp                    // a synthetic value
	Cut                       // water use and stress days at scaled run times
	Today                     // the setting as it is today
	Observed                  // measured in the soil
	AllowedWater              // what a rule allows
	MeteredUse                // read at a meter
	FixedPart                 // fixed charges of a bill
	IndoorPart                // water used indoors
	OutdoorPart               // water used outdoors
	SewerPart                 // sewer
	SurchargePart             // surcharges and taxes
	BillRises                 // a step of a bill up
	BillFalls                 // a step of a bill down
	WholeBill                 // a whole bill
	Spread                    // P10 to P90 of draws
	AtLow                     // a result with an input at its P10
	AtHigh                    // a result with an input at its P90
	SavesWater                // accounts that save
	UsesMore                  // accounts that use more
	Hindsight                 // what nobody can know before
	OwnTotal                  // a strategy's own figure as a line
	BaseTotal                 // the same of the baseline
	Roles                     // how many roles there are
)

// A Hatch is drawn over a fill, so that fills of similar lightness differ.
type Hatch uint8

// The hatches.
const (
	NoHatch Hatch = iota
	Rising        // oblique lines
	Upright       // vertical lines
	Dots          // small dots
)

// A Style is the look of a role.
type Style struct {
	Fill    color.NRGBA
	Stroke  color.NRGBA
	WidthPt float64   // of lines
	CasePt  float64   // white on both sides of lines and around marks
	DashPt  []float64 // nil for a solid line
	Hatch   Hatch
	DotPt   float64 // across marks
}

// Style returns the look of role r; class matters only for Heat and Browned.
func (r Role) Style(class float64) Style {
	switch r {
	case Applied:
		return Style{Fill: ink(inkBlue), Stroke: ink(inkBlue), WidthPt: 0.5}
	case Need:
		return Style{Stroke: ink(inkBlack), WidthPt: 1.5, CasePt: 0.5}
	case RainFall:
		return Style{Fill: tint(inkSky, 0.75), Stroke: shade(inkSky, 0.5), WidthPt: 1.2, DashPt: []float64{1.3, 1.5}, CasePt: 0.7}
	case Deficit:
		return Style{Stroke: ink(inkBlack), WidthPt: 1.1}
	case StressLine:
		return Style{Stroke: ink(inkVermillion), WidthPt: 1.1, DashPt: []float64{4, 2.4}}
	case EmptyLine:
		return Style{Stroke: ink(inkBlue), WidthPt: 1.4, DashPt: []float64{7, 2, 1.4, 2}}
	case Stressed:
		return Style{Fill: tint(inkVermillion, 0.55), Stroke: ink(inkVermillion), WidthPt: 0.5}
	case Browned:
		return Style{Fill: ink(inkBlack), Stroke: ink(inkBlack), WidthPt: 0.5, CasePt: 0.5, DotPt: 2 + 2*class}
	case ToPlants:
		return Style{Fill: ink(inkGreen), Stroke: shade(inkGreen, 0.6), WidthPt: 0.5}
	case RanOff:
		return Style{Fill: tint(inkOrange, 0.75), Stroke: ink(inkBlack), WidthPt: 0.6, Hatch: Rising}
	case Percolated:
		return Style{Fill: ink(inkPurple), Stroke: ink(inkBlack), WidthPt: 0.6, Hatch: Dots}
	case ToAir:
		return Style{Fill: tint(inkYellow, 0.45), Stroke: shade(inkYellow, 0.5), WidthPt: 0.5, Hatch: Upright}
	case Heat:
		return Style{Fill: heat(class), Stroke: color.NRGBA{R: 0xD8, G: 0xD8, B: 0xD4, A: 0xFF}, WidthPt: 0.4}
	case Warmth:
		return Style{Fill: tint(inkVermillion, 0.7), Stroke: ink(inkVermillion), WidthPt: 0.5}
	case Extremes:
		return Style{Fill: tint(inkVermillion, 0.22), Stroke: tint(inkVermillion, 0.5), WidthPt: 0.4}
	case ClearSky:
		return Style{Stroke: ink(inkBlack), WidthPt: 1.1, CasePt: 0.5}
	case Sunshine:
		return Style{Fill: tint(inkOrange, 0.75), Stroke: shade(inkOrange, 0.7), WidthPt: 0.5}
	case RefET:
		return Style{Fill: ink(inkGreen), Stroke: shade(inkGreen, 0.6), WidthPt: 0.5}
	case PartRefET:
		return Style{Fill: tint(inkGreen, 0.2), Stroke: shade(inkGreen, 0.6), WidthPt: 0.5, Hatch: Rising}
	case Gap:
		return Style{Fill: ink(inkBlack), Stroke: ink(inkBlack)}
	case PutIn:
		return Style{Fill: ink(inkOrange), Stroke: ink(inkOrange)}
	case MadeUp:
		return Style{Fill: tint(inkPurple, 0.5), Stroke: tint(inkPurple, 0.5)}
	case Cut:
		return Style{Fill: ink(inkBlue), Stroke: ink(inkBlue), WidthPt: 1.3, DotPt: 3.4}
	case Today:
		return Style{Fill: ink(inkBlack), Stroke: ink(inkBlack), WidthPt: 1, DotPt: 7.5, CasePt: 1}
	case Spread:
		return Style{Fill: tint(inkBlue, 0.35), Stroke: ink(inkBlue), WidthPt: 0.5}
	case AtLow:
		return Style{Fill: tint(inkOrange, 0.75), Stroke: shade(inkOrange, 0.6), WidthPt: 0.5, Hatch: Rising}
	case AtHigh:
		return Style{Fill: ink(inkBlue), Stroke: ink(inkBlue), WidthPt: 0.5}
	case Observed:
		return Style{Fill: ink(inkSky), Stroke: ink(inkBlue), WidthPt: 1.7, DotPt: 3}
	case MeteredUse:
		return Style{Fill: ink(inkBlack), Stroke: ink(inkBlack), WidthPt: 1, DotPt: 5, CasePt: 1}
	case Hindsight:
		return Style{Stroke: ink(inkVermillion), WidthPt: 1.2, DashPt: []float64{4, 2.4}}
	case OwnTotal:
		return Style{Stroke: ink(inkBlue), WidthPt: 1.4, CasePt: 0.5}
	case BaseTotal:
		return Style{Stroke: ink(inkBlack), WidthPt: 1.2, DashPt: []float64{3.5, 2}, CasePt: 0.5}
	case AllowedWater:
		return Style{Stroke: ink(inkVermillion), WidthPt: 1.8, DashPt: []float64{5, 1.6}, CasePt: 0.7}
	case FixedPart:
		return Style{Fill: tint(inkBlack, 0.35), Stroke: ink(inkBlack), WidthPt: 0.5}
	case IndoorPart:
		return Style{Fill: tint(inkSky, 0.35), Stroke: shade(inkSky, 0.5), WidthPt: 0.5, Hatch: Dots}
	case OutdoorPart:
		return Style{Fill: ink(inkBlue), Stroke: ink(inkBlue), WidthPt: 0.5}
	case SewerPart:
		return Style{Fill: tint(inkPurple, 0.75), Stroke: ink(inkBlack), WidthPt: 0.5, Hatch: Upright}
	case SurchargePart:
		return Style{Fill: tint(inkOrange, 0.6), Stroke: ink(inkBlack), WidthPt: 0.6, Hatch: Rising}
	case BillRises, UsesMore:
		return Style{Fill: tint(inkVermillion, 0.6), Stroke: ink(inkBlack), WidthPt: 0.6, Hatch: Rising}
	case BillFalls, SavesWater:
		return Style{Fill: ink(inkGreen), Stroke: shade(inkGreen, 0.6), WidthPt: 0.5}
	case WholeBill:
		return Style{Fill: tint(inkBlack, 0.55), Stroke: ink(inkBlack), WidthPt: 0.5}
	}
	panic("plots: unknown role")
}

// heat returns the fill of a class of stress days: white, then darker.
func heat(class float64) color.NRGBA {
	switch int(class) {
	case 0:
		return ink(0xFFFFFF)
	case 1:
		return tint(inkVermillion, 0.25)
	case 2:
		return tint(inkVermillion, 0.6)
	case 3:
		return ink(inkVermillion)
	}
	return shade(inkVermillion, 0.4)
}
