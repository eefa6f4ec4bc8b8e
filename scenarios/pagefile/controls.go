package pagefile

import (
	"bytes"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"loamledger/scenarios"
	"loamledger/scenarios/catalog"
	"loamledger/scenarios/yamlfile"
	"loamledger/sim/strategy"
	"loamledger/weather/quantity"
)

// A Control is a number that the page can change.
type Control struct {
	ID    string  `json:"id"`
	Zone  string  `json:"zone,omitempty"` // empty for the site
	Label string  `json:"label"`
	Unit  string  `json:"unit"`
	Min   float64 `json:"min"`
	Max   float64 `json:"max"`
	Step  float64 `json:"step"`
	Value float64 `json:"value"` // as opened
	Given bool    `json:"given"` // in the scenario; else a default
	Help  string  `json:"help"`

	way     []yamlfile.Step
	written func(v float64) string
}

// The controls that are not of a zone.
const (
	tryPercent = "try.percent" // of the run times of what ran
	tryDays    = "try.days"    // a week; 0 for as they are
	pricesID   = "prices"      // percent of the prices of water
)

// sliders lists the controls of a scenario, and says why some numbers have none.
func (e *Engine) sliders(sc *scenarios.Scenario) (out []Control, fixed string) {
	root := e.doc.Tree()
	switch {
	case len(programsOf(sc)) == 0:
		fixed = "What runs now has no programs with run times, so there is no slider for them."
	case !e.canTry():
		fixed = "No slider for run times: strategies or programs are not written as a list in " + e.name +
			". Write them as a list, each after a dash, and open the file again."
	default:
		out = append(out, Control{ID: tryPercent, Label: "Your try: run times", Unit: "%", Min: 30, Max: 150, Step: 5, Value: 100, Given: true,
			Help: "Adds a card for what runs now with all run times changed, as with the timer's percentage."},
			Control{ID: tryDays, Label: "Your try: watering days a week", Unit: "days", Min: 0, Max: 7, Step: 1, Given: true,
				Help: "0 leaves the days as they are. Run times of a day stay the same."})
	}
	if e.priced(sc) {
		out = append(out, Control{ID: pricesID, Label: "Water prices", Unit: "%", Min: 50, Max: 300, Step: 5, Value: 100, Given: true,
			Help: "All prices by volume in the file of rates, against today's."})
	}
	zones := root.Get("zones")
	if zones == nil || len(zones.Items) != len(sc.Zones) {
		where := "in the file that they come from, with a spreadsheet"
		if zones != nil && zones.Kind == scenarios.Scalar {
			where = "in " + bareName(zones.Text) + ", with a spreadsheet"
		}
		return out, strings.TrimSpace(fixed + " No sliders for zones: they are in a table. Change their numbers " +
			where + ", and open it here again.")
	}
	for z := range sc.Zones {
		for _, c := range zoneControls(sc, z, zones.Items[z]) {
			key := c.ID
			c.ID = fmt.Sprintf("zones.%d.%s", z, key)
			c.Zone = sc.Zones[z].Name
			c.Given = c.Given && !assumes(sc, "zones."+c.Zone+"."+key)
			c.way = append([]yamlfile.Step{{Key: "zones"}, {Item: z}}, c.way...)
			out = append(out, c)
		}
	}
	return out, fixed
}

// assumes reports whether a value is a default, be it written and marked as assumed.
func assumes(sc *scenarios.Scenario, key string) bool {
	return slices.ContainsFunc(sc.Inputs, func(in scenarios.Input) bool { return in.Key == key && in.Defaulted })
}

// canTry reports whether a try can be written into the text.
func (e *Engine) canTry() bool {
	items, err := e.tryItems(50, 0)
	if err != nil {
		return false
	}
	_, err = e.doc.Edit(nil, items)
	return err == nil
}

