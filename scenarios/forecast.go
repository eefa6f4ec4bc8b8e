package scenarios

import (
	"slices"
	"strings"

	"loamledger/scenarios/catalog"
	"loamledger/sim/strategy"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// A Forecast is the source of a site's forecasts: a file, synthetic forecasts
// made from the record with a stated skill, or both. With both, the synthetic
// ones serve the record and the file the days after it.
type Forecast struct {
	Pos       diag.Pos
	File      *File      // nil for synthetic forecasts alone
	Layout    string     // of a daily weather file; empty to detect it
	Units     string     // "", "si", "us" or "tenths": for layouts that state no units
	Declared  *File      // layout file that describes an unknown layout; nil for none
	Synthetic *Synthetic // nil for none
}

// Synthetic describes synthetic forecasts.
type Synthetic struct {
	Seed        uint64
	ThresholdMM float64 // minimum rain of an event [mm], 0.1 to 200
	Leads       []Skill // by days ahead, from 1; empty for the skill of a public forecast
}

// A Skill is the forecast skill at one lead.
type Skill struct{ POD, FAR float64 } // shares from 0 to 1

// mostForecastLeads is the maximum number of leads.
const mostForecastLeads = 15

func (b *builder) readForecast(top group) {
	node := top.has("forecast")
	if node == nil {
		return
	}
	g := b.open(node, "forecast", "forecast", "file", "layout", "layout_file", "units", "synthetic")
	if g.node == nil {
		return
	}
	f := &Forecast{Pos: node.Pos}
	b.sc.Forecast = f
	files, made := g.files("file"), g.has("synthetic")
	switch {
	case len(files) > 1:
		g.fault(diag.WrongShape, files[1].Pos, "put all forecasts in one file", "forecast: file names %d files", len(files))
	case len(files) == 1:
		f.File = &files[0]
	case made == nil && g.node.Get("file") == nil && g.node.Get("synthetic") == nil:
		g.fault(diag.MissingKey, node.Pos, "add file: forecast.csv, or synthetic: {seed: 1}", "forecast: neither file nor synthetic is given").
			Suggest(diag.Key, "file: forecast.csv", "synthetic: {seed: 1}")
	}
	g.forecastLayout(f)
	if made != nil {
		f.Synthetic = &Synthetic{}
		b.synthetic(made, f.Synthetic)
	}
}

// forecastLayout reads how a forecast file without days of issue is laid out.
func (g group) forecastLayout(f *Forecast) {
	if n, ok := g.word("layout"); ok {
		f.Layout = strings.TrimSpace(n.Text)
		g.givenWord(g.path("layout"), n)
	}
	f.Units, _ = g.choice("units", []string{"si", "us", "tenths"})
	if files := g.files("layout_file"); len(files) == 1 {
		f.Declared = &files[0]
	} else if len(files) > 1 {
		g.fault(diag.WrongShape, files[1].Pos, "name one file", "forecast: layout_file names %d files", len(files))
	}
	for _, key := range []string{"layout", "layout_file", "units"} {
		if n := g.has(key); n != nil && f.File == nil {
			g.fault(diag.NoEffect, n.Pos, "add file, or remove it", "forecast: %s requires file", key)
		}
	}
}

func (b *builder) synthetic(node *Node, s *Synthetic) {
	g := b.open(node, "forecast: synthetic", "forecast.synthetic", "seed", "threshold", "leads")
	seed, _ := g.number(want{key: "seed", shape: shape{bare: true}, max: 1 << 53, whole: true,
		fix: "add seed, a whole number; the same seed gives the same forecasts"})
	if seed >= 0 {
		s.Seed = uint64(seed)
	}
	s.ThresholdMM, _ = g.number(want{key: "threshold", shape: shape{dim: quantity.Depth}, min: 0.1, max: 200, dflt: catalog.Figure{
		Value: 5, Grade: catalog.Memory, Source: "threshold of published forecast verification, 5 mm"}})
	n := g.has("leads")
	if n == nil {
		if g.node != nil && g.node.Get("leads") == nil {
			b.defaultedWord("forecast.synthetic.leads", "skill of a modern public forecast, days 1 to 5", catalog.Guess,
				"POD 65 to 40%, FAR 38 to 58%; day 1 close to an official verification in Victoria, Australia, 2008-09; our choice")
		}
		return
	}
	items := g.items(n)
	if len(items) > mostForecastLeads {
		g.fault(diag.TooLarge, items[mostForecastLeads].Pos, "remove the later ones",
			"forecast: synthetic: leads has %d entries; the maximum is %d", len(items), mostForecastLeads)
		return
	}
	for i, item := range items {
		where, key := "forecast: synthetic: lead "+quantity.Number(float64(i+1), 4), "forecast.synthetic.lead "+quantity.Number(float64(i+1), 4)
		if item.Kind != Map {
			g.fault(diag.WrongShape, item.Pos, "write {pod: 65%, far: 38%} for each lead", "%s is %s, not a group of keys", where, item.what()).
				Suggest(diag.Value, "{pod: 65%, far: 38%}")
			continue
		}
		l := b.open(item, where, key, "pod", "far")
		pod, _ := l.number(want{key: "pod", shape: shape{dim: quantity.Fraction}, max: 1,
			fix: "add pod, the share of rain events that are forecast"})
		far, _ := l.number(want{key: "far", shape: shape{dim: quantity.Fraction}, max: 0.99,
			fix: "add far, the share of forecast events that do not occur"})
		s.Leads = append(s.Leads, Skill{POD: pod, FAR: far})
	}
}

// UseSiteForecast returns the names of the strategies that hold watering by the
// site's forecast.
func (sc *Scenario) UseSiteForecast() []string {
	var names []string
	for i := range sc.Strategies {
		st := &sc.Strategies[i]
		if slices.ContainsFunc(sc.warningsOf(st), func(w strategy.Warnings) bool { return w.SiteForecast }) {
			names = append(names, st.Name)
		}
	}
	return names
}

// A ForecastUse is a rule for rain in the site's forecast, and the strategies
// that hold watering by it.
type ForecastUse struct {
	strategy.RainRule
	Strategies []string
}

// ForecastUses returns the different rules by which strategies hold watering,
// in the order of the strategies. Rules that differ only in how far they look
// ahead are one, with the most days.
func (sc *Scenario) ForecastUses() (out []ForecastUse) {
	for i := range sc.Strategies {
		st := &sc.Strategies[i]
		for _, w := range sc.warningsOf(st) {
			if w.Rain == nil {
				continue
			}
			k := slices.IndexFunc(out, func(u ForecastUse) bool {
				return u.AtLeastMM == w.Rain.AtLeastMM && u.MinProbability == w.Rain.MinProbability
			})
			if k < 0 {
				k = len(out)
				out = append(out, ForecastUse{RainRule: *w.Rain})
			}
			out[k].Days = max(out[k].Days, w.Rain.Days)
			if !slices.Contains(out[k].Strategies, st.Name) {
				out[k].Strategies = append(out[k].Strategies, st.Name)
			}
		}
	}
	return out
}

// missForecast records that strategies need forecasts the scenario does not
// have.
func (b *builder) missForecast() {
	if b.sc.Forecast != nil {
		return
	}
	if names := b.sc.UseSiteForecast(); len(names) > 0 {
		b.defaultedWord("forecast", "none", catalog.Guess,
			"no forecast is given, so the forecast hold has no effect in "+strings.Join(names, ", "))
	}
}
