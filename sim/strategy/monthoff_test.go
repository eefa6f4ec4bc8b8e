package strategy

import (
	"slices"
	"testing"

	"loamledger/weather/quantity"
)

// TestPercentagesWithinTheSeason: months outside the season have no percentage; a month
// that the season cuts has one, and without a season all do.
func TestPercentagesWithinTheSeason(t *testing.T) {
	monthly := Monthly{Share: [12]float64{0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1, 0.2, 0.1}}
	season := Season{Start: 416, End: 930, FrostC: -100}
	const all = "Seasonal percentages: Jan 10, Feb 20, Mar 30, Apr 40, May 50, Jun 60, Jul 70, Aug 80, Sep 90, Oct 100, Nov 20, Dec 10"
	for _, tt := range []struct {
		parts []Part
		want  []string
	}{
		{[]Part{monthly}, []string{all}},
		{[]Part{monthly, season}, []string{"Seasonal percentages: Apr 40, May 50, Jun 60, Jul 70, Aug 80, Sep 90",
			"Season: turn on Apr 16, turn off after Sep 30"}},
		{[]Part{season, Monthly{Auto: true}}, []string{"Season: turn on Apr 16, turn off after Sep 30",
			"Seasonal percentages: from the record's mean reference ET by month"}},
	} {
		if got, err := AllLines(tt.parts, nil, quantity.SI); err != nil || !slices.Equal(got, tt.want) {
			t.Errorf("got %q, %v, want %q", got, err, tt.want)
		}
	}
}
