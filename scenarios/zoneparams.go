package scenarios

import (
	"strconv"

	"loamledger/scenarios/catalog"
	"loamledger/sim"
	"loamledger/weather/quantity"
)

// ZoneParams returns every parameter of a zone, in the order of the columns of
// a CSV table of zones. Parameters are declared only here.
func ZoneParams() []ZoneParam {
	var list []ZoneParam
	for _, part := range [][]ZoneParam{plantParams(), seasonParams(), overseedParams(), soilParams(), groundParams(), sprinklerParams(),
		balanceParams()} {
		list = append(list, part...)
	}
	return list
}

// word records a text, or nothing if it is empty.
func word(of func(z *Zone) string) func(*Zone) *Node {
	return func(z *Zone) *Node {
		text := of(z)
		if text == "" || text == Custom {
			return nil
		}
		return scalar(text)
	}
}

// unlessStore omits a parameter from the record of a plain store, where it has
// no meaning.
func unlessStore(of func(z *Zone) *Node) func(*Zone) *Node {
	return func(z *Zone) *Node {
		if z.WorkingStorage {
			return nil
		}
		return of(z)
	}
}

// figure records a number of the zone.
func figure(s shape, of func(z *Zone) float64) func(*Zone) *Node {
	return func(z *Zone) *Node { return scalar(exact(of(z), s)) }
}

func always(f catalog.Figure) func(ZoneBasis) catalog.Figure {
	return func(ZoneBasis) catalog.Figure { return f }
}

// The smallest area and root depth that a zone may have: half a square foot and a
// quarter of an inch. Less is a slip of the pen, and would divide by almost nothing.
const (
	leastAreaM2 = 0.5 * 0.09290304
	leastRootsM = 0.25 * 0.0254
)

// anyRange is the usual range of a parameter that depends on no other.
func anyRange(r catalog.Range) func(ZoneBasis) catalog.Range {
	return func(ZoneBasis) catalog.Range { return r }
}

func plantParams() []ZoneParam {
	bare := shape{bare: true}
	return []ZoneParam{
		{Key: "name", Column: "name", Doc: "name of the zone", Words: true, Required: true,
			recorded: word(func(z *Zone) string { return z.Name })},
		{Key: "area", named: true, Column: "area", Doc: "watered area", Dim: quantity.Area, Min: leastAreaM2, Max: 1e7, Required: true,
			Usual: anyRange(catalog.UsualArea()),
			Set:   func(z *Zone, v float64) { z.AreaM2 = v }},
		{Key: "controller", Column: "controller", Doc: "controller that opens its valve, from controllers; the only one by default", Words: true,
			recorded: word(func(z *Zone) string { return z.ControllerName })},
		{Key: "meter", Column: "meter", Doc: "water meter that it draws from, from meters; the only one by default", Words: true,
			recorded: word(func(z *Zone) string { return z.MeterName })},
		{Key: "plant.name", Column: "plant", Doc: "planting, from the catalog", Words: true,
			recorded: word(func(z *Zone) string { return z.Plant })},
		{Key: "plant.group", Doc: "kind of plants", Words: true,
			recorded: func(z *Zone) *Node {
				if z.PlantGroup == catalog.NoGroup {
					return nil
				}
				return scalar(z.PlantGroup.String())
			}},
		{Key: "plant.k", Column: "k", Doc: "plant coefficient: one number, twelve, or constant for the catalog's yearly value", Bare: true,
			Max:   maxK,
			Usual: func(b ZoneBasis) catalog.Range { return b.Plant.UsualK().Or(catalog.UsualK()) },
			all:   func(z *Zone) []float64 { return z.PlantK[:] },
			recorded: func(z *Zone) *Node {
				list := &Node{Kind: List}
				for _, k := range z.PlantK {
					list.Items = append(list.Items, scalar(exact(k, bare)))
				}
				return list
			}},
		{Key: "plant.p", Column: "p", Doc: "stress fraction of the plant", Bare: true, Min: 0.1, Max: 0.8,
			Usual: anyRange(catalog.UsualP()),
			Rests: "plant", Default: func(b ZoneBasis) catalog.Figure {
				if b.Plant.P.Known() {
					return b.Plant.P
				}
				return catalog.DefaultP()
			},
			recorded: unlessStore(figure(bare, func(z *Zone) float64 { return z.P }))},
		{Key: "plant.p_adjust", Doc: "adjust p for the day's ETc", Words: true,
			recorded: unlessStore(word(func(z *Zone) string { return strconv.FormatBool(!z.PConstant) }))},
		{Key: "coefficients", Column: "coefficients", Doc: "set of plant coefficients", Words: true,
			recorded: func(*Zone) *Node { return nil }}, // plant.k has them
		{Key: "density", named: true, Column: "density", Doc: "density of the planting; 1 is average", Bare: true, Min: 0.2, Max: 1.5,
			Default: always(catalog.DefaultDensity()),
			Usual:   anyRange(catalog.DefaultDensity().Usual(1, 1)),
			Set:     func(z *Zone, v float64) { z.Density = v }},
		{Key: "microclimate", named: true, Column: "microclimate", Doc: "1 in the open, less in shade, more beside hot walls",
			Bare: true, Min: 0.2, Max: 1.5,
			Default: always(catalog.DefaultMicroclimate()),
			Usual:   anyRange(catalog.DefaultMicroclimate().Usual(1, 1)),
			Set:     func(z *Zone, v float64) { z.Microclimate = v }},
		{Key: "cover", Column: "cover", Doc: "ground cover, for the curve number", Words: true,
			recorded: word(func(z *Zone) string { return z.Cover })},
	}
}

