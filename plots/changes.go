package plots

import (
	"fmt"
	"math"
	"strings"

	"loamledger/sim/tally"
)

// A ChangeTrial is one strategy replayed without its changes, with each of them alone,
// and with each added to those before it.
type ChangeTrial struct {
	Strategy int
	Changes  []ChangeFact
	// Table has the strategy without changes, then with each alone, then with all up
	// to each, the last of which is the strategy itself.
	Table *tally.Table
	// Established is the water given while new plants are established [m³], which no
	// yearly figure has; and how many days that takes.
	EstablishM3   float64
	EstablishDays int
	// EstablishStress is the stress days of new plants in that time, all zones added up.
	EstablishStress int
}

// A ChangeFact is one change as a scenario has it.
type ChangeFact struct {
	Name  string
	Zones string
	From  string   // empty for the whole record
	Cost  float64  // NaN if not given
	What  []string // each value that changes, before and after
}

// A ChangeEffect is what a change does to the yearly figures of the site.
type ChangeEffect struct {
	M3     float64 // water
	Stress float64 // stress days of whole zones, weighted by area
	Events float64 // runoff events
}

func (a ChangeEffect) less(b ChangeEffect) ChangeEffect {
	return ChangeEffect{a.M3 - b.M3, a.Stress - b.Stress, a.Events - b.Events}
}

// ChangeEffects are the effects of the changes of a strategy. Changes do not add up:
// leaks lose less where less is watered. Interaction is the effect of all together less
// the sum of each alone.
type ChangeEffects struct {
	Alone, Added               []ChangeEffect // by change; Added to those before it
	Sum, Together, Interaction ChangeEffect
}

// Effects works out the effects of a trial.
func (c *ChangeTrial) Effects() (e ChangeEffects) {
	rows := c.Table.Compare()
	of := func(k int) ChangeEffect {
		return ChangeEffect{rows[k].M3PerYear, rows[k].StressPerYear, rows[k].RunoffEvents}
	}
	n, before, last := len(c.Changes), of(0), of(0)
	for k := range n {
		alone := of(1 + k).less(before)
		e.Alone = append(e.Alone, alone)
		e.Sum = ChangeEffect{e.Sum.M3 + alone.M3, e.Sum.Stress + alone.Stress, e.Sum.Events + alone.Events}
		e.Added = append(e.Added, of(1+n+k).less(last))
		last = of(1 + n + k)
	}
	e.Together = last.less(before)
	e.Interaction = e.Together.less(e.Sum)
	return e
}

// TotalCost is the sum of the stated costs, and how many changes state none.
func (c *ChangeTrial) TotalCost() (sum float64, missing int) {
	for i := range c.Changes {
		if math.IsNaN(c.Changes[i].Cost) {
			missing++
			continue
		}
		sum += c.Changes[i].Cost
	}
	return sum, missing
}

// CostText writes the costs of a trial in one sentence; empty if none is stated.
func (c *ChangeTrial) CostText() string {
	sum, missing := c.TotalCost()
	switch {
	case missing == len(c.Changes):
		return ""
	case missing > 0:
		return fmt.Sprintf("The stated costs come to %s; %s none.", fixed(sum, 0), count(missing, "change states", "changes state"))
	}
	return fmt.Sprintf("The stated costs come to %s.", fixed(sum, 0))
}

// ChangeHead is what the cells of a row of [Study.ChangeRows] are, the name of the
// change left out.
func (s *Study) ChangeHead() []string {
	water := fmt.Sprintf("water (%s %s)", s.Units.volumeUnit(), s.per())
	return []string{
		"Cost", "Alone: " + water, "Alone: stress days", "Alone: runoff events", "Added in order: " + water, "Added in order: stress days",
		"Added in order: runoff events",
	}
}

// ChangeRows are the effects of the changes of a trial: one row each and, if there are
// several, one for the sum, which in order is all together, and one for the interaction:
// all together less the sum of each alone. The first cell is the name.
func (s *Study) ChangeRows(c *ChangeTrial) (rows [][]string) {
	e := c.Effects()
	three := func(f ChangeEffect) []string {
		return []string{signed(s.Units.volume(f.M3), rounded), signed(f.Stress, tenths), signed(f.Events, tenths)}
	}
	for k := range c.Changes {
		cost := none
		if v := c.Changes[k].Cost; !math.IsNaN(v) {
			cost = fixed(v, 0)
		}
		rows = append(rows, append(append([]string{c.Changes[k].Name, cost}, three(e.Alone[k])...), three(e.Added[k])...))
	}
	if len(c.Changes) < 2 {
		return rows
	}
	cost := none
	if sum, missing := c.TotalCost(); missing < len(c.Changes) {
		cost = fixed(sum, 0)
	}
	rows = append(rows, append(append([]string{"sum", cost}, three(e.Sum)...), three(e.Together)...))
	return append(rows, append(append([]string{"interaction", ""}, three(e.Interaction)...), "", "", ""))
}

