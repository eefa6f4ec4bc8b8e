package plots

import (
	"fmt"
	"math"
	"slices"

	"loamledger/weather/quantity"
)

// A LifeTrial is how long one part of a strategy keeps working: its effect in each year
// since installation, crossed with the weather of every year of the record.
type LifeTrial struct {
	Strategy int
	Part     string
	Working  []float64 // share that works, by year since installation
	DrawnAge float64   // age at failure of one part, drawn [years]; +Inf for never
	// With and Without are the figures of each whole year of the record with the part
	// working and without it.
	With, Without []LifeYear
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
		"Stress days a year"}
}

// LifeRows writes the effects of a trial.
func (s *Study) LifeRows(l *LifeTrial) (rows [][]string) {
	volume := func(m3 float64) string { return signed(s.Units.volume(m3), rounded) }
	for _, y := range l.lifeYears() {
		e := l.Effect(y)
		span := volume(e.Low)
		if high := volume(e.High); high != span {
			span += " to " + high
		}
		rows = append(rows, []string{l.Part, quantity.Number(float64(y), 0), percent(e.Working), volume(e.M3), span, signed(e.Stress, tenths)})
	}
	return rows
}

// LifeText says at what age one part, drawn, fails.
func (s *Study) LifeText(l *LifeTrial) string {
	if math.IsInf(l.DrawnAge, 1) {
		return ""
	}
	return fmt.Sprintf("Under %s the one %s that the seed draws fails after %s years.", quote(s.Table.Strategies[l.Strategy]), l.Part,
		fixed(l.DrawnAge, 1))
}

// lifeTable shows how long parts keep working; nil if none has a life.
func (s *Study) lifeTable(trials []LifeTrial) *Table {
	if len(trials) == 0 {
		return nil
	}
	t := &Table{
		Caption: "What a part does in each year since installation, against the same strategy without it. Each such year meets the weather " +
			"of every whole year of the record; the share that still works follows from the stated life.",
		First: "Part", Head: append([]string{"Strategy"}, s.LifeHead()...), Words: []bool{true},
	}
	for i := range trials {
		for _, row := range s.LifeRows(&trials[i]) {
			t.Rows = append(t.Rows, TableRow{Name: row[0], Cells: append([]string{s.Table.Strategies[trials[i].Strategy]}, row[1:]...)})
		}
	}
	return t
}
