package plots

import (
	"strings"
	"testing"
)

// TestGallonsAreInThousands by hand: 100 m³ are 26,417 gal (1 gal = 3.785411784 L,
// NIST SP 811), in three digits 26.4 thousand.
func TestGallonsAreInThousands(t *testing.T) {
	s := study([]float64{100, 70}, []int{6, 8})
	s.Units = US
	got := NewReport(s, &Facts{}).Front.Options
	if got.Head[0] != "Water (1,000 gal/yr)" || got.Rows[0].Cells[0] != "26.4" {
		t.Errorf("%q %q", got.Head[0], got.Rows[0].Cells[0])
	}
}

// TestMeetsTheRule by hand: against 6 thirsty days of the baseline, 8 add 2, which is
// within 5; 13 add 7; 21 are over the 14 that a zone may have.
func TestMeetsTheRule(t *testing.T) {
	s := study([]float64{1000, 700, 600, 500}, []int{6, 8, 13, 21})
	rows := NewReport(s, &Facts{}).Front.Options.Rows
	for i, want := range []string{"baseline", "yes", "no", "no"} {
		last := rows[i].Cells[len(rows[i].Cells)-1]
		if last != want {
			t.Errorf("%s: %q, want %q", rows[i].Name, last, want)
		}
		if why := strings.Contains(rows[i].Fails, "Fails: "); why != (want == "no") {
			t.Errorf("%s: %q", rows[i].Name, rows[i].Fails)
		}
	}
	if !strings.Contains(rows[2].Fails, "7 more thirsty days") ||
		!strings.Contains(rows[3].Fails, "on 21 days of a typical year (baseline 6)") {
		t.Errorf("reasons %q, %q", rows[2].Fails, rows[3].Fails)
	}
}

// TestPreparedLines: the company stands first, and nothing is repeated.
func TestPreparedLines(t *testing.T) {
	for _, c := range []struct {
		p    Prepared
		want string
	}{
		{Prepared{Name: "Ada Reyes"}, "Ada Reyes"},
		{Prepared{Name: "Ada Reyes", Company: "Dry Fork Water", For: "the board"}, "Dry Fork Water|Ada Reyes|For the board"},
		{Prepared{Company: "Dry Fork Water", Contact: "ada@example.org"}, "Dry Fork Water|ada@example.org"},
	} {
		if got := strings.Join(c.p.Lines(), "|"); got != c.want {
			t.Errorf("%+v: %q, want %q", c.p, got, c.want)
		}
	}
}
