package quantity

import "testing"

// Hand-written expectations.
func TestCounts(t *testing.T) {
	for n, want := range map[int]string{0: "0 days", 1: "1 day", 2: "2 days", 999: "999 days", 1000: "1,000 days", 1234567: "1,234,567 days",
		-1: "-1 days", -100: "-100 days", -1000: "-1,000 days"} {
		if got := Count(n, "day", "days"); got != want {
			t.Errorf("Count(%d) = %q, want %q", n, got, want)
		}
	}
}

func TestCapital(t *testing.T) {
	for text, want := range map[string]string{"": "", "a zone": "A zone", "ärger": "Ärger", "Zone": "Zone", "“a” is": "“a” is",
		"rs_mj_m2: low": "rs_mj_m2: low", "rain in rain_mm": "Rain in rain_mm", "\xff": "\xff"} {
		if got := Capital(text); got != want {
			t.Errorf("%q became %q, want %q", text, got, want)
		}
	}
}
