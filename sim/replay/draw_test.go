package replay_test

import (
	"maps"
	"math"
	"math/rand/v2"
	"slices"

	"pgregory.net/rapid"

	"loamledger/sim"
	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/weather/cal"
)

// drawWeather draws a record of n days: seasons, storms, drizzle, long dry
// spells and days without any demand.
func drawWeather(t *rapid.T, n int) sim.Weather {
	r := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "weather seed"), 7))
	wet := rapid.SampledFrom([]float64{0, 0.05, 0.3, 0.9}).Draw(t, "share of wet days")
	warm := rapid.SampledFrom([]float64{0, 2, 6, 12}).Draw(t, "warmth")
	w := sim.Weather{Start: cal.Of(1999, 1, 1) + cal.Date(rapid.IntRange(0, 800).Draw(t, "start")), RainMM: make([]float64, n),
		EToMM: make([]float64, n), TmaxC: make([]float64, n), TminC: make([]float64, n), WindMS: make([]float64, n)}
	for i := range n {
		season := math.Sin(2 * math.Pi * float64(i) / 365)
		w.EToMM[i] = max(0, warm*(0.6+0.4*season)+r.NormFloat64())
		w.TminC[i] = 6 + 10*season + 4*r.NormFloat64()
		w.TmaxC[i] = w.TminC[i] + 4 + 8*r.Float64()
		w.WindMS[i] = 2 * r.ExpFloat64()
		if r.Float64() < wet {
			w.RainMM[i] = []float64{0.3, 4, 25, 90}[r.IntN(4)] * r.ExpFloat64()
		}
	}
	if rapid.IntRange(0, 9).Draw(t, "temperatures") == 0 {
		w.TmaxC = nil
	}
	return w
}

// drawSeason draws how a plant follows temperature, or nil.
func drawSeason(t *rapid.T) *sim.Season {
	if rapid.IntRange(0, 3).Draw(t, "season") == 0 {
		return nil
	}
	s := &sim.Season{Ka: rapid.Float64Range(0.2, 1.3).Draw(t, "Ka"), Kd: rapid.Float64Range(0, 0.6).Draw(t, "Kd"),
		T0C: rapid.Float64Range(-5, 16).Draw(t, "T0"), ActivityOnly: rapid.IntRange(0, 4).Draw(t, "activity only") == 0}
	s.T1C = s.T0C + rapid.Float64Range(1, 15).Draw(t, "T1")
	return s
}

// drawMarks draws tolerance and browning, now and then at their limits.
func drawMarks(t *rapid.T) (tolerance, browning float64) {
	mark := rapid.OneOf(rapid.Float64Range(0, 1), rapid.SampledFrom([]float64{0, 1}))
	return mark.Draw(t, "tolerance"), mark.Draw(t, "browning")
}

func drawZone(t *rapid.T, name string) sim.Zone {
	num := func(label string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, label) }
	z := sim.Zone{
		Name:             name,
		AreaM2:           num("area", 1, 5000),
		TAWMM:            num("TAW", 3, 250),
		P:                num("p", 0.1, 0.8),
		PConstant:        rapid.Bool().Draw(t, "p constant"),
		PRMMH:            num("PR", 2, 80),
		LossShare:        num("loss", 0, 0.5),
		DULQ:             num("DU", 0.25, 1),
		Strips:           rapid.SampledFrom([]int{1, 4, 8, 12, 16, 20}).Draw(t, "strips"),
		IntakeMMH:        num("intake", 0.5, 60),
		SurfaceStorageMM: rapid.SampledFrom([]float64{0, 1.5, 6, 15}).Draw(t, "ASA"),
		Rain: sim.Rain{Method: rapid.SampledFrom([]sim.RainMethod{sim.CurveNumber, sim.FixedShare}).Draw(t, "rain method"),
			CN: num("CN", 30, 100), EffectiveShare: num("effective", 0, 1)},
	}
	if rapid.Bool().Draw(t, "losses") {
		z.OversprayShare, z.BrokenShare, z.FillDrainMM, z.LeakMMDay = num("overspray", 0, 0.3), num("broken", 0, 0.19),
			num("fill and drain", 0, 2), num("leak", 0, 1)
	}
	z.Rain.KeepLight = rapid.Bool().Draw(t, "light rain counts")
	k := num("K", 0, 1.3)
	for m := range z.K {
		z.K[m] = k * (1 - float64(m%5)/8)
	}
	z.Season = drawSeason(t)
	z.ToleranceR7, z.BrowningR7 = drawMarks(t)
	if rapid.IntRange(0, 3).Draw(t, "overseeded") == 0 {
		o := &sim.Overseed{P: num("p of the second plant", 0.1, 0.8), Season: drawSeason(t)}
		o.ToleranceR7, o.BrowningR7 = drawMarks(t)
		for _, d := range []*sim.DayOfYear{&o.From, &o.To} {
			d.Month, d.Day = rapid.IntRange(1, 12).Draw(t, "month"), rapid.IntRange(1, 28).Draw(t, "day")
		}
		for m := range o.K {
			o.K[m] = 0.3 + float64(m%4)/5
		}
		z.Overseed = o
	}
	return z
}

