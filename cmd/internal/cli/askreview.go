package cli

import (
	"context"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"loamledger/scenarios/ask"
	"loamledger/scenarios/study"
)

// review lists what is used for what is not known, until nothing of it is to be changed.
// back goes to what was changed last, or to the last question.
func (d *dialog) review(ctx context.Context) (back bool, err error) {
	rows := d.unknown(false)
	var last ask.Row
	for len(rows) > 0 {
		d.printf("\nNumber to change, ? for sources, Enter to go on.\n")
		text, err := d.prompt(ctx)
		if err != nil {
			_, all := d.number(ask.Row{})
			return false, d.ended(err, all)
		}
		switch n, err := strconv.Atoi(text); {
		case text == "":
			return false, nil
		case text == "?":
			d.unknown(true)
			continue
		case strings.EqualFold(text, "back"):
			if last.Zones == nil {
				return true, nil
			}
		case err != nil || n < 1 || n > len(rows):
			d.sayUnder("  ", fmt.Sprintf("Not understood: %q.", text))
			d.sayUnder("  ", fmt.Sprintf("Fix: type a number from 1 to %d, or press Enter.", len(rows)))
			continue
		default:
			last = rows[n-1]
		}
		if err := d.change(ctx, last); err != nil {
			return false, err
		}
		rows = d.unknown(false)
	}
	return false, nil
}

// change asks for one row, and for what its answer asks for in turn.
func (d *dialog) change(ctx context.Context, r ask.Row) error {
	back, err := d.ask(ctx, r)
	if err != nil || back {
		return err
	}
	for _, next := range d.turns() {
		if next.Follows(r) {
			if err := d.change(ctx, next); err != nil {
				return err
			}
		}
	}
	return nil
}

// unknown prints what is used for what is not known, with its grade or its source too, and
// returns the row of each line.
func (d *dialog) unknown(sources bool) (rows []ask.Row) {
	r, _ := ask.Scenario(d.a)
	g := &study.Grid{Head: []string{"", "not known", "used", "grade"},
		Columns: []study.GridColumn{{Right: true}, {Width: 14}, {Width: 40}, {Width: 16}}}
	if sources {
		g.Head[3], g.Columns[2].Width, g.Columns[3].Width = "grade: source", 22, 34
	}
	for _, row := range d.a.Rows() {
		_, _, p := ask.Find(row.At(0))
		for _, l := range d.linesOf(row, r.Assumed) {
			rows = append(rows, ask.Row{Question: row.Question, Part: row.Part, Zones: l.zones})
			why := l.grade
			if sources && why != "" {
				why += ": " + l.source
			}
			g.Rows = append(g.Rows, []string{fmt.Sprint(len(rows)), p.Name, l.used, why})
		}
	}
	if len(rows) > 0 {
		d.printf("\nUsed for what you did not know:\n\n")
		printGrid(d.Out, g)
	}
	if sources {
		d.figures(r)
	}
	return rows
}

// An assumedLine is one line of what is used.
type assumedLine struct {
	used, grade, source string
	zones               []int
}

// linesOf says what is used in a row: one line for all zones that are alike.
func (d *dialog) linesOf(row ask.Row, assumed []ask.Assumption) (out []assumedLine) {
	add := func(z int, used, grade, source string) {
		i := slices.IndexFunc(out, func(l assumedLine) bool { return l.used == used && l.source == source })
		if i < 0 {
			i = len(out)
			out = append(out, assumedLine{used: used, grade: grade, source: source})
		}
		out[i].zones = append(out[i].zones, z)
	}
	for i, z := range row.Zones {
		found := false
		for _, a := range assumed {
			if a.At == row.At(i) {
				found = true
				add(z, a.Text, a.Grade.String(), a.Source)
			}
		}
		if def := d.a.Default(row.At(i)); !found && d.a.Answer(row.At(i)) == "" && row.Part != "name" {
			grade := ""
			if !def.None {
				grade = def.Grade.String()
			}
			add(z, def.Text, grade, def.Source)
		}
	}
	for i := range out {
		if names := d.someZones(ask.Row{Zones: out[i].zones}); names != "" {
			out[i].used = names + ": " + out[i].used
		}
	}
	return out
}

// someZones names the zones of a row, unless they are all that there are.
func (d *dialog) someZones(r ask.Row) string {
	if r.Zones[0] < 0 || len(r.Zones) == d.a.ZoneCount() {
		return ""
	}
	var names []string
	for _, z := range r.Zones {
		names = append(names, d.a.ZoneName(z))
	}
	return strings.Join(names, ", ")
}

// figures prints the monthly figures of synthetic weather.
func (d *dialog) figures(r ask.Result) {
	for _, f := range r.Files {
		if f.Kind != ask.Figures {
			continue
		}
		d.printf("\nMonthly figures of the synthetic weather, January first:\n")
		for line := range strings.Lines(string(f.Text)) {
			if key, _, _ := strings.Cut(line, "_"); slices.Contains([]string{"rain", "tmax", "tmin"}, key) {
				d.printf("  %s", line)
			}
		}
	}
}
