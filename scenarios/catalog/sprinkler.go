package catalog

// A Sprinkler is a kind of sprinkler of the catalog.
type Sprinkler struct {
	Name    string
	Aliases []string
	Rate    Figure // gross precipitation rate [mm/h]; unknown if it depends on spacing
	DU      Figure // low-quarter distribution uniformity, 0 to 1
	Loss    Figure // share of the gross depth lost in the air, 0 to 1
}

const (
	nominal   = "nominal rates in the trade, from memory; check with flow and area"
	homeTests = "Baum, Dukes and Miller, J. Irrig. Drain. Eng. 131(4), 2005: average of tests in homes; range of homes"
	aeLoss    = "University of Florida AE048, abstract: 1.5% daily mean, 3% on summer afternoons, negligible at night; drift not included"
)

func airLoss() Figure {
	return Figure{Value: 0.015, Low: 0, High: 0.03, Grade: GeneralTable, Source: aeLoss}
}

func noLoss() Figure {
	return Figure{Value: 0, Grade: Guess, Source: "water is applied at the ground; our choice"}
}

// Spray is the name of fixed spray heads, which some checks need.
const Spray = "spray"

var sprinklers = []Sprinkler{
	{Name: Spray, Aliases: []string{"fixed spray", "pop-up spray"},
		Rate: inches(1.5, 1.5, 2.0, Memory, nominal), Loss: airLoss(),
		DU: Figure{Value: 0.41, Low: 0.35, High: 0.60, Grade: Measured, Source: homeTests}},
	{Name: "rotor", Aliases: []string{"rotary head"},
		Rate: inches(0.6, 0.3, 0.7, Memory, nominal), Loss: airLoss(),
		DU: Figure{Value: 0.49, Low: 0.35, High: 0.60, Grade: Measured, Source: homeTests}},
	{Name: "multi-stream", Aliases: []string{"multi-stream rotary"},
		Rate: inches(0.45, 0.4, 0.6, Memory, nominal), Loss: airLoss(),
		DU: Figure{Value: 0.70, Grade: GeneralTable, Source: "extension advice: 0.7 is realistic for rotary nozzles"}},
	{Name: "drip", Aliases: []string{"surface drip", "dripline"},
		DU: Figure{Value: 0.80, Grade: Memory, Source: "common practice for drip, from memory"}, Loss: noLoss()},
}

// Sprinklers returns the kinds of sprinkler. The slice is the caller's.
func Sprinklers() []Sprinkler { return append([]Sprinkler(nil), sprinklers...) }

// FindSprinkler returns the kind of the given name.
func FindSprinkler(name string) (Sprinkler, bool) {
	for _, s := range sprinklers {
		if matches(name, s.Name) || matches(name, s.Aliases...) {
			return s, true
		}
	}
	return Sprinkler{}, false
}

// SprinklerNames returns the names of the kinds.
func SprinklerNames() []string { return names(sprinklers, func(s Sprinkler) string { return s.Name }) }
