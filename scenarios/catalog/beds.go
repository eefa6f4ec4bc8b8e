package catalog

// The names that plantings of a dry and of a humid climate share.
func anyShrubs() []string {
	return []string{"shrubs", "shrub", "bushes", "bush", "hedge", "hedges", "roses", "rose", "perennials", "perennial", "woody",
		"woody plants"}
}

func anyCover() []string { return []string{"ground cover", "ground covers", "ivy", "vines"} }

func anyTree() []string { return []string{"trees", "tree"} }

func anyConifer() []string {
	return []string{"conifer", "pine", "pines", "spruce", "spruces", "juniper", "junipers", "fir", "firs", "evergreens"}
}

func anyPalm() []string { return []string{"palm", "date palm", "date palms", "palm trees"} }

// beds returns the plantings other than turf.
func beds() []Plant {
	shrubs, covers, trees := rootsIn(local(18, 12, 24, wetted)), rootsIn(local(10, 8, 12, wetted)), rootsIn(local(30, 24, 36, wetted))
	bushes := guess(0.50, 0.40, 0.60, bushesP)
	s623 := func(k, low, high float64, g Grade, source string, more ...Coefficient) []Coefficient {
		return append([]Coefficient{factor(S623, k, low, high, g, source)}, more...)
	}
	lcm := func(k, low, high float64) []Coefficient {
		return []Coefficient{factor(LCM, k, low, high, GeneralTable, classK)}
	}
	forest := factor(FAO56, 1.0, 1.0, 1.0, GeneralTable, fao12+", conifers: closed forest, fully watered")
	dates := factor(FAO56, 0.95, 0.90, 0.95, GeneralTable, fao12+", date palms: plantations, fully watered")
	dates.Stages = [3]float64{0.90, 0.95, 0.95}
	const wood, desertCover = "woods and grass, good", "natural desert"

	return []Plant{
		Plant{Name: "annual flowers", Aliases: []string{"flowers", "annuals", "annual", "flower bed", "bedding plants"},
			Group: Flowers, Coefficients: s623(0.8, 0.25, 0.90, Memory, flowersK),
			P: guess(0.50, 0.30, 0.50, flowersP), RootDepth: covers, Cover: "lawn, fair", Watering: flowersRow}.
			follow(inLeaf(0.80)).marks(guess(0.80, 0.60, 0.90, flowersMark), 0.50, 0.35, 0.60),

		Plant{Name: "shrubs, dry climate", Aliases: append(anyShrubs(), "woody plants, dry climate", "perennials, dry climate"), Group: Evergreen,
			Coefficients: s623(0.5, 0.18, 0.60, Memory, dryShrubsK), P: bushes, RootDepth: shrubs, Cover: "brush, good",
			Watering: shrubsRow}.allYear().woody(0.50),
		Plant{
			Name:         "shrubs, humid climate",
			Aliases:      append(anyShrubs(), "woody plants, humid climate", "perennials, humid climate"),
			Group:        Deciduous,
			Coefficients: s623(0.7, 0.32, 1.1, Memory, humidShrubsK),
			P:            bushes,
			RootDepth:    shrubs,
			Cover:        "brush, good",
			Watering:     shrubsRow,
		}.follow(inLeaf(0.70)).
			woody(0.50),
		Plant{Name: "ground cover, dry climate", Aliases: anyCover(),
			Group: Evergreen, Coefficients: s623(0.5, 0.20, 0.80, Memory, dryCoverK), P: bushes,
			RootDepth: covers, Cover: "lawn, good", Watering: coversRow}.allYear().woody(0.50),
		Plant{Name: "ground cover, humid climate", Aliases: anyCover(),
			Group: Evergreen, Coefficients: s623(0.7, 0.50, 1.0, Memory, humidCoverK), P: bushes,
			RootDepth: covers, Cover: "lawn, good", Watering: coversRow}.allYear().woody(0.50),
		Plant{Name: "trees, dry climate", Aliases: anyTree(),
			Group: Deciduous, Coefficients: s623(0.5, 0.20, 0.60, GeneralTable, treesK), P: bushes,
			RootDepth: trees, Cover: wood, Watering: treesRow}.follow(inLeaf(0.50)).woody(0.40),
		Plant{Name: "trees, humid climate", Aliases: anyTree(),
			Group: Deciduous, Coefficients: s623(0.7, 0.50, 0.90, GeneralTable, treesK), P: bushes,
			RootDepth: trees, Cover: wood, Watering: treesRow}.follow(inLeaf(0.70)).woody(0.40),
		Plant{Name: "conifers, dry climate", Aliases: append(anyConifer(), "conifers"), Group: Evergreen,
			Coefficients: s623(0.5, 0.20, 0.70, GeneralTable, conifersK+`; "conifers" without a climate is this entry`, forest),
			P:            tabled(0.70), RootDepth: trees, Cover: wood, Watering: treesRow}.allYear().woody(0.50),
		Plant{Name: "conifers, humid climate", Aliases: anyConifer(),
			Group: Evergreen, Coefficients: s623(0.7, 0.50, 1.0, GeneralTable, conifersK, forest),
			P: tabled(0.70), RootDepth: trees, Cover: wood, Watering: treesRow}.allYear().woody(0.50),
		Plant{Name: "palms, dry climate", Aliases: append(anyPalm(), "palms"), Group: Evergreen,
			Coefficients: s623(0.5, 0.10, 0.60, GeneralTable, palmsK+`; "palms" without a climate is this entry; plantations 0.95`, dates),
			P:            tabled(0.65), RootDepth: trees, Cover: wood, Watering: treesRow}.allYear().woody(0.50),
		Plant{Name: "palms, humid climate", Aliases: anyPalm(), Group: Evergreen,
			Coefficients: s623(0.7, 0.40, 0.80, GeneralTable, palmsK+"; plantations 0.95", dates),
			P:            tabled(0.65), RootDepth: trees, Cover: wood, Watering: treesRow}.allYear().woody(0.50),

		Plant{Name: "desert plants", Aliases: []string{"desert", "xeric"}, Group: Desert, Coefficients: s623(0.3, 0.05, 0.36, Memory, desertK),
			RootDepth: rootsIn(local(18, 8, 36, wetted)), Cover: desertCover, Watering: desertShrubsRow}.allYear().desert(),
		Plant{Name: "desert trees", Aliases: []string{"desert tree", "mesquite", "palo verde", "ironwood", "desert", "xeric"},
			Group: Desert, Coefficients: s623(0.3, 0.10, 0.50, Memory, desertK),
			RootDepth: trees, Cover: desertCover, Watering: desertTreesRow}.allYear().desert(),
		Plant{Name: "desert shrubs", Aliases: []string{"desert shrub", "creosote", "desert", "xeric"},
			Group: Desert, Coefficients: s623(0.3, 0.05, 0.36, Memory, desertK),
			RootDepth: shrubs, Cover: desertCover, Watering: desertShrubsRow}.allYear().desert(),
		Plant{Name: "desert ground cover", Group: Desert, Coefficients: s623(0.3, 0.10, 0.36, Memory, desertK),
			RootDepth: covers, Cover: desertCover, Watering: desertCoversRow}.allYear().desert(),
		cacti(covers, desertCover),

		Plant{Name: "high-need planting", Group: Deciduous, Coefficients: lcm(0.8, 0.7, 0.9), P: bushes, RootDepth: tradeRootsIn(12),
			Cover: "brush, good"}.follow(inLeaf(0.80)).marks(guess(0.80, 0.60, 1.00, woodyMark), 0.50, 0, 0),
		Plant{Name: "moderate-need planting", Group: Evergreen, Coefficients: lcm(0.5, 0.4, 0.6), P: bushes, RootDepth: tradeRootsIn(15),
			Cover: "brush, good"}.allYear().marks(guess(0.80, 0.60, 1.00, woodyMark), 0.50, 0, 0),
		Plant{Name: "low-need planting", Group: Evergreen, Coefficients: lcm(0.2, 0.1, 0.3), P: bushes, RootDepth: tradeRootsIn(18),
			Cover: "brush, fair"}.allYear().marks(guess(0.70, 0.50, 0.90, woodyMark), 0.40, 0, 0),
		Plant{Name: "very low-need planting", Group: Desert, Coefficients: lcm(0.05, 0, 0.1), P: bushes, RootDepth: tradeRootsIn(18),
			Cover: desertCover}.allYear().marks(guess(0.60, 0.40, 0.80, woodyMark), 0.35, 0, 0),
	}
}

func cacti(roots Figure, cover string) Plant {
	p := Plant{Name: "cacti and succulents", Aliases: []string{"cacti", "cactus", "succulents", "succulent", "agave", "agaves"},
		Group: Succulents, RootDepth: roots,
		Cover: cover, Watering: cactiRow, P: guess(0.60, 0.50, 0.75, desertP),
		Coefficients: []Coefficient{factor(LCM, 0.1, 0.05, 0.20, Guess, cactiK), factor(S623, 0.3, 0.05, 0.36, Memory, desertK)}}
	return p.allYear().marks(guess(0.40, 0.20, 0.60, woodyMark), 0.20, 0.10, 0.35)
}
