package plots

import (
	"fmt"
	"strconv"
	"strings"

	"loamledger/sim"
	"loamledger/sim/tally"
	"loamledger/weather/cal"
)

// A Study is the source of charts: the sums of a replay and, for zones whose
// depletion is shown, the days of one season.
type Study struct {
	Site     string
	Station  string // station or weather file, as people know it
	From, To cal.Date
	Units    Units
	Table    *tally.Table
	Measures []tally.Measure // nil for [tally.Measures]
	Traces   []DepletionTrace
	Rules    *VerdictRules // nil for the defaults
	Next     *NextTry      // what would make an option ready; nil if none is known
	Filled   []bool        // by day from From: filled or synthetic weather; nil for none
	// Allowance is the water that a rule allows; nil for none.
	Allowance *AllowanceLine
	Bills     *Bills // nil without rates
	// Live is set for a page on which the reader changes numbers: no command is named, and
	// nobody else has prepared it.
	Live    bool
	Metered *[12]float64 // metered use by month as a depth over the zones, less base use; NaN for none; nil without reads
}

// A DepletionTrace is one zone over the days shown, under every strategy. Slices
// over days have equal lengths; those over strategies follow Strategies.
type DepletionTrace struct {
	Zone         string
	Start        cal.Date
	Strategies   []string
	LowQuarterMM [][]float64 // by strategy, then day: depletion of the driest quarter after irrigation and rain
	Stress       [][]bool    // by strategy, then day: a stress day of the whole zone
	Browning     [][]bool    // by strategy, then day: a browning day of the driest quarter
	// RAWMM and TAWMM are by strategy, then day: those of the zone as the strategy has
	// it on that day.
	RAWMM, TAWMM [][]float64
	RainMM       []float64 // by day
}

// Charts returns every chart of the study, in the order of the report.
func Charts(s *Study) []Chart {
	out := []Chart{Months(s)}
	if len(s.Table.RankYears().Years) > 0 { // else there is no year to draw
		out = append(out, Years(s))
	}
	out = append(out, Cumulative(s), RunTimes(s), Stress(s), Flows(s))
	taken := map[string]bool{}
	for i := range s.Traces {
		c := DrySeason(s, &s.Traces[i])
		name := c.Name
		for n := 2; taken[c.Name]; n++ { // two zones may differ only in characters that a file name cannot have
			c.Name = name + "-" + strconv.Itoa(n)
		}
		taken[c.Name] = true
		out = append(out, c)
	}
	out = append(out, BillCharts(s)...)
	for i := range out {
		if note := s.filledNote(&out[i]); note != "" {
			out[i].Notes = append(out[i].Notes, note)
		}
		out[i].punctuate()
	}
	return out
}

// filledNote says how many days shown have weather that was not observed; empty
// for none.
func (s *Study) filledNote(c *Chart) string {
	if s.Filled == nil {
		return ""
	}
	from, to := max(int(c.From-s.From), 0), min(int(c.To-s.From)+1, len(s.Filled))
	n := 0
	for i := from; i < to; i++ {
		if s.Filled[i] {
			n++
		}
	}
	switch {
	case n == 0:
		return ""
	case n == to-from:
		return "All weather shown is filled or synthetic, not observed."
	}
	return fmt.Sprintf("Weather is filled or synthetic, not observed, on %s of %s shown.", fixed(float64(n), 0), count(to-from, "day", "days"))
}

// frame returns a chart with everything that all charts of the study share.
func (s *Study) frame(kind Kind, name, title string) Chart {
	return Chart{Kind: kind, Name: name, Title: title, Label: Estimated, Site: s.Site, Station: s.Station, From: s.From, To: s.To}
}

// own returns the number of strategies that are not references.
func (s *Study) own() int { return s.Table.NoWaterIndex() }

// base returns the strategy with which the others are compared.
func (s *Study) base() int { return s.Table.Baseline }

// others returns the strategies that can take the place of the baseline.
func (s *Study) others() (list []int) {
	for st := range s.own() {
		if st != s.base() && !s.Table.IsCut(st) {
			list = append(list, st)
		}
	}
	return list
}

// mean returns the area-weighted mean over zones of f for strategy st, over the
// days that yearly figures cover.
func (s *Study) mean(st int, f func(*sim.Sums) float64) float64 {
	sum, area, basis := 0.0, 0.0, s.Table.Basis()
	for z := range s.Table.Zones {
		total := s.Table.Sum(&basis, st, z)
		sum += float64(f(&total) * s.Table.Zones[z].AreaM2)
		area += s.Table.Zones[z].AreaM2
	}
	return sum / area
}

// monthly returns the area-weighted mean of f for each calendar month under
// strategy st, per whole month of that name, over the days that yearly figures
// cover.
func (s *Study) monthly(st int, f func(tally.Month) float64) [12]float64 {
	var out, months [12]float64
	area, basis := 0.0, s.Table.Basis()
	for i, span := range s.Table.Spans {
		if !s.Table.Covers(&basis, cal.Of(span.Year, span.Month, 1)) {
			continue
		}
		m := span.Month - 1
		months[m] += float64(span.To-span.From) / float64(cal.DaysIn(span.Year, span.Month))
		for z := range s.Table.Zones {
			out[m] += float64(f(s.Table.Month(st, z, i)) * s.Table.Zones[z].AreaM2)
		}
	}
	for z := range s.Table.Zones {
		area += s.Table.Zones[z].AreaM2
	}
	for m := range out {
		if months[m] > 0 {
			out[m] /= area * months[m]
		}
	}
	return out
}

func gross(s *sim.Sums) float64 { return s.GrossMM }

func monthGross(m tally.Month) float64 { return m.GrossMM }
func monthRain(m tally.Month) float64  { return m.RainMM }

// years returns what a sum over the days covered is divided by: the number of
// whole years, or 1 if no year is whole.
func (s *Study) years() float64 {
	basis := s.Table.Basis()
	return basis.Divisor()
}

// per is what follows a yearly figure: "a year", or the days of a record without a
// whole year.
func (s *Study) per() string {
	basis := s.Table.Basis()
	return basis.Words()
}

// each is what a yearly figure is for: "year", or the days as above.
func (s *Study) each() string {
	basis := s.Table.Basis()
	return basis.Each()
}

// columns returns how many panels are side by side.
func columns(panels int) int {
	if panels <= 2 {
		return 1
	}
	return 2
}

// slug makes the stem of a file name from a name.
func slug(words string) string {
	var b strings.Builder
	for _, r := range strings.ToLower(words) {
		switch {
		case r >= 'a' && r <= 'z' || r >= '0' && r <= '9':
			b.WriteRune(r)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
		if b.Len() >= 40 {
			break
		}
	}
	if s := strings.Trim(b.String(), "-"); s != "" {
		return s
	}
	return "zone"
}

func quote(name string) string { return "“" + name + "”" }

// punctuated puts the periods and commas after a quotation inside it, as American
// English does.
func punctuated(text string) string {
	return strings.NewReplacer("”.", ".”", "”,", ",”").Replace(text)
}

// about returns the description of the measure with a key; empty for none.
func (s *Study) about(key string) string {
	if m := s.measure(key); m != nil {
		return m.About
	}
	return ""
}

// measure returns the measure with a key; nil for none.
func (s *Study) measure(key string) *tally.Measure {
	all := s.measures()
	for i := range all {
		if all[i].Key == key {
			return &all[i]
		}
	}
	return nil
}