func soilParams() []ZoneParam {
	return []ZoneParam{
		{Key: "soil.name", Column: "soil", Doc: "soil, from the catalog", Words: true,
			recorded: word(func(z *Zone) string { return z.Soil })},
		{Key: "soil.awc", named: true, Column: "awc", Doc: "available water capacity", Dim: quantity.Capacity, Min: 10, Max: 500,
			Rests: "soil", Default: func(b ZoneBasis) catalog.Figure { return b.Soil.AWC },
			Usual:    func(b ZoneBasis) catalog.Range { return b.Soil.AWC.Usual(0.75, 1.25).Or(catalog.UsualAWC()) },
			Set:      func(z *Zone, v float64) { z.AWCMMPerM = v },
			recorded: unlessStore(figure(shape{dim: quantity.Capacity}, func(z *Zone) float64 { return z.AWCMMPerM }))},
		{Key: "soil.intake", named: true, Column: "intake", Doc: "intake rate", Dim: quantity.Rate, Min: 0.01, Max: 500,
			Rests: "soil", Default: func(b ZoneBasis) catalog.Figure { return b.Soil.Intake },
			Usual: func(b ZoneBasis) catalog.Range { return catalog.UsualIntake(b.Soil.Intake.Low) },
			Set:   func(z *Zone, v float64) { z.IntakeMMH = v }},
		{Key: "soil.surface_storage", named: true, Column: "surface_storage", Doc: "depth of water on the surface before it runs off",
			Dim: quantity.Depth, Max: 100,
			Rests: "soil", Default: func(b ZoneBasis) catalog.Figure { return b.Soil.SurfaceStorage(b.Slope) },
			Usual: anyRange(catalog.UsualStorage()),
			Set:   func(z *Zone, v float64) { z.SurfaceStorageMM = v }},
		{Key: "soil.group", Column: "group", Doc: "hydrologic soil group, A to D", Words: true,
			recorded: func(z *Zone) *Node {
				if z.Group == 0 {
					return nil
				}
				return scalar(string(rune(z.Group)))
			}},
		{Key: "soil.curve_number", Column: "curve_number", Doc: "curve number of rain runoff", Bare: true, Min: 20, Max: 100, optional: true,
			Usual: anyRange(catalog.UsualCurveNumber()),
			recorded: func(z *Zone) *Node {
				if z.Rain.Method != sim.CurveNumber {
					return nil
				}
				return scalar(exact(z.Rain.CN, shape{bare: true}))
			}},
	}
}

func groundParams() []ZoneParam {
	return []ZoneParam{
		{Key: "slope", named: true, Column: "slope", Doc: "slope of the ground", Dim: quantity.Fraction, Max: 1.5,
			Default: always(catalog.DefaultSlope()),
			Usual:   anyRange(catalog.UsualSlope()),
			Set:     func(z *Zone, v float64) { z.SlopeShare = v }},
		{Key: "root_depth", named: true, Column: "root_depth", Doc: "depth that contains most of the roots",
			Dim: quantity.Length, Min: leastRootsM, Max: 5,
			fix:     "write the depth that contains most of the roots, such as 6 in or 15 cm",
			Rests:   "plant",
			Default: func(b ZoneBasis) catalog.Figure { return b.Plant.RootDepth },
			Usual:   func(b ZoneBasis) catalog.Range { return b.Plant.RootDepth.Usual(0.5, 1.5).Or(catalog.UsualRoots()) },
			Set:     func(z *Zone, v float64) { z.RootDepthM = v }},
	}
}

