package study

import (
	"context"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/forecast"
)

// A forecast issued on the evening of day k or later changes neither what is
// known on the mornings up to day k, nor what a strategy with a forecast hold
// does until then.
func TestLaterIssuesChangeNothingBefore(t *testing.T) {
	l := yard(t, 2)
	const days = 120
	for _, column := range []*[]float64{&l.Job.Weather.RainMM, &l.Job.Weather.EToMM, &l.Job.Weather.TminC} {
		*column = (*column)[:days]
	}
	l.Job.Weather.WindMS = nil
	l.Job.NoSpinUp = true // spin-up days know what their days of the record do
	st := l.Job.Strategies[0]
	st.Parts = append(slices.Clone(st.Parts), strategy.ForecastHold{AtLeastMM: 5, Days: 3, MaxHeld: 4, Source: "site"})
	l.Job.Strategies = []strategy.Strategy{st}
	r := rand.New(rand.NewPCG(1, 2))
	start := l.Job.Weather.Start
	archive := func(changedFrom cal.Date, seed uint64) *forecast.Archive {
		plain, other := rand.New(rand.NewPCG(9, 9)), rand.New(rand.NewPCG(9, seed))
		var list []forecast.Forecast
		for issued := start - 3; issued < start+days; issued++ {
			for lead := range 5 {
				f := forecast.Unknown(issued, issued+cal.Date(lead))
				f.RainMM = 20 * plain.Float64() * plain.Float64()
				if v := 20 * other.Float64(); issued >= changedFrom {
					f.RainMM = v
				}
				list = append(list, f)
			}
		}
		a, err := forecast.NewArchive(list)
		if err != nil {
			t.Fatal(err)
		}
		return a
	}
	minutes := func(f strategy.Forecast) []float64 {
		job := l.Job
		job.Forecast = f
		var out []float64
		_, err := replay.Run(context.Background(), &job, func(s *replay.Sheet) error {
			if s.Strategy == st.Name && len(out) < days {
				for i := range s.Days() {
					out = append(out, s.Row(i).Minutes)
				}
			}
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
		return out
	}
	was := knownEachMorning(archive(math.MaxInt32, 0), start, days)
	did := minutes(was)
	moved := false
	for range 20 {
		k := 1 + r.IntN(days-2)
		now := knownEachMorning(archive(start+cal.Date(k), r.Uint64()), start, days)
		for lead := range now.RainMM {
			for i := range k + 1 {
				if a, b := was.RainMM[lead][i], now.RainMM[lead][i]; a != b && !(math.IsNaN(a) && math.IsNaN(b)) {
					t.Fatalf("changed from day %d on: morning %d, %d days ahead, knew %g and knows %g", k, i, lead, a, b)
				}
			}
		}
		does := minutes(now)
		if !slices.Equal(did[:k+1], does[:k+1]) {
			t.Fatalf("changed from day %d on: minutes before differ", k)
		}
		moved = moved || !slices.Equal(did, does)
	}
	if !moved {
		t.Error("no change of forecasts ever changed a minute: the test cannot tell")
	}
}

// Worked by hand: the mean of the days within a week of January 10 in two years
// of 1 and 3 is 2; other days do not count.
func TestUsualValue(t *testing.T) {
	start := cal.Of(2013, 1, 1)
	list := make([]float64, 730)
	for i := range list {
		list[i] = 100
		if doy := (start + cal.Date(i)).YearDay(); doy >= 3 && doy <= 17 {
			list[i] = 1
			if i > 365 {
				list[i] = 3
			}
		}
	}
	if got := usual(list, start, 730, cal.Of(2015, 1, 10)); got != 2 {
		t.Errorf("usual value %g, want 2", got)
	}
	if got := usual([]float64{4, 6}, cal.Of(2013, 6, 1), 2, cal.Of(2013, 12, 1)); got != 5 {
		t.Errorf("without such days %g, want 5, the mean of the last", got)
	}
}

// FAO-56 eq. 47 at 10 m: 4.87 / ln(67.8·10 − 5.42) = 0.748, as its table 2.9 of
// annex 2 prints.
func TestWindReachesStrategiesAt2M(t *testing.T) {
	s := weather.NewSeries(weather.UnknownStation(), cal.Of(2013, 1, 1), 2, weather.Wind)
	s.Set(weather.Wind, 0, 10, weather.Observed)
	s.Station.WindHeightM = 10
	got := windAt2M(s)
	if math.Abs(got[0]-7.48) > 0.005 || !math.IsNaN(got[1]) {
		t.Errorf("wind at 2 m %v, want 7.48 and unknown", got)
	}
	if windAt2M(weather.NewSeries(weather.UnknownStation(), 0, 1)) != nil {
		t.Error("wind out of nothing")
	}
}
