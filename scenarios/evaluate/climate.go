package evaluate

import (
	"slices"
	"strings"

	"loamledger/sim/portfolio"
)

// climateWords say what the classes of climates are.
const climateWords = "Climates are classes of the aridity index, mean yearly rain divided by mean yearly reference ET of the " +
	"station’s record: World Atlas of " +
	"Desertification, UNEP 1992 and 1997. The atlas has potential ET by Thornthwaite (from memory), which is lower in dry places, so a " +
	"class here can be drier than on its map."

// climates lists the aridity classes of the accounts, from the driest; empty if none is known.
func (e *Evaluation) climates() string {
	var names []string
	for _, id := range e.Input.Table.Accounts {
		about := e.Input.About[id]
		if name := portfolio.Aridity(about.RainMM, about.EToMM); name != "" && !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	if len(names) == 0 {
		return ""
	}
	slices.SortFunc(names, portfolio.Drier)
	return strings.Join(names, ", ") + ". Classes of rain divided by reference ET of the stations, UNEP 1992; see the tables by group."
}
