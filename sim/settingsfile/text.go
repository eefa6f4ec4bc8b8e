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

// WriteText writes the sheet as plain text. It returns an error from w or,
// before writing anything, a [*strategy.UnsaidError] for a part without words.
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
	line("%s: settings for %q", p.Site, s.Name)
	list("REFUSED, SINCE IT DOES NOT FIT THE TIMER. The settings below are the nearest that fit:", p.refused())
	list("DOES NOT FIT:", settings.MisfitTexts(s))
	list("ZONES WITHOUT WATER:", p.dry())
	if p.Timer != "" {
		line("\n%s", p.Timer)
	}
	for _, text := range p.Lead {
		line("\n%s", text)
	}
	for _, d := range p.devices() {
		d.writeDevice(&b)
	}
	if f := p.Following; f != nil {
		line("\n%s", followingHead)
		for _, text := range followingMonths(f, p.Units) {
			line("  %s", text)
		}
		grid(&b, followingGrid(f, s, p.Units))
		line("  %s", followingNote)
	}
	list("Other controller and sensor settings:", controls)
	list("Adjustments made for this sheet:", s.Notes)
	list("Beside the controller:", p.Advice)
	list("Blocked by site limits in the record:", p.held())
	if len(p.Results) > 0 {
		line("\nReplayed as shown: %s", p.Record)
		rows := [][]string{append([]string{""}, p.resultHead()...)}
		for _, r := range p.Results {
			rows = append(rows, append([]string{r.What}, r.cells()...))
		}
		grid(&b, rows)
	}
	if p.Effect != "" {
		line("  %s", p.Effect)
	}
	list("Cautions:", cautions())
	_, err = io.WriteString(w, b.String())
	return err
}

// writeDevice writes what to enter on one controller.
func (p *Page) writeDevice(b *strings.Builder) {
	s := p.Sheet
	line := func(format string, args ...any) { fmt.Fprintf(b, format+"\n", args...) }
	if name := p.name(); name != "" {
		line("\n%s", strings.ToUpper(name))
		line("%s", p.Timer)
	}
	for i := range s.Programs {
		prog := &s.Programs[i]
		line("\n%s", heading(i, prog.Name))
		line("  days    %s", strategy.DaysText(prog.Days))
		line("  starts  %s", settings.StartsText(prog.Starts, p.Units))
		if prog.Cycle > 0 {
			line("  cycles  up to %s min each, %s min soak between cycles", settings.MinutesText(prog.Cycle), settings.MinutesText(prog.Soak))
		}
		rows := [][]string{{"zone", "run time at 100% [min]", "cycles"}}
		for z := range prog.Minutes {
			if m := prog.Minutes[z]; m > 0 {
				cycles := sim.Run{Minutes: m, CycleMin: prog.Cycle}.Cycles()
				rows = append(rows, []string{s.Zones[z].Name, settings.MinutesText(m), cycleText(m, prog.Cycle, cycles)})
			}
		}
		grid(b, rows)
	}
	line("\nMonthly percentages and last finish time")
	grid(b, append([][]string{{"month", "percentage", "last finish"}}, p.monthRows()...))
	for _, text := range []string{offMonths(s), outsideSeason(s), p.shift(), queued(s)} {
		if text != "" {
			line("  %s", text)
		}
	}
	if changes := p.changes(); len(changes) > 0 {
		line("\nChanges during the year:")
		for _, text := range changes {
			line("  - %s", text)
		}
		if next := p.next(); next != "" {
			line("%s", next)
		}
	} else if outsideSeason(s) == "" {
		line("\nThe same settings apply all year.")
	} else {
		line("\nThe same settings apply all season.")
	}
	if len(s.Changes()) > 0 {
		line("\nRun time per start by month, for a controller without percentages (whole minutes; the results below use the percentages)")
		grid(b, p.byMonth())
	}
}

// grid writes rows in columns: the first left-aligned, the others right-aligned.
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
