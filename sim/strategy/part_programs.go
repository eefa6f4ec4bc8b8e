package strategy

import (
	"fmt"
	"strings"

	"loamledger/weather/quantity"
)

// programsKey is the key of programs, which other kinds check for shared zones.
const programsKey = "programs"

func programsKind() Kind {
	return Spec[Programs]{
		Key:       programsKey,
		Doc:       "runs the named programs; a zone in several programs is watered by each of them",
		Example:   "programs: [lawns]",
		Params:    (*Programs).params,
		Sheet:     (*Programs).sheet,
		Copy:      replaced[Programs],
		Lines:     (*Programs).lines,
		Plain:     (*Programs).plain,
		YAML:      FromParams,
		Conflicts: (*Programs).conflicts,
		Warnings:  (*Programs).warnings,
		Record:    (*Programs).record,
	}.Kind()
}

func (p *Programs) params() []Param {
	return []Param{
		{Field: asPrograms(&p.List), Required: true, Doc: "names of programs of the scenario"},
	}
}

// Programs waters by fixed programs, as set on a controller.
type Programs struct{ List []Program }

// Kind returns the kind of the part.
func (Programs) Kind() Kind { return programsKind() }

// Stage returns [Water].
func (Programs) Stage() Stage { return Water }

// Apply adds the programs to the draft.
func (p Programs) Apply(d *Draft) { d.Programs = append(d.Programs, p.List...) }

func (p *Programs) sheet(*Site) SheetEntry { return SheetEntry{Use: Entered, Programs: p.List} }

func (p *Programs) lines(zones []string, _ quantity.System) (lines []string) {
	for i := range p.List {
		prog := &p.List[i]
		var names []string
		for z, m := range prog.Minutes {
			if m > 0 {
				names = append(names, fmt.Sprintf("%s %g min", zones[z], m))
			}
		}
		head := prog.Name
		switch days := DaysText(prog.Days); {
		case strings.HasPrefix(days, head): // named by its days
			head = days
		case !strings.HasPrefix(head, days):
			head += ": " + days
		}
		lines = append(lines, fmt.Sprintf("%s at %s%s: %s",
			head, StartsText(prog.Starts), cyclesText(prog.Cycle, prog.Soak), strings.Join(names, ", ")))
	}
	return lines
}

// waters returns the zones that the programs water.
func (p *Programs) waters() []bool {
	var waters []bool
	for i := range p.List {
		for z, m := range p.List[i].Minutes {
			for len(waters) <= z {
				waters = append(waters, false)
			}
			waters[z] = waters[z] || m > 0
		}
	}
	return waters
}

func (p *Programs) conflicts(Given) Conflicts {
	return Conflicts{Checked: true, Claim: &Claim{Zones: p.waters()}}
}

func (p *Programs) warnings([]string) Warnings { return Warnings{Checked: true, Waters: p.waters()} }

// record names the programs that never run in the record.
func (p *Programs) record(site *Site) string {
	var names []string
	for i := range p.List {
		if site.outside(p.List[i].From, p.List[i].To) {
			names = append(names, p.List[i].Name)
		}
	}
	if len(names) == 0 {
		return ""
	}
	return "programs outside the record: " + strings.Join(names, ", ")
}

func (p *Programs) plain() Plain {
	text, cycles := "1 program", false
	if n := len(p.List); n != 1 {
		text = fmt.Sprintf("%d programs", n)
	}
	for i := range p.List {
		cycles = cycles || p.List[i].Cycle > 0
	}
	if cycles {
		text += " in short cycles"
	}
	return Plain{Text: text + " on fixed days"}
}
