package settingsfile

import (
	"embed"
	"html/template"
	"io"

	"loamledger/sim"
	"loamledger/sim/settings"
	"loamledger/sim/strategy"
	"loamledger/weather/visible"
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
type monthView struct{ Name, Percent, Finish string }

// view holds everything on the page.
type view struct {
	*Page
	Misfits, Held, Changes, Words, Cautions   []string
	Unfit, Dry                                []string
	Next, Off, OutsideSeason, Earlier, Queued string
	Programs                                  []programView
	Months                                    []monthView
	ByMonth                                   *tableView // nil for none
	Follows                                   *followView
	Expect                                    *tableView
	Name                                      string  // of the controller; empty for the only one
	Each                                      []*view // of each controller: the view itself if there is one
}

// tableView is a table as shown on the page.
type tableView struct {
	Head []string // without the first
	Rows []rowView
}

type rowView struct {
	Name  string
	Cells []string
}

type followView struct {
	Head, Note string
	Months     []string
	Table      *tableView
}

// tableOf makes a view of rows below a head.
func tableOf(rows [][]string) *tableView {
	t := &tableView{Head: rows[0][1:]}
	for _, row := range rows[1:] {
		t.Rows = append(t.Rows, rowView{row[0], row[1:]})
	}
	return t
}

// WritePage writes the sheet as an HTML page. It returns an error from w or,
// before writing anything, a [*strategy.UnsaidError] for a part without words.
func WritePage(w io.Writer, p *Page) error {
	w = visible.NewWriter(w) // names may be from files
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
	v := &view{Page: p, Changes: p.changes(), Words: words, Cautions: cautions(), Next: p.next(), Misfits: settings.MisfitTexts(s),
		Held: p.held(), Unfit: p.refused(), Dry: p.dry(), Off: offMonths(s), OutsideSeason: outsideSeason(s), Earlier: p.shift(),
		Queued: queued(s)}
	for i := range s.Programs {
		prog := &s.Programs[i]
		pv := programView{Heading: heading(i, prog.Name), Days: strategy.DaysText(prog.Days), Starts: settings.StartsText(prog.Starts, p.Units)}
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
	for _, row := range p.monthRows() {
		v.Months = append(v.Months, monthView{row[0], row[1], row[2]})
	}
	if len(v.Changes) > 0 {
		v.ByMonth = tableOf(p.byMonth())
	}
	v.Each = []*view{v}
	if v.Name = p.name(); len(p.Devices) > 0 {
		v.Each = nil
		for _, d := range p.devices() {
			one, err := d.view()
			if err != nil {
				return nil, err
			}
			v.Each = append(v.Each, one)
		}
	}
	if f := p.Following; f != nil {
		v.Follows = &followView{followingHead, followingNote, followingMonths(f, p.Units), tableOf(followingGrid(f, s, p.Units))}
	}
	if len(p.Results) > 0 {
		rows := [][]string{append([]string{""}, p.resultHead()...)}
		for _, r := range p.Results {
			rows = append(rows, append([]string{r.What}, r.cells()...))
		}
		v.Expect = tableOf(rows)
	}
	return v, nil
}
