package catalog

import (
	"slices"
	"strings"
)

// plantWords lists other words for plantings: common plant names, without
// varieties. Grasses are warm-season or cool-season as in turf science.
var plantWords = []struct {
	words  []string
	plants []string
}{
	{[]string{"overseed", "overseeded", "overseeding"}, []string{"overseeded ryegrass"}},
	{[]string{"bermuda", "bermudagrass"}, []string{"bermudagrass"}},
	{[]string{"zoysia", "zoysiagrass"}, []string{"zoysiagrass"}},
	{[]string{"augustine", "augustinegrass"}, []string{"St. Augustinegrass"}},
	{[]string{"buffalo", "buffalograss"}, []string{"buffalograss"}},
	{[]string{"bahia", "bahiagrass"}, []string{"bahiagrass"}},
	{[]string{"centipede", "centipedegrass", "kikuyu", "paspalum", "warm"}, []string{"warm-season turf"}},
	{[]string{"fine fescue", "fine fescues", "bentgrass", "bent", "cool"}, []string{"cool-season turf"}},
	{[]string{"fescue"}, []string{"tall fescue"}},
	{[]string{"bluegrass"}, []string{"Kentucky bluegrass"}},
	{[]string{"ryegrass", "rye"}, []string{"perennial ryegrass", "overseeded ryegrass"}},
	{[]string{"turf", "turfgrass", "grass", "lawn", "sod"}, []string{"cool-season turf", "warm-season turf"}},
	{[]string{"flowers", "annuals", "annual"}, []string{"annual flowers"}},
	{[]string{"cactus", "cacti", "succulents", "succulent", "agave", "agaves"}, []string{"cacti and succulents"}},
	{[]string{"mesquite", "palo verde", "ironwood", "desert tree"}, []string{"desert trees"}},
	{[]string{"desert shrub", "creosote"}, []string{"desert shrubs"}},
	{[]string{"desert", "xeric"}, []string{"desert plants", "desert trees", "desert shrubs", "desert ground cover"}},
	{[]string{"pine", "pines", "spruce", "juniper", "junipers", "conifer", "conifers", "fir", "evergreens"},
		[]string{"conifers, dry climate", "conifers, humid climate"}},
	{[]string{"palm", "palms"}, []string{"palms, dry climate", "palms, humid climate"}},
	{[]string{"groundcover", "ground cover", "ivy"}, []string{"ground cover, dry climate", "ground cover, humid climate"}},
	{[]string{"shrub", "shrubs", "bushes", "bush", "hedge", "hedges", "roses", "perennial", "perennials", "woody"},
		[]string{"shrubs, dry climate", "shrubs, humid climate"}},
	{[]string{"tree", "trees"}, []string{"trees, dry climate", "trees, humid climate"}},
}

// LikePlants returns the plantings that an unknown name probably means, by the
// words in it; none if no word is known.
func LikePlants(name string) []string {
	text := " " + strings.Join(strings.FieldsFunc(strings.ToLower(name), func(r rune) bool {
		return r != '\'' && (r < 'a' || r > 'z')
	}), " ") + " "
	for _, w := range plantWords {
		if slices.ContainsFunc(w.words, func(word string) bool { return strings.Contains(text, " "+word+" ") }) {
			return slices.Clone(w.plants)
		}
	}
	return nil
}