// priced reports whether the scenario has prices by volume.
func (e *Engine) priced(sc *scenarios.Scenario) bool {
	if sc.Money == nil {
		return false
	}
	rates, err := yamlfile.NewDoc(bytes.NewReader(e.files[bareName(sc.Money.Rates.Name)]), "")
	return err == nil && len(pricesIn(rates.Tree())) > 0
}

// zoneControls lists the controls of a zone. Numbers that follow from others, as from
// catch cans, have none.
func zoneControls(sc *scenarios.Scenario, z int, node *scenarios.Node) (out []Control) {
	zone := &sc.Zones[z]
	sprinkler := node.Get("sprinkler")
	if sprinkler != nil && sprinkler.Kind == scenarios.Map {
		kind, _ := catalog.FindSprinkler(zone.Sprinkler)
		rate := kind.UsualRate()
		switch {
		case sprinkler.Get("emitters") != nil:
		case sprinkler.Get("flow") != nil && sprinkler.Get("rate") == nil:
			flow := zone.FlowLMin
			out = append(out, control(sc, "sprinkler.flow", "Flow while it runs", quantity.Flow, flow, flow/2, 2*flow, true))
		default:
			out = append(out, control(sc, "sprinkler.rate", "Sprinkler rate", quantity.Rate, zone.PRMMH, rate.Low, rate.High,
				sprinkler.Get("rate") != nil))
		}
		if sprinkler.Get("catch_cans") == nil {
			out = append(out, control(sc, "sprinkler.uniformity", "Uniformity (DU)", quantity.Fraction, zone.DULQ, 0.30, 0.95,
				sprinkler.Get("uniformity") != nil))
		}
	}
	if !zone.WorkingStorage {
		out = append(out, control(sc, "root_depth", "Root depth", quantity.Length, zone.RootDepthM, zone.RootDepthM/2, 2*zone.RootDepthM,
			node.Get("root_depth") != nil))
	}
	return out
}

// A scale is how a number is shown on a slider.
type scale struct {
	unit string
	step float64
}

// scales are those of each dimension, in US and in SI units.
var scales = map[quantity.Dimension][2]scale{
	quantity.Rate:     {{"in/h", 0.05}, {"mm/h", 1}},
	quantity.Flow:     {{"gpm", 0.5}, {"L/min", 1}},
	quantity.Fraction: {{"%", 1}, {"%", 1}},
	quantity.Length:   {{"in", 0.5}, {"cm", 1}},
}

// control returns a slider for a number, whose ends are at least as wide as low and high.
// All are in the base unit.
func control(sc *scenarios.Scenario, key, label string, dim quantity.Dimension, v, low, high float64, given bool) Control {
	s := scales[dim][1]
	if sc.Units == quantity.US {
		s = scales[dim][0]
	}
	u, _ := quantity.Find(s.unit, dim)
	down := func(v float64) float64 { return clean(math.Floor(u.Of(v)/s.step) * s.step) }
	up := func(v float64) float64 { return clean(math.Ceil(u.Of(v)/s.step) * s.step) }
	c := Control{ID: key, Label: label, Unit: s.unit, Min: max(down(min(v, low)), s.step), Max: up(max(v, high)), Step: s.step,
		Value: clean(u.Of(v)), Given: given}
	gap := " "
	if s.unit == "%" {
		gap = ""
	}
	c.written = func(v float64) string { return strconv.FormatFloat(clean(v), 'f', -1, 64) + gap + s.unit }
	for _, part := range splitKey(key) {
		c.way = append(c.way, yamlfile.Step{Key: part})
	}
	return c
}

// clean drops the noise of binary fractions.
func clean(v float64) float64 { return math.Round(v*1e4) / 1e4 }

// programsOf returns the programs of the baseline.
func programsOf(sc *scenarios.Scenario) (out []strategy.Program) {
	for _, p := range sc.Strategies[sc.Baseline].Parts {
		if p, is := p.(strategy.Programs); is {
			out = append(out, p.List...)
		}
	}
	return out
}
