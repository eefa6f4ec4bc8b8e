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
	{[]string{"warm"}, []string{"warm-season turf"}},
	{[]string{"cool"}, []string{"cool-season turf"}},
	{[]string{"bermuda", "bermudagrass", "zoysia", "zoysiagrass", "augustine", "augustinegrass", "buffalo", "buffalograss", "bahia",
		"bahiagrass",
		"centipede", "centipedegrass", "kikuyu", "paspalum"}, []string{"warm-season turf"}},
	{[]string{"fescue", "bluegrass", "ryegrass", "rye", "bentgrass", "bent"}, []string{"cool-season turf"}},
	{[]string{"turf", "turfgrass", "grass", "lawn", "sod"}, []string{"cool-season turf", "warm-season turf"}},
	{[]string{"flowers", "annuals", "annual"}, []string{"annual flowers"}},
	{[]string{"cactus", "cacti", "succulents", "succulent", "agave", "xeric"}, []string{"desert plants"}},
	{[]string{"pine", "pines", "spruce", "juniper", "junipers", "conifer", "fir", "evergreens"}, []string{"conifers"}},
	{[]string{"palm"}, []string{"palms"}},
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
