package htmlfile

import (
	"io"

	"loamledger/plots"
	"loamledger/weather/visible"
)

// A BriefPage is a brief with its charts.
type BriefPage struct {
	Brief   *plots.Brief
	Figures []plots.Figure
}

// WriteBrief writes the page of a brief. An error is that of w.
func WriteBrief(w io.Writer, p *BriefPage) error {
	w = visible.NewWriter(w) // names may be from files
	t, err := parsed("brief.html")
	if err != nil {
		return err
	}
	shown := struct {
		*BriefPage
		Figures []figure
	}{BriefPage: p}
	for _, f := range p.Figures {
		shown.Figures = append(shown.Figures, figure{Figure: f})
	}
	return t.ExecuteTemplate(w, "brief.html", shown)
}
