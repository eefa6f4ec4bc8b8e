package plots

import (
	"strings"
	"testing"

	"loamledger/sim"
)

// threeYears repeats the one year of [study] over 2001 to 2003, which lack 400,
// 500 and 600 mm, so that 2002 is the median and 2003 the dry year.
func threeYears(t *testing.T) *Study {
	t.Helper()
	s := study([]float64{1000, 600}, []int{10, 10})
	table := s.Table
	base := table.Spans
	for y := 1; y < 3; y++ {
		for _, span := range base {
			table.Spans = append(table.Spans, sim.Span{Year: 2001 + y, Month: span.Month, From: span.From + 365*y, To: span.To + 365*y})
		}
	}
	for st := range table.Outcomes {
		months := table.Outcomes[st][0].Months
		table.Outcomes[st][0].Months = append(append(append([]sim.Sums{}, months...), months...), months...)
	}
	for _, lack := range []float64{400, 500, 600} {
		for range 12 {
			table.DrynessMM = append(table.DrynessMM, lack/12)
		}
	}
	return s
}

// TestMedianAboveDryExplainsItself by hand: B has 30 stress days in 2002 and 10 in
// 2003, and takes 50 mm more in 2002, 650 against 600 m³. The driest three months
// are 125 and 150 mm, until July 2002 lacks 200 more.
func TestMedianAboveDryExplainsItself(t *testing.T) {
	s := threeYears(t)
	if text := MedianAboveDry(s.Table, SI); text != "" {
		t.Fatalf("nothing to explain, and yet %q", text)
	}
	b := s.Table.Outcomes[1][0].Months
	b[12+6].StressZoneDays, b[12+6].GrossMM = 30, b[12+6].GrossMM+50
	wants := []string{
		"The median year has more stress days than the dry year with “B” (30 and 10 days) and takes more water than the dry year " +
			"with “B” (650 m³ and 600 m³): 2003 ranks as drier over the whole year, by 0.8 ETo less effective rain (600 mm; 500 mm in 2002)",
		"The driest three months of 2002 lacked no more rain than those of 2003",
	}
	for _, want := range wants {
		if text := MedianAboveDry(s.Table, SI); !strings.Contains(text, want) {
			t.Errorf("%q lacks %q", text, want)
		}
	}
	// 200 mm more in July 2002, 220 less in January: 480 mm, still below 600.
	s.Table.DrynessMM[12+6] += 200
	s.Table.DrynessMM[12] -= 220
	want := "The driest three months of 2002 lacked more rain (325 mm) than those of 2003 (150 mm)."
	if text := MedianAboveDry(s.Table, SI); !strings.Contains(text, want) {
		t.Errorf("%q lacks %q", text, want)
	}
	r := NewReport(s, &Facts{})
	if !strings.Contains(r.DryYears, "lacked more rain") ||
		!strings.Contains(r.Front.Notes[len(r.Front.Notes)-1].Text, punctuated(s.typicalReason())) {
		t.Errorf("the page does not explain it: %q, %+v", r.DryYears, r.Front.Notes)
	}
	// July lacks 500/12 + 200 mm in 2002 and 600/12 in 2003, and B has 30 and 10 thirsty days in it.
	want = "under “B,” July of 2002 is harder on them than that of 2003; it was 242 mm short of rain, the other 50 mm."
	if text := punctuated(s.typicalReason()); !strings.HasSuffix(text, want) {
		t.Errorf("%q, want %q", text, want)
	}
	// With those 200 mm in January instead, July of 2002 lacks less, and B gives it more water, 100 mm and 50.
	s.Table.DrynessMM[12+6] -= 200
	s.Table.DrynessMM[12] += 200
	if text := s.typicalReason(); !strings.HasSuffix(text, "and when it came, made the difference.") {
		t.Errorf("%q", text)
	}
	b[12+6].GrossMM = 20
	if text := s.typicalReason(); !strings.HasSuffix(text, "it got 20 mm of water from the sprinklers, the other 50 mm.") {
		t.Errorf("%q", text)
	}
	s.Table.DrynessMM[12+6] += 200
	s.Table.DrynessMM[12] -= 200
	b[12+6].GrossMM = 100
	// No more days than in the dry year: nothing to explain.
	b[12+6].StressZoneDays = 10
	if text := s.typicalReason(); text != "" {
		t.Errorf("%q", text)
	}
	b[12+6].StressZoneDays = 30
	if years := Years(s); !strings.Contains(strings.Join(years.Notes, " "), "lacked more rain") {
		t.Errorf("nor does the chart: %q", years.Notes)
	}
}

// TestSouthernCalendarBeginsInJuly: the months of a record from January 2001 lie in
// the last half of 2000/01 and the first half of 2001/02.
func TestSouthernCalendarBeginsInJuly(t *testing.T) {
	s := study([]float64{1000, 600}, []int{10, 10})
	s.Table.South = true
	c := Stress(s)
	cells := c.Panels[0].Series[0]
	if cells.X[0] != 7 || cells.Y[0] != 0 || cells.X[6] != 1 || cells.Y[6] != 1 || c.X.Ticks[0].Label != "J" || c.X.Ticks[1].Label != "A" {
		t.Errorf("January at %g in row %g, July at %g in row %g, ticks %+v", cells.X[0], cells.Y[0], cells.X[6], cells.Y[6], c.X.Ticks)
	}
	if c.Y.Ticks[0].Label != "2000/01" || c.Y.Ticks[1].Label != "2001/02" ||
		!strings.Contains(c.Panels[0].Note, "10 stress days, 0 browning days in these 365 days") {
		t.Errorf("rows %+v, note %q: no year from July to June is whole", c.Y.Ticks, c.Panels[0].Note)
	}
}

// TestYearsChartByHand: bars stand in the order of the weather, each of one whole
// year, 1000 m³ of A in each.
func TestYearsChartByHand(t *testing.T) {
	s := threeYears(t)
	s.Table.DrynessMM[0] += 150 // 2001 lacks 550 mm now, more than 2002
	c := Years(s)
	for i, want := range []string{"’02", "’01", "’03"} {
		if got := c.X.Ticks[i].Label; !strings.HasPrefix(got, want) {
			t.Errorf("year %d is %q, want %s", i+1, got, want)
		}
		if got := c.Panels[0].Series[0].Y[i]; got < 999.999 || got > 1000.001 {
			t.Errorf("bar %d is %g m³, want 1000", i+1, got)
		}
	}
	if note := strings.Join(c.Notes, " "); !strings.Contains(note, "wet 2002, median 2001, dry 2003 (the driest of only 3 whole years)") {
		t.Errorf("%q", note)
	}
}
