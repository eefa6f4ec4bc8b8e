package settingsfile

import (
	"embed"
	"html/template"
	"io"

	"loamledger/sim"
	"loamledger/sim/settings"
	"loamledger/sim/strategy"
)

//go:embed sheet.html
var files embed.FS

// programView is a program as shown on the page.
type programView struct {
	Heading, Days, Starts string
	Cycles                string
	Zones                 []zoneView
}

type zoneView struct{ Name, Minutes, Cycles string }

// monthView is a month as shown on the page.
type monthView struct {
	Name, Percent, Finish string
	Off                   bool
}

// view holds everything on the page.
type view struct {
	*Page
	Misfits, Held, Changes, Words, Cautions []string
	Next                                    string
	Programs                                []programView
	Months                                  []monthView
	ByMonth                                 []rowView
}

type rowView struct {
	Name  string
	Cells []string
}

// WritePage writes the sheet as an HTML page. It returns an error from w or,
// before writing anything, a [*strategy.UnsaidError] for a part without words.
func WritePage(w io.Writer, p *Page) error {
	t, err := template.ParseFS(files, "sheet.html")
	if err != nil {
		return err
	}
	v, err := p.view()
	if err != nil {
		return err
	}
	return t.Execute(w, v)
}

func (p *Page) view() (*view, error) {
	s := p.Sheet
	words, err := s.Controls(p.Units)
	if err != nil {
		return nil, err
	}
	v := &view{Page: p, Changes: p.changes(), Words: words, Cautions: Cautions(), Next: p.next(), Misfits: settings.MisfitTexts(s),
		Held: p.held()}
	for i := range s.Programs {
		prog := &s.Programs[i]
		pv := programView{Heading: heading(i, prog.Name), Days: strategy.DaysText(prog.Days), Starts: strategy.StartsText(prog.Starts)}
		if prog.Cycle > 0 {
			pv.Cycles = "up to " + settings.MinutesText(prog.Cycle) + " min each, " + settings.MinutesText(prog.Soak) + " min soak between cycles"
		}
		for z, m := range prog.Minutes {
			if m > 0 {
				cycles := sim.Run{Minutes: m, CycleMin: prog.Cycle}.Cycles()
				pv.Zones = append(pv.Zones, zoneView{s.Zones[z].Name, settings.MinutesText(m), cycleText(m, prog.Cycle, cycles)})
			}
		}
		v.Programs = append(v.Programs, pv)
	}
	months := s.Months()
	for _, m := range months {
		v.Months = append(v.Months, monthView{strategy.MonthNames[m], percent(s.Percent[m]), finish(s.Times[m]), !s.Times[m].Waters})
	}
	if len(v.Changes) > 0 {
		entries := s.Entries()
		for i := 0; i < len(entries); i += len(months) {
			row := rowView{Name: rowName(s, &entries[i])}
			for _, e := range entries[i : i+len(months)] {
				row.Cells = append(row.Cells, settings.WholeMinutesText(e.Minutes))
			}
			v.ByMonth = append(v.ByMonth, row)
		}
	}
	return v, nil
}
