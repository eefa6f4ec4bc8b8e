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

//go:embed parts.html page.html brief.html style.css
var files embed.FS

// A Page is a report with its charts.
type Page struct {
	Report  *plots.Report
	Figures []plots.Figure
	Coming  *plots.Figure  // of the forecast days after the record; nil for none
	Meters  []plots.Figure // of meter reads; none without reads
}

// A figure is a chart as the page shows it.
type figure struct {
	plots.Figure
	ScreenOnly bool // omitted in print
}

// A shown page has its figures sorted out for print.
type shown struct {
	*Page
	Figures    []figure
	Meters     []figure
	Coming     *figure
	ScreenOnly int // figures that are not printed: depletion charts after the first few
}

func show(p *Page) *shown {
	s := &shown{Page: p}
	if p.Coming != nil {
		s.Coming = &figure{Figure: *p.Coming}
	}
	for _, f := range p.Meters {
		s.Meters = append(s.Meters, figure{Figure: f})
	}
	printed, omitted := plots.Printed(p.Figures)
	s.ScreenOnly = omitted
	for _, f := range p.Figures {
		onPaper := slices.ContainsFunc(printed, func(o plots.Figure) bool { return o.Chart == f.Chart })
		s.Figures = append(s.Figures, figure{Figure: f, ScreenOnly: !onPaper})
	}
	return s
}

// Write writes the page. An error is that of w.
func Write(w io.Writer, p *Page) error {
	w = visible.NewWriter(w) // names may be from files
	t, err := parsed("page.html")
	if err != nil {
		return err
	}
	if _, err := t.New("words.html").Parse(plots.Words); err != nil {
		return err
	}
	return t.Execute(w, show(p))
}

// parsed returns the template of a page and those of its parts.
func parsed(name string) (*template.Template, error) {
	style, err := files.ReadFile("style.css")
	if err != nil {
		return nil, err
	}
	return template.New(name).Funcs(template.FuncMap{
		// Only these two pass unescaped: our own style sheet, and base64.
		"style": func() template.CSS { return template.CSS(style) },
		"src": func(png []byte) template.HTMLAttr {
			return template.HTMLAttr(`src="data:image/png;base64,` + base64.StdEncoding.EncodeToString(png) + `"`)
		},
	}).ParseFS(files, "parts.html", name)
}
