package ask

import "loamledger/scenarios/catalog"

// plantChoices are plantings in a homeowner's words. Lawn, shrubs, trees and
// ground cover become a planting of the catalog by the climate: see plantNames.
var plantChoices = []Option{
	{ID: "cool lawn", Text: "lawn, green in winter: fescue, bluegrass, ryegrass"},
	{ID: "warm lawn", Text: "lawn, tan in winter: bermudagrass, zoysia, buffalograss"},
	{ID: "lawn", Text: "lawn, kind not known"},
	{ID: "flowers", Text: "flowers of one season, vegetables"},
	{ID: "shrubs", Text: "shrubs or perennials"},
	{ID: "ground cover", Text: "ground cover"},
	{ID: "trees", Text: "trees"},
	{ID: "desert plants", Text: "desert plants"},
	{ID: "cacti", Text: "cacti and succulents"},
}

var sprinklerChoices = []Option{
	{ID: "spray", Text: "fixed spray heads", Help: "a still fan"},
	{ID: "rotor", Text: "rotors", Help: "one stream that turns"},
	{ID: "multi-stream", Text: "rotary nozzles", Help: "thin streams that turn"},
	{ID: "drip", Text: "drip"},
}

var sunChoices = []Option{
	{ID: "sun", Text: "sun most of the day"},
	{ID: "part shade", Text: "sun for about half of the day"},
	{ID: "shade", Text: "shade most of the day"},
	{ID: "hot", Text: "sun, next to pavement or a hot wall"},
}

// sunFactors are what each of sunChoices does to the need of a zone, as written.
var sunFactors = [...]string{"1", "0.8", "0.6", "1.2"}

// yesNo are the choices of a plain question.
var yesNo = []Option{{ID: "yes", Text: "yes"}, {ID: "no", Text: "no"}}

var percentChoices = []Option{
	{ID: "1%", Text: "in steps of 1%"}, {ID: "5%", Text: "in steps of 5%"}, {ID: "10%", Text: "in steps of 10%"},
	{ID: "25%", Text: "in steps of 25%"},
}

var slopeChoices = []Option{
	{ID: "level", Text: "level or nearly so", Help: "0 to 3%"},
	{ID: "gentle", Text: "gentle: a ball rolls away", Help: "4 to 6%"},
	{ID: "moderate", Text: "moderate: mowing uphill is work", Help: "7 to 12%"},
	{ID: "steep", Text: "steep: hard to mow", Help: "13% or more"},
}

// slopeShares are the slopes of slopeChoices, in the classes of surface storage.
var slopeShares = [...]string{"2%", "5%", "10%", "15%"}

func textureChoices() (out []Option) {
	for _, name := range catalog.SoilNames() {
		out = append(out, Option{ID: name, Text: name})
	}
	return out
}

// The tests of soil by feel: ball and ribbon, then grit.
var (
	ribbonChoices = []Option{{ID: "no ball", Text: "it falls apart"}, {ID: "none", Text: "a ball, but no ribbon"},
		{ID: "short", Text: "under 1 in (2.5 cm)"}, {ID: "medium", Text: "1 to 2 in (2.5 to 5 cm)"}, {ID: "long", Text: "over 2 in (5 cm)"},
		{ID: "known", Text: "I know the texture"}}
	gritChoices = []Option{{ID: "gritty", Text: "very gritty, like sugar"}, {ID: "smooth", Text: "very smooth, like flour"},
		{ID: "neither", Text: "neither gritty nor smooth"}}
)
