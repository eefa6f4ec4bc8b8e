package sim

// A DayKey is everything in a zone that its day records, and what its plants do,
// depend on, other than their marks. Zones with equal keys can share both under one
// weather.
type DayKey struct {
	tawMM             float64
	constant, working bool
	rain              Rain
	own               plantKey
	over              plantKey
	overseeded        bool
	from, to          DayOfYear
}

// plantKey is the part of a DayKey about one of the plants.
type plantKey struct {
	k        [12]float64
	p        float64
	season   Season
	seasonal bool
}

func plantKeyOf(k [12]float64, p float64, s *Season) plantKey {
	key := plantKey{k: k, p: p}
	if s != nil {
		key.season, key.seasonal = *s, true
	}
	return key
}

// DayKey returns the key of z.
func (z *Zone) DayKey() DayKey {
	key := DayKey{
		tawMM: z.TAWMM, constant: z.PConstant, working: z.WorkingStorage, rain: z.Rain, own: plantKeyOf(z.K, z.P, z.Season),
	}
	if o := z.Overseed; o != nil {
		key.over, key.overseeded, key.from, key.to = plantKeyOf(o.K, o.P, o.Season), true, o.From, o.To
	}
	return key
}

// Share makes g the growth of zone z, whose key is that of the zone that of was
// made for. It shares the columns of that growth.
func (g *Growth) Share(of *Growth, z *Zone) {
	moved := g.moved[:0]
	*g = *of
	g.moved = moved
	g.setMarks(z)
}
