package scenarios

import (
	"math"
	"strings"

	"loamledger/scenarios/catalog"
	"loamledger/sim"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// constantWord is the word for a coefficient that does not follow the season: the
// catalog's yearly value.
const constantWord = "constant"

// A PlantSeason is how a planting follows temperature, before density and
// microclimate. Numbers are NaN where the planting has none: without T0C it never
// rests, and without Ka its coefficient is that of the calendar.
type PlantSeason struct{ Ka, Kd, T0C, T1C float64 }

func noSeason() PlantSeason { return PlantSeason{nan, nan, nan, nan} }

// of returns the season for the engine, with coefficients multiplied by factor.
func (p PlantSeason) of(factor float64) *sim.Season {
	if math.IsNaN(p.T0C) || math.IsNaN(p.T1C) {
		return nil
	}
	if math.IsNaN(p.Ka) || math.IsNaN(p.Kd) {
		return &sim.Season{T0C: p.T0C, T1C: p.T1C, ActivityOnly: true}
	}
	return &sim.Season{Ka: p.Ka * factor, Kd: p.Kd * factor, T0C: p.T0C, T1C: p.T1C}
}

// seasonParams are the parameters of a planting that follow the season, and its
// marks.
func seasonParams() []ZoneParam {
	bare := shape{bare: true}
	temperature := shape{dim: quantity.Temperature}
	// known records a number if there is one.
	known := func(s shape, of func(z *Zone) float64) func(*Zone) *Node {
		return func(z *Zone) *Node {
			if math.IsNaN(of(z)) {
				return nil
			}
			return scalar(exact(of(z), s))
		}
	}
	return []ZoneParam{
		{Key: "plant.k_growing", Column: "k_growing", Doc: "plant coefficient in full growth, if it follows the season", Bare: true, Max: maxK,
			optional: true, Rests: "plant", Default: func(b ZoneBasis) catalog.Figure { return b.Plant.Ka },
			Usual:    func(b ZoneBasis) catalog.Range { return b.Plant.Ka.Usual(1, 1).Or(catalog.UsualK()) },
			recorded: known(bare, func(z *Zone) float64 { return z.PlantSeason.Ka })},
		{Key: "plant.k_resting", Column: "k_resting", Doc: "plant coefficient at rest, if it follows the season", Bare: true, Max: maxK,
			optional: true, Rests: "plant", Default: func(b ZoneBasis) catalog.Figure { return b.Plant.Kd },
			Usual:    func(b ZoneBasis) catalog.Range { return b.Plant.Kd.Usual(1, 1).Or(catalog.UsualK()) },
			recorded: known(bare, func(z *Zone) float64 { return z.PlantSeason.Kd })},
		{Key: "plant.rests_below", Column: "rests_below", Doc: "30-day mean temperature below which the plant rests", Dim: quantity.Temperature,
			Min: -20, Max: 30, optional: true, Rests: "plant", Default: func(b ZoneBasis) catalog.Figure { return b.Plant.T0C },
			Usual:    func(b ZoneBasis) catalog.Range { return catalog.UsualTemperature(b.Plant.T0C) },
			recorded: known(temperature, func(z *Zone) float64 { return z.PlantSeason.T0C })},
		{Key: "plant.grows_above", Column: "grows_above", Doc: "30-day mean temperature above which the plant is in full growth",
			Dim: quantity.Temperature, Min: -20, Max: 40, optional: true, Rests: "plant",
			Default:  func(b ZoneBasis) catalog.Figure { return b.Plant.T1C },
			Usual:    func(b ZoneBasis) catalog.Range { return catalog.UsualTemperature(b.Plant.T1C) },
			recorded: known(temperature, func(z *Zone) float64 { return z.PlantSeason.T1C })},
		{Key: "plant.tolerance", Column: "tolerance", Doc: "share of the last seven days' need below which the plant is stressed",
			Dim: quantity.Fraction, Max: 1, Rests: "plant",
			Default: func(b ZoneBasis) catalog.Figure {
				return orTypical(b, b.Plant.Tolerance, func(p catalog.Plant) catalog.Figure { return p.Tolerance })
			},
			Usual: func(b ZoneBasis) catalog.Range {
				return orTypical(b, b.Plant.Tolerance, func(p catalog.Plant) catalog.Figure { return p.Tolerance }).Usual(1, 1).Or(catalog.UsualMark())
			},
			recorded: figure(shape{dim: quantity.Fraction}, func(z *Zone) float64 { return z.ToleranceR7 })},
		{Key: "plant.browning", Column: "browning", Doc: "share of the last seven days' need below which the plant turns brown",
			Dim: quantity.Fraction, Max: 1, Rests: "plant",
			Default: func(b ZoneBasis) catalog.Figure {
				return orTypical(b, b.Plant.Browning, func(p catalog.Plant) catalog.Figure { return p.Browning })
			},
			Usual: func(b ZoneBasis) catalog.Range {
				return orTypical(b, b.Plant.Browning, func(p catalog.Plant) catalog.Figure { return p.Browning }).Usual(1, 1).Or(catalog.UsualMark())
			},
			recorded: figure(shape{dim: quantity.Fraction}, func(z *Zone) float64 { return z.BrowningR7 })},
	}
}

// orTypical returns f, or what is typical of the plant's group.
func orTypical(b ZoneBasis, f catalog.Figure, of func(catalog.Plant) catalog.Figure) catalog.Figure {
	if f.Known() {
		return f
	}
	return of(catalog.Typical(b.Plant.Group))
}

// overseedParams are the keys of the plant sown for part of the year.
func overseedParams() []ZoneParam {
	day := func(of func(o *sim.Overseed) sim.DayOfYear) func(z *Zone) *Node {
		return func(z *Zone) *Node {
			if z.Overseed == nil {
				return nil
			}
			d := of(z.Overseed)
			return scalar(twoDigits(d.Month) + "-" + twoDigits(d.Day))
		}
	}
	return []ZoneParam{
		{Key: "overseed.plant", Doc: "plant sown over the first for part of the year, from the catalog", Words: true,
			recorded: word(func(z *Zone) string { return z.OverseedPlant })},
		{Key: "overseed.from", Doc: "its first day of each year, such as 10-15", Words: true,
			recorded: day(func(o *sim.Overseed) sim.DayOfYear { return o.From })},
		{Key: "overseed.to", Doc: "its last day of each year, such as 05-01", Words: true,
			recorded: day(func(o *sim.Overseed) sim.DayOfYear { return o.To })},
	}
}

func twoDigits(n int) string { return string([]byte{byte('0' + n/10), byte('0' + n%10)}) }

// season reads how the planting follows temperature, and its marks. ramp is set if
// its coefficient follows the season unless the scenario says otherwise.
func (r *zoneReader) season(s group, z *Zone, plant catalog.Plant, ramp bool) bool {
	z.PlantSeason = noSeason()
	custom := z.Plant == Custom
	given := s.node.Get("k_growing") != nil || s.node.Get("k_resting") != nil
	rests := z.PlantGroup.FollowsSeason() && z.PlantGroup != catalog.NoGroup
	basis := r.basis
	if custom && rests {
		typical := catalog.Typical(z.PlantGroup)
		r.basis.Plant.T0C, r.basis.Plant.T1C = typical.T0C, typical.T1C
	}
	if !rests {
		r.basis.Plant.T0C, r.basis.Plant.T1C = catalog.Figure{}, catalog.Figure{}
	}
	if !ramp && !given {
		r.basis.Plant.Ka, r.basis.Plant.Kd = catalog.Figure{}, catalog.Figure{}
	}
	p, ok := &z.PlantSeason, true
	for _, v := range []struct {
		key string
		at  *float64
	}{{"k_growing", &p.Ka}, {"k_resting", &p.Kd}, {"rests_below", &p.T0C}, {"grows_above", &p.T1C}} {
		n, read := r.number("plant." + v.key)
		*v.at = n
		ok = ok && (read || s.node.Get(v.key) == nil)
	}
	r.basis = basis
	for _, pair := range [][2]struct {
		key string
		v   float64
	}{{{"k_growing", p.Ka}, {"k_resting", p.Kd}}, {{"rests_below", p.T0C}, {"grows_above", p.T1C}}} {
		for i := range pair {
			if ok && math.IsNaN(pair[i].v) && !math.IsNaN(pair[1-i].v) {
				s.missing(pair[i].key, "add "+pair[i].key+", which belongs to "+pair[1-i].key)
				ok = false
			}
		}
	}
	switch {
	case !ok:
	case !math.IsNaN(p.Ka) && math.IsNaN(p.T0C):
		s.missing("rests_below", "add rests_below and grows_above, the temperatures between which k_growing takes over from k_resting")
		ok = false
	case p.T1C <= p.T0C:
		s.fault(diag.WrongOrder, s.node.Pos, "write a grows_above that is higher than rests_below", "%s: grows_above is not above rests_below",
			s.where)
		ok = false
	}
	var tOK, bOK bool
	z.ToleranceR7, tOK = r.number("plant.tolerance")
	z.BrowningR7, bOK = r.number("plant.browning")
	if tOK && bOK && z.BrowningR7 > z.ToleranceR7 {
		s.fault(diag.WrongOrder, s.node.Pos, "write a browning that is at most tolerance", "%s: browning is above tolerance", s.where)
		return false
	}
	return ok && tOK && bOK
}

// marksOf takes the marks of a planting given by its coefficients alone.
func (r *zoneReader) marksOf(z *Zone) {
	z.PlantSeason = noSeason()
	for _, v := range []struct {
		key string
		at  *float64
	}{{"plant.tolerance", &z.ToleranceR7}, {"plant.browning", &z.BrowningR7}} {
		dflt := r.param(v.key).want(ZoneBasis{}).dflt
		r.defaulted(r.path(v.key), shape{dim: quantity.Fraction}, dflt)
		*v.at = r.settled(r.path(v.key), shape{dim: quantity.Fraction}, dflt)
	}
}

// overseed reads the plant sown for part of the year.
func (r *zoneReader) overseed(z *Zone) {
	node := r.has("overseed")
	if node == nil {
		return
	}
	s := r.under("overseed", node)
	if s.node == nil {
		return
	}
	var o sim.Overseed
	ok := true
	for _, v := range []struct {
		key string
		at  *sim.DayOfYear
	}{{"from", &o.From}, {"to", &o.To}} {
		n, found := s.word(v.key)
		if !found {
			s.missing(v.key, "add "+v.key+", a day of the year such as 10-15")
			ok = false
			continue
		}
		day, valid := s.yearDay(n, v.key)
		*v.at = sim.DayOfYear{Month: day / 100, Day: day % 100}
		ok = ok && valid
	}
	n, found := s.word("plant")
	if !found {
		s.missing("plant", "add plant, a name from the catalog such as overseeded ryegrass")
		return
	}
	plant, known := s.plantNamed(n, s.where+": plant")
	if !known {
		return
	}
	s.givenWord(s.path("plant"), n)
	if !ok {
		return
	}
	factor := z.Density * z.Microclimate
	season := noSeason()
	for _, v := range []struct {
		f  catalog.Figure
		at *float64
	}{{plant.Ka, &season.Ka}, {plant.Kd, &season.Kd}, {plant.T0C, &season.T0C}, {plant.T1C, &season.T1C}} {
		if v.f.Known() {
			*v.at = v.f.Value
		}
	}
	o.Season, o.P = season.of(factor), orTypical(ZoneBasis{}, plant.P, func(catalog.Plant) catalog.Figure { return catalog.DefaultP() }).Value
	for m, k := range plant.Coefficients[0].K {
		o.K[m] = k * factor
	}
	basis := ZoneBasis{Plant: plant}
	o.ToleranceR7, o.BrowningR7 = r.param("plant.tolerance").Default(basis).Value, r.param("plant.browning").Default(basis).Value
	z.Overseed, z.OverseedPlant = &o, strings.TrimSpace(plant.Name)
}
