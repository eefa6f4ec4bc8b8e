package scenarios

import (
	"strings"

	"loamledger/weather/cal"
	"loamledger/weather/diag"
)

// A Prepared says who made the report, and for whom. All texts may be empty, but not
// all at once.
type Prepared struct {
	Name, Company, Contact, For string
	Date                        *cal.Date // of the report; nil if not stated
	Logo                        *File     // a PNG or JPEG file; nil for none
}

// A Decision says who decides on the report, and by when.
type Decision struct {
	Who string    // empty if not stated
	By  *cal.Date // nil if not stated
}

// readPrepared reads who made the report.
func (b *builder) readPrepared(top group) {
	n := top.has("prepared_by")
	if n == nil {
		return
	}
	g := b.open(n, "prepared_by", "prepared_by", "name", "company", "contact", "for", "date", "logo")
	if g.node == nil {
		return
	}
	p := &Prepared{Name: g.line("name"), Company: g.line("company"), Contact: g.line("contact"), For: g.line("for"), Logo: g.oneFile("logo")}
	if p.Name == "" && p.Company == "" {
		g.missing("name", "add name, or company", "name: Rosa Field")
	}
	if w, ok := g.word("date"); ok {
		day, err := cal.Parse(strings.TrimSpace(w.Text))
		if err != nil {
			g.fault(diag.NotADate, w.Pos, "write the day of the report, such as 2026-03-01", "prepared_by: date %s is not a date", quoted(w.Text))
		}
		p.Date = &day
		g.givenWord(g.path("date"), w)
	}
	b.sc.Prepared = p
}

// readDecision reads who decides, and by when.
func (b *builder) readDecision(top group) {
	n := top.has("decision")
	if n == nil {
		return
	}
	g := b.open(n, "decision", "decision", "who", "by")
	if g.node == nil {
		return
	}
	d := &Decision{Who: g.line("who")}
	if w, ok := g.word("by"); ok {
		day, err := cal.Parse(strings.TrimSpace(w.Text))
		if err != nil {
			g.fault(diag.NotADate, w.Pos, "write the last day for the decision, such as 2026-03-15", "decision: by %s is not a date", quoted(w.Text))
		}
		d.By = &day
		g.givenWord(g.path("by"), w)
	}
	b.sc.Decision = d
}

// line reads a short text on one line; empty if it is missing.
func (g group) line(key string) string {
	n, ok := g.word(key)
	if !ok || !g.tidy(n) {
		return ""
	}
	g.givenWord(g.path(key), n)
	return strings.TrimSpace(n.Text)
}
