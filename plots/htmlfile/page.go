// Package htmlfile writes a report of package plots as one HTML page that
// needs nothing beside it: styles and pictures are inside, there is no script
// and no link to anywhere else. It reads on a phone and prints in grey.
//
// # Promises
//
// Equal reports give equal bytes. Every name from a user is escaped; the page
// carries a policy that forbids it to load anything.
package htmlfile

import (
	"embed"
	"encoding/base64"
	"html/template"
	"io"

	"loamledger/plots"
)

//go:embed page.html words.html style.css
var files embed.FS

// A Page is a report with its charts.
type Page struct {
	Report  *plots.Report
	Figures []Figure
}

// A Figure is a chart and the pictures of its parts, without headings.
type Figure struct {
	Chart    *plots.Chart
	Pictures []Picture
}

// A Picture is a PNG file and its size.
type Picture struct {
	PNG             []byte
	WidthPx, HighPx int // 0 where not known
}

// Write writes the page. An error is w's.
func Write(w io.Writer, p *Page) error {
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
	return t.Execute(w, p)
}
