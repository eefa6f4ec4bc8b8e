// Package htmlfile writes a report of package plots as one HTML page that
// needs no other file: it contains its styles and pictures, no script and no link
// to other pages. It works on a phone and prints in gray.
//
// # Promises
//
// Equal reports give equal bytes. Every name from a user is escaped, and a policy
// in the page forbids it to load anything.
package htmlfile

import (
	"embed"
	"encoding/base64"
	"html/template"
	"io"
	"slices"

	"loamledger/plots"
	"loamledger/weather/visible"
)

//go:embed page.html words.html style.css
var files embed.FS

// A Page is a report with its charts.
type Page struct {
	Report  *plots.Report
	Figures []Figure
	Coming  *Figure  // of the forecast days after the record; nil for none
	Meters  []Figure // of meter reads; none without reads
}

// maxPrinted is how many depletion charts are printed; each takes a page or two.
const maxPrinted = 3

// ScreenOnly returns how many figures are not printed: depletion charts after the
// first few.
func (p *Page) ScreenOnly() int {
	n := 0
	for i := range p.Figures {
		if p.Figures[i].ScreenOnly {
			n++
		}
	}
	return n
}

// A Figure is a chart and the pictures of its parts, without headings.
type Figure struct {
	Chart    *plots.Chart
	Pictures []Picture

	// ScreenOnly omits the figure in print. Write sets it.
	ScreenOnly bool
}

// A Picture is a PNG file and its size.
type Picture struct {
	PNG             []byte
	WidthPx, HighPx int // 0 if not known
}

// Write writes the page. An error is that of w.
func Write(w io.Writer, p *Page) error {
	w = visible.NewWriter(w) // names may be from files
	style, err := files.ReadFile("style.css")
	if err != nil {
		return err
	}
	t, err := template.New("page.html").Funcs(template.FuncMap{
		// Only these two pass unescaped: our own style sheet, and base64.
		"style": func() template.CSS { return template.CSS(style) },
		"src": func(png []byte) template.HTMLAttr {
			return template.HTMLAttr(`src="data:image/png;base64,` + base64.StdEncoding.EncodeToString(png) + `"`)
		},
	}).ParseFS(files, "page.html", "words.html")
	if err != nil {
		return err
	}
	shown := *p
	shown.Figures = slices.Clone(p.Figures)
	printed := 0
	for i := range shown.Figures {
		f := &shown.Figures[i]
		if f.Chart.Kind == plots.DryKind {
			printed++
			f.ScreenOnly = printed > maxPrinted
		}
	}
	return t.Execute(w, &shown)
}
