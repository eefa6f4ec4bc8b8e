package study

import (
	"fmt"
	"slices"
	"strings"

	"loamledger/scenarios"
	"loamledger/sim/calibrate"
	"loamledger/sim/strategy"
	"loamledger/weather/cal"
	"loamledger/weather/quantity"
)

// calibratedName is the name of the calibrated strategy in [Study.CalibratedYAML].
func calibratedName(name string) string { return name + ", calibrated" }

// CalibratedYAML writes the tuned values as keys to paste into the scenario: of zones,
// and a strategy like the one as found. Comments say where each value comes from.
func (l *Study) CalibratedYAML(c *Calibration) string {
	var b strings.Builder
	comment := func(format string, args ...any) { fmt.Fprintf(&b, "# "+format+"\n", args...) }
	for _, line := range l.provenance(c) {
		for _, part := range Wrap(line, 110) {
			comment("%s", part)
		}
	}
	if p := c.param(calibrate.Base); p != nil && p.Tuned {
		comment("Base use of a day. Keep the other keys of the meter; in rates, it is account: {indoor: ...}.")
		fmt.Fprintf(&b, "meters:\n  - name: %s\n    base_use: %s\n", inQuotes(c.metered.Name),
			exactly6(p.Value, quantity.Volume, l.Scenario.Units))
	}
	if zones := l.calibratedZones(c); zones != "" {
		comment("Keep the other keys of each zone.")
		b.WriteString("zones:\n" + zones)
	}
	if st := l.calibratedStrategy(c); st != "" {
		comment("To compare with it, also set baseline: %s", inQuotes(calibratedName(c.metered.strategy)))
		b.WriteString("strategies:\n" + st)
	}
	return b.String()
}

// provenance says what the values come from.
func (l *Study) provenance(c *Calibration) (lines []string) {
	var from, to cal.Date
	for i := range c.Rows {
		if r := &c.Rows[i]; r.Part == calibrate.Fitted {
			if from == 0 {
				from = r.From
			}
			to = r.To
		}
	}
	lines = append(lines, fmt.Sprintf("%s (%s): calibrated to reads from %v to %v.", l.calibrationTitle(c), l.bare(c.metered.File), from, to))
	lines = append(lines, l.calibrationHead(c)...)
	return append(lines, "A pass on the strategy as found does not validate a proposed strategy.")
}

func inQuotes(s string) string { return "'" + strings.ReplaceAll(s, "'", "''") + "'" }

// calibratedZones writes the zones whose keys change; empty for none.
func (l *Study) calibratedZones(c *Calibration) string {
	var b strings.Builder
	scale, leak := c.param(calibrate.Scale).Value, c.param(calibrate.Leak)
	for _, z := range c.metered.Zones {
		zone := &l.Scenario.Zones[z]
		var lines []string
		if scale != 1 && c.options.Means != MeansRunTime {
			lines = append(lines, l.scaledLine(zone, scale, c.options.Means))
		}
		if leak != nil && leak.Tuned && z == c.metered.Zones[0] {
			lMin := leak.Value*1000/(24*60) + zone.LeakMMDay*zone.AreaM2/(24*60)
			lines = append(lines, fmt.Sprintf("leak: %s  # of the whole meter", exactly6(lMin, quantity.Flow, l.Scenario.Units)))
		}
		if k := c.param(calibrate.K); k.Tuned {
			lines = append(lines, l.scaledPlant(z, k.Value)...)
		}
		if len(lines) > 0 {
			fmt.Fprintf(&b, "  - name: %s\n    %s\n", inQuotes(zone.Name), strings.Join(lines, "\n    "))
		}
	}
	return b.String()
}

// scaledLine writes the keys of a zone that have its flow or its area, multiplied: those
// that are given, or the rate, which is then a default.
func (l *Study) scaledLine(z *scenarios.Zone, by float64, means FlowMeaning) string {
	sys := l.Scenario.Units
	if means == MeansArea {
		return fmt.Sprintf("area: %s  # was %s, times %s", exactly6(z.AreaM2*by, quantity.Area, sys),
			quantity.Format(z.AreaM2, quantity.Area, sys),
			fixedNumber(by, 3))
	}
	var keys, was []string
	for _, k := range []struct {
		key string
		v   float64
		dim quantity.Dimension
	}{{"rate", z.PRMMH, quantity.Rate}, {"flow", z.FlowLMin, quantity.Flow}, {"emitter_flow", z.EmitterLMin, quantity.Flow}} {
		if l.isGiven(z, "sprinkler."+k.key) || k.key == "rate" && !l.isGiven(z, "sprinkler.flow") && z.Emitters == 0 {
			keys = append(keys, k.key+": "+exactly6(k.v*by, k.dim, sys))
			was = append(was, quantity.Format(k.v, k.dim, sys))
		}
	}
	return fmt.Sprintf("sprinkler: {%s}  # was %s, times %s", strings.Join(keys, ", "), strings.Join(was, ", "), fixedNumber(by, 3))
}

