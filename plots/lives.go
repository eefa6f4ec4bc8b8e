package plots

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"loamledger/sim"
	"loamledger/weather/quantity"
)

// A LifeTrial is how long one part of a strategy keeps working: its effect in each year
// since installation, crossed with the weather of every year of the record.
type LifeTrial struct {
	Strategy int
	Part     string
	Working  []float64 // share that works, by year since installation
	Devices  []LifeDevice
	// With and Without are the figures of each whole year of the record with the part
	// working and without it.
	With, Without []LifeYear
}

// A LifeDevice is one device of a part and when it stops working, as the seed draws it.
type LifeDevice struct {
	Zone string // that it serves; empty for all
	sim.Ending
	M3 []float64 // water of its zones with it less that without it, in each whole year of the record
}

// A LifeYear is one year of weather.
type LifeYear struct {
	M3, Stress float64
}

// LifeEffect is what a part does in one year since installation, over the years of the
// record: water and stress days with it less those without it, times the share that
// works. Low and High are those of the years with the least and the most water saved.
type LifeEffect struct {
	Working       float64
	M3, Low, High float64
	Stress        float64
	// Devices is how many devices work in the middle of the year as the seed draws them, and
	// DrawnM3 the water with them less that without any.
	Devices int
	DrawnM3 float64
}

// Effect crosses a year since installation, 1 for the first, with every year of weather.
func (l *LifeTrial) Effect(year int) (e LifeEffect) {
	e.Working, e.Low, e.High = l.Working[year-1], math.Inf(1), math.Inf(-1)
	n := float64(len(l.With))
	for i := range l.With {
		m3 := e.Working * (l.With[i].M3 - l.Without[i].M3)
		e.M3 += m3 / n
		e.Low, e.High = min(e.Low, m3), max(e.High, m3)
		e.Stress += e.Working * (l.With[i].Stress - l.Without[i].Stress) / n
	}
	for i := range l.Devices {
		if l.Devices[i].Age <= float64(year)-0.5 {
			continue
		}
		e.Devices++
		for _, m3 := range l.Devices[i].M3 {
			e.DrawnM3 += m3 / n
		}
	}
	return e
}

// lifeYears are the years since installation that tables show.
func (l *LifeTrial) lifeYears() []int {
	return slices.DeleteFunc([]int{1, 2, 3, 5, 7, 10, 15, 20}, func(y int) bool { return y > len(l.Working) })
}

// LifeHead is what the cells of [Study.LifeRows] are, the first left out.
func (s *Study) LifeHead() []string {
	unit := s.Units.volumeUnit()
	return []string{"Year since installation", "Working", "Water (" + unit + " a year)", "Over the weather years (" + unit + ")",
		"Stress days a year", "Devices working, as drawn", "Water as drawn (" + unit + " a year)"}
}

// LifeRows writes the effects of a trial.
func (s *Study) LifeRows(l *LifeTrial) (rows [][]string) {
	volume := func(m3 float64) string {
		v := s.Units.volume(m3)
		if math.Abs(v) < 0.5 {
			v = 0 // of devices of which next to none work
		}
		return signed(v, rounded)
	}
	for _, y := range l.lifeYears() {
		e := l.Effect(y)
		span := volume(e.Low)
		if high := volume(e.High); high != span {
			span += " to " + high
		}
		rows = append(rows, []string{l.Part, quantity.Number(float64(y), 0), percent(e.Working), volume(e.M3), span, signed(e.Stress, tenths),
			fmt.Sprintf("%d of %d", e.Devices, len(l.Devices)), volume(e.DrawnM3)})
	}
	return rows
}

// LifeText says that yearly figures take the part as working, and when its devices, as
// drawn, stop.
func (s *Study) LifeText(l *LifeTrial) string {
	name := quote(s.Table.Strategies[l.Strategy])
	text := fmt.Sprintf("Yearly figures take %s of %s as working. By its stated life, %s of such devices work in their first year", l.Part,
		name, percent(l.Working[0]))
	if n := len(l.Working); n >= 10 {
		text += fmt.Sprintf(" and %s in their tenth", percent(l.Working[9]))
	}
	var ends []string
	for i := range l.Devices {
		if end := l.Devices[i].ending(len(l.Devices) > 1); end != "" {
			ends = append(ends, end)
		}
	}
	if len(ends) == 0 {
		return text + "."
	}
	return text + ". As the seed draws it, " + strings.Join(ends, ", ") + "."
}

// ending says when a device stops working; empty for never.
func (d *LifeDevice) ending(many bool) string {
	which := "the device"
	if many {
		which = "that of " + d.Zone
	}
	switch d.Cause {
	case sim.Failed:
		return which + " fails after " + fixed(d.Age, 1) + " years"
	case sim.Unplugged:
		return which + " is unplugged after " + fixed(d.Age, 1) + " years"
	case sim.Overridden:
		return which + " is overridden from the start"
	}
	return ""
}

// lifeTable shows how long parts keep working; nil if none has a life.
func (s *Study) lifeTable(trials []LifeTrial) *Table {
	if len(trials) == 0 {
		return nil
	}
	t := &Table{
		Caption: "What a part does in each year since installation, against the same strategy without it. Each such year meets the weather " +
			"of every whole year of the record; the share that still works follows from the stated life. “As drawn” is one draw " +
			"of the seed, in which devices stop one by one; with limits on flow or hours, zones affect each other and the sum " +
			"over devices is approximate.",
		First: "Part", Head: append([]string{"Strategy"}, s.LifeHead()...), Words: []bool{true},
	}
	for i := range trials {
		for _, row := range s.LifeRows(&trials[i]) {
			t.Rows = append(t.Rows, TableRow{Name: row[0], Cells: append([]string{s.Table.Strategies[trials[i].Strategy]}, row[1:]...)})
		}
	}
	return t
}
