package plots

// Prepared says who made a report, and for whom.
type Prepared struct {
	Name, Company, Contact string
	For                    string   // whom it is for
	Logo                   *Picture // nil for none
}

// Lines are the texts beside the logo, the first one in bold.
func (p *Prepared) Lines() (lines []string) {
	whom := ""
	if p.For != "" {
		whom = "For " + p.For
	}
	for _, text := range []string{p.Company, p.Name, p.Contact, whom} {
		if text != "" {
			lines = append(lines, text)
		}
	}
	return lines
}

// Of is whose logo it is.
func (p *Prepared) Of() string { return p.Lines()[0] }
