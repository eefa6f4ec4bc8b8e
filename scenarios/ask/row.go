package ask

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"loamledger/weather/diag"
)

// A Row is what a terminal asks in one line: a part, of all zones that have it.
type Row struct {
	Question, Part string
	Zones          []int // -1 alone for what is asked once
}

// Rows returns the rows of all parts that are asked, given the answers so far, in the
// order in which they are asked.
func (a *Answers) Rows() (out []Row) {
	for _, at := range a.Places() {
		i := slices.IndexFunc(out, func(r Row) bool { return r.Question == at.Question && r.Part == at.Part })
		if i < 0 {
			i = len(out)
			out = append(out, Row{Question: at.Question, Part: at.Part})
		}
		out[i].Zones = append(out[i].Zones, at.Zone)
	}
	return out
}

// At returns the place of the answer for entry i of Zones.
func (r Row) At(i int) At { return At{r.Question, r.Part, r.Zones[i]} }

// Same reports whether two rows are of the same part.
func (r Row) Same(o Row) bool { return r.Question == o.Question && r.Part == o.Part }

// Follows reports whether row r is asked because of the answer to row o.
func (r Row) Follows(o Row) bool {
	p := find(r.At(0))
	return p != nil && p.When != nil && p.When.Question == o.Question && p.When.Part == o.Part
}

// Split gives each zone of a row its part of an answer: one for all, or one for each in
// order. They are separated by commas or, where a comma is part of an answer, by semicolons.
// A comma within a number, as in 1,200, separates nothing.
func (a *Answers) Split(r Row, text string) ([]string, *Fault) {
	p, n := find(r.At(0)), len(r.Zones)
	items := []string{text}
	if n > 1 && chosen(p.Choices, text) < 0 {
		items = split(text, p.Kind != Days && p.Kind != Times)
	}
	switch len(items) {
	case n:
	case 1:
		items = slices.Repeat(items, n)
	default:
		var names []string
		for _, z := range r.Zones {
			names = append(names, a.ZoneName(z))
		}
		return nil, &Fault{At: r.At(0), Code: diag.BadQuantity, Msg: fmt.Sprintf("%d answers for %d zones", len(items), n),
			Fix: "give one answer for all, or one for each, in this order: " + strings.Join(names, ", ")}
	}
	for i, item := range items {
		if item = strings.TrimSpace(item); item == "-" {
			item = ""
		}
		items[i] = item
	}
	return items, nil
}

// SetZones names the zones: text is their names, or how many there are. Answers of zones that
// there were before stay.
func (a *Answers) SetZones(text string) {
	names := split(text, true)
	if n, err := strconv.Atoi(strings.TrimSpace(text)); err == nil && n >= 1 {
		names = make([]string, min(n, MaxZones+1))
	}
	zones := make([]Zone, min(len(names), MaxZones+1)) // one too many is a fault of the scenario
	copy(zones, a.Zones)
	for z := range zones {
		zones[z].Name = strings.TrimSpace(names[z])
	}
	a.Zones = zones
}

// split splits at semicolons and, if asked, at commas that are not within a number.
func split(text string, commas bool) (out []string) {
	from := 0
	for i := range len(text) {
		if text[i] == ';' || commas && text[i] == ',' && !withinNumber(text, i) {
			out, from = append(out, text[from:i]), i+1
		}
	}
	return append(out, text[from:])
}

// withinNumber reports whether the comma at i is followed by three digits and no more,
// and follows a digit.
func withinNumber(text string, i int) bool {
	rest := skipDigits(text[i+1:])
	return len(text)-i-1-len(rest) == 3 && i > 0 && skipDigits(text[i-1:i]) == ""
}