// isGiven reports whether a zone states a key.
func (l *Study) isGiven(z *scenarios.Zone, key string) bool {
	return slices.ContainsFunc(l.Scenario.Inputs, func(in scenarios.Input) bool {
		return in.Key == "zones."+z.Name+"."+key && !in.Defaulted
	})
}

// exactly6 writes a value with its unit as a scenario takes it, to six significant
// digits.
func exactly6(v float64, dim quantity.Dimension, sys quantity.System) string {
	return fmt.Sprintf("%.6g %s", quantity.Convert(v, dim, sys), quantity.UnitName(dim, sys))
}

// scaledPlant writes the plant coefficients of a zone, multiplied, before density and
// microclimate.
func (l *Study) scaledPlant(z int, by float64) []string {
	own := &l.Scenario.Zones[z]
	if s := l.Job.Zones[z].Season; s != nil && !s.ActivityOnly {
		return []string{fmt.Sprintf("plant: {k_growing: %.4g, k_resting: %.4g}", own.PlantSeason.Ka*by, own.PlantSeason.Kd*by)}
	}
	return []string{"plant: {k: " + months(own.PlantK, by) + "}"}
}

// calibratedStrategy writes the strategy with months off and dated changes; empty if it
// has none.
func (l *Study) calibratedStrategy(c *Calibration) string {
	zones := "all"
	if len(c.metered.Zones) < len(l.Job.Zones) {
		var names []string
		for _, z := range c.metered.Zones {
			names = append(names, inQuotes(l.Job.Zones[z].Name))
		}
		zones = "[" + strings.Join(names, ", ") + "]"
	}
	var changes, off []string
	last := 1.0
	if scale := c.param(calibrate.Scale); scale.Value != 1 && c.options.Means == MeansRunTime {
		changes = append(changes, fmt.Sprintf("{name: calibrated, zones: %s, minutes: %.6g%%}", zones, 100*scale.Value))
	}
	for i := range c.Params {
		p := &c.Params[i]
		if p.Key != calibrate.Change {
			continue
		}
		changes = append(changes, fmt.Sprintf("{name: %s, zones: %s, from: %v, minutes: %.6g%%}", inQuotes("calibrated from "+p.From.String()),
			zones,
			p.From, 100*p.Value/last))
		last = p.Value
	}
	if suspended := l.suspensions(c.metered, c.Altered.Off); len(suspended) > 0 {
		found := &l.Job.Strategies[l.foundIndex()]
		for _, part := range found.Parts { // they would not be copied beside others
			if s, ok := part.(strategy.Suspend); ok {
				off = append(off, l.suspendLine(&s))
			} else if s, ok := part.(*strategy.Suspend); ok {
				off = append(off, l.suspendLine(s))
			}
		}
		for i := range suspended {
			off = append(off, l.suspendLine(&suspended[i]))
		}
	}
	if len(changes)+len(off) == 0 {
		return ""
	}
	var b strings.Builder
	fmt.Fprintf(&b, "  - name: %s\n    like: %s\n", inQuotes(calibratedName(c.metered.strategy)), inQuotes(c.metered.strategy))
	for _, list := range []struct {
		key   string
		items []string
	}{{"suspend", off}, {"changes", changes}} {
		if len(list.items) > 0 {
			fmt.Fprintf(&b, "    %s:\n      - %s\n", list.key, strings.Join(list.items, "\n      - "))
		}
	}
	return b.String()
}

func (l *Study) suspendLine(s *strategy.Suspend) string {
	zones := "all"
	if slices.Contains(s.Zones, false) {
		var names []string
		for z, is := range s.Zones {
			if is {
				names = append(names, inQuotes(l.Job.Zones[z].Name))
			}
		}
		zones = "[" + strings.Join(names, ", ") + "]"
	}
	return fmt.Sprintf("{from: %v, to: %v, zones: %s}", s.From, s.To, zones)
}
