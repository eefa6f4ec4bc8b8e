package settingsfile

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"loamledger/sim"
	"loamledger/sim/settings"
	"loamledger/sim/strategy"
)

// WriteText writes the sheet as plain text. An error is w's, or a
// [*strategy.UnsaidError] of a part without words, before anything is written.
func WriteText(w io.Writer, p *Page) error {
	var b strings.Builder
	s := p.Sheet
	controls, err := s.Controls(p.Units)
	if err != nil {
		return err
	}
	line := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	list := func(head string, items []string) {
		if len(items) == 0 {
			return
		}
		line("\n%s", head)
		for _, item := range items {
			line("  - %s", item)
		}
	}
	line("%s: what to enter for %q", p.Site, s.Name)
	list("DOES NOT FIT:", settings.MisfitTexts(s))
	for _, text := range p.Lead {
		line("\n%s", text)
	}
	for i := range s.Programs {
		prog := &s.Programs[i]
		line("\n%s", heading(i, prog.Name))
		line("  days    %s", strategy.DaysText(prog.Days))
		line("  starts  %s", strategy.StartsText(prog.Starts))
		if prog.Cycle > 0 {
			line("  cycles  at most %s min at a time, pauses of %s min", settings.MinutesText(prog.Cycle), settings.MinutesText(prog.Soak))
		}
		rows := [][]string{{"zone", "minutes at 100 %", "in parts"}}
		for z := range prog.Minutes {
			if m := prog.Minutes[z]; m > 0 {
				cycles := sim.Run{Minutes: m, CycleMin: prog.Cycle}.Cycles()
				rows = append(rows, []string{s.Zones[z].Name, settings.MinutesText(m), cycleText(m, prog.Cycle, prog.Soak, cycles)})
			}
		}
		grid(&b, rows)
	}
	head, share, ends := []string{"month"}, []string{"percentage"}, []string{"finished by"}
	for m, name := range strategy.MonthNames {
		head, share, ends = append(head, name), append(share, strings.TrimSuffix(percent(s.Percent[m]), " %")), append(ends, finish(s.Times[m]))
	}
	line("\nPercentage of the minutes by month, and when the last zone closes")
	grid(&b, [][]string{head, share, ends})
	if changes := p.changes(); len(changes) > 0 {
		list("When to change it:", changes)
		if next := p.next(); next != "" {
			line("%s", next)
		}
	} else {
		line("\nOne setting holds all year.")
	}
	if len(s.Changes()) > 0 {
		line("\nMinutes of each start by month, for a controller without a percentage (whole minutes; the replay below takes the percentages)")
		rows := [][]string{head}
		rows[0] = append([]string{"zone"}, head[1:]...)
		entries := s.Entries()
		for i := 0; i < len(entries); i += 12 {
			row := []string{s.Zones[entries[i].Zone].Name + ", " + entries[i].Program.Name}
			for _, e := range entries[i : i+12] {
				row = append(row, settings.WholeMinutesText(e.Minutes))
			}
			rows = append(rows, row)
		}
		grid(&b, rows)
	}
	list("Set on the controller or its sensors:", controls)
	list("Changed in making this sheet:", s.Notes)
	list("Held back by the rules over the record:", p.held())
	if len(p.Results) > 0 {
		line("\nReplayed as it stands here, %s", p.Record)
		rows := [][]string{{"", "strategy", "this sheet"}}
		for _, r := range p.Results {
			rows = append(rows, []string{r.What, r.Asked, r.Sheet})
		}
		grid(&b, rows)
	}
	list("Cautions:", Cautions())
	_, err = io.WriteString(w, b.String())
	return err
}

// grid writes rows in columns, the first to the left and the others to the right.
func grid(b *strings.Builder, rows [][]string) {
	var wide []int
	for _, row := range rows {
		for i, cell := range row {
			if i == len(wide) {
				wide = append(wide, 0)
			}
			wide[i] = max(wide[i], utf8.RuneCountInString(cell))
		}
	}
	for _, row := range rows {
		text := " "
		for i, cell := range row {
			pad := strings.Repeat(" ", wide[i]-utf8.RuneCountInString(cell))
			if i == 0 {
				text += " " + cell + pad
			} else {
				text += "  " + pad + cell
			}
		}
		b.WriteString(strings.TrimRight(text, " ") + "\n")
	}
}
