package study

import (
	"fmt"
	"slices"
	"strings"

	"loamledger/plots"
	"loamledger/scenarios"
	"loamledger/sim"
	"loamledger/sim/clock"
	"loamledger/sim/replay"
	"loamledger/sim/settings"
	"loamledger/sim/strategy"
	"loamledger/sim/tally"
	"loamledger/weather/quantity"
)

// severalDevices reports whether the site has several controllers or several meters.
func (l *Study) severalDevices() bool {
	return len(l.Scenario.Controllers) > 1 || len(l.Scenario.Meters) > 1
}

// devicesText counts the controllers and meters; empty for one of each.
func (l *Study) devicesText() string {
	if !l.severalDevices() {
		return ""
	}
	return quantity.Count(len(l.Scenario.Controllers), "controller", "controllers") + ", " +
		quantity.Count(len(l.Scenario.Meters), "meter", "meters")
}

// deviceFact names the controllers and meters in a sentence for page one; empty for one of
// each.
func (l *Study) deviceFact() string {
	if !l.severalDevices() {
		return ""
	}
	sc := l.Scenario
	var controllers, meters []string
	for c := range sc.Controllers {
		if name := sc.Controllers[c].Name; name != "" {
			controllers = append(controllers, name)
		}
	}
	for m := range sc.Meters {
		if name := sc.Meters[m].Name; name != "" {
			meters = append(meters, name)
		}
	}
	text := l.devicesText()
	if len(controllers) > 1 {
		text = strings.Replace(text, ", ", " ("+someOf(controllers)+"), ", 1)
	}
	if len(meters) > 1 {
		text += " (" + someOf(meters) + ")"
	}
	return text + ". Controllers run beside each other, and none waits for another"
}

// deviceLines says for each controller of several how many zones it has and what its
// programs take.
func (l *Study) deviceLines() (lines []string) {
	sc := l.Scenario
	if !l.severalDevices() {
		return nil
	}
	for c := range sc.Controllers {
		of := &sc.Controllers[c]
		zones := 0
		for _, is := range l.zonesOn(c) {
			if is {
				zones++
			}
		}
		name := "The controller"
		if of.Name != "" {
			name = "Controller " + of.Name
		}
		text := fmt.Sprintf("%s: %s", name, quantity.Count(zones, "zone", "zones"))
		if of.Stations > 0 {
			text += fmt.Sprintf(" on %s", quantity.Count(of.Stations, "station", "stations"))
		}
		if of.AtOnce > 1 {
			text += fmt.Sprintf(", %d at once", of.AtOnce)
		}
		if took := l.programsTake(c); took != "" {
			text += "; " + took
		}
		lines = append(lines, text+".")
	}
	for m := range sc.Meters {
		of := &sc.Meters[m]
		if of.Name == "" {
			continue
		}
		zones := 0
		for z := range sc.Zones {
			if sc.Zones[z].Meter == m {
				zones++
			}
		}
		flow, serves := "flow not stated", "other uses not stated"
		if of.FlowLMin > 0 {
			flow = "allows " + quantity.Format(of.FlowLMin, quantity.Flow, sc.Units)
		}
		switch of.Serves {
		case scenarios.ServesIrrigation:
			serves = "irrigation only"
		case scenarios.ServesMixed:
			serves = "other uses, too"
		}
		lines = append(lines, fmt.Sprintf("Meter %s: %s; %s; %s.", of.Name, quantity.Count(zones, "zone", "zones"), flow, serves))
	}
	return lines
}

