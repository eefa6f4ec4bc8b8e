package prepare

import (
	"fmt"
	"math"
	"slices"

	"loamledger/weather"
	"loamledger/weather/diag"
)

// cut keeps the requested days and removes days at either end without
// temperature and rain: the unfinished rows of a download.
func cut(rec *weather.Record, o Options) error {
	from, to := 0, rec.Days
	if first, ok := o.Dates.First(); ok {
		from = max(from, int(first-rec.Start))
	}
	if last, ok := o.Dates.Last(); ok {
		to = min(to, int(last-rec.Start)+1)
	}
	if from >= to {
		return fault(diag.NoDaysLeft, rec, "choose dates inside the record ("+byDates+")",
			"the record runs from %v to %v and has none of the requested days", rec.Start, rec.End())
	}
	empty := func(i int) bool {
		return math.IsNaN(rec.At(weather.Tmax, i)) && math.IsNaN(rec.At(weather.Tmin, i)) && math.IsNaN(rec.At(weather.Rain, i))
	}
	head, tail := from, to
	for head < tail && empty(head) {
		head++
	}
	for tail > head && empty(tail-1) {
		tail--
	}
	if head == tail {
		return fault(diag.MissingColumn, rec, "give a daily weather file with tmax, tmin and rain", "no day has a temperature or rain")
	}
	if n := (head - from) + (to - tail); n > 0 {
		rec.Findings = append(rec.Findings, weather.Finding{
			Code: weather.CodeEmptyEnds, What: "days without temperature and rain at the start or end of the record are removed", Count: n,
			Worst: rec.Date(head), Detail: fmt.Sprintf("the record is used from %v to %v", rec.Date(head), rec.Date(tail-1)),
			Action: "days removed", Source: "common practice, no source",
		})
	}
	if head > 0 || tail < rec.Days {
		rec.Series = slice(&rec.Series, head, tail)
		recount(rec)
	}
	return nil
}

// recount counts the readers' findings about marked values over the days used;
// those without such a day are removed. Findings about what a record no longer
// shows, such as duplicate rows, stay as counted in the whole file.
func recount(rec *weather.Record) {
	marks := map[weather.Code]weather.Mark{weather.CodeTraceRain: weather.Trace, weather.CodePresumedZero: weather.Presumed,
		weather.CodeFilledEarlier: weather.Earlier}
	kept := rec.Findings[:0:0]
	for _, f := range rec.Findings {
		m, marked := marks[f.Code]
		c, ok := weather.ColumnByKey(f.Column)
		if !marked || !ok {
			kept = append(kept, f)
			continue
		}
		f.Count = rec.CountMark(c, m)
		if f.Count == 0 {
			continue
		}
		if i := int(f.Worst - rec.Start); i < 0 || i >= rec.Days {
			f.Worst = rec.Date(slices.Index(rec.Mark[c], m))
			_, f.Line = rec.Row(f.Worst)
			f.Detail = rec.Where(f.Worst)
		}
		kept = append(kept, f)
	}
	rec.Findings = kept
}

// slice returns a copy of days from..to of s, excluding to.
func slice(s *weather.Series, from, to int) weather.Series {
	out := weather.Series{Station: s.Station, Start: s.Date(from), Days: to - from}
	for c := range weather.Columns {
		if s.Has(c) {
			out.Data[c] = append([]float64(nil), s.Data[c][from:to]...)
			out.Mark[c] = append([]weather.Mark(nil), s.Mark[c][from:to]...)
		}
	}
	return out
}

// useGauge replaces the rain of rec by that of a nearer gauge on the days the
// gauge has; other days keep the station's rain.
func useGauge(rec *weather.Record, gauge *weather.Record) {
	rec.Add(weather.Rain)
	kept := 0
	for i := range rec.Days {
		k := int(rec.Date(i) - gauge.Start)
		if k < 0 || k >= gauge.Days || math.IsNaN(gauge.At(weather.Rain, k)) {
			kept++
			continue
		}
		rec.Set(weather.Rain, i, gauge.Data[weather.Rain][k], gauge.Mark[weather.Rain][k])
	}
	f := weather.Finding{
		Code: weather.CodeNearerRainGauge, What: "rain is taken from a nearer gauge", Column: weather.Rain.Key(), Count: rec.Days - kept,
		Worst:  rec.Start,
		Detail: gauge.File + weather.Between(rec.Station, gauge.Station), Action: "rain replaced", Source: "common practice, no source",
	}
	rec.Findings = append(rec.Findings, f)
	if kept > 0 {
		rec.Findings = append(rec.Findings, weather.Finding{
			Code: weather.CodeGaugeGaps, What: "days without a reading of the nearer gauge keep the station's rain", Column: weather.Rain.Key(),
			Count: kept, Worst: rec.Start,
			Action: "station's rain kept", Source: "common practice, no source",
		})
	}
}
