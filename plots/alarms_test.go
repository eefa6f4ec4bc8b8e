package plots

import (
	"math"
	"strings"
	"testing"
)

// TestMMPerGalFt2: 1 in over 1 ft² is 0.6234 gal (a US gallon is 231 in³), so
// one gallon over a square foot is 1.604 in = 40.75 mm.
func TestMMPerGalFt2(t *testing.T) {
	if got, want := mmPerGalFt2(), 231.0/144*25.4; math.Abs(got-want) > 1e-3 {
		t.Errorf("%.4f mm, want %.4f", got, want)
	}
}

// TestAlarms tries each limit from both sides. Depths by hand: 90 in are 2286
// mm, 10 in 254 mm and 20 gal/ft² 814.9 mm; the record is one
// whole year. The savings of B are against A.
func TestAlarms(t *testing.T) {
	turf, spray := ZoneKind{Turf: true}, ZoneKind{Spray: true}
	for _, tt := range []struct {
		name string
		a, b float64 // mm a year
		kind ZoneKind
		du   float64
		want []string // in this order
	}{
		{"all plausible", 1400, 1000, turf, 0.55, nil},
		{"turf drowned", 2300, 2290, turf, 0.55, []string{"turf receives up to 2,300 mm a year (“A”, “B”); more than 2,286 mm"}},
		{"just not drowned", 2280, 2280, turf, 0.55, nil},
		{"the same on a bed", 2300, 2290, ZoneKind{}, 0.55, nil},
		{"turf parched", 500, 245, turf, 0.55, []string{"as little as 245 mm a year (“B”); below 254 mm"}},
		{"just not parched", 500, 260, turf, 0.55, nil},
		{"more than 60 % saved", 1000, 390, turf, 0.55, []string{"Savings above 60% are implausible (“B” 61% less)"}},
		{"just not", 1000, 410, turf, 0.55, nil},
		{"more than 20 gal/ft2 saved", 2100, 1280, turf, 0.55, []string{
			"Savings above 815 mm a year are implausible (“B” 820): 120 to 410 are usual",
		}},
		{"just not", 2100, 1290, turf, 0.55, nil},
		{"spray too even", 1000, 900, spray, 0.9, []string{"a DU of 90% is higher than spray heads reach"}},
		{"at the limit", 1000, 900, spray, 0.85, nil},
		{"a rotor as even", 1000, 900, ZoneKind{}, 0.9, nil},
		{"several at once", 2900, 500, ZoneKind{Turf: true, Spray: true}, 0.9, []string{
			"a DU of", "up to 2,900 mm", "83% less", "“B” 2,400)",
		}},
	} {
		s := study([]float64{tt.a, tt.b}, []int{0, 0})
		s.Table.Zones[0].DULQ = tt.du
		got := Sentences(Alarms(s.Table, SI, []ZoneKind{tt.kind}))
		if len(got) != len(tt.want) {
			t.Errorf("%s: %q, want %d", tt.name, got, len(tt.want))
			continue
		}
		for i, want := range tt.want {
			if !strings.Contains(got[i], want) {
				t.Errorf("%s: %q lacks %q", tt.name, got[i], want)
			}
		}
	}
	s := study([]float64{2900, 500}, []int{0, 0})
	us := Sentences(Alarms(s.Table, US, []ZoneKind{turf}))
	if len(us) != 3 || !strings.Contains(us[0], "114.2 inches") || !strings.Contains(us[0], "90.0 inches") ||
		!strings.Contains(us[2], "20 gallons per square foot a year") || !strings.Contains(us[2], "“B” 59)") {
		t.Errorf("in US units %q", us)
	}
	if none := Alarms(study([]float64{1000, 900}, []int{0, 0}).Table, SI, nil); none != nil {
		t.Errorf("nothing known of the zones: %+v", none)
	}
	half := study([]float64{2900, 500}, []int{0, 0})
	half.Table.Spans = half.Table.Spans[:6]
	for st := range half.Table.Outcomes {
		half.Table.Outcomes[st][0].Months = half.Table.Outcomes[st][0].Months[:6]
	}
	if got := Alarms(half.Table, SI, []ZoneKind{turf}); got != nil {
		t.Errorf("half a year is judged: %+v", got)
	}
}

