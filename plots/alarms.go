package plots

import (
	"fmt"
	"strings"

	"loamledger/sim/tally"
	"loamledger/weather/quantity"
)

// A ZoneKind is what the alarms need to know about a zone.
type ZoneKind struct {
	Turf  bool
	Spray bool // fixed spray heads, not rotors or drip
	// Replanted marks, by strategy, zones that do not stay turf; nil for none.
	Replanted []bool
}

// The limits beyond which a value is reported as implausible. They judge inputs
// and results; nothing is computed from them.
const (
	// Cool-season turf under 50 in of ETo, no rain and an efficiency of 0.7
	// needs 0.8·50/0.7 = 57 in a year; the limits are far from that.
	turfLeastMM = 10 * quantity.InchMM
	turfMostMM  = 90 * quantity.InchMM
	// SavingMost is the share of the water above which a saving is implausible.
	// Positive residential studies average 30% saved; screened over-irrigators
	// 15 to 45%. Source: Dukes, Two decades of smart irrigation controllers in
	// U.S. landscape irrigation (ASABE review).
	SavingMost = 0.60
	// A rebate program measured 9.0 gal/ft² a year (Journal AWWA, January 2021);
	// 3 to 10 are usual. 20 gal/ft² are 32.1 in.
	savingMostGalFt2 = 20.0
	// Tests in homes average 0.41 for spray, and zones above 0.75 are rare.
	// Source: Baum, Dukes and Miller, J. Irrig. Drain. Eng. 131(4), 2005.
	sprayMostDULQ = 0.85
)

// Alarms returns each implausible value of the table: turf watered
// above 90 or below 10 inches a year, savings above 60% of the use or 20
// gallons a square foot a year, spray of a DU_LQ above 0.85. kinds has one
// element per zone; zones beyond it count as neither turf nor spray. A record
// without a whole year is not judged by depth and volume.
func Alarms(t *tally.Table, u Units, kinds []ZoneKind) []Alarm {
	a := alarms{Study: &Study{Table: t, Units: u}, rows: t.Compare()}
	for z := range t.Zones {
		if z < len(kinds) {
			a.zone(z, kinds[z])
		}
	}
	for i := range a.zones {
		text := a.zones[i].text()
		for _, one := range a.zones[i].alarms {
			one.Text = text
			a.list = append(a.list, one)
		}
	}
	if a.whole() {
		a.savings()
	}
	return a.list
}

// alarms gathers the alarms.
type alarms struct {
	*Study
	rows  []tally.Row
	zones []zoneAlarm
	list  []Alarm
}

// A zoneAlarm is a problem that several zones may have. They share a sentence with
// the worst of their values.
type zoneAlarm struct {
	before string               // the worst value
	after  func([]Alarm) string // what follows it, about all of the zones
	names  []string
	worst  float64
	write  func(worst float64) string
	alarms []Alarm
}

func (a *zoneAlarm) text() string {
	who := a.names[0]
	switch n := len(a.names); {
	case n > maxNamed:
		who = count(n, "zone", "zones") + " (" + strings.Join(a.names[:maxNamed-1], ", ") + " and " + count(n-maxNamed+1, "other", "others") + ")"
	case n > 1:
		who = strings.Join(a.names, ", ")
	}
	return who + ": " + a.before + a.write(a.worst) + a.after(a.alarms)
}

// ofZone adds a problem of one zone; worse selects the value to show if several
// zones have it. list has the values, by strategy if they differ.
func (a *alarms) ofZone(list []Alarm, worse func(a, b float64) bool, write func(float64) string, before string,
	after func([]Alarm) string,
) {
	var at *zoneAlarm
	for i := range a.zones {
		if z := &a.zones[i]; z.alarms[0].Code == list[0].Code {
			at = z
		}
	}
	if at == nil {
		a.zones = append(a.zones, zoneAlarm{before: before, after: after, worst: list[0].Value, write: write})
		at = &a.zones[len(a.zones)-1]
	}
	at.names, at.alarms = append(at.names, list[0].Zone), append(at.alarms, list...)
	for _, one := range list {
		if worse(one.Value, at.worst) {
			at.worst = one.Value
		}
	}
}

// add reports the alarms of list in one sentence.
func (a *alarms) add(list []Alarm, format string, args ...any) {
	text := fmt.Sprintf(format, args...)
	for _, one := range list {
		one.Text = text
		a.list = append(a.list, one)
	}
}

