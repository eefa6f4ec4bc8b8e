package study

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"

	"loamledger/plots"
	"loamledger/weather/cal"
)

func repairOf(t *testing.T, list []Repair, code RepairCode) Repair {
	t.Helper()
	for _, r := range list {
		if r.Code == code {
			return r
		}
	}
	t.Fatalf("no repair %s in %+v", code, list)
	return Repair{}
}

// TestRepairs by hand. The program waters front for 12 min and back for 30 min on each
// Monday, Wednesday and Friday of two years.
//
//   - Evenness: front at DU 40% takes new spray heads of DU 52%, so the run-time
//     multiplier falls from 1/(0.4 + 0.6·0.40) to 1/(0.4 + 0.6·0.52), and run times by
//     0.64/0.712. Its water falls by 1 − 0.64/0.712 of 12 min · 35 mm/h · 100 m².
//   - A leak of 1 L/min runs day and night and is metered: 1.44 m³ a day.
//   - Both together: the sum, since a leak does not depend on run times.
//   - Back, a rotor at DU 65%, is more even than new ones at 55%.
func TestRepairs(t *testing.T) {
	text := strings.Replace(yardText, "uniformity: 55 %}", "uniformity: 40 %}, leak: 1 L/min", 1)
	l := studyOf(t, text, inventRecord(t, 2))
	list, err := l.Repairs(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	runs := 0
	for d := cal.Of(2013, 1, 1); d < cal.Of(2015, 1, 1); d++ {
		if w := d.Weekday(); w == 1 || w == 3 || w == 5 {
			runs++
		}
	}
	even := -(1 - 0.64/0.712) * 12.0 / 60 * 35 / 1000 * 100 * float64(runs) / 2
	leak := -1.44 * 365
	for code, want := range map[RepairCode]float64{EvenOut: even, StopLeaks: leak, AllRepairs: even + leak} {
		r := repairOf(t, list, code)
		if math.Abs(r.M3-want) > 1e-6 || len(r.Zones) != 1 || r.Zones[0] != "front" {
			t.Errorf("%s: %.6f m³ in %v, want %.6f", code, r.M3, r.Zones, want)
		}
	}
	for _, code := range []RepairCode{AimHeads, LowerPressure, HoldPipes} {
		if r := repairOf(t, list, code); r.Nothing == "" || len(r.Zones) > 0 || r.M3 != 0 {
			t.Errorf("%s: %+v, although there is nothing to repair", code, r)
		}
	}
}

// TestReminders by hand for a season from April 15 to October 15 that begins after the
// start: walk 14 days before, measure 7 days before, two looks 14 days apart, a change of
// percentage in each month that has another one, the end, and checks after one and two
// years.
func TestReminders(t *testing.T) {
	text := strings.Replace(yardText, "{name: refill when due, refill: {mad: 50 %}}",
		"{name: months, programs: [p], season: {start: 04-15, end: 10-15}, monthly: [0, 0, 0, 60, 80, 100, 100, 80, 60, 40, 0, 0]}", 1)
	text += "decision: {who: the board, by: 2026-03-15}\n"
	l := studyOf(t, text, inventRecord(t, 1))
	table, err := l.Replay(context.Background(), nil)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, r := range l.Reminders(table, 1, cal.Of(2026, 3, 1)) {
		got = append(got, fmt.Sprintf("%s %s %v", r.On, r.Key, r.Months))
	}
	want := []string{
		"2026-03-15 decision []", "2026-04-01 walk []", "2026-04-01 month-04 []", "2026-04-01 read [4 5 6 7 8 9 10]", "2026-04-08 measure []",
		"2026-04-08 rules []", "2026-04-15 start []", "2026-04-29 look-1 []", "2026-05-01 month-05 []", "2026-05-13 look-2 []",
		"2026-06-01 month-06 []", "2026-08-01 month-08 []", "2026-09-01 month-09 []", "2026-10-01 month-10 []", "2026-10-15 end []",
		"2027-04-15 verify-12 []", "2028-04-15 verify-24 []",
	}
	if strings.Join(got, "\n") != strings.Join(want, "\n") {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
	if p := l.PlanStart(); p != cal.Of(2026, 3, 15) {
		t.Errorf("a plan starts on %v", p)
	}
}

// TestYearDays: Feb 29 falls on the last of February in other years, and a day that has
// passed comes next year.
func TestYearDays(t *testing.T) {
	for _, c := range []struct {
		d          yearDay
		from, want cal.Date
	}{
		{yearDay{2, 29}, cal.Of(2026, 1, 1), cal.Of(2026, 2, 28)},
		{yearDay{2, 29}, cal.Of(2028, 1, 1), cal.Of(2028, 2, 29)},
		{yearDay{4, 1}, cal.Of(2026, 4, 1), cal.Of(2026, 4, 1)},
		{yearDay{4, 1}, cal.Of(2026, 4, 2), cal.Of(2027, 4, 1)},
	} {
		if got := c.d.next(c.from); got != c.want {
			t.Errorf("%v from %v: %v, want %v", c.d, c.from, got, c.want)
		}
	}
	if got := yearsAfter(cal.Of(2028, 2, 29), 1); got != cal.Of(2029, 2, 28) {
		t.Errorf("a year after Feb 29: %v", got)
	}
	for m, want := range map[int]bool{11: true, 1: true, 3: true, 4: false, 10: false} {
		if got := inMonths(m, 11, 3); got != want {
			t.Errorf("month %d in a season from November to March: %v", m, got)
		}
	}
}

// TestFractionalError against the rough budget worked out in the notes on savings: 17%
// of what is still used, so that 20% saved has an error of 67% of itself, 30% of 39%,
// and 25% is about where half of it is reached. By hand from 0.05² + 0.07² + 0.12² +
// 0.06² + 0.05² = 0.0279, whose root is 0.16703.
func TestFractionalError(t *testing.T) {
	for saved, want := range map[float64]float64{0.2: 0.67, 0.3: 0.39, 0.4: 0.25, 0.5: 0.17, 0.25: 0.50} {
		if got := fractionalError(saved); math.Abs(got-want) > 0.005 {
			t.Errorf("%.0f%% saved: %.3f, want %.2f", 100*saved, got, want)
		}
	}
}

// TestVerificationHasEveryItem: the plan names all that one must agree on before a
// change, and none is empty.
func TestVerificationHasEveryItem(t *testing.T) {
	l := yard(t, 1)
	table, err := l.Replay(context.Background(), nil)
	if err != nil {
		t.Fatal(err)
	}
	got := map[string]string{}
	for _, it := range l.Verification(table, 1, cal.Of(2026, 3, 1), "") {
		got[it.Term] = it.Text
	}
	for _, term := range []string{"Purpose", "Boundary", "Method", "Baseline", "Measured", "Assumed", "Use indoors", "Weather", "Fit",
		"Expected error", "Period", "Who", "Prices", "Single events", "Quality checks", "Version"} {
		if len(got[term]) < 20 {
			t.Errorf("%s: %q", term, got[term])
		}
	}
	if len(got) != 16 || !strings.Contains(got["Fit"], "uncalibrated estimate") {
		t.Errorf("%d items; %q", len(got), got["Fit"])
	}
	p, err := l.Plan(context.Background(), table, 1, cal.Of(2026, 3, 1), "")
	if err != nil {
		t.Fatal(err)
	}
	for name, part := range map[string]*plots.TextPart{"next": l.NextPart(p), "verify": l.VerificationPart(p)} {
		if len(part.Tables) == 0 || len(part.Tables[0].Rows) == 0 {
			t.Errorf("section %s has no table", name)
		}
	}
}
