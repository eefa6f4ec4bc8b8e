package ask

import "loamledger/scenarios/catalog"

// plantChoices are plantings in a homeowner's words. Lawn, shrubs, trees and
// ground cover become a planting of the catalog by the climate: see plantNames.
var plantChoices = []Option{
	{ID: "cool lawn", Text: "lawn that stays green in winter: fescue, bluegrass, ryegrass"},
	{ID: "warm lawn", Text: "lawn that turns tan in winter: bermudagrass, zoysia, buffalograss"},
	{ID: "lawn", Text: "lawn, kind not known"},
	{ID: "flowers", Text: "flowers of one season, or vegetables"},
	{ID: "shrubs", Text: "shrubs or perennials"},
	{ID: "ground cover", Text: "ground cover"},
	{ID: "trees", Text: "trees"},
	{ID: "desert plants", Text: "desert plants or natives of dry places"},
	{ID: "cacti", Text: "cacti, agaves and other succulents"},
}

var sprinklerChoices = []Option{
	{ID: "spray", Text: "fixed spray heads", Help: "A still fan of water from each head."},
	{ID: "rotor", Text: "rotors", Help: "A stream that turns slowly back and forth."},
	{ID: "multi-stream", Text: "rotary nozzles", Help: "Several thin streams that turn."},
	{ID: "drip", Text: "drip lines or emitters"},
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

// The three tests of soil by feel.
var (
	ballChoices = []Option{{ID: "yes", Text: "yes, it stays a ball"}, {ID: "no", Text: "no, it falls apart"},
		{ID: "known", Text: "I know the texture from a soil test or a soil survey"}}
	ribbonChoices = []Option{{ID: "none", Text: "no ribbon forms"}, {ID: "short", Text: "shorter than 1 in"},
		{ID: "medium", Text: "1 to 2 in"}, {ID: "long", Text: "longer than 2 in"}}
	gritChoices = []Option{{ID: "gritty", Text: "very gritty, like sugar"}, {ID: "smooth", Text: "very smooth, like flour"},
		{ID: "neither", Text: "neither gritty nor smooth"}}
)
