package strategy

import (
	"slices"
	"strings"
)

// Plain is what a part does in a few everyday words, and what it takes.
type Plain struct {
	Text  string    // without a capital and a period, such as "off after rain"; empty for what needs no mention
	needs Equipment // beyond a controller with programs
}

// Equipment is what a part needs beyond a controller with programs.
type Equipment uint8

// The kinds of equipment.
const (
	NoEquipment        Equipment = iota
	WeatherController            // follows the weather by itself
	BalanceController            // keeps a water balance of each zone
	ForecastConnection           // gets weather forecasts
	RainSensor                   // measures rain, or only detects it
	FreezeSensor                 // measures air temperature
	WindSensor                   // an anemometer
	SoilSensor                   // measures soil moisture
	Equipments                   // how many kinds there are
)

// String returns the words for e.
func (e Equipment) String() string {
	return [...]string{"no new equipment", "weather-based controller", "controller that waters by need", "forecast connection", "rain sensor",
		"freeze sensor", "wind sensor", "soil sensor"}[e]
}

// noMention is the Plain of a part that a short description leaves out.
func noMention[S any](*S) Plain { return Plain{} }

// Plain describes the strategy in everyday words and lists the equipment it needs,
// each kind once and in the order of the constants. The error is an [*UnsaidError].
func (st *Strategy) Plain() (text string, needs []Equipment, err error) {
	var texts []string
	for _, p := range st.Parts {
		k := p.Kind()
		if k.plain == nil {
			return "", nil, &UnsaidError{k.Key, inPlain}
		}
		plain := k.plain(p)
		if plain.Text != "" && !slices.Contains(texts, plain.Text) {
			texts = append(texts, plain.Text)
		}
		if plain.needs != NoEquipment && !slices.Contains(needs, plain.needs) {
			needs = append(needs, plain.needs)
		}
	}
	if len(texts) == 0 {
		texts = []string{"never waters"}
	}
	slices.Sort(needs)
	return strings.Join(texts, "; "), needs, nil
}
