package plots

import (
	"slices"
	"strings"
	"testing"

	"loamledger/sim"
	"loamledger/sim/tally"
)

// twoZones is [study] with a second zone, on which every own strategy has the given
// stress days and browning days of the driest quarter.
func twoZones(stress, brown [][2]int) *Study {
	s := study([]float64{1000, 700}, []int{0, 0})
	s.Table.Zones = append(s.Table.Zones, sim.Zone{Name: "slope", AreaM2: 500, DULQ: 1, Strips: 1})
	for st := range s.Table.Outcomes {
		months := slices.Clone(s.Table.Outcomes[st][0].Months)
		s.Table.Outcomes[st] = append(s.Table.Outcomes[st], tally.Outcome{Months: months})
		if st < len(stress) {
			for z := range 2 {
				m := s.Table.Outcomes[st][z].Months
				m[6].StressZoneDays, m[6].BrownDays = stress[st][z], brown[st][z]
			}
		}
	}
	return s
}

// TestBars by hand, at each bound and just above: 14 stress days in a zone are
// allowed and 15 are not, unless the baseline has as many there; one browning day
// more than the baseline in any zone is not allowed, whatever other zones gain.
func TestBars(t *testing.T) {
	for _, tt := range []struct {
		name          string
		stress, brown [][2]int
		breaches      int
		want          []Bar
	}{
		{"nothing", [][2]int{{0, 0}, {0, 0}}, [][2]int{{0, 0}, {0, 0}}, 0, nil},
		{"at the bound", [][2]int{{0, 0}, {14, 0}}, [][2]int{{0, 0}, {0, 0}}, 0, nil},
		{"above it", [][2]int{{0, 0}, {14, 15}}, [][2]int{{0, 0}, {0, 0}}, 0, []Bar{{Code: tooThirsty, Zone: "slope", Days: 15}}},
		{"as the baseline", [][2]int{{0, 40}, {0, 40}}, [][2]int{{0, 0}, {0, 0}}, 0, nil},
		{"the baseline in another zone", [][2]int{{40, 0}, {0, 15}}, [][2]int{{0, 0}, {0, 0}}, 0,
			[]Bar{{Code: tooThirsty, Zone: "slope", Days: 15}}},
		{"browns as much", [][2]int{{0, 0}, {0, 0}}, [][2]int{{3, 7}, {3, 7}}, 0, nil},
		{"browns one zone less and one more", [][2]int{{0, 0}, {0, 0}}, [][2]int{{9, 0}, {0, 1}}, 0,
			[]Bar{{Code: brownsMore, Zone: "slope", Days: 1}}},
		{"breaks rules", [][2]int{{0, 0}, {0, 0}}, [][2]int{{0, 0}, {0, 0}}, 2, []Bar{{Code: breaksRules, Days: 2, Base: 5}}},
	} {
		s := twoZones(tt.stress, tt.brown)
		s.Table.Breaches = make([][]sim.Breach, len(s.Table.Strategies))
		s.Table.Breaches[0] = make([]sim.Breach, 5) // the baseline is exempt
		s.Table.Breaches[1] = make([]sim.Breach, tt.breaches)
		if got := s.Barred(1); !slices.Equal(got, tt.want) {
			t.Errorf("%s: %+v, want %+v", tt.name, got, tt.want)
		}
		if got := s.Barred(0); got != nil {
			t.Errorf("%s: the baseline is barred: %+v", tt.name, got)
		}
		// The baseline has runs that rules forbid, so nobody is told to keep it.
		for _, step := range NewReport(s, &Facts{}).Front.Steps {
			if strings.Contains(step, "Keep “A”") {
				t.Errorf("%s: %q", tt.name, step)
			}
		}
		text := answer(s, s.Table.Compare())
		if not := strings.HasPrefix(text, "Nothing here is ready to recommend: “B” "); not != (tt.want != nil) {
			t.Errorf("%s: %q", tt.name, text)
		}
	}
}

// TestBarsFollowTheScenario: with bounds of one's own, a strategy is ready up to
// each of them, and the report says what they are.
func TestBarsFollowTheScenario(t *testing.T) {
	for _, tt := range []struct {
		stress, brown int
		want          int
	}{{20, 3, 0}, {21, 3, 1}, {20, 4, 1}, {21, 4, 2}} {
		s := twoZones([][2]int{{0, 0}, {tt.stress, 0}}, [][2]int{{0, 0}, {0, tt.brown}})
		s.Rules = &VerdictRules{StressDays: 20, BrowningDays: 3}
		if got := s.Barred(1); len(got) != tt.want {
			t.Errorf("%d and %d days: %+v, want %d rules", tt.stress, tt.brown, got, tt.want)
		}
		if text := s.judged(); !strings.Contains(text, "over 3 more browning days") || !strings.Contains(text, "over 20 stress days") {
			t.Errorf("%q", text)
		}
	}
}