func drawZones(t *rapid.T, most int) []sim.Zone {
	zones := make([]sim.Zone, rapid.IntRange(1, most).Draw(t, "zones"))
	for i := range zones {
		zones[i] = drawZone(t, string(rune('a'+i)))
	}
	return zones
}

func drawRule(t *rapid.T, start cal.Date) strategy.DayRule {
	r := strategy.DayRule{Kind: strategy.DayKind(rapid.IntRange(0, 4).Draw(t, "day kind"))}
	for d := range r.Weekdays {
		r.Weekdays[d] = rapid.Bool().Draw(t, "weekday")
	}
	r.Every = rapid.IntRange(1, 9).Draw(t, "every")
	r.From = start + cal.Date(rapid.IntRange(-40, 40).Draw(t, "from"))
	return r
}

func drawProgram(t *rapid.T, name string, zones int, start cal.Date) strategy.Program {
	p := strategy.Program{Name: name, Days: drawRule(t, start), Minutes: make([]float64, zones)}
	for i := range rapid.IntRange(1, 3).Draw(t, "starts") {
		p.Starts = append(p.Starts, 300+90*i)
	}
	for i := range p.Minutes {
		p.Minutes[i] = float64(rapid.IntRange(0, 70).Draw(t, "minutes"))
	}
	p.Cycle = rapid.SampledFrom([]float64{0, 4, 7.5, 20}).Draw(t, "cycle")
	p.Soak = rapid.SampledFrom([]float64{0, 10, 45}).Draw(t, "soak")
	if rapid.Bool().Draw(t, "dated") {
		p.From = start + cal.Date(rapid.IntRange(-20, 200).Draw(t, "first day"))
		p.To = p.From + cal.Date(rapid.IntRange(0, 120).Draw(t, "length"))
		// Factors that put no run on the edge of a rounding, where the order of
		// multiplication decides.
		p.RampTo = rapid.SampledFrom([]float64{0, 0.2371, 1.5137}).Draw(t, "ramp")
		if p.RampTo == 0 && rapid.Bool().Draw(t, "open end") {
			p.To = 0
		}
	}
	return p
}

// someOf draws for each zone whether it is meant.
func someOf(t *rapid.T, label string, zones int) []bool {
	return rapid.SliceOfN(rapid.Bool(), zones, zones).Draw(t, label)
}