// whole reports whether there is a whole year to judge.
func (a *alarms) whole() bool { return len(a.Table.WholeYears()) > 0 }

// zone judges one zone.
func (a *alarms) zone(z int, kind ZoneKind) {
	zone := &a.Table.Zones[z]
	if kind.Spray && zone.DULQ > sprayMostDULQ && !zone.WorkingStorage {
		list := []Alarm{{Code: SprayTooEven, Zone: zone.Name, Value: zone.DULQ, Unit: "1"}}
		a.ofZone(list, more, percent, "a DU of ",
			func([]Alarm) string {
				return " is higher than spray heads reach in tests (35% to 60%, rarely above 75%): measure it with straight-sided catch cans."
			})
	}
	if !kind.Turf || !a.whole() {
		return
	}
	var wet, dry []Alarm
	basis := a.Table.Basis()
	for st := range a.own() {
		if st < len(kind.Replanted) && kind.Replanted[st] {
			continue
		}
		sum := a.Table.Sum(&basis, st, z)
		mm := sum.GrossMM / a.years()
		switch {
		case mm > turfMostMM:
			wet = append(wet, Alarm{Code: TurfWet, Zone: zone.Name, Strategy: a.Table.Strategies[st], Value: mm, Unit: "mm/yr"})
		case mm < turfLeastMM:
			dry = append(dry, Alarm{Code: TurfDry, Zone: zone.Name, Strategy: a.Table.Strategies[st], Value: mm, Unit: "mm/yr"})
		}
	}
	if len(wet) > 0 {
		a.ofZone(wet, more, a.Units.depthWords, "turf receives up to ",
			func(all []Alarm) string {
				return fmt.Sprintf(" a year (%s); more than %s is implausible: check rate, run times and their months.",
					strategiesOf(all), a.Units.depthWords(turfMostMM))
			})
	}
	if len(dry) > 0 {
		a.ofZone(dry, fewer, a.Units.depthWords, "turf receives as little as ",
			func(all []Alarm) string {
				return fmt.Sprintf(" a year (%s); below %s turf goes short or rain is enough: check rate and run times.",
					strategiesOf(all), a.Units.depthWords(turfLeastMM))
			})
	}
}

// savings judges the savings relative to the baseline.
func (a *alarms) savings() {
	first := &a.rows[a.base()]
	var share, depth []string
	var shares, depths []Alarm
	for _, i := range a.others() {
		r := &a.rows[i]
		if r.Change < -SavingMost {
			share = append(share, quote(r.Strategy)+" "+moreOrLess(r.Change))
			shares = append(shares, Alarm{Code: SavingShare, Strategy: r.Strategy, Value: -r.Change, Unit: "1"})
		}
		if saved := first.GrossMMPerYear - r.GrossMMPerYear; saved > savingMostGalFt2*mmPerGalFt2() {
			depth = append(depth, quote(r.Strategy)+" "+a.perArea(saved))
			depths = append(depths, Alarm{Code: SavingDepth, Strategy: r.Strategy, Value: saved, Unit: "mm/yr"})
		}
	}
	if len(share) > 0 {
		a.add(shares, "Savings above %s are implausible (%s): screened sites saved 15%% to 45%% in published studies. "+
			"Either the baseline is set too high, or plants go short.", percent(SavingMost), strings.Join(share, ", "))
	}
	if len(depth) > 0 {
		a.add(depths, "Savings above %s %s a year are implausible (%s): %s are usual.",
			a.perArea(savingMostGalFt2*mmPerGalFt2()), a.Units.pick("gallons per square foot", "mm"),
			strings.Join(depth, ", "), a.Units.pick("3 to 10", "120 to 410"))
	}
}

// perArea writes a depth in the unit of savings per area.
func (a *alarms) perArea(mm float64) string {
	if a.Units == US {
		return fixed(mm/mmPerGalFt2(), 0)
	}
	return fixed(mm, 0)
}

// mmPerGalFt2 is the depth of one gallon over a square foot: a foot of water is
// 12 in and 7.4805 gal.
func mmPerGalFt2() float64 {
	galPerM3 := quantity.Convert(1, quantity.Volume, quantity.US)
	ft2PerM2 := quantity.Convert(1, quantity.Area, quantity.US)
	return 1000 * ft2PerM2 / galPerM3
}