// TestWorstZoneIsNamed: the sentence of the verdict has the zone with the most
// thirsty days, if there are several zones.
func TestWorstZoneIsNamed(t *testing.T) {
	none := [][2]int{{0, 0}, {0, 0}}
	for want, stress := range map[string][][2]int{
		"; the worst zone, “slope,” has 9 thirsty days in a typical year.": {{9, 9}, {2, 9}},
		"; the worst zone, “lawn,” has 1 thirsty day in a typical year.":   {{9, 9}, {1, 0}},
		"; no zone is thirsty in a typical year.":                          {{9, 9}, {0, 0}},
	} {
		s := twoZones(stress, none)
		if got := punctuated(answer(s, s.Table.Compare())); !strings.HasSuffix(got, want) || !strings.HasPrefix(got, "Recommended: ") {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// TestBaselineThatFallsShort: where the baseline itself leaves a zone thirsty on more than 14
// days, and no option mends it, the first page says so; and what has run since a change is not
// told to stay as it was before.
func TestBaselineThatFallsShort(t *testing.T) {
	s := twoZones([][2]int{{0, 20}, {0, 30}}, [][2]int{{0, 4}, {0, 9}})
	page := NewReport(s, &Facts{Running: "“B” has run since May 1, 2000, not “A.”"}).Front
	want := "“B” has run since May 1, 2000, not “A.” " +
		"“A” itself falls short: it leaves “slope” thirsty on 20 days of a typical year, and browns part of it on 4."
	if page.Today != want || !slices.Contains(page.Said(), want) {
		t.Errorf("%q in %q, want %q", page.Today, page.Said(), want)
	}
	if !strings.HasPrefix(page.Steps[0], "“B” has run since May 1, 2000, not “A.” Change nothing else for now.") {
		t.Errorf("%q", page.Steps[0])
	}
	s = twoZones([][2]int{{0, 14}, {0, 30}}, [][2]int{{0, 4}, {0, 9}})
	if page := NewReport(s, &Facts{}).Front; page.Today != "" || !strings.HasPrefix(page.Steps[0], "Keep “A” for now.") {
		t.Errorf("14 days: %q, %q", page.Today, page.Steps[0])
	}
}

// Alarms of one kind are one sentence, whatever zones and strategies they are about.
func TestAlarmsOfOneKindAreOneSentence(t *testing.T) {
	list := []Alarm{{Strategy: "a"}, {Strategy: "b"}, {Strategy: "a"}}
	if got, want := strategiesOf(list), "“a”, “b”"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
	list = append(list, Alarm{Strategy: "c"}, Alarm{Strategy: "d"})
	if got, want := strategiesOf(list), "“a”, “b” and two others"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
}

func TestWhatToTryNextNamesRunTimes(t *testing.T) {
	s := twoZones([][2]int{{0, 0}, {0, 20}}, [][2]int{{0, 0}, {0, 0}})
	s.Next = &NextTry{Strategy: 1, Change: -0.25, Enter: []NextEntry{{Zone: "slope", Program: "p", Now: 22, Enter: 27}}}
	want := "One changed version looks good, and is not in the table yet: “B” with 27 min in “slope” instead of the " +
		"22 that it has now " +
		"(program “p”). Replayed once, it uses 25% less water than “A” and meets the rule."
	if got := s.Verdict(); got.Code != "not-ready" || got.Try != want {
		t.Errorf("%s, %q, want %q", got.Code, got.Try, want)
	}
	if got := s.ShortZones(1); got[0] || !got[1] {
		t.Errorf("zones that fall short: %v", got)
	}
	s.Next.Enter = []NextEntry{{Zone: "slope", PercentTime: 135}}
	if got := s.Verdict().Try; !strings.Contains(got, "with 135% of its run time in “slope”. Replayed") {
		t.Errorf("%q", got)
	}
}

// TestOneSentenceForOptionsThatFailAlike by hand: both options brown part of slope more
// than the baseline, so the sentence has one zone and one year; if only one browns it, each
// is told by itself; and each row lists all that it fails.
func TestOneSentenceForOptionsThatFailAlike(t *testing.T) {
	s := study([]float64{1000, 700, 600}, []int{0, 0, 20})
	set := func(brown ...int) {
		for st, n := range brown {
			s.Table.Outcomes[st][0].Months[6].BrownDays = n
		}
	}
	set(3, 9, 14)
	want := "Nothing here is ready to recommend: both options brown part of “lawn” on 9 days (“B”) or 14 (“C”) in a typical " +
		"year, instead of 3 under “A.”"
	if got := s.Verdict().Text; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	rows := NewReport(s, &Facts{}).Front.Options.Rows
	for st, want := range map[int]string{
		1: "Fails: part of “lawn” browns on 9 days of a typical year (baseline 3).",
		2: "Fails: part of “lawn” browns on 14 days of a typical year (baseline 3); “lawn” is thirsty on 20 days of a typical year " +
			"(baseline 0); 20 more thirsty days in a dry year.",
	} {
		if got := rows[st].Fails; !strings.HasSuffix(got, want) {
			t.Errorf("option %d: %q, want %q", st, got, want)
		}
	}
	set(3, 9, 3)
	want = "Nothing here is ready to recommend: “B” browns part of “lawn” on 9 instead of 3 days in a"
	if got := s.Verdict().Text; !strings.HasPrefix(got, want) || !strings.Contains(got, "“C” leaves “lawn” thirsty") {
		t.Errorf("%q, want %q", got, want)
	}
}