// programsTake says how long one start of each program takes on a controller at 100%, its
// soaks included.
func (l *Study) programsTake(controller int) string {
	var texts []string
	for i := range l.Scenario.Programs {
		p := &l.Scenario.Programs[i]
		var s clock.Start
		for z, m := range p.Minutes {
			if m > 0 && l.Scenario.Zones[z].Controller == controller {
				s.Runs = append(s.Runs, clock.ZoneRun{Zone: z, Run: sim.Run{Minutes: m, CycleMin: p.Cycle, SoakMin: p.Soak},
					FlowLMin: l.Job.Zones[z].FlowLMin()})
			}
		}
		if len(s.Runs) == 0 {
			continue
		}
		t := clock.Timetable{Wiring: l.Job.Wiring}
		t.Lay([]clock.Start{s})
		texts = append(texts, fmt.Sprintf("%q %s", p.Name, quantity.Format(t.Finish(), quantity.Duration, l.Scenario.Units)))
	}
	if len(texts) == 0 {
		return ""
	}
	return "one start at 100% takes: " + someOf(texts)
}

// warnOfOverdraws warns of controllers that together draw more from a meter than it
// allows, once for each strategy and meter.
func (l *Study) warnOfOverdraws() {
	sc := l.Scenario
	for s, list := range replay.Overdraws(&l.Job) {
		if l.Job.Strategies[s].Role == strategy.Cut {
			continue
		}
		for m := range sc.Meters {
			days, text := l.overdrawText(list, m)
			if days == 0 {
				continue
			}
			w := scenarios.Warning{Code: scenarios.MeterOverdrawn, Strategy: l.Job.Strategies[s].Name,
				Pos:   sc.Place("meters." + sc.Meters[m].Name + ".flow"),
				Value: float64(days), Unit: "d"}
			w.Joint = text
			sc.Warn(w, "strategy %q: %s", w.Strategy, text)
		}
	}
}

// overdrawText counts the days on which a meter is overdrawn and describes the worst.
func (l *Study) overdrawText(list []strategy.Overdraw, meter int) (days int, text string) {
	worst := strategy.Overdraw{}
	for _, o := range list {
		if o.Meter != meter {
			continue
		}
		days++
		if o.WantLMin > worst.WantLMin {
			worst = o
		}
	}
	sys, of := l.Scenario.Units, &l.Scenario.Meters[meter]
	flow := func(lMin float64) string { return quantity.Format(lMin, quantity.Flow, sys) }
	return days, fmt.Sprintf("on %s, controllers that run at the same time together draw more than meter %q allows, up to %s "+
		"instead of %s, as on %s at %s for %s; then pressure falls and zones get less than is replayed",
		quantity.Count(days, "day", "days"), of.Name, flow(worst.WantLMin), flow(of.FlowLMin), plots.DayText(worst.Date),
		settings.ClockText(worst.AtMin, sys), quantity.Format(worst.Minutes, quantity.Duration, sys))
}

// tunedOverdraws says which meters the controllers overdraw together under settings found:
// a search fits each controller, and none knows what the others draw.
func (l *Study) tunedOverdraws(st *strategy.Strategy) (texts []string) {
	job := l.Job
	job.Strategies = []strategy.Strategy{*st}
	list := replay.Overdraws(&job)[0]
	for m := range l.Scenario.Meters {
		if days, text := l.overdrawText(list, m); days > 0 {
			texts = append(texts, text)
		}
	}
	return texts
}

// A deviceTotal is the water of a controller or a meter under each strategy.
type deviceTotal struct {
	kind, name string
	m3         []float64 // a year, or of the record if no year is whole
}

// deviceTotals adds up the water of each controller and each meter; none for one of each.
func (l *Study) deviceTotals(t *tally.Table) (out []deviceTotal) {
	if !l.severalDevices() {
		return nil
	}
	basis := t.Basis()
	total := func(kind, name string, on func(z *scenarios.Zone) bool) {
		d := deviceTotal{kind: kind, name: name}
		for s := range t.Strategies {
			sum := 0.0
			for z := range t.Zones {
				if on(&l.Scenario.Zones[z]) {
					of := t.Sum(&basis, s, z)
					sum += float64(of.GrossMM / 1000 * t.Zones[z].AreaM2)
				}
			}
			d.m3 = append(d.m3, sum/basis.Divisor())
		}
		out = append(out, d)
	}
	if len(l.Scenario.Meters) > 1 {
		for m := range l.Scenario.Meters {
			total("meter", l.Scenario.Meters[m].Name, func(z *scenarios.Zone) bool { return z.Meter == m })
		}
	}
	if len(l.Scenario.Controllers) > 1 {
		for c := range l.Scenario.Controllers {
			total("controller", l.Scenario.Controllers[c].Name, func(z *scenarios.Zone) bool { return z.Controller == c })
		}
	}
	return out
}

