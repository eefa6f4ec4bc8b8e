package study

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"loamledger/sim"
	"loamledger/sim/replay"
	"loamledger/weather"
	"loamledger/weather/prepare"
	"loamledger/weather/quantity"
)

// WeatherText describes the record for a person: its contents, its errors, the
// actions taken and how far to trust its reference ET.
func (l *Study) WeatherText() string {
	r, w := l.Weather, &strings.Builder{}
	fmt.Fprintf(w, "%s\n  layout      %s\n  station     %s\n  dates       %v to %v, %s days\n", r.File, l.Layout, stationText(r.Station),
		r.Start, r.End(), quantity.Whole(r.Days))
	var columns []string
	for c := range weather.Columns {
		if r.Has(c) {
			columns = append(columns, c.Key())
		}
	}
	fmt.Fprintf(w, "  columns     %s\n", strings.Join(columns, ", "))
	for _, a := range r.Assumptions {
		fmt.Fprintf(w, "  assumed     %s\n", a)
	}
	fillingText(w, r)
	if len(r.ET.Counts) > 0 {
		fmt.Fprintln(w, "\nReference ET (short grass)")
	}
	for _, c := range r.ET.Counts {
		fmt.Fprintf(w, "  %8s days  %v\n", quantity.Whole(c.Days), c.Method)
	}
	fmt.Fprintf(w, "  %s\n", l.yearlyLine())
	if r.ET.Compare.N > 0 {
		fmt.Fprintf(w, "  compared with the ETo in the file: %v\n", r.ET.Compare)
	}
	if r.ET.Calibration.FullDays > 0 {
		fmt.Fprintf(w, "  from temperatures alone: %v\n", r.ET.Calibration)
	}
	for _, e := range r.ET.Expected {
		fmt.Fprintf(w, "  likely error: %v\n", e)
	}
	if len(r.Findings) == 0 {
		fmt.Fprintln(w, "\nNo findings: nothing was changed.")
		return w.String()
	}
	fmt.Fprintf(w, "\nFindings (%d)\n", len(r.Findings))
	for _, f := range r.Findings {
		column := ""
		if f.Column != "" {
			column = " " + f.Column
		}
		fmt.Fprintf(w, "  %s%s: %s\n    %s, for example %v", f.Code, column, f.What, quantity.Count(f.Count, "case", "cases"), f.Worst)
		if f.Detail != "" {
			fmt.Fprintf(w, ": %s", f.Detail)
		}
		fmt.Fprintf(w, "\n    Action: %s. Source: %s\n", f.Action, f.Source)
	}
	return w.String()
}

// yearlyLine gives the mean annual ETo and rain of the whole years or, if no year
// is whole, their sums over the record.
func (l *Study) yearlyLine() string {
	r := l.Weather
	job := replay.Job{Weather: sim.Weather{Start: r.Start, RainMM: r.Data[weather.Rain]}, South: l.south(),
		ExcludeYears: l.Scenario.Weather.ExcludeYears}
	basis := replay.BasisOf(&job)
	spans := sim.NewCalendar(r.Start, r.Days).Spans
	spans = slices.DeleteFunc(spans, func(s sim.Span) bool { return !replay.Covers(&job, &basis, r.Date(s.From)) })
	depth := func(mm []float64) string {
		sum, n := 0.0, 0
		for _, span := range spans {
			for _, v := range mm[min(span.From, len(mm)):min(span.To, len(mm))] {
				if !math.IsNaN(v) {
					sum += v
					n++
				}
			}
		}
		if n == 0 {
			return "unknown"
		}
		sum *= float64(basis.Days) / float64(n) / basis.Divisor() // days without a value count as the others
		return fmt.Sprintf("%.0f mm (%.1f in)", sum, sum/quantity.InchMM)
	}
	head := "annual mean   ETo"
	if !basis.Yearly() {
		head = basis.Words() + "   ETo"
	}
	text := fmt.Sprintf("%s %s, rain %s", head, depth(r.ET.EToMM), depth(r.Data[weather.Rain]))
	if basis.Yearly() && basis.Days < basis.All {
		text += " (" + basis.Count() + ": " + basis.List() + ")"
	}
	return text
}

// DepthPerYear returns the mean annual depth of the known days as text.
func DepthPerYear(mm []float64) string {
	sum, n := 0.0, 0
	for _, v := range mm {
		if !math.IsNaN(v) {
			sum += v
			n++
		}
	}
	if n == 0 {
		return "unknown"
	}
	sum *= 365.25 / float64(n)
	return fmt.Sprintf("%.0f mm (%.1f in)", sum, sum/quantity.InchMM)
}

func stationText(st weather.Station) string {
	var parts []string
	for _, p := range []string{st.Name, st.ID} {
		if p != "" {
			parts = append(parts, p)
		}
	}
	if len(parts) == 0 {
		parts = append(parts, "no name")
	}
	for _, n := range []struct {
		format string
		v      float64
	}{{"latitude %.4f", st.LatDeg}, {"longitude %.4f", st.LonDeg}, {"elevation %.0f m", st.ElevM}, {"wind at %g m", st.WindHeightM}} {
		if !math.IsNaN(n.v) {
			parts = append(parts, fmt.Sprintf(n.format, n.v))
		}
	}
	return strings.Join(parts, ", ")
}

// fillingText lists the missing and filled values, by column and rule, and the
// errors of the rules on known days.
func fillingText(w *strings.Builder, r *prepare.Ready) {
	if r.SyntheticDays > 0 {
		fmt.Fprintf(w, "  synthetic   %s of %s: from a random generator, not observed\n", quantity.Count(r.SyntheticDays, "day", "days"),
			quantity.Whole(r.Days))
	}
	fmt.Fprintf(w, "  filled      %s of %s\n", quantity.Count(r.FilledDays, "day", "days"), quantity.Whole(r.Days))
	var lines []string
	for c := range weather.Columns {
		fills := fillsOf(r, c)
		if r.Missing[c] == 0 && len(fills) == 0 {
			continue
		}
		var rules []string
		for _, f := range fills {
			rules = append(rules, fmt.Sprintf("%s %s", f.Mark, quantity.Whole(f.Days)))
		}
		if left := r.CountMissing(c); left > 0 {
			rules = append(rules, "left empty "+quantity.Whole(left))
		}
		lines = append(lines, fmt.Sprintf("  %-10s %7s  %s\n", c.Key(), quantity.Whole(r.Missing[c]), strings.Join(rules, ", ")))
	}
	if len(lines) > 0 {
		fmt.Fprintf(w, "\nMissing values and fills\n  column     missing  by rule, days\n%s", strings.Join(lines, ""))
	}
	if len(r.SelfTest) > 0 && r.SyntheticDays < r.Days {
		fmt.Fprintln(w, "\nFill methods tested on known days")
		for _, e := range r.SelfTest {
			fmt.Fprintf(w, "  %v\n", e)
		}
	}
}
