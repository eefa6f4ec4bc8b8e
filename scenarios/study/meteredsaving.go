package study

import (
	"fmt"
	"strings"

	"loamledger/sim/meter"
	"loamledger/weather/quantity"
)

// meterEvents shows what was done about events; no rows if there were none.
func (l *Study) meterEvents(m *Metered) meterTable {
	t := meterTable{caption: "Events that are not routine", head: []string{"event", "days", "what was done", "reason"},
		words: []bool{true, true, true}}
	for e := range m.Use.Events {
		ev := &m.Use.Events[e]
		removed, adjusted, off := 0, 0, 0.0
		for _, a := range m.Adjusted {
			switch {
			case a.Event != e:
			case ev.Adjust:
				adjusted, off = adjusted+1, off+a.M3
			default:
				removed++
			}
		}
		done := "no period has these days"
		switch {
		case adjusted > 0:
			done = fmt.Sprintf("%s %s taken off %s", l.vol(off), l.volUnit(), quantity.Count(adjusted, "period", "periods"))
		case removed > 0:
			done = quantity.Count(removed, "period", "periods") + " left out"
		}
		t.rows = append(t.rows, []string{string(ev.Kind), fmt.Sprintf("%v to %v", ev.From, ev.To), done, ev.Reason})
	}
	return t
}

// meterSaving says what may be said of a saving.
func (l *Study) meterSaving(m *Metered) meterTable {
	s, unit := m.Saving, l.volUnit()
	t := meterTable{caption: "Savings at this meter: " + string(s.Status)}
	if len(s.By) > 0 {
		t.caption += fmt.Sprintf("; %s that count, %v to %v", quantity.Count(s.DaysAfter, "day", "days"), s.From, s.To)
		t.head = []string{"baseline", "baseline\n[" + unit + "]", "metered\n[" + unit + "]", "saving\n[" + unit + "]", "saving\n[%]",
			fmt.Sprintf("± at %.0f%%\nconfidence", 100*meter.Confidence), "follows\nthe weather"}
		t.words = []bool{false, false, false, false, false, true}
		for i := range s.By {
			by := &s.By[i]
			name, plus, follows := string(by.Model), "-", "no"
			if i == s.Claim {
				name += " (to state)"
			}
			if by.PlusOK {
				plus = l.vol(by.Plus)
			}
			if by.Model.Doc().Weather {
				follows = "yes"
			}
			t.rows = append(t.rows, []string{name, l.vol(by.BaselineM3), l.vol(by.MeteredM3), l.vol(by.M3), pct(100 * by.M3 / by.BaselineM3), plus, follows})
		}
		t.notes = append(t.notes, "Saving: what the baseline says of these days, with their weather if it follows it, less what was metered on them. "+
			"Below 0, use has risen. To state: by the best baseline that follows the weather, or by the chosen one, whichever is smaller.")
	}
	for _, lack := range s.Lacks {
		for _, d := range meter.Lacks() {
			if d.Lack == lack {
				t.notes = append(t.notes, fmt.Sprintf("Not verified: %s. To do: %s.", d.Doc, d.Fix))
			}
		}
	}
	for _, d := range meter.Statuses() {
		t.notes = append(t.notes, fmt.Sprintf("“%s”: %s.", d.Status, d.Doc))
	}
	t.notes = append(t.notes, "Savings of proposed strategies in other tables are estimated.")
	return t
}

// meterNotes lists what to look at.
func (l *Study) meterNotes(m *Metered) meterTable {
	t := meterTable{caption: "Look at"}
	for _, n := range m.Notes {
		t.notes = append(t.notes, "- "+l.meterNote(m, n))
	}
	if len(m.Notes) == 0 {
		t.notes = []string{"Nothing was found to look at."}
	}
	return t
}

// meterNote writes a note with its number.
func (l *Study) meterNote(m *Metered, n meter.Note) string {
	text := strings.ToUpper(n.Code.Doc()[:1]) + n.Code.Doc()[1:]
	var about string
	switch n.Code {
	case meter.SpikeRead, meter.VacantWinter, meter.WinterUse, meter.WinterWaters, meter.BelowBase:
		p := &m.Site.Periods[n.Period]
		about = fmt.Sprintf("%s, %s %s a day", periodText(p.From, p.To), l.rate(n.Value), l.volUnit())
	case meter.FewPeriods:
		about = quantity.Count(int(n.Value), "period", "periods")
	case meter.GapInReads:
		about = quantity.Count(int(n.Value), "day", "days")
	case meter.NeverRead:
		about = quantity.Count(int(n.Value), "estimate", "estimates")
	case meter.WholeUnits:
		about = fmt.Sprintf("%s %s, a CV(RMSE) of about %.1f%%", l.vol(n.Value), l.volUnit(), meter.RoundingCV(m.History.UnitM3, m.meanM3()))
	case meter.DryDepth, meter.WetDepth, meter.LargePerArea:
		about = l.depthUnit(n.Value) + " a year"
	case meter.BaseSpread, meter.LargeSaving, meter.CloseCall:
		about = fmt.Sprintf("%.0f%%", 100*n.Value)
	}
	if about == "" {
		return text + "."
	}
	return text + " (" + about + ")."
}

// meanM3 is the mean use of a period that counts before the change [m³].
func (m *Metered) meanM3() float64 {
	sum := 0.0
	for _, i := range m.Before {
		sum += m.Site.Periods[i].M3
	}
	return sum / float64(len(m.Before))
}