// deviceRows is the table of totals: a row for each strategy, a column for each meter and
// controller.
func (l *Study) deviceRows(t *tally.Table) (head []string, rows [][]string) {
	totals := l.deviceTotals(t)
	for _, d := range totals {
		head = append(head, d.kind+" "+d.name)
	}
	for s := range t.Strategies[:t.NoWaterIndex()] {
		row := []string{t.Strategies[s]}
		for _, d := range totals {
			row = append(row, l.volume(d.m3[s]))
		}
		rows = append(rows, row)
	}
	return head, rows
}

// deviceLead says what the totals are.
func (l *Study) deviceLead(t *tally.Table) string {
	basis := t.Basis()
	return fmt.Sprintf("Water %s by meter and controller, in %s", basis.Words(), quantity.Label(quantity.Volume, l.Scenario.Units))
}

// DeviceViews show the water of each meter and controller; nil for one of each.
func (l *Study) DeviceViews(t *tally.Table) []View {
	head, rows := l.deviceRows(t)
	if len(head) == 0 {
		return nil
	}
	g := &Grid{Head: append([]string{"strategy"}, head...), Rows: rows, Columns: toTheRight(1, 1+len(head))}
	g.Columns[0].Width = 30
	for i := range head {
		g.Head[1+i] = strings.Replace(head[i], " ", "\n", 1) // the kind above the name
	}
	return []View{{Head: []string{"", l.deviceLead(t) + ".", ""}, Grid: g}}
}

// devicePart is the report's section on controllers and meters; nil for one of each.
func (l *Study) devicePart(t *tally.Table) *plots.TextPart {
	head, rows := l.deviceRows(t)
	if len(head) == 0 {
		return nil
	}
	table := plots.Table{First: "Strategy", Head: head}
	for _, row := range rows {
		table.Rows = append(table.Rows, plots.TableRow{Name: row[0], Cells: row[1:]})
	}
	notes := slices.Concat(l.deviceLines(), []string{"Controllers run beside each other; the zones of one controller wait for each other. " +
		"No controller knows what another draws from a meter: times at which they draw more than it allows are warnings."})
	return &plots.TextPart{Lead: l.deviceLead(t) + ".", Tables: []plots.Table{table}, Notes: notes}
}

// A DeviceTotalRecord is the water of one meter or controller under one strategy.
type DeviceTotalRecord struct {
	Strategy   string   `json:"strategy"`
	Meter      string   `json:"meter,omitempty"`
	Controller string   `json:"controller,omitempty"`
	M3         *float64 `json:"volume_m3"` // a year, or of the record if no year is whole
}

// deviceRecords lists the totals for scripts.
func (l *Study) deviceRecords(t *tally.Table) (out []DeviceTotalRecord) {
	for _, d := range l.deviceTotals(t) {
		for s, v := range d.m3 {
			row := DeviceTotalRecord{Strategy: t.Strategies[s], M3: Number(v)}
			if d.kind == "meter" {
				row.Meter = d.name
			} else {
				row.Controller = d.name
			}
			out = append(out, row)
		}
	}
	return out
}

// TallyPlaces returns the controller and the meter of each zone for tally.csv; nil if the
// scenario names none.
func (l *Study) TallyPlaces() [][2]string {
	named := false
	out := make([][2]string, len(l.Scenario.Zones))
	for z := range out {
		out[z] = [2]string{l.Scenario.Zones[z].ControllerName, l.Scenario.Zones[z].MeterName}
		named = named || out[z] != [2]string{}
	}
	if !named {
		return nil
	}
	return out
}
