package plots

import (
	"math"
	"testing"
)

func TestScaleTo(t *testing.T) {
	tests := []struct {
		high  float64
		n     int
		top   float64
		last  string
		ticks int
	}{ // by hand
		{0.93, 5, 1, "1.0", 6},
		{1.27, 3, 1.5, "1.5", 4},
		{61, 5, 80, "80", 5},
		{1633, 5, 2000, "2,000", 5},
		{0, 4, 1, "1.00", 5},
		{math.NaN(), 4, 1, "1.00", 5},
		{9.9, 4, 10, "10.0", 5},
	}
	for _, tt := range tests {
		ax := scaleTo("depth", "in", tt.high, tt.n)
		if ax.Max != tt.top || len(ax.Ticks) != tt.ticks || ax.Ticks[len(ax.Ticks)-1].Label != tt.last {
			t.Errorf("scaleTo(%g, %d) = top %g, ticks %v; want top %g, %d ticks, last %q",
				tt.high, tt.n, ax.Max, ax.Ticks, tt.top, tt.ticks, tt.last)
		}
	}
}

func TestNumbersForPeople(t *testing.T) {
	tests := []struct{ got, want string }{ // by hand
		{fixed(1234567.8, 0), "1,234,568"},
		{fixed(-0.04, 1), "0.0"},
		{fixed(-12.34, 1), "−12.3"},
		{fixed(math.NaN(), 1), "–"},
		{rounded(412345), "412,000"},
		{rounded(0.01234), "0.0123"},
		{rounded(99.96), "100.0"},
		{rounded(0), "0"},
		{percent(0.314), "31%"},
		{moreOrLess(-0.314), "31% less"},
		{moreOrLess(0.12), "12% more"},
		{moreOrLess(0.001), "no more"},
		{US.volumeText(3.785411784), "1,000 gal"},
		{US.depthWords(25.4), "1.0 inches"},
		{SI.depthWords(25.4), "25 mm"},
		{count(1, "day", "days"), "1 day"},
		{count(1200, "day", "days"), "1,200 days"},
		{slug("Front Lawn / No. 2"), "front-lawn-no-2"},
		{slug("草"), "zone"},
	}
	for _, tt := range tests {
		if tt.got != tt.want {
			t.Errorf("got %q, want %q", tt.got, tt.want)
		}
	}
}
