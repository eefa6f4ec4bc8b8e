package studyfile

import (
	"bytes"
	"io"

	"loamledger/scenarios/ask"
	"loamledger/scenarios/weatherfile"
	"loamledger/weather/cal"
	"loamledger/weather/csvfile"
	"loamledger/weather/diag"
	"loamledger/weather/generate"
)

// Generated writes the synthetic weather of monthly figures made of answers, as the
// generate command does.
func Generated(w io.Writer, figures ask.NamedFile) error {
	n, st, err := weatherfile.ReadNormals(bytes.NewReader(figures.Text), figures.Name)
	if err != nil {
		return err
	}
	other := func(err error) error {
		return &diag.Error{Code: diag.TooFewDays, Pos: diag.Pos{File: figures.Name}, Msg: err.Error(), Fix: "answer with other figures"}
	}
	p, err := n.Params()
	if err != nil {
		return other(err)
	}
	first, last := cal.Of(ask.FirstYear, 1, 1), cal.Of(ask.FirstYear+ask.Years-1, 12, 31)
	rec, err := generate.Generate(p, st, first, int(last-first)+1, ask.Seed)
	if err != nil {
		return other(err)
	}
	return csvfile.WriteOwn(w, &rec.Series)
}
