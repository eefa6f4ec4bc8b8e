package settingsfile_test

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"loamledger/sim"
	"loamledger/sim/clock"
	"loamledger/sim/settings"
	"loamledger/sim/settingsfile"
	"loamledger/sim/strategy"
	"loamledger/sim/tune"
	"loamledger/weather/cal"
	"loamledger/weather/quantity"
)

// page is a sheet of two zones, one of which does not fit: 20 min in cycles of 8
// with soaks of 30, at 05:00 on Tuesdays; 50% in May, 100% in June and July.
func page(t *testing.T) *settingsfile.Page {
	t.Helper()
	zones := []sim.Zone{{Name: `front <lawn> & "bank"`, AreaM2: 100, TAWMM: 60, P: 0.5, PRMMH: 60, DULQ: 1, Strips: 1, IntakeMMH: 1000},
		{Name: "beds, shade", AreaM2: 100, TAWMM: 60, P: 0.5, PRMMH: 60, DULQ: 1, Strips: 1, IntakeMMH: 1000}}
	n := 400
	w := sim.Weather{Start: cal.Of(2018, 1, 1), RainMM: make([]float64, n), EToMM: make([]float64, n)}
	rule := strategy.DayRule{Kind: strategy.Weekdays, Weekdays: [7]bool{2: true}}
	st := strategy.Strategy{Name: "as found", Parts: []strategy.Part{
		strategy.Programs{List: []strategy.Program{
			{Name: "lawns", Days: rule, Starts: []int{300}, Minutes: []float64{20, 0}, Cycle: 8, Soak: 30},
			{Name: "beds", Days: rule, Starts: []int{300}, Minutes: []float64{0, 90}}}},
		strategy.Monthly{Share: [12]float64{4: 0.5, 5: 1, 6: 1}}, strategy.RainHold{AtLeastMM: 6.35, DryOut: 2}}}
	limits := &strategy.Limits{Exempt: make([]bool, 2),
		Always: strategy.Rule{Name: "town", Windows: []clock.Window{{FromMin: 300, ToMin: 420}}}}
	sheet, err := settings.Make(settings.NewSite(zones, w, limits, nil), &st, settings.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return &settingsfile.Page{Site: "Thistle <Corner>", Record: "2018", Units: quantity.US, Sheet: sheet,
		Results: []settingsfile.Result{{What: "water", Asked: "1", Sheet: "2"}}, From: cal.Of(2026, 5, 2)}
}

// TestCSV by hand. The lawns end at 05:00 + 20 + 60 min = 06:20. The beds follow
// and get 40 of their 90 min until 07:00. At 50% the lawns take 8 + 2 min with one
// soak; the beds still begin at 06:20 and take 20 min, until 06:40.
func TestCSV(t *testing.T) {
	var b bytes.Buffer
	if err := settingsfile.WriteCSV(&b, page(t).Sheet); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&b).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) != 1+2*12 {
		t.Fatalf("%d rows, by hand a head and 12 for each zone", len(rows))
	}
	for _, c := range []struct {
		row  int
		want []string
	}{
		{0, []string{"zone", "month", "program", "days", "starts", "program_minutes", "percent", "minutes", "cycles", "cycle_minutes",
			"soak_minutes", "finish"}},
		{1, []string{`front <lawn> & "bank"`, "1", "lawns", "Tue", "05:00", "20", "0", "0", "0", "8", "30", ""}},
		{5, []string{`front <lawn> & "bank"`, "5", "lawns", "Tue", "05:00", "20", "50", "10", "2", "8", "30", "06:40"}},
		{6, []string{`front <lawn> & "bank"`, "6", "lawns", "Tue", "05:00", "20", "100", "20", "3", "8", "30", "07:00"}},
		{18, []string{"beds, shade", "6", "beds", "Tue", "06:20", "40", "100", "40", "1", "0", "0", "07:00"}},
	} {
		if !slices.Equal(rows[c.row], c.want) {
			t.Errorf("row %d is %q, by hand %q", c.row, rows[c.row], c.want)
		}
	}
}

