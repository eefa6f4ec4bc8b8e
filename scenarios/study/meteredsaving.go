package study

import (
	"fmt"

	"loamledger/sim/meter"
	"loamledger/weather/quantity"
)

// meterEvents shows what was done about events; no rows if there were none.
func (l *Study) meterEvents(m *ComparedMeter) meterTable {
	t := meterTable{caption: "Events that are not routine", head: []string{"event", "days", "what was done", "reason"},
		words: []bool{true, true, true}}
	for e := range m.Use.Events {
		ev := &m.Use.Events[e]
		removed, adjusted, off := 0, 0, 0.0
		for _, a := range m.adjusted {
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
			done = quantity.Count(removed, "period", "periods") + " omitted"
		}
		t.rows = append(t.rows, []string{string(ev.Kind), periodText(ev.From, ev.To), done, ev.Reason})
	}
	return t
}

// meterSaving says what may be said of a saving.
func (l *Study) meterSaving(m *ComparedMeter) meterTable {
	s, unit := m.Saving, l.volUnit()
	t := meterTable{caption: "Savings: " + string(s.Status)}
	if len(s.By) > 0 {
		t.caption += fmt.Sprintf("; %s that count, %s", quantity.Count(s.DaysAfter, "day", "days"), periodText(s.From, s.To))
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
			switch programmed := by.Model == meter.AsProgrammed || by.Model == meter.Scaled; {
			case programmed && m.supports == meter.TestsSchedule:
				follows = "as the timer did: not at all"
			case by.Model.Doc().Weather:
				follows = "yes"
			}
			t.rows = append(t.rows, []string{name, l.vol(by.BaselineM3), l.vol(by.MeteredM3), l.vol(by.M3), pct(100 * by.M3 / by.BaselineM3), plus,
				follows})
		}
		t.notes = append(t.notes, "Saving: what the baseline says of these days, with their weather if it follows it, less what was "+
			"metered on them. "+
			"Below 0, use has risen. The interval has no room for a bias of the baseline (its NMBE). To state: by the best baseline that "+
			"follows the weather, or by the chosen one, whichever is smaller.")
	}
	if len(s.By) > 0 && m.supports == meter.TestsSchedule {
		t.notes = append(t.notes, "The schedule as found ignores the weather, so its replay needs no adjustment for it: in any weather "+
			"these days would "+
			"have used as much. That holds only while nobody changes the settings by hand.")
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

// meterNotes lists what to look at, each kind once.
func (l *Study) meterNotes(m *ComparedMeter) meterTable {
	t := meterTable{caption: "Look at"}
	for i := 0; i < len(m.notes); {
		code := m.notes[i].Code
		var about []string
		for ; i < len(m.notes) && m.notes[i].Code == code; i++ {
			if text := l.noteValue(m, m.notes[i]); text != "" {
				about = append(about, text)
			}
		}
		t.notes = append(t.notes, "- "+noteText(code, about))
	}
	if len(m.notes) == 0 {
		t.notes = []string{"Nothing was found to look at."}
	}
	return t
}

// noteText writes a note with what it is about.
func noteText(code meter.NoteCode, about []string) string {
	text := capital(code.Doc())
	if len(about) == 0 {
		return text + "."
	}
	return text + " (" + someOf(about) + ")."
}

// noteValue writes the number of a note.
func (l *Study) noteValue(m *ComparedMeter, n meter.Note) string {
	switch n.Code {
	case meter.SpikeRead, meter.VacantWinter, meter.WinterUse, meter.WinterWaters, meter.BelowBase:
		p := &m.Site.Periods[n.Period]
		return fmt.Sprintf("%s, %s %s a day", periodText(p.From, p.To), l.rate(n.Value), l.volUnit())
	case meter.FewPeriods:
		return quantity.Count(int(n.Value), "period", "periods")
	case meter.GapInReads:
		return quantity.Count(int(n.Value), "day", "days")
	case meter.NeverRead:
		return quantity.Count(int(n.Value), "estimate", "estimates")
	case meter.WholeUnits:
		return fmt.Sprintf("%s %s, a CV(RMSE) of about %.1f%%", l.vol(n.Value), l.volUnit(), meter.RoundingCV(m.History.UnitM3, m.meanM3()))
	case meter.DryDepth, meter.WetDepth, meter.LargePerArea:
		return l.depthUnit(n.Value) + " a year"
	case meter.BaseSpread, meter.LargeSaving, meter.CloseCall:
		return fmt.Sprintf("%.0f%%", 100*n.Value)
	}
	return ""
}

// meanM3 is the mean use of a period that counts before the change [m³].
func (m *ComparedMeter) meanM3() float64 {
	sum := 0.0
	for _, i := range m.Before {
		sum += m.Site.Periods[i].M3
	}
	return sum / float64(len(m.Before))
}
