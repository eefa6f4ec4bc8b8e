package ask

import (
	"strings"

	"loamledger/scenarios/catalog"
)

// latitude returns the latitude that was answered, or the default.
func (a *Answers) latitude() float64 {
	if lat, _, err := position(a.Position); err == nil {
		return lat
	}
	return middleLat
}

// plantName returns the planting of the catalog that an answer means: one of the
// choices, by the climate, or a name of the catalog, as typed.
func (a *Answers) plantName(text string) string {
	i := chosen(plantChoices, text)
	if i < 0 {
		return strings.TrimSpace(text)
	}
	c, _ := a.climate()
	end := ", humid climate"
	if c.dry {
		end = ", dry climate"
	}
	switch id := plantChoices[i].ID; id {
	case "lawn":
		if c.warm {
			return "warm-season turf"
		}
		return "cool-season turf"
	case "cool lawn":
		return "cool-season turf"
	case "warm lawn":
		return "warm-season turf"
	case "flowers":
		return "annual flowers"
	case "cacti":
		return "cacti and succulents"
	case "desert plants":
		return id
	default:
		return id + end
	}
}

// sprinklerName returns the kind of sprinkler of a zone, as the catalog has it.
func (a *Answers) sprinklerName(z int) string {
	text := ""
	if z >= 0 && z < len(a.Zones) {
		text = a.Zones[z].Sprinkler
	}
	if i := chosen(sprinklerChoices, text); i >= 0 {
		return sprinklerChoices[i].ID
	}
	if s, ok := catalog.FindSprinkler(text); ok {
		return s.Name
	}
	return catalog.Spray
}

// soilByFeel returns the texture that the answers mean, after the NRCS guide to
// texture by feel (modified from Thien 1979); ok is false if they leave it open.
func (a *Answers) soilByFeel() (name string, ok bool) {
	pick := func(choices []Option, text string) string {
		if i := chosen(choices, text); i >= 0 {
			return choices[i].ID
		}
		return ""
	}
	middle := map[string]string{"no ball": "sand", "none": "loamy sand", "short": "loam", "medium": "clay loam", "long": "clay"}
	ribbon := pick(ribbonChoices, a.Ribbon)
	switch ribbon {
	case "known", "":
		return "", false
	case "no ball", "none":
		return middle[ribbon], true
	}
	switch pick(gritChoices, a.Grit) {
	case "gritty":
		return map[string]string{"short": "sandy loam", "medium": "sandy clay loam", "long": "sandy clay"}[ribbon], true
	case "smooth":
		return map[string]string{"short": "silt loam", "medium": "silty clay loam", "long": "silty clay"}[ribbon], true
	}
	return middle[ribbon], true
}