// TestCSVIsRounded: 53 min at 10% is 5.3, not 5.300000000000001; a run that ends
// at 02:43 is marked as ending the next day.
func TestCSVIsRounded(t *testing.T) {
	s := page(t).Sheet
	s.Programs, s.Percent = s.Programs[:1], [12]float64{0.1}
	s.Programs[0].Minutes = []float64{53, 0}
	s.Times[0] = settings.Time{Waters: true, FinishMin: 1603}
	var b bytes.Buffer
	if err := settingsfile.WriteCSV(&b, s); err != nil {
		t.Fatal(err)
	}
	if want := `"front <lawn> & ""bank""",1,lawns,Tue,05:00,53,10,5.3,1,8,30,02:43 next day`; !strings.Contains(b.String(), want+"\n") {
		t.Errorf("written:\n%s\nby hand %s", b.String(), want)
	}
}

// TestManyMisfitsAreSummedUp by hand: 25 zones of 107 min need 2,675 min; a window
// of 480 min has room for four and 52 min of a fifth; 21 do not fit, and five of
// those are named. A program whose name is its number is named once.
func TestManyMisfitsAreSummedUp(t *testing.T) {
	base := page(t)
	var zones []sim.Zone
	p := strategy.Program{Name: "program 1", Starts: []int{1320}}
	for i := range 25 {
		z := base.Sheet.Zones[0]
		z.Name = fmt.Sprint("zone ", i+1)
		zones, p.Minutes = append(zones, z), append(p.Minutes, 107)
	}
	w := sim.Weather{Start: cal.Of(2018, 1, 1), RainMM: make([]float64, 400), EToMM: make([]float64, 400)}
	limits := &strategy.Limits{Exempt: make([]bool, 25),
		Always: strategy.Rule{Name: "town", Windows: []clock.Window{{FromMin: 1320, ToMin: 360}}}}
	sheet, err := settings.Make(settings.NewSite(zones, w, limits, nil),
		&strategy.Strategy{Name: "s", Parts: []strategy.Part{strategy.Programs{List: []strategy.Program{p}}}}, settings.Options{})
	if err != nil {
		t.Fatal(err)
	}
	lines := settings.MisfitTexts(sheet)
	if len(lines) != 7 || lines[0] != "25 zones need 2,675 min on the busiest day; the watering window (town) allows 480." ||
		lines[6] != "and 16 more." || !strings.HasPrefix(lines[1], `zone 5 in "program 1": 107 min requested, 52 min fit`) {
		t.Errorf("%d lines:\n%s", len(lines), strings.Join(lines, "\n"))
	}
	if got := sheet.Unwatered(); len(got) != 20 || got[0] != 5 {
		t.Errorf("without water are %v, by hand zones 6 to 25", got)
	}
	var text bytes.Buffer
	base.Sheet = sheet
	if err := settingsfile.WriteText(&text, base); err != nil || !strings.Contains(text.String(), "\nProgram 1\n") {
		t.Errorf("%v, or the program's number appears twice:\n%s", err, text.String())
	}
}

// inOrder reports the first of some texts that does not follow the others.
func inOrder(text string, parts ...string) string {
	for _, p := range parts {
		i := strings.Index(text, p)
		if i < 0 {
			return p
		}
		text = text[i+len(p):]
	}
	return ""
}