// TestAlarmsAreValues by hand, in the table of "several at once" above: A gives
// turf 2900 mm in its one year; B saves 2400 mm of that, 82.8%.
func TestAlarmsAreValues(t *testing.T) {
	s := study([]float64{2900, 500}, []int{0, 0})
	s.Table.Zones[0].DULQ = 0.9
	got := Alarms(s.Table, SI, []ZoneKind{{Turf: true, Spray: true}})
	zone := s.Table.Zones[0].Name
	want := []Alarm{
		{SprayTooEven, zone, "", 0.9, "1", ""}, {TurfWet, zone, "A", 2900, "mm/yr", ""},
		{SavingShare, "", "B", 2400.0 / 2900, "1", ""}, {SavingDepth, "", "B", 2400, "mm/yr", ""},
	}
	if len(got) != len(want) {
		t.Fatalf("%+v", got)
	}
	for i := range want {
		if math.Abs(got[i].Value-want[i].Value) > 1e-9*want[i].Value || got[i].Text == "" {
			t.Errorf("%+v, want %g", got[i], want[i].Value)
		}
		got[i].Text, got[i].Value = "", want[i].Value
		if got[i] != want[i] {
			t.Errorf("%+v, want %+v", got[i], want[i])
		}
	}
}

// TestZonesShareAnAlarm: four zones of one fault share a sentence with the worst
// figure; a single one stands for itself.
func TestZonesShareAnAlarm(t *testing.T) {
	s := study([]float64{1000, 900}, []int{0, 0})
	zone := s.Table.Zones[0]
	s.Table.Zones = nil
	kinds := make([]ZoneKind, 5)
	for i, du := range []float64{0.86, 0.92, 0.88, 0.87, 0.5} {
		kinds[i] = ZoneKind{Spray: true}
		zone.Name, zone.DULQ = string(rune('p'+i)), du
		s.Table.Zones = append(s.Table.Zones, zone)
	}
	for st := range s.Table.Outcomes {
		for range 4 {
			s.Table.Outcomes[st] = append(s.Table.Outcomes[st], s.Table.Outcomes[st][0])
		}
	}
	list := Alarms(s.Table, SI, kinds)
	for i, want := range []float64{0.86, 0.92, 0.88, 0.87} {
		if len(list) != 4 {
			t.Fatalf("%+v", list)
		}
		wanted := Alarm{SprayTooEven, string(rune('p' + i)), "", want, "1", list[i].Text}
		if list[i] != wanted {
			t.Fatalf("%+v, want %+v", list[i], wanted)
		}
	}
	got := Sentences(list)
	if len(got) != 1 || !strings.HasPrefix(got[0], "4 zones (p, q and 2 others): a DU of 92% is higher") {
		t.Errorf("%q", got)
	}
	kinds[0], kinds[1], kinds[2] = ZoneKind{}, ZoneKind{}, ZoneKind{}
	if got := Sentences(Alarms(s.Table, SI, kinds)); len(got) != 1 || !strings.HasPrefix(got[0], "s: a DU of 87%") {
		t.Errorf("%q", got)
	}
}

// TestReportShowsAlarmsAndETo: implausible values and how reference ET
// was computed are in the report; runoff events are explained.
func TestReportShowsAlarmsAndETo(t *testing.T) {
	s := study([]float64{2900, 500}, []int{0, 0})
	f := &Facts{
		Kinds:   []ZoneKind{{Turf: true}},
		Weather: WeatherFacts{EToMethod: "temperatures alone on 365 days", EToError: "bias −0.34 mm"},
	}
	r := NewReport(s, f)
	if len(r.Alarms) != 3 {
		t.Errorf("alarms %q", r.Alarms)
	}
	items := map[string]string{}
	for _, item := range r.Notes {
		items[item.Term] = item.Text
	}
	if got, want := items["Reference ET"], "temperatures alone on 365 days. Likely error: bias −0.34 mm"; got != want {
		t.Errorf("reference ET %q, want %q", got, want)
	}
	f.Weather.EToError = ""
	for _, item := range NewReport(s, f).Notes {
		if item.Term == "Reference ET" && item.Text != "temperatures alone on 365 days" {
			t.Errorf("without an error %q", item.Text)
		}
	}
	if got := r.Comparison.Head[6]; got != "Runoff events a year" {
		t.Errorf("head %q", got)
	}
	if !strings.Contains(r.Comparison.Caption, "runoff event is") {
		t.Errorf("caption %q does not say what a runoff event is", r.Comparison.Caption)
	}
}

// TestMonthsDoNotCallCoverageWaste: what lies above the need is not all waste,
// and a month can do with less than the need of that month.
func TestMonthsDoNotCallCoverageWaste(t *testing.T) {
	c := Months(study([]float64{1000, 400}, []int{0, 0}))
	want := "an evenly watered zone needs; uneven coverage and losses explain part of it. The largest surplus is 42 mm in"
	if !strings.Contains(c.See, want) {
		t.Errorf("%q lacks %q", c.See, want)
	}
	if len(c.Notes) == 0 || !strings.Contains(c.Notes[0], "Over the whole record no schedule keeps water from getting scarce with less") ||
		!strings.Contains(c.Notes[0], "in a single month one can") {
		t.Errorf("notes %q", c.Notes)
	}
}
