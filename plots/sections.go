package plots

// The sections of a report that have a layout of their own.
const (
	NumbersID  = "numbers"
	MetersID   = "meters" // has charts of its own before its tables
	ChartsID   = "charts"
	ZonesID    = "zones"
	ComingID   = "coming"
	WeatherID  = "weather"
	DefaultsID = "defaults"
	MethodID   = "method"
	CautionsID = "cautions"
	WordsID    = "words"
)

// A Section is one part of a report after its first page.
type Section struct {
	ID    string // an anchor, and no other section has it
	Title string
	Stamp string      // what to keep in mind, above the text; empty for nothing
	Parts []*TextPart // none for a section with a layout of its own
}

// Sections is the one list of the sections of the report, in their order. HTML and PDF
// both follow it.
func (r *Report) Sections() []Section {
	list := []Section{{ID: NumbersID, Title: theNumbers, Stamp: r.Label}}
	part := func(id, title, stamp string, p *TextPart) {
		if p != nil {
			list = append(list, Section{id, title, stamp, []*TextPart{p}})
		}
	}
	part("ranges", "How far the results may be off", r.Label, r.Ranges)
	part(devicesID, "Controllers and meters", r.Label, r.Devices)
	part(moneyID, "Water bills", r.Label, r.Money)
	part(allowanceID, "Allowance", r.Label, r.Allowance)
	if len(r.Meters) > 0 {
		s := Section{ID: MetersID, Title: "Meters"}
		for i := range r.Meters {
			s.Parts = append(s.Parts, &r.Meters[i])
		}
		list = append(list, s)
	}
	part("next", "What to do next, in full", "", r.Next)
	part("verify", "Measuring the saving", "", r.Verify)
	part("skill", "How good the forecasts were", "", r.Skill)
	list = append(list, Section{ID: ChartsID, Title: "Charts"}, Section{ID: ZonesID, Title: "Zone by zone", Stamp: r.Label})
	if r.Coming != nil {
		list = append(list, Section{ID: ComingID, Title: "Coming days", Stamp: "Forecast, not history"})
	}
	return append(list, Section{ID: WeatherID, Title: "The weather record"}, Section{ID: DefaultsID, Title: "Defaults"},
		Section{ID: MethodID, Title: "How it was computed"}, Section{ID: CautionsID, Title: "Cautions in full"},
		Section{ID: WordsID, Title: "Glossary"})
}

// Titled returns the section with an ID; nil if the report has none.
func (r *Report) Titled(id string) *Section {
	list := r.Sections()
	for i := range list {
		if list[i].ID == id {
			return &list[i]
		}
	}
	return nil
}

// A Figure is a chart and the pictures of its parts, without headings.
type Figure struct {
	Chart    *Chart
	Pictures []Picture
}

// A Picture is a PNG file and its size.
type Picture struct {
	PNG             []byte
	WidthPx, HighPx int // 0 if not known
}

// Tall reports whether a picture takes most of a printed page.
func (p Picture) Tall() bool { return 4*p.HighPx > 5*p.WidthPx }

// maxPrinted is how many depletion charts are printed; each takes a page or two.
const maxPrinted = 3

// Printed returns the figures for paper and how many are omitted: depletion charts after
// the first few.
func Printed(all []Figure) (out []Figure, omitted int) {
	dry := 0
	for _, f := range all {
		if f.Chart.Kind == DryKind {
			if dry++; dry > maxPrinted {
				omitted++
				continue
			}
		}
		out = append(out, f)
	}
	return out, omitted
}
