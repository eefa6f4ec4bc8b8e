package catalog

// anyTurf lists the names that turf of either season goes by.
func anyTurf() []string { return []string{"turf", "turfgrass", "grass", "lawn", "sod"} }

// turfs returns the grasses, cool-season first.
func turfs() []Plant {
	fao := tabled(0.40)
	warm := tabled(0.50)
	coolGrass := func(name string, aliases ...string) Plant {
		return Plant{Name: name, Aliases: aliases, Group: CoolTurf, Coefficients: coolSets(), P: fao,
			RootDepth: rootsIn(local(6, 3, 12, auditedRoots)), Cover: "lawn, good", Watering: coolGrassRow}
	}
	warmGrass := func(name string, aliases ...string) Plant {
		return Plant{Name: name, Aliases: aliases, Group: WarmTurf, Coefficients: warmSets(0.55, 0.70), P: warm, Cover: "lawn, good",
			Watering: warmGrassRow}
	}
	atRest := guess(0.40, 0.05, 0.60, coolRamp)
	winter := measured(0.30, 0.28, 0.35, warmRamp)

	fescue := coolGrass("tall fescue", "turf-type tall fescue", "fescue")
	fescue.RootDepth = rootsIn(guess(12, 6, 36, fescueRoots))
	bluegrass := coolGrass("Kentucky bluegrass", "bluegrass", "Kentucky blue")
	rye := coolGrass("perennial ryegrass", "perennial rye", "rye", "ryegrass")
	over := coolGrass("overseeded ryegrass", "winter rye", "winter ryegrass", "overseeded rye", "rye", "ryegrass", "overseed",
		"overseeded", "overseeding")
	over.Coefficients = coolSets(factor(Arizona, 0.75, 0.70, 0.80, LocalTable, azTurf+"; October 15 to March 31"))
	over.RootDepth = rootsIn(local(6, 4, 10, wettedGrass))

	turf := warmGrass("warm-season turf", append(anyTurf(), "warm turf", "warm season grass", "warm season", "warm", "centipedegrass",
		"centipede", "kikuyu", "kikuyugrass", "paspalum", "seashore paspalum")...)
	turf.RootDepth = rootsIn(local(10, 6, 18, wettedGrass))
	bermuda := warmGrass("bermudagrass", "bermuda")
	bermuda.RootDepth = rootsIn(local(10, 6, 24, wettedGrass))
	bermuda.Coefficients = warmSets(0.55, 0.70, factor(Arizona, 0.78, 0.73, 0.83, LocalTable,
		azTurf+"; April 1 to October 14 only, the report has no value for dormant grass"))
	zoysia := warmGrass("zoysiagrass", "zoysia")
	zoysia.RootDepth = rootsIn(guess(8, 4, 18, warmRoots))
	augustine := warmGrass("St. Augustinegrass", "St. Augustine", "Saint Augustine", "Saint Augustine grass", "Augustine",
		"Augustinegrass")
	augustine.RootDepth = rootsIn(guess(8, 4, 18, warmRoots))
	buffalo := warmGrass("buffalograss", "buffalo")
	buffalo.RootDepth = rootsIn(guess(12, 6, 36, warmRoots))
	buffalo.Coefficients, buffalo.P, buffalo.Cover = warmSets(0.40, 0.70), general(0.50, 0.45, 0.60, fao22), "lawn, fair"
	bahia := warmGrass("bahiagrass", "bahia")
	bahia.RootDepth = rootsIn(guess(12, 6, 36, warmRoots))
	bahia.Coefficients = append([]Coefficient{{Set: Florida, Low: 0.35, High: 0.90, Source: flBahia, Grade: Measured,
		K: [12]float64{.35, .35, .55, .80, .90, .75, .70, .70, .75, .70, .60, .45}}}, warmSets(0.55, 0.70)...)

	return []Plant{
		coolGrass("cool-season turf", append(anyTurf(), "cool turf", "cool season grass", "cool season", "cool", "fine fescue", "fine fescues",
			"fescue", "bentgrass")...).follow(coolSeason(guess(0.90, 0.80, 1.05, coolRamp), atRest)).
			marks(guess(0.80, 0.70, 0.95, coolMark), 0.50, 0.40, 0.60),
		fescue.follow(coolSeason(guess(0.90, 0.70, 1.05, fescueRamp), guess(0.40, 0.05, 0.60, fescueRamp))).
			marks(measured(0.75, 0.60, 0.80, kansas), 0.50, 0.40, 0.60).noted(weeklyUse),
		bluegrass.follow(coolSeason(guess(0.90, 0.80, 1.05, coolRamp), atRest)).
			marks(measured(0.90, 0.75, 1.00, kansas), 0.60, 0.50, 0.75).noted(weeklyUse),
		rye.follow(coolSeason(guess(0.90, 0.78, 1.05, coolRamp), guess(0.40, 0.05, 0.68, coolRamp))).
			marks(guess(0.80, 0.70, 0.90, ryeMark), 0.55, 0.45, 0.65),
		over.follow(season{guess(0.90, 0.80, 0.90, ryeRamp), guess(0.60, 0.50, 0.70, ryeRamp), guess(4, 2, 7, ryeRamp),
			guess(18, 15, 19, ryeRamp)}).
			marks(guess(0.80, 0.70, 0.90, ryeMark), 0.55, 0.45, 0.65).
			noted("for the months in which it is sown over a warm-season lawn: overseed: {from: 10-15, to: 05-01, plant: overseeded ryegrass}"),

		turf.follow(warmSeason(measured(0.80, 0.70, 0.99, warmRamp), winter, dormantAt(10, 13), greenAt(18, 27))).
			marks(guess(0.75, 0.60, 0.80, warmMark), 0.45, 0.35, 0.55),
		bermuda.follow(warmSeason(measured(0.80, 0.73, 0.83, bermudaK), measured(0.30, 0.28, 0.35, bermudaK), dormantAt(10, 13),
			greenAt(18, 27))).
			marks(guess(0.70, 0.55, 0.80, bermudaMark), 0.40, 0.30, 0.50),
		zoysia.follow(warmSeason(measured(0.80, 0.70, 0.90, warmRamp), winter, dormantAt(8, 13), greenAt(18, 27))).
			marks(measured(0.80, 0.65, 0.90, kansas), 0.50, 0.40, 0.60).noted(weeklyUse),
		augustine.follow(warmSeason(measured(0.80, 0.70, 0.90, warmRamp), winter, dormantAt(10, 13), greenAt(18, 27))).
			marks(guess(0.70, 0.55, 0.80, augustineMark), 0.45, 0.35, 0.55),
		buffalo.follow(warmSeason(guess(0.70, 0.50, 0.80, buffaloK), guess(0.30, 0.20, 0.35, buffaloK), dormantAt(7, 13), greenAt(16, 25))).
			marks(guess(0.60, 0.45, 0.75, buffaloMark), 0.35, 0.25, 0.45).
			noted("Texas and New Mexico trials rank it lowest in need; at Riverside in 2019 it looked worst at 30, 45 and 60% of ETo"),
		bahia.follow(warmSeason(measured(0.80, 0.70, 0.90, flBahia), measured(0.35, 0.30, 0.35, flBahia), dormantAt(10, 13),
			greenAt(18, 27))).
			marks(guess(0.75, 0.60, 0.80, warmMark), 0.45, 0.35, 0.55),
	}
}
