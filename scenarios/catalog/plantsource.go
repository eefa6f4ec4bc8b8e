package catalog

// The sources of the plants' figures. Most papers were read as an abstract or a
// table only.
const (
	shareOfETo = "Harivandi et al. (2009), UC ANR 8395: optimum 80% of ETo for cool-season and 60% for warm-season grasses, by species"
	fao12      = "FAO-56 table 12, mid season"
	fao12Turf  = fao12 + "; 0.10 less under careful water management"
	fao22      = "FAO-56 table 22; 5 to 10% less on fine soils, more on sands"
	ucTurf     = "University of California turfgrass crop coefficients, table 1, after Meyer et al. (1985)"
	azTurf     = "University of Arizona, turf water use report (2024): rye 0.70 to 0.80, bermuda 0.73 to 0.83"
	flBahia    = "eddy correlation, central Florida (Jia, Dukes and Jacobs 2009); monthly"

	coolRamp = "our choice: a ramp between winter, 0.05 to 0.60, and growth, 0.80 to 1.05 " +
		"(UC monthly values; Romero and Dukes 2016)"
	fescueRamp = coolRamp + "; North Carolina lysimeters found 0.8 too high in the transition zone (Pinnix and Miller 2019, figures not seen)"
	ryeRamp    = "fitted to lysimeters, 0.78 in January to 0.90 in April (Brown et al. 2001, Tucson, fairway quality); our choice"
	warmRamp   = "lysimeters, four species, Florida: 0.8 in growth, 0.3 in late autumn and winter (Wherley et al. 2015)"
	bermudaK   = "lysimeters: 0.78 to 0.83 Tucson (Brown et al. 2001), 0.8 and 0.3 Florida (Wherley et al. 2015)"
	buffaloK   = "0.70 for warm-season grasses at the lowest acceptable watering, New Mexico (2005 abstract), used for " +
		"buffalograss; our choice"
	coolTemps = "shoots stop at 40 °F, best 60 to 75 °F (North Carolina State University 2005, soil at 4 in); air used for soil: our choice"
	warmTemps = "dormant below 50 °F, green-up at 64 to 65 °F soil, best 80 to 95 °F (North Carolina State University 2005; Duble); " +
		"air used for soil: our choice"
	halfAtRest = "half of K out of leaf, as the orchards of FAO-56 table 12, 0.45 and 0.95; our choice"
	sameAll    = "evergreen: the same all year; our choice"

	flowersK = "ANSI/ASABE S623 plant factors; range: 17 species at 0 to 100% of bluegrass ET, Fort Collins " +
		"(Colorado State University 2003); 12 of them looked well at half"
	dryShrubsK   = "ANSI/ASABE S623 plant factors; range: southern California trials, established shrubs (Pittenger and Shaw 2004)"
	humidShrubsK = "ANSI/ASABE S623 plant factors; range: Texas lysimeters (Pannkuk 2008-2013); Utah lysimeters, 0.6 to 0.8 for " +
		"mixed plantings (2011)"
	dryCoverK   = "ANSI/ASABE S623 plant factors; range: six ground covers (Pittenger et al. 2001)"
	humidCoverK = "ANSI/ASABE S623 plant factors; range our choice after Utah and Texas lysimeters of mixed plantings"
	treesK      = "ANSI/ASABE S623 for trees, from a conference abstract (2014); low end 0.20, three species (Pittenger and Shaw 2004)"
	conifersK   = "as trees in ANSI/ASABE S623; FAO-56 table 12 gives 1.00 for closed forest"
	palmsK      = "as trees in ANSI/ASABE S623; gardens 0.10 to 0.60 (Perry 1992; Costello and Jones 1999)"
	desertK     = "ANSI/ASABE S623 plant factors; class 0.10 to 0.30, trials 0 to 0.36 (southern California)"
	cactiK      = "edge of the low and very low classes (University of California 2014), which gives the published intervals; our choice"
	classK      = "University of California water-need classes (2014); middle of the class"

	coolMark = "deficit to optimum 0.75 (Harivandi et al. 2009); bluegrass 1.00, fescue 0.60 to 0.80 (Fu et al. 2004); our choice"
	kansas   = "share of ETa with acceptable looks all season (Fu, Fry and Huang 2004, silt loam, Kansas): fescue 0.60 and 0.80, " +
		"bluegrass 1.00, zoysia 0.80"
	ryeMark     = "0.75 (Harivandi et al. 2009); failed before fescue in Georgia 2017 (national trial); our choice"
	warmMark    = "0.67 (Harivandi et al. 2009); our choice"
	bermudaMark = "0.60 (Fu et al. 2004), 0.67 (Harivandi et al. 2009), 0.75 to 0.80, one cultivar 0.94 (Ketchum et al. 2023); " +
		"middle, our choice"
	augustineMark = "0.47 of ETo (Fontanier et al. 2017), 0.44 of pan (Qian and Engelke 1999), over Ka 0.80; our choice"
	buffaloMark   = "0.26 of pan (Qian and Engelke 1999); lowest looks at Riverside 2019; our choice"
	flowersMark   = "most of 17 species looked well at half of bluegrass ET (Fort Collins 2003); our choice"
	woodyMark     = "our choice; trials kept their looks at 0.4 to 0.7 of the factor"
	browningMark  = "our choice; no published figure found"

	flowersP = "coleus kept its looks when watered at 30 or 50% depletion, but grew smaller (Scheiber and Beeson 2007); our choice"
	bushesP  = "FAO-56 table 22, berries and bushes; our choice"
	desertP  = "between berries 0.50 and olives 0.65 of FAO-56 table 22; our choice"

	auditedRoots = "Colorado State University Extension 6 to 8 in; of audited zones 16% reached 6 in and 62% 4 in " +
		"(Center for ReSource Conservation 2007, p. 8); push a screwdriver in to check"
	fescueRoots = "deeper than other cool-season grasses; 24 in and more needed for the Kansas dry-down; our choice"
	wettedGrass = "depth to wet, 6 to 10 in (Arizona watering guides); not a root count"
	warmRoots   = "between the lawn depths of 6 to 8 in and the 17 in and more of the Texas drought plots; our choice"
	wetted      = "depth to wet, Arizona Municipal Water Users Association table; not a root count"
	tradeRoots  = "common practice for managed landscapes, within 40%"

	weeklyUse = "the mark was found for a whole season; using it for a week is our choice"
)
