package scenarios

import (
	"strings"

	"loamledger/scenarios/catalog"
	"loamledger/sim"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// siteRules are site-wide settings for zones without their own.
type siteRules struct {
	strips       *Node
	rain         *Node
	coefficients *Node
}

func (b *builder) readSite(top group) {
	site := &b.sc.Site
	site.LatDeg, site.LonDeg, site.ElevM = nan, nan, nan
	node := top.has("site")
	if node == nil {
		top.missing("site", "add site: {name: My place, latitude: 38.9, elevation: 1600 ft}, with your values",
			"site: {name: My place, latitude: 38.9, elevation: 1600 ft}")
		return
	}
	g := b.open(node, "site", "site", "name", "latitude", "longitude", "elevation", "strips", "rain", "coefficients")
	if n, ok := g.word("name"); ok && g.tidy(n) {
		site.Name = strings.TrimSpace(n.Text)
		b.givenWord("site.name", n)
	} else {
		g.missing("name", "add name, which is printed on every chart")
	}
	site.LatDeg, _ = g.number(want{key: "latitude", shape: shape{bare: true}, min: -90, max: 90, quiet: true,
		fix: "write decimal degrees from -90 to 90, south negative"})
	site.LonDeg, _ = g.number(want{key: "longitude", shape: shape{bare: true}, min: -180, max: 180, quiet: true,
		fix: "write decimal degrees from -180 to 180, west negative"})
	site.ElevM, _ = g.number(want{key: "elevation", shape: shape{dim: quantity.Length}, min: -450, max: 6000, quiet: true})
	b.site = siteRules{strips: g.has("strips"), rain: g.has("rain"), coefficients: g.has("coefficients")}
	// Site rules are checked here too, so that an error is found even if every
	// zone overrides the rule, and is reported once.
	mark := len(b.sc.Inputs)
	if n := b.site.strips; n != nil {
		if _, ok := g.strips(n); !ok {
			b.site.strips = nil
		}
	}
	if n := b.site.rain; n != nil {
		if _, ok := g.rain(n); !ok {
			b.site.rain = nil
		}
	}
	if n := b.site.coefficients; n != nil {
		if _, ok := g.set(n); !ok {
			b.site.coefficients = nil
		}
	}
	b.sc.Inputs = b.sc.Inputs[:mark] // they are recorded with each zone
}

// strips reads a number of strips.
func (g group) strips(n *Node) (int, bool) {
	v, ok := g.parse(n, want{key: "strips", shape: shape{bare: true}, min: 1, max: 20, whole: true})
	if !ok {
		return 0, false
	}
	switch k := int(v); k {
	case 1, 4, 8, 12, 16, 20:
		return k, true
	}
	g.fault(diag.OutOfRange, n.Pos, "write 1, 4, 8, 12, 16 or 20",
		"%s: strips %s is not allowed: the low quarter must be a whole number of strips", g.where, n.Text)
	return 0, false
}

// rain reads a rain rule; the zone adds the curve number.
func (g group) rain(n *Node) (sim.Rain, bool) {
	r := g.open(n, g.where+": rain", g.path("rain"), zoneKeys(g.params, "rain")...)
	if r.node == nil {
		return sim.Rain{}, false
	}
	methods := rainMethods()
	word, ok := r.choice("method", methods)
	if !ok {
		r.missing("method", "add method: curve number, or method: share", "method: curve number", "method: share")
		return sim.Rain{}, false
	}
	if word == methods[0] {
		if e := r.has("effective"); e != nil {
			r.fault(diag.NoEffect, e.Pos, "remove it, or write method: share", "%s: effective requires method: share", r.where).
				SuggestAt(r.node.Get("method").Pos, diag.Value, "share")
			return sim.Rain{}, false
		}
		return sim.Rain{Method: sim.CurveNumber}, true
	}
	v, ok := r.number(g.param("rain.effective").want(ZoneBasis{}))
	return sim.Rain{Method: sim.FixedShare, EffectiveShare: v}, ok
}

// set reads the name of a coefficient set.
func (g group) set(n *Node) (string, bool) {
	if n.Kind == Scalar {
		if i := g.known(n, catalog.Sets()); i >= 0 {
			return catalog.Sets()[i], true
		}
		g.fault(diag.UnknownName, n.Pos, g.didYouMean(n.Text, catalog.Sets()), "%s: unknown coefficient set %s", g.where, quoted(n.Text))
		return "", false
	}
	g.fault(diag.WrongShape, n.Pos, "write one of: "+listed(catalog.Sets()), "%s: coefficients is %s, not the name of a set", g.where,
		n.what())
	return "", false
}

func (b *builder) readWeather(top group) {
	w := &b.sc.Weather
	w.WindHeightM = nan
	node := top.has("weather")
	if node == nil {
		top.missing("weather", "add weather: {file: weather.csv}", "weather: {file: weather.csv}")
		return
	}
	w.Pos = node.Pos
	g := b.open(node, "weather", "weather", "file", "rain_file", "fill_files", "wind_height", "layout", "units", "station", "from", "to",
		"layout_file", "max_fill_days", "max_fill_run", "exclude_years", "dew_point_offset", "coastal", "default_wind", "calibrate",
		"compute_eto", "accept")
	w.Files = g.files("file")
	if len(w.Files) == 0 {
		g.missing("file", "add file, the name of a weather file in the scenario's folder")
	}
	w.FillFiles = g.files("fill_files")
	if rain := g.files("rain_file"); len(rain) == 1 {
		w.RainFile = &rain[0]
	} else if len(rain) > 1 {
		g.fault(diag.WrongShape, rain[1].Pos, "name one file", "weather: rain_file names %d files", len(rain))
	}
	w.WindHeightM, _ = g.number(want{key: "wind_height", shape: shape{dim: quantity.Length}, min: 0.5, max: 100, quiet: true})
	if n, ok := g.word("layout"); ok {
		w.Layout = strings.TrimSpace(n.Text)
		b.givenWord("weather.layout", n)
	}
	if n, ok := g.word("station"); ok {
		w.Station = strings.TrimSpace(n.Text)
		b.givenWord("weather.station", n)
	}
	w.Units, _ = g.choice("units", []string{"si", "us", "tenths"})
	w.Dates = g.period()
	g.weatherRules(&w.WeatherRules)
}

// files reads a file name or a list of them.
func (g group) files(key string) []File {
	n := g.has(key)
	if n == nil {
		return nil
	}
	var out []File
	seen := map[string]diag.Pos{}
	if len(g.items(n)) == 0 {
		g.fault(diag.EmptyValue, n.Pos, "write a file name, or a list of them", "%s: %s is an empty list", g.where, key)
	}
	for _, item := range g.items(n) {
		name := strings.TrimSpace(item.Text)
		if item.Kind != Scalar || name == "" || strings.ContainsRune(name, 0) {
			g.fault(diag.WrongShape, item.Pos, "write a file name, or a list of them", "%s: %s is %s, not a file name", g.where, key, item.what())
			continue
		}
		if first, ok := seen[name]; ok {
			g.fault(diag.Duplicate, item.Pos, "name each file once", "%s: %s: duplicate file %s, see %v", g.where, key, quoted(name), first)
			continue
		}
		seen[name] = item.Pos
		out = append(out, File{Name: name, Pos: item.Pos})
	}
	g.givenList(g.path(key), n, g.items(n))
	return out
}
