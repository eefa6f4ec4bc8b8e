package catalog

// A Sprinkler is a kind of sprinkler of the catalog.
type Sprinkler struct {
	Name    string
	Aliases []string // what else people type; a name that several kinds share could mean any of them
	Rate    Figure   // gross precipitation rate [mm/h]; unknown if it depends on spacing
	DU      Figure   // low-quarter distribution uniformity, 0 to 1
	Loss    Figure   // share of the gross depth lost in the air, 0 to 1
	NewDU   Figure   // uniformity of new heads under ideal conditions, what a repair can reach; unknown for some
}

const (
	utahAudits = "audits of over 4,500 Utah homes (Jackson and Mohadjer 2003): mean 1.4 in/h, 95% range 0.7 to 3.7, mean DU 52%"
	homeTests  = "Baum, Dukes and Miller 2005: tests in homes"
	newHeads   = "Baum, Dukes and Miller 2005: new heads under ideal conditions"
	fieldTests = "Resource Central, Boulder: field program: spray 1.0 to 1.5, rotor 0.5 to 1.0, rotary nozzle 0.25 to 0.5 in/h"
	streamDU   = "between new rotors, 55%, and extension advice, 70%; no field figure found; our choice"
	airborne   = "University of Florida AE048: 1.5% daily mean, 3% on summer afternoons; drift in dry wind up to "
	dripTests  = "California farm systems 65 to 80%, South Africa micro-irrigation 72.7%; none from gardens"
)

func airLoss() Figure { return general(0.015, 0, 0.15, airborne+"15%: our choice") }

func noLoss() Figure { return guess(0, 0, 0.02, "water is applied at the ground; our choice") }

// Spray is the name of fixed spray heads, which some checks need.
const Spray = "spray"

var sprinklers = []Sprinkler{
	{Name: Spray, Aliases: []string{"fixed spray", "pop-up spray", "sprays", "spray head", "spray heads",
		"fixed head", "popup", "popups", "popup head", "popup heads", "popup sprinkler", "sprinkler", "sprinklers", "head", "heads"},
		Rate: inches(1.4, 0.7, 3.7, Measured, utahAudits), Loss: airLoss(),
		DU:    measured(0.41, 0.35, 0.60, homeTests+"; range of homes; a dense grid of cans reads lower than the usual count"),
		NewDU: measured(0.52, 0.44, 0.52, newHeads+": 52% fixed nozzles, 44% adjustable")},
	{Name: "rotor", Aliases: []string{"rotary head", "rotors", "rotor head", "rotor heads", "gear drive", "gear-driven rotor", "impact",
		"impact sprinkler", "popup", "popups", "popup head", "popup heads", "popup sprinkler", "popup rotor", "sprinkler", "sprinklers", "head",
		"heads", "rotary"},
		Rate: inches(0.7, 0.5, 1.0, LocalTable, fieldTests), Loss: airLoss(),
		DU:    measured(0.49, 0.35, 0.60, homeTests+"; range of homes"),
		NewDU: measured(0.55, 0, 0, newHeads)},
	{Name: "multi-stream", Aliases: []string{"multi-stream rotary", "rotary nozzle", "rotary nozzles", "rotating nozzle",
		"rotating nozzles", "multi-stream nozzle", "multi-stream nozzles", "sprinkler", "sprinklers", "head", "heads", "rotary"},
		Rate: inches(0.40, 0.25, 0.60, LocalTable, fieldTests),
		Loss: guess(0.015, 0, 0.10, airborne+"10%: our choice"),
		DU:   guess(0.60, 0.45, 0.75, streamDU)},
	{Name: "drip", Aliases: []string{"surface drip", "dripline", "driplines", "drip irrigation", "drip tubing", "drip emitter",
		"drip emitters", "emitter", "emitters", "dripper", "drippers"},
		DU: general(0.75, 0.65, 0.85, dripTests), Loss: noLoss()},
}

// Sprinklers returns the kinds of sprinkler. The slice is the caller's.
func Sprinklers() []Sprinkler { return append([]Sprinkler(nil), sprinklers...) }

// FindSprinklers returns the kinds that a name can mean; one, if it is clear.
func FindSprinklers(name string) []Sprinkler {
	return findAll(sprinklers, name, func(s Sprinkler) (string, []string) { return s.Name, s.Aliases })
}

// FindSprinkler returns the kind of the given name, unless it can mean several.
func FindSprinkler(name string) (Sprinkler, bool) { return only(FindSprinklers(name)) }

// SprinklerNames returns the names of the kinds.
func SprinklerNames() []string {
	return namesOf(sprinklers, func(s Sprinkler) string { return s.Name })
}
