// Package webfile writes the page that computes: one HTML file with the engine inside.
// It needs no other file and no network.
//
// # Promises
//
// Equal contents give equal bytes. A policy in the page forbids it to load or to send
// anything, and to run any script but its own. What is from files is shown as text, never
// as markup.
package webfile

import (
	"crypto/sha256"
	_ "embed"
	"encoding/base64"
	"encoding/json"
	"errors"
	"io"
	"strings"
)

var (
	//go:embed page.html
	pageText string
	//go:embed start.html
	startText string
	//go:embed cards.html
	cardsText string
	//go:embed style.css
	styleText string
	//go:embed page.js
	scriptText string
	//go:embed worker.js
	workerText string
)

// An Engine is what runs the page.
type Engine struct {
	// Wasm is the engine, compressed by gzip.
	Wasm []byte
	// Support is the script of the same version of Go that runs it.
	Support []byte
	// License is the license of both, which the page repeats.
	License []byte
	Version string
}

// Files are files inside a page. Scenario is the name of the one to open; empty for a
// page that starts without one.
type Files struct {
	Scenario string            `json:"scenario"`
	Files    map[string][]byte `json:"files"`
}

// Write writes the page. An error is that of w.
func Write(w io.Writer, e *Engine, inside *Files) error {
	scripts, err := e.scripts(inside)
	if err != nil {
		return err
	}
	page := strings.NewReplacer("{{policy}}", policy(), "{{style}}", styleText, "{{start}}", startText, "{{cards}}", cardsText,
		"{{version}}", e.Version, "{{scripts}}", scripts).Replace(pageText)
	_, err = io.WriteString(w, page)
	return err
}

// errNoReport is returned for a report without the places where the engine belongs.
var errNoReport = errors.New("webfile: this is not a report of loamledger")

// Alive writes a report with the engine and the files of its scenario inside: without
// scripts it is the report, with them it also has the cards and sliders. report is a page
// of package htmlfile. An error is an error or that of w.
func Alive(w io.Writer, e *Engine, report []byte, inside *Files) error {
	scripts, err := e.scripts(inside)
	if err != nil {
		return err
	}
	page := string(report)
	for _, place := range []struct{ at, with string }{
		{"default-src 'none'; img-src data:; style-src 'unsafe-inline'\">",
			"default-src 'none'; img-src data:; style-src 'unsafe-inline'; " + scriptPolicy() + "\">"},
		{"</head>", "<style>" + styleText + "</style>\n</head>"},
		{"<main>", "<main>\n<p class=\"live still\" id=\"alive-link\" hidden>The numbers of this report can be moved: see " +
			"<a href=\"#alive\">What if?</a></p>"},
		{"<footer>", "<section class=\"live still\" id=\"alive\" hidden>\n" + cardsText + "</section>\n<footer>"},
		{"</body>", scripts + "\n</body>"},
	} {
		at := strings.LastIndex(page, place.at)
		if at < 0 {
			return errNoReport
		}
		page = page[:at] + place.with + page[at+len(place.at):]
	}
	_, err = io.WriteString(w, page)
	return err
}

// policy is the content security policy of the page. Its own script and style are known by
// their hashes; the worker is made from a blob, and may run WebAssembly.
func policy() string {
	return "default-src 'none'; img-src data:; style-src " + hash(styleText) + "; " + scriptPolicy()
}

func scriptPolicy() string {
	return "script-src " + hash(scriptText) + " 'wasm-unsafe-eval' blob:; worker-src blob:; base-uri 'none'; form-action 'none'"
}

func hash(text string) string {
	sum := sha256.Sum256([]byte(text))
	return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
}

// scripts are the parts of the page that are not shown: files inside, the engine, its
// worker, and the script of the page. All but the last are data.
func (e *Engine) scripts(inside *Files) (string, error) {
	var b strings.Builder
	data := func(id, kind, text string) {
		b.WriteString(`<script type="` + kind + `" id="` + id + `">` + text + "</script>\n")
	}
	if inside != nil {
		text, err := json.Marshal(inside) // it writes < as a code, so no text ends the script
		if err != nil {
			return "", err
		}
		data("inside", "application/json", string(text))
	}
	data("license", "text/plain", "\n"+strings.ReplaceAll(string(e.License), "</", "< /"))
	data("go", "text/plain", "\n"+string(e.Support))
	data("worker", "text/plain", "\n"+workerText)
	data("engine", "text/plain", base64.StdEncoding.EncodeToString(e.Wasm))
	b.WriteString("<script>" + scriptText + "</script>")
	return b.String(), nil
}
