package prepare

import (
	"fmt"
	"math"
	"slices"

	"loamledger/weather"
	"loamledger/weather/diag"
)

// Join merges several files of one station, with separate years or separate
// elements, into one record. If two files have a value for the same day and
// column, the first file named counts, and differences are a finding. At least
// one record is required.
func Join(parts []*weather.Record) (*weather.Record, error) {
	first := parts[0]
	if len(parts) == 1 {
		return first, nil
	}
	start, end := first.Start, first.End()
	for _, p := range parts[1:] {
		if a, b := first.Station.ID, p.Station.ID; a != "" && b != "" && a != b {
			return nil, fault(diag.OtherStation, p, "name files of one station, and give the other as rain_file or fill_files",
				"this file is of station %s, and %s is of %s", b, first.File, a)
		}
		start, end = min(start, p.Start), max(end, p.End())
	}
	out := &weather.Record{Series: *weather.NewSeries(first.Station, start, int(end-start)+1), File: first.File, Layout: first.Layout}
	for _, p := range parts {
		if p != first {
			out.File += ", " + p.File
			if p.Layout != first.Layout {
				out.Layout += ", " + p.Layout
			}
		}
		out.Assumptions = append(out.Assumptions, p.Assumptions...)
		for _, other := range p.OtherET {
			if !slices.Contains(out.OtherET, other) {
				out.OtherET = append(out.OtherET, other)
			}
		}
		out.Findings = append(out.Findings, p.Findings...)
		out.Evidence = append(out.Evidence, p.Evidence...)
		out.Rows = append(out.Rows, p.Rows...)
		place(&out.Station, p.Station)
		if f := merge(&out.Series, p); f.Count > 0 {
			out.Findings = append(out.Findings, f)
		}
	}
	return out, nil
}

// place copies what p states about the station where s does not.
func place(s *weather.Station, p weather.Station) {
	for _, pair := range []struct {
		to *float64
		v  float64
	}{{&s.LatDeg, p.LatDeg}, {&s.LonDeg, p.LonDeg}, {&s.ElevM, p.ElevM}, {&s.WindHeightM, p.WindHeightM},
		{&s.UTCOffsetH, p.UTCOffsetH}} {
		if math.IsNaN(*pair.to) {
			*pair.to = pair.v
		}
	}
}

// merge copies p's values into the gaps of s and counts those that differ from
// existing values.
func merge(s *weather.Series, p *weather.Record) weather.Finding {
	f := weather.Finding{Code: weather.CodeFilesDiffer, What: "two files disagree on a value for the same day",
		Action: "the first file's value kept", Source: "common practice, no source"}
	shift := int(p.Start - s.Start)
	for c := range weather.Columns {
		if !p.Has(c) {
			continue
		}
		s.Add(c)
		for i, v := range p.Data[c] {
			switch old := s.Data[c][shift+i]; {
			case math.IsNaN(old):
				s.Set(c, shift+i, v, p.Mark[c][i])
			case !math.IsNaN(v) && v != old:
				if f.Count++; f.Count == 1 {
					f.Worst, f.Column = p.Date(i), c.Key()
					f.Detail = fmt.Sprintf("%s: %g in %s, %g before", c.Label(), v, p.File, old)
				}
			}
		}
	}
	return f
}