func sprinklerParams() []ZoneParam {
	share := func(key, doc, fix string, set func(z *Zone, v float64)) ZoneParam {
		return ZoneParam{Key: "sprinkler." + key, Column: key, Doc: doc, Dim: quantity.Fraction, Max: 0.9,
			Default: always(none("assumed to be zero")), fix: fix, Set: set, Usual: anyRange(catalog.UsualWaste())}
	}
	fraction := shape{dim: quantity.Fraction}
	return []ZoneParam{
		{Key: "sprinkler.kind", Column: "sprinkler", Doc: "kind of sprinkler", Words: true, Required: true,
			recorded: word(func(z *Zone) string { return z.Sprinkler })},
		{Key: "sprinkler.rate",
			Column: "rate", Doc: "gross precipitation rate", Dim: quantity.Rate, Min: 0.1, Max: 500, optional: true,
			Usual: func(b ZoneBasis) catalog.Range { return b.Kind.UsualRate() },
			all:   func(z *Zone) []float64 { return []float64{z.PRMMH} },
			recorded: func(z *Zone) *Node {
				if z.Emitters > 0 && z.PRMMH == RateFromFlow(z.FlowLMin, z.AreaM2) {
					return nil // it follows from the emitters
				}
				if z.FlowLMin != FlowFromRate(z.PRMMH, z.AreaM2) && z.PRMMH == RateFromFlow(z.FlowLMin, z.AreaM2) {
					return nil // it follows from the flow
				}
				return scalar(exact(z.PRMMH, shape{dim: quantity.Rate}))
			}},
		{Key: "sprinkler.flow",
			Column: "flow", Doc: "flow while the zone runs", Dim: quantity.Flow, Min: 1e-3, Max: 20000, optional: true,
			Usual: anyRange(catalog.UsualFlow()),
			all:   func(z *Zone) []float64 { return []float64{z.FlowLMin} },
			recorded: func(z *Zone) *Node {
				if z.Emitters > 0 || z.FlowLMin == FlowFromRate(z.PRMMH, z.AreaM2) {
					return nil // it follows from the emitters or from the rate
				}
				return scalar(exact(z.FlowLMin, shape{dim: quantity.Flow}))
			}},
		{Key: "sprinkler.emitters", Column: "emitters", Doc: "number of drip emitters, with emitter_flow instead of flow", Bare: true,
			Min: 1, Max: 1e6, whole: true, optional: true, Usual: anyRange(catalog.UsualEmitters()),
			Set: func(z *Zone, v float64) { z.Emitters = known(v) }, named: true, recorded: ifKnown(shape{bare: true},
				func(z *Zone) float64 { return z.Emitters })},
		{Key: "sprinkler.emitter_flow", Column: "emitter_flow", Doc: "flow of one emitter", Dim: quantity.Flow, Min: 0.001, Max: 100,
			optional: true, Usual: anyRange(catalog.UsualEmitterFlow()), fix: "write the flow of one emitter, such as 1 gph or 4 L/h",
			Set: func(z *Zone, v float64) { z.EmitterLMin = known(v) }, named: true, recorded: ifKnown(shape{dim: quantity.Flow},
				func(z *Zone) float64 { return z.EmitterLMin })},
		{Key: "sprinkler.uniformity", Column: "uniformity", Doc: "low-quarter distribution uniformity", Dim: quantity.Fraction, Min: 0.25, Max: 1,
			Rests: "sprinkler", Default: func(b ZoneBasis) catalog.Figure { return b.Kind.DU },
			Usual:    func(b ZoneBasis) catalog.Range { return b.Kind.UsualDU() },
			all:      func(z *Zone) []float64 { return []float64{z.DULQ} },
			fix:      "write the low-quarter distribution uniformity, from 25% to 100%",
			recorded: unlessStore(figure(fraction, func(z *Zone) float64 { return z.DULQ }))},
		{Key: "sprinkler.catch_cans", Doc: "readings of a catch-can test, instead of uniformity", Words: true,
			recorded: func(*Zone) *Node { return nil }}, // uniformity has them
		{Key: "sprinkler.spray_loss", Column: "spray_loss", Doc: "share lost in the air", Dim: quantity.Fraction, Max: 0.5,
			Rests: "sprinkler", Default: func(b ZoneBasis) catalog.Figure { return b.Kind.Loss },
			Usual: func(b ZoneBasis) catalog.Range { return b.Kind.UsualLoss() },
			fix:   "write the share of the water lost in the air, from 0% to 50%",
			Set:   func(z *Zone, v float64) { z.LossShare = v }},
		share("overspray", "share that lands outside the zone",
			"write the share of the water that lands outside the zone, from 0% to 90%",
			func(z *Zone, v float64) { z.OversprayShare = v }),
		share("broken_heads", "share lost through broken heads",
			"write the share of the water lost through broken heads, from 0% to 90%",
			func(z *Zone, v float64) { z.BrokenShare = v }),
		{Key: "sprinkler.fill_drain", Column: "fill_drain", Doc: "water that fills and drains the pipes at each cycle",
			Dim: quantity.Volume, Max: 10,
			Default: always(none("pipes assumed to stay full")),
			Usual:   anyRange(catalog.UsualFillDrain()),
			fix:     "write the volume that fills and drains the pipes at each cycle, such as 3 gal",
			Set:     func(z *Zone, v float64) { z.FillDrainMM = 1000 * v / z.AreaM2 }},
	}
}

