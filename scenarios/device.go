package scenarios

import (
	"fmt"
	"strings"

	"loamledger/scenarios/catalog"
	"loamledger/scenarios/names"
	"loamledger/sim/clock"
	"loamledger/sim/timer"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// A Controller opens the valves of its zones.
type Controller struct {
	Name     string // empty for the only controller of a site that names none
	pos      diag.Pos
	Stations int // valves that it can serve; 0 if not stated
	// AtOnce is the number of zones that it runs at the same time; 0 for as many as
	// the flow allows, which is what a site without controllers does under limits with a
	// flow.
	AtOnce  int
	Timer   *timer.Profile // what it can be set to; nil if not stated
	Windows []clock.Window // hours in which it may water, in addition to the limits; none for all
}

// A Meter is a water meter that zones draw from.
type Meter struct {
	Name     string // empty for the only meter of a site that names none
	Pos      diag.Pos
	FlowLMin float64 // the flow that it, its main and its pump allow [L/min]; 0 if not stated
	Reads    *File   // its reads; nil for none
	Serves   string  // [ServesIrrigation], [ServesMixed], or empty if not stated
	MeterUse
}

// What a meter serves.
const (
	ServesIrrigation = "irrigation" // only the zones of the site
	ServesMixed      = "mixed"      // other uses, too
)

// Maximum numbers that bound the work that a hostile file can cause.
const (
	mostDevices  = 100
	mostStations = 500
	mostAtOnce   = 50
)

// Wiring returns the controllers and meters in the form the engine needs.
func (sc *Scenario) Wiring() *clock.Wiring {
	w := &clock.Wiring{}
	for i := range sc.Controllers {
		w.AtOnce = append(w.AtOnce, sc.Controllers[i].AtOnce)
	}
	for i := range sc.Meters {
		w.MeterLMin = append(w.MeterLMin, sc.Meters[i].FlowLMin)
	}
	for i := range sc.Zones {
		w.Controller, w.Meter = append(w.Controller, sc.Zones[i].Controller), append(w.Meter, sc.Zones[i].Meter)
	}
	return w
}

// readDevices reads the controllers and meters, which zones and limits name. A site that
// names none has one of each.
func (b *builder) readDevices(top group) {
	b.readControllers(top)
	b.readMeters(top)
}

func (b *builder) readControllers(top group) {
	taken := map[string]diag.Pos{}
	for i, item := range top.devices("controllers", "controllers: [{name: clock A}]") {
		n, where := b.name(item, "controller", i)
		if n == nil {
			b.unnamed = true
			continue
		}
		b.unique(taken, "controller", n)
		g := b.open(item, where, "controllers."+n.Text, "name", "stations", "at_once", "timer", "window")
		b.sc.Controllers = append(b.sc.Controllers, g.controller(n.Text, item.Pos))
	}
	if b.sc.Controllers == nil {
		b.sc.Controllers = []Controller{{AtOnce: 1}}
	}
}

func (g group) controller(name string, at diag.Pos) Controller {
	c := Controller{Name: name, pos: at, AtOnce: 1}
	stations := want{key: "stations", shape: shape{bare: true}, min: 1, max: mostStations, whole: true, quiet: true,
		fix: fmt.Sprintf("write how many valves it can serve, from 1 to %d", mostStations)}
	if v, ok := g.number(stations); ok {
		c.Stations = int(v)
	} else if g.node.Get("stations") == nil {
		g.off("stations", "not stated: any number of zones")
	}
	atOnce := want{key: "at_once", shape: shape{bare: true}, min: 1, max: mostAtOnce, whole: true,
		fix:  fmt.Sprintf("write how many zones it runs at the same time, from 1 to %d", mostAtOnce),
		dflt: catalog.Figure{Value: 1, Grade: catalog.Guess, Source: "one zone after another, as most controllers do; our choice"}}
	if v, ok := g.number(atOnce); ok {
		c.AtOnce = int(v)
	}
	if n := g.has("timer"); n != nil {
		c.Timer = g.profile(n)
	}
	if n := g.has("window"); n != nil {
		c.Windows = g.windows(n)
	}
	return c
}

func (b *builder) readMeters(top group) {
	taken := map[string]diag.Pos{}
	for i, item := range top.devices("meters", "meters: [{name: main, flow: 30 gpm}]") {
		n, where := b.name(item, "meter", i)
		if n == nil {
			b.unnamed = true
			continue
		}
		b.unique(taken, "meter", n)
		g := b.open(item, where, "meters."+n.Text, append(meterUseKeys(), "name", "flow", "reads", "serves")...)
		m := Meter{Name: n.Text, Pos: item.Pos}
		if m.FlowLMin = g.mainFlow(); g.node.Get("flow") == nil {
			g.off("flow", "not stated: any flow")
		}
		m.Reads = g.oneFile("reads")
		if m.Serves, _ = g.choice("serves", []string{ServesIrrigation, ServesMixed}); g.node.Get("serves") == nil {
			g.off("serves", "not stated")
		}
		m.MeterUse = g.meterUse()
		if n := g.node.Get("base_use"); n != nil && m.Serves == ServesIrrigation {
			g.fault(diag.Conflict, n.Pos, "remove it, or write serves: mixed", "%s: a meter that serves irrigation has no base use", g.where)
		}
		b.sc.Meters = append(b.sc.Meters, m)
	}
	if b.sc.Meters == nil {
		b.sc.Meters = []Meter{{MeterUse: MeterUse{ChangedTo: -1}}}
	}
}

// devices returns the entries of a list of controllers or meters; none without the key.
func (g group) devices(key, example string) []*Node {
	n := g.has(key)
	if n == nil {
		return nil
	}
	if n.Kind != List {
		g.unnamed = true
		g.fault(diag.WrongShape, n.Pos, "write a list, such as "+example, "%s is %s, not a list", key, n.what()).Suggest(diag.Key, example)
		return nil
	}
	return g.entries(key, mostDevices, "add an entry, such as "+example+", or remove the key")
}

// mainFlow reads the flow that a meter allows [L/min]; 0 if it is not given.
func (g group) mainFlow() float64 {
	v, ok := g.number(want{key: "flow", shape: shape{dim: quantity.Flow}, min: leastMainLMin, max: 1e5, quiet: true,
		fix: "write the flow that meter, main and pump allow, such as 40 gpm"})
	if !ok {
		return 0
	}
	return v
}

// off lists a value that is not stated and turns something off.
func (g group) off(key, text string) {
	g.sc.Inputs = append(g.sc.Inputs, Input{Key: g.path(key), Text: text, Defaulted: true, Off: true, Source: "assumption by loamledger",
		Grade: catalog.Guess})
}

// limitsFlow reads the flow under limits, which is that of the only meter. Without
// controllers, zones run together up to that flow.
func (g group) limitsFlow() {
	n := g.node.Get("flow")
	if n == nil {
		return
	}
	flow := g.mainFlow()
	meters := g.sc.Meters
	switch {
	case len(meters) > 1:
		g.fault(diag.Conflict, n.Pos, "write flow under each of meters: "+listed(meterNames(meters)),
			"%s: flow is the flow of the only meter, and the site has %d meters", g.where, len(meters))
		return
	case meters[0].FlowLMin > 0:
		g.fault(diag.Conflict, n.Pos, "remove one", "%s: flow is given here and for meter %q", g.where, meters[0].Name)
		return
	}
	meters[0].FlowLMin = flow
	if c := g.sc.Controllers; len(c) == 1 && c[0].Name == "" && flow > 0 {
		c[0].AtOnce = 0
		g.defaultedWord("controllers.at_once", "as many zones as limits.flow allows", catalog.Guess,
			"name the controller under controllers to set a number; our choice")
	}
}

func controllerNames(list []Controller) (out []string) {
	for i := range list {
		out = append(out, list[i].Name)
	}
	return out
}

func meterNames(list []Meter) (out []string) {
	for i := range list {
		out = append(out, list[i].Name)
	}
	return out
}

// devices reads the controller and the meter of a zone.
func (r *zoneReader) devices(z *Zone) {
	z.Controller = r.device("controller", "controllers", controllerNames(r.sc.Controllers))
	z.Meter = r.device("meter", "meters", meterNames(r.sc.Meters))
	z.ControllerName, z.MeterName = r.sc.Controllers[z.Controller].Name, r.sc.Meters[z.Meter].Name
}

// device reads which of the named devices a zone is on: the only one by default.
func (r *zoneReader) device(key, list string, known []string) int {
	n, ok := r.word(key)
	switch {
	case r.unnamed:
		return 0 // an error in the list has been reported
	case !ok && r.node.Get(key) == nil && len(known) > 1:
		r.missing(key, "add "+key+", one of: "+parted(known), key+": "+known[0])
		return 0
	case !ok:
		return 0
	case known[0] == "":
		r.fault(diag.UnknownName, n.Pos, fmt.Sprintf("add %s: [{name: %s}] to the scenario, or remove it", list, strings.TrimSpace(n.Text)),
			"%s: %s %s, and the scenario lists no %s", r.where, key, quoted(n.Text), list)
		return 0
	}
	i := names.Find(n.Text, known)
	if i < 0 {
		r.fault(diag.UnknownName, n.Pos, r.didYouMean(n.Text, known), "%s: no %s is called %s", r.where, key, quoted(n.Text))
		return 0
	}
	r.understand(n, known[i])
	r.givenWord(r.path(key), n)
	return i
}

// fullControllers rejects a controller with more zones than stations, and warns of zones
// that draw more than their meter allows.
func (b *builder) fullControllers() {
	if b.faults.Len() > 0 {
		return // zones may be missing
	}
	for c := range b.sc.Controllers {
		of := &b.sc.Controllers[c]
		zones := 0
		for i := range b.sc.Zones {
			if b.sc.Zones[i].Controller == c {
				zones++
			}
		}
		if of.Stations > 0 && zones > of.Stations {
			b.fault(diag.DoesNotFit, b.sc.Place("controllers."+of.Name+".stations"), "move zones to another controller, or correct stations",
				"controller %q has %d zones; it has %d stations", of.Name, zones, of.Stations)
		}
	}
	for z := range b.sc.Zones {
		zone := &b.sc.Zones[z]
		if m := &b.sc.Meters[zone.Meter]; m.Name != "" && m.FlowLMin > 0 && zone.FlowLMin > m.FlowLMin*(1+1e-9) {
			w := Warning{Code: ZoneOverMeter, Pos: b.sc.Place("zones." + zone.Name + ".sprinkler.flow"), Zone: zone.Name, Value: zone.FlowLMin,
				Unit: quantity.Flow.BaseUnit()}
			b.sc.Warn(w, "zone %q draws %s, more than meter %q allows, %s", zone.Name, quantity.Format(zone.FlowLMin, quantity.Flow, b.sc.Units),
				m.Name, quantity.Format(m.FlowLMin, quantity.Flow, b.sc.Units))
		}
	}
}