// TestTextAndPage: what does not fit comes before the settings, and text and page
// both match the sheet.
func TestTextAndPage(t *testing.T) {
	p := page(t)
	var text, html bytes.Buffer
	if err := errors.Join(settingsfile.WriteText(&text, p), settingsfile.WritePage(&html, p)); err != nil {
		t.Fatal(err)
	}
	if miss := inOrder(text.String(), "Thistle <Corner>", "DOES NOT FIT",
		"2 zones need 110 min on the busiest day, 170 with soaks between cycles; the watering window (town) allows 120",
		"beds, shade in \"beds\"",
		"90 min requested, 40 min fit", "outside the watering window", "Program 1, \"lawns\"", "Tue", "5:00 AM",
		"up to 8 min each, 30 min soak between cycles", "2 × 8 min + 4 min",
		"Program 2, \"beds\"", "last finish", "May 1: set 50%", "Jun 1: set 100%", "Aug 1: turn off",
		"Next change after 2026-05-02: set 100% on 2026-06-01", "Rain sensor: 0.25 in or more", "Cautions:",
		"Local watering rules"); miss != "" {
		t.Errorf("the text lacks %q, or has it elsewhere:\n%s", miss, text.String())
	}
	if miss := inOrder(html.String(), "<title>Thistle &lt;Corner&gt;", "Does not fit", "beds, shade", "Enter the programs",
		"front &lt;lawn&gt; &amp; &#34;bank&#34;", "May 1: set 50%", "Rain sensor: 0.25 in or more", "What to expect",
		"Local watering rules"); miss != "" {
		t.Errorf("the page lacks %q, or has it elsewhere", miss)
	}
	for _, bad := range []string{"<lawn>", "<script", "http:", "https:", "src=", "url("} {
		if strings.Contains(html.String(), bad) {
			t.Errorf("the page holds %q", bad)
		}
	}
	var again bytes.Buffer
	if err := settingsfile.WritePage(&again, page(t)); err != nil || !bytes.Equal(html.Bytes(), again.Bytes()) {
		t.Errorf("equal sheets give other bytes, or %v", err)
	}
}

func TestCurve(t *testing.T) {
	c := &tune.Curve{Strategy: "s", Zones: []string{"a"}, Dry: 2018,
		Points: []tune.CurvePoint{{Share: 1, Site: tune.CurveFigures{M3PerYear: 2.5, StressDaysMedian: 1, StressDaysDry: 3,
			StressDaysPerYear: 1.5, RunoffEvents: 4}, Zones: make([]tune.CurveFigures, 1)}}}
	var b bytes.Buffer
	if err := settingsfile.WriteCurve(&b, c); err != nil {
		t.Fatal(err)
	}
	const want = "strategy,zone,percent,today,volume_m3_per_year,stress_days_median_year,stress_days_dry_year," +
		"stress_days_per_year,runoff_events_per_year" + `
s,,100,true,2.5,1,3,1.5,4
s,a,100,true,0,0,0,0,0
`
	if b.String() != want {
		t.Errorf("written:\n%s\nby hand:\n%s", b.String(), want)
	}
}

var errFull = errors.New("full")

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errFull }

func TestFaultsOfTheWriterAreTold(t *testing.T) {
	p := page(t)
	for _, err := range []error{settingsfile.WriteCSV(full{}, p.Sheet), settingsfile.WriteText(full{}, p), settingsfile.WritePage(full{}, p),
		settingsfile.WriteCurve(full{}, &tune.Curve{})} {
		if !errors.Is(err, errFull) {
			t.Errorf("a full disk gives %v", err)
		}
	}
}

// TestAdviceIsApart: what to do beside the controller has a heading of its own, and
// none if there is nothing.
func TestAdviceIsApart(t *testing.T) {
	p := page(t)
	for _, advice := range [][]string{nil, {"Water the bank in dry winters."}} {
		p.Advice = advice
		var text, html bytes.Buffer
		if err := errors.Join(settingsfile.WriteText(&text, p), settingsfile.WritePage(&html, p)); err != nil {
			t.Fatal(err)
		}
		for what, got := range map[string]string{"text": text.String(), "page": html.String()} {
			for _, part := range []string{"Beside the controller", "Water the bank in dry winters."} {
				if strings.Contains(got, part) != (advice != nil) {
					t.Errorf("%s, advice %q: %q", what, advice, part)
				}
			}
		}
	}
}
