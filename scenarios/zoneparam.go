package scenarios

import (
	"slices"
	"strconv"
	"strings"

	"loamledger/scenarios/catalog"
	"loamledger/weather/quantity"
)

// A ZoneParam is one parameter of a zone, declared once, in [ZoneParams]. The
// readers of YAML and of the CSV table of zones, the list of inputs and
// defaults, run.json, explain and the catalog command all use this declaration.
//
// A parameter with Set is a number that needs no further code, unless other
// parameters depend on it. The others depend on each other, such as rate and
// flow, and are read by name.
type ZoneParam struct {
	Key      string             // place in a zone of a scenario, such as "sprinkler.spray_loss"
	Column   string             // column in the CSV table of zones; empty for none
	Doc      string             // what it is, in a few words
	Words    bool               // not a number: a name, a list, true or false
	Dim      quantity.Dimension // of a number with a unit
	Bare     bool               // a number without a unit
	Min, Max float64            // inclusive range of a number, in the base unit
	whole    bool               // only whole numbers
	optional bool               // may be omitted; has no default
	Required bool               // required in every zone
	fix      string             // what to write instead, if the usual text is not enough
	// Default is used if the parameter is not given; a figure without a source
	// means no default. Rests names what it depends on, such as "plant".
	Default func(ZoneBasis) catalog.Figure
	Rests   string
	// Usual is where the number usually lies; a value outside it is a warning. Every
	// number has one.
	Usual func(ZoneBasis) catalog.Range
	// all returns the final values of a number that is not simply the one read, for
	// comparison with Usual.
	all func(z *Zone) []float64
	// Set stores the number, in the base unit, in the zone.
	Set func(z *Zone, v float64)
	// named marks a number with Set that is still read by name, since other
	// parameters depend on it.
	named bool
	// recorded returns the parameter's final value in the zone, nil if it has
	// none. If recorded is nil, the number read is recorded.
	recorded func(z *Zone) *Node
}

// A ZoneBasis is what the default of a parameter may depend on.
type ZoneBasis struct {
	Plant catalog.Plant
	Soil  catalog.Soil
	Kind  catalog.Sprinkler
	Slope float64 // share
}

// A ZoneValue is a parameter of a zone as understood: given or a default.
type ZoneValue struct {
	Key       string
	Numeric   bool
	Number    float64 // in the base unit, if Numeric
	Node      *Node   // as a scenario can write it, exactly
	rangeText string  // the range that the scenario gives, exactly; empty for one number
	shape     shape
}

// Unit returns the base unit of a number, or "".
func (v *ZoneValue) Unit() string {
	if !v.Numeric {
		return ""
	}
	return v.shape.unit()
}

// Text returns the value as a person would write it in system sys.
func (v *ZoneValue) Text(sys quantity.System) string {
	switch {
	case v.Numeric:
		return v.shape.format(v.Number, sys)
	case v.Node.Kind == List:
		texts := make([]string, len(v.Node.Items))
		for i, item := range v.Node.Items {
			texts[i] = item.Text
			if n, err := quantity.ParseNumber(item.Text); err == nil {
				texts[i] = quantity.Number(n, 3)
			}
		}
		if same := slices.Compact(slices.Clone(texts)); len(same) == 1 {
			return same[0]
		}
		return strings.Join(texts, ", ")
	}
	return v.Node.Text
}

// split splits the key into its group, or "", and its own name.
func (p *ZoneParam) split() (outer, own string) {
	if outer, own, nested := strings.Cut(p.Key, "."); nested {
		return outer, own
	}
	return "", p.Key
}

func (p *ZoneParam) shape() shape { return shape{dim: p.Dim, bare: p.Bare} }

// want describes how to read the parameter, with its default from basis.
func (p *ZoneParam) want(basis ZoneBasis) want {
	_, own := p.split()
	w := want{key: own, shape: p.shape(), min: p.Min, max: p.Max, whole: p.whole, quiet: p.optional, fix: p.fix}
	if p.Default != nil {
		w.dflt = p.Default(basis)
	}
	return w
}

// zoneKeys lists the valid keys of a group in a zone, "" for the zone itself.
func zoneKeys(list []ZoneParam, outer string) []string {
	var keys []string
	seen := map[string]bool{}
	for i := range list {
		group, own := list[i].split()
		switch {
		case group == outer:
		case outer == "":
			own = group
		default:
			continue
		}
		if !seen[own] {
			seen[own] = true
			keys = append(keys, own)
		}
	}
	return keys
}

// exact writes a number in its base unit so that reading it gives the same
// number back, bit for bit.
func exact(v float64, s shape) string {
	text := strconv.FormatFloat(v, 'f', -1, 64)
	if abs := max(v, -v); abs != 0 && (abs < 1e-6 || abs >= 1e21) {
		text = strconv.FormatFloat(v, 'e', -1, 64)
	}
	if s.bare {
		return text
	}
	return text + " " + s.unit()
}

func scalar(text string) *Node { return &Node{Kind: Scalar, Text: text} }