// drawSetting draws a legal strategy: any stack of the parts there are.
func drawSetting(t *rapid.T, name string, zones int, start cal.Date) *setting {
	has := func(label string) bool { return rapid.Bool().Draw(t, label) }
	s := &setting{name: name}
	for i := range rapid.IntRange(0, 3).Draw(t, "programs") {
		s.programs = append(s.programs, drawProgram(t, string(rune('p'+i)), zones, start))
	}
	if has("monthly") {
		s.monthly = &strategy.Monthly{}
		for m := range s.monthly.Share {
			s.monthly.Share[m] = float64(rapid.IntRange(0, 30).Draw(t, "percent")) / 20
		}
	}
	if has("et") {
		s.et = &strategy.ETPercent{DesignEToMM: rapid.Float64Range(0.5, 10).Draw(t, "design"), Days: rapid.IntRange(1, 20).Draw(t, "over"),
			SubtractRain: has("count rain"), Min: rapid.SampledFrom([]float64{0, 0.2}).Draw(t, "least"),
			Max: rapid.SampledFrom([]float64{1, 2.5}).Draw(t, "most")}
	}
	if has("rain") {
		s.rain = &strategy.RainHold{AtLeastMM: rapid.SampledFrom([]float64{0, 3, 12.5}).Draw(t, "above"),
			DryOut: rapid.IntRange(1, 9).Draw(t, "dry out")}
	}
	if has("freeze") {
		s.freeze = &strategy.FrostHold{BelowC: rapid.SampledFrom([]float64{-4, 2.8, 9}).Draw(t, "below")}
	}
	if has("round") {
		s.round = rapid.SampledFrom([]float64{0.5, 1, 5}).Draw(t, "round")
	}
	if has("refill") {
		s.refill = &strategy.Refill{Zones: someOf(t, "refilled", zones), MAD: rapid.Float64Range(0.05, 0.95).Draw(t, "MAD"),
			Days: drawRule(t, start), Extra: rapid.SampledFrom([]float64{-1, 0, 0.3}).Draw(t, "extra"),
			CycleMin: rapid.SampledFrom([]float64{0, 6}).Draw(t, "cycle"), SoakMin: 25}
	}
	if has("sensor") {
		s.sensor = &strategy.Sensor{PermitAt: rapid.Float64Range(0.02, 0.9).Draw(t, "permit"), Zones: someOf(t, "sensed", zones),
			Placement: rapid.SampledFrom([]string{"driest", "average", "wettest"}).Draw(t, "placement")}
	}
	return s
}

// A site is a drawn job and the settings behind its strategies.
type site struct {
	job      replay.Job
	settings []*setting
}

// drawSite draws zones, weather and strategies.
func drawSite(t *rapid.T, mostZones, mostStrategies, mostDays int) *site {
	s := &site{}
	s.job.Weather = drawWeather(t, rapid.IntRange(1, mostDays).Draw(t, "days"))
	s.job.Zones = drawZones(t, mostZones)
	s.job.NoSpinUp = rapid.Bool().Draw(t, "no spin-up")
	if s.job.NoSpinUp {
		s.job.StartShare = rapid.Float64Range(0, 1).Draw(t, "start")
	}
	for i := range rapid.IntRange(1, mostStrategies).Draw(t, "strategies") {
		set := drawSetting(t, string(rune('A'+i)), len(s.job.Zones), s.job.Weather.Start)
		s.settings = append(s.settings, set)
		s.job.Strategies = append(s.job.Strategies, set.strategy())
	}
	return s
}

// changedFrom returns a copy of w in which every day from k on is another.
func changedFrom(w sim.Weather, k int, seed uint64) sim.Weather {
	r := rand.New(rand.NewPCG(seed, 11))
	w.TmaxC = slices.Clone(w.TmaxC)
	w.RainMM, w.EToMM, w.TminC, w.WindMS = slices.Clone(w.RainMM), slices.Clone(w.EToMM), slices.Clone(w.TminC), slices.Clone(w.WindMS)
	for i := k; i < len(w.RainMM); i++ {
		w.RainMM[i], w.EToMM[i], w.TminC[i], w.WindMS[i] = 30*r.Float64(), 12*r.Float64(), 40*r.Float64()-15, 9*r.Float64()
		if w.TmaxC != nil {
			w.TmaxC[i] = w.TminC[i] + 20*r.Float64()
		}
	}
	return w
}

// drawMore adds to a site what the plain model does not follow: a zone that is
// a plain working store, and strategies stacked from every kind of part.
func drawMore(t *rapid.T, s *site) {
	if rapid.Bool().Draw(t, "working storage") {
		z := &s.job.Zones[0]
		z.WorkingStorage, z.P, z.DULQ, z.Strips = true, 0.5, 1, 1
	}
	if len(s.job.Zones) != peekZones {
		return
	}
	table := everyKind(s.job.Weather.Start)
	kinds := slices.Sorted(maps.Keys(table))
	st := strategy.Strategy{Name: "stacked"}
	for range rapid.IntRange(1, 5).Draw(t, "parts") {
		list := table[rapid.SampledFrom(kinds).Draw(t, "kind")]
		st.Parts = append(st.Parts, list[rapid.IntRange(0, len(list)-1).Draw(t, "which")].Parts...)
	}
	s.job.Strategies = append(s.job.Strategies, st)
}