func tenths(v float64) string { return fixed(v, 1) }

// signed writes a difference with its sign; 0 has none.
func signed(v float64, write func(float64) string) string {
	text := write(math.Abs(v))
	switch {
	case strings.Trim(text, "0.,") == "":
		return "0"
	case v < 0:
		return "−" + text
	}
	return "+" + text
}

// InteractionText says that the changes of a trial do not add up; empty for one change.
func (s *Study) InteractionText(c *ChangeTrial) string {
	if len(c.Changes) < 2 {
		return ""
	}
	e := c.Effects()
	unit := s.Units.volumeUnit()
	of := func(m3 float64) string { return signed(s.Units.volume(m3), rounded) }
	return fmt.Sprintf("Under %s the changes together make %s %s %s and %s stress days; the sum of each alone is %s and %s, "+
		"the interaction %s and %s.",
		quote(s.Table.Strategies[c.Strategy]), of(e.Together.M3), unit, s.per(), signed(e.Together.Stress, tenths), of(e.Sum.M3),
		signed(e.Sum.Stress, tenths), of(e.Interaction.M3), signed(e.Interaction.Stress, tenths))
}

// EstablishText says how much water new plants take until they are established, and
// whether it is enough; empty if none are planted in the record.
func (s *Study) EstablishText(c *ChangeTrial) string {
	if c.EstablishDays == 0 {
		return ""
	}
	name := quote(s.Table.Strategies[c.Strategy])
	text := fmt.Sprintf("Under %s new plants take %s in their first %s, until they are established; this is not part of the yearly "+
		"figures. ", name, s.Units.volumeText(c.EstablishM3), count(c.EstablishDays, "day", "days"))
	if c.EstablishStress == 0 {
		return text + "In that time they are never short of water."
	}
	return text + fmt.Sprintf("In that time they are short of water on %s, all zones added up: they may not survive. Water them more at "+
		"first (minutes under establish).", count(c.EstablishStress, "day", "days"))
}

// changeTable shows what the changes of every strategy do; nil if none changes zones.
func (s *Study) changeTable(trials []ChangeTrial) *Table {
	if len(trials) == 0 {
		return nil
	}
	t := &Table{
		Caption: "What each change does to the strategy without changes: alone, and added to the changes above it. Changes interact, so the " +
			"effects of each alone may not add up to that of all together. Costs are those stated in the scenario. " +
			"New hardware and plants stay as new: what a change gives does not wear; only parts of a strategy can have a life.",
		First: "Change", Head: append([]string{"Strategy"}, s.ChangeHead()...), Words: []bool{true},
	}
	for i := range trials {
		c := &trials[i]
		for _, row := range s.ChangeRows(c) {
			t.Rows = append(t.Rows, TableRow{Name: row[0], Cells: append([]string{s.Table.Strategies[c.Strategy]}, row[1:]...)})
		}
	}
	return t
}

// whatChanges lists the values that each change of a strategy alters.
func (s *Study) whatChanges(trials []ChangeTrial) *Table {
	if len(trials) == 0 {
		return nil
	}
	t := &Table{Caption: "What each strategy changes apart from run times.", First: "Change",
		Head: []string{"Strategy", "Zones", "From", "What"}, Words: []bool{true, true, true, true}}
	for i := range trials {
		for k := range trials[i].Changes {
			f := &trials[i].Changes[k]
			t.Rows = append(t.Rows, TableRow{Name: f.Name, Cells: []string{s.Table.Strategies[trials[i].Strategy], f.Zones,
				orElse(f.From, "whole record"), strings.Join(f.What, "; ")}})
		}
	}
	return t
}

// changesOf returns the trial of a strategy, nil for none.
func changesOf(trials []ChangeTrial, st int) *ChangeTrial {
	for i := range trials {
		if trials[i].Strategy == st {
			return &trials[i]
		}
	}
	return nil
}

// makeChanges says which changes come before the settings of a strategy; empty for
// none.
func (c *ChangeTrial) makeChanges() string {
	text := "First make its changes: " + c.named() + "."
	if cost := c.CostText(); cost != "" {
		text += " " + cost
	}
	return text
}

// named lists the changes with their zones.
func (c *ChangeTrial) named() string {
	names := make([]string, len(c.Changes))
	for i := range c.Changes {
		names[i] = c.Changes[i].Name + " (" + c.Changes[i].Zones + ")"
	}
	return strings.Join(names, ", ")
}