func balanceParams() []ZoneParam {
	return []ZoneParam{
		{Key: "leak", Column: "leak", Doc: "leak flow, day and night", Dim: quantity.Flow, Max: 1000,
			Default: always(none("assumed to be zero")),
			Usual:   anyRange(catalog.UsualLeak()),
			fix:     "write the flow that leaks day and night, such as 0.1 gpm",
			Set:     func(z *Zone, v float64) { z.LeakMMDay = v * 24 * 60 / z.AreaM2 }},
		{Key: "strips", Column: "strips", Doc: "number of strips that model uneven watering", Bare: true, Min: 1, Max: 20,
			Usual: anyRange(catalog.Range{Low: 1, High: 20, Grade: catalog.Guess,
				Source: "the numbers of strips that can be chosen; our choice"}),
			Default:  always(catalog.Figure{Value: 8, Grade: catalog.Guess, Source: "enough for a low quarter of two strips; our choice"}),
			recorded: unlessStore(figure(shape{bare: true}, func(z *Zone) float64 { return float64(z.Strips) }))},
		{Key: "rain.method", Doc: "how rain is split: curve number or share", Words: true,
			recorded: word(func(z *Zone) string {
				if z.Rain.Method == sim.FixedShare {
					return rainMethods()[1]
				}
				return rainMethods()[0]
			})},
		{Key: "rain.effective", Doc: "share of rain that enters the soil, for method share", Dim: quantity.Fraction, Max: 1,
			Default: always(catalog.Figure{Value: 0.8, Low: 0.5, High: 1, Grade: catalog.Memory,
				Source: "80% of gross rain, as in test protocols for weather-based controllers"}),
			Usual: anyRange(catalog.Range{Low: 0.5, High: 1, Grade: catalog.Guess, Source: "half to all of the rain; our choice"}),
			recorded: func(z *Zone) *Node {
				if z.Rain.Method != sim.FixedShare {
					return nil
				}
				return scalar(exact(z.Rain.EffectiveShare, shape{dim: quantity.Fraction}))
			}},
		{Key: "balance", Column: "balance", Doc: "root zone, or working storage for a plain store", Words: true,
			recorded: word(func(z *Zone) string {
				if z.WorkingStorage {
					return balances()[1]
				}
				return balances()[0]
			})},
		{Key: "storage", Column: "storage", Doc: "water between full and dry, for a plain store", Dim: quantity.Depth, Min: 0.5, Max: 1000,
			Usual: anyRange(catalog.UsualWorkingStorage()),
			recorded: func(z *Zone) *Node {
				if !z.WorkingStorage {
					return nil
				}
				return scalar(exact(z.TAWMM, shape{dim: quantity.Depth}))
			}},
	}
}

// rainMethods are the words for the rain rules.
func rainMethods() []string { return []string{"curve number", "share"} }

// balances are the words for a zone's kind of water balance.
func balances() []string { return []string{"root zone", "working storage"} }
