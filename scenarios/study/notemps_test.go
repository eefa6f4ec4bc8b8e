package study

import (
	"testing"

	"loamledger/scenarios"
	"loamledger/sim"
	"loamledger/sim/replay"
)

// TestNoTemperaturesIsSaid: plants that would follow the season are counted, and
// only where the record has no temperatures.
func TestNoTemperaturesIsSaid(t *testing.T) {
	season := &sim.Season{Ka: 0.9, Kd: 0.4, T0C: 4, T1C: 15}
	zones := []sim.Zone{{Season: season}, {}, {Overseed: &sim.Overseed{Season: season}}}
	for _, tt := range []struct {
		weather sim.Weather
		zones   []sim.Zone
		want    float64 // zones; 0 for no warning
	}{
		{sim.Weather{}, zones, 2},
		{sim.Weather{}, zones[1:2], 0},
		{sim.Weather{TmaxC: []float64{9}, TminC: []float64{1}}, zones, 0},
		{sim.Weather{TminC: []float64{1}}, zones, 2},
	} {
		var sc scenarios.Scenario
		warnOfNoTemperatures(&sc, &replay.Job{Weather: tt.weather, Zones: tt.zones})
		switch got := sc.Warnings; {
		case tt.want == 0 && len(got) > 0:
			t.Errorf("warned of %+v", got)
		case tt.want > 0 && (len(got) != 1 || got[0].Code != scenarios.NoTemperatures || got[0].Value != tt.want):
			t.Errorf("warnings %+v, want one of %g zones", got, tt.want)
		}
	}
}
