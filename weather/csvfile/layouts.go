package csvfile

import (
	"fmt"
	"slices"
	"sort"
	"strings"

	"loamledger/weather/diag"
)

// To add a layout:
//
//  1. Write <layout>.go with a function returning a Layout: its page (Title, Doc
//     and so on), a match function that says whether a line of the file's start
//     identifies it (its header, or for a file without a header
//     its first row), and a read function.
//  2. The read function skips the preamble (r.skipTo(r.header)), stores what
//     it learns about the station in r.proto, reports its assumptions with
//     r.assume, and passes the rows to r.wide (a row is a day) or, cell by cell,
//     to r.cell (a row is one quantity of a day).
//  3. Add one line to layouts below, a fixture testdata/weather/<layout>.csv, a
//     case in <layout>_test.go and a fuzz target.
//
// Order does not matter: a line that matches two layouts is an error.

// A Layout is one file format for daily weather.
type Layout struct {
	Name       string // the value for Options.Layout
	Title      string // one line for lists
	Doc        string // what the file looks like and how it is read, in sentences
	Units      string // the units and where they are stated
	Missing    string // how missing values are written
	WindHeight string // the anemometer height, and how it is known
	Source     string // the source of the description

	// asksUnits means the reader uses Options.Units, because the layout does
	// not state a unit or states a wrong one.
	asksUnits bool
	// match reports whether line n (from 1) of the file's start identifies the layout.
	match func(h *lead, n int) bool
	// read reads the file from its first line to its last.
	read func(r *reading) error
}

// layouts lists every layout: one line each.
func layouts() []Layout {
	return []Layout{
		ownLayout(),
		ghcnLongLayout(),
		ghcnDlyLayout(),
		ghcnWideLayout(),
		cdoTenthsLayout(),
		nceiWideLayout(),
		nasaPowerLayout(),
		openMeteoLayout(),
		daymetLayout(),
		azmetLayout(),
		cimisLayout(),
		gsodLayout(),
		agrimetLayout(),
		uscrnLayout(),
		knmiLayout(),
		siarLayout(),
		ecccLayout(),
		bomLayout(),
		siloLayout(),
		meteostatLayout(),
		coagmetLayout(),
		gridmetLayout(),
		fawnLayout(),
		vegaLayout(),
		wideFlagsLayout(),
		tmy3Layout(),
		epwLayout(),
		declaredPage(),
	}
}

// Layouts returns the documentation of all layouts, in order of name.
func Layouts() []Layout {
	list := layouts()
	sort.SliceStable(list, func(a, b int) bool { return list[a].Name < list[b].Name })
	return list
}

// recognize finds the layout and the number of the line that identifies it,
// without consuming input.
func recognize(s *scanner, o Options) (*Layout, int, error) {
	h := newLead(s)
	fault := func(code diag.Code, fix, msg string) (*Layout, int, error) {
		return nil, 0, &diag.Error{Code: code, Pos: diag.Pos{File: s.name}, Msg: msg, Fix: fix}
	}
	if len(h.lines) == 0 {
		return fault(diag.TooLarge, "check that the file is plain text with one row per line",
			"first line longer than 256 KiB: not a daily table")
	}
	list := layouts()
	if o.Declared != nil {
		l, n, err := declaredLayout(o.Declared, h)
		return &l, n, err
	}
	if o.Layout != "" {
		i := slices.IndexFunc(list, func(l Layout) bool { return l.Name == o.Layout })
		if i < 0 {
			names := layoutNames(list)
			fix := "use one of " + strings.Join(names, ", ")
			if near := diag.Nearest(o.Layout, names); near != "" {
				fix = "did you mean " + near + "?"
			}
			return fault(diag.UnknownLayout, fix, "unknown layout "+o.Layout)
		}
		list = list[i : i+1]
	}
	for n := 1; n <= len(h.lines); n++ {
		var found []int
		for i := range list {
			if list[i].match(h, n) {
				found = append(found, i)
			}
		}
		if len(found) == 1 {
			return &list[found[0]], n, nil
		}
		if len(found) > 1 {
			return fault(diag.UnknownLayout, "name the layout (layout under weather; --layout)",
				fmt.Sprintf("line %d matches the layouts %s and %s", n, list[found[0]].Name, list[found[1]].Name))
		}
	}
	if o.Layout != "" {
		return fault(diag.UnknownLayout, "omit the layout so that it is detected", "no line near the start matches layout "+o.Layout)
	}
	fix, yaml := declareIt(h)
	e := &diag.Error{Code: diag.UnknownLayout, Pos: diag.Pos{File: s.name}, Fix: fix, Msg: "unknown layout"}
	if yaml == "" { // the content of a file of another kind is nobody's business
		e.Msg += "; no line near the start has the column names of daily weather"
	} else {
		shown := string(h.lines[0])
		if len(shown) > 120 {
			shown = shown[:120] + " …"
		}
		e.Msg += "; the file begins with \"" + strings.ToValidUTF8(shown, "?") + "\""
	}
	if yaml != "" {
		e.Suggest(diag.NewFile, yaml)
	}
	return nil, 0, e
}

func layoutNames(list []Layout) []string {
	var names []string
	for _, l := range list {
		names = append(names, l.Name)
	}
	slices.Sort(names)
	return names
}
