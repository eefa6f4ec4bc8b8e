package plots_test

import (
	"math"
	"strings"
	"testing"

	"loamledger/plots"
	"loamledger/plots/internal/sample"
	"loamledger/weather"
	"loamledger/weather/cal"
)

// Hand-worked: ten days of January 2031 with one low missing, one high filled
// and one day of rain.
func TestRecordChartShowsGapsAndFilledDays(t *testing.T) {
	s := weather.NewSeries(weather.UnknownStation(), cal.Of(2031, 1, 1), 10, weather.Tmax, weather.Tmin, weather.Rain)
	eto := make([]float64, 10)
	for i := range 10 {
		s.Set(weather.Tmax, i, 10+float64(i), weather.Observed)
		s.Set(weather.Rain, i, 0, weather.Observed)
		if i != 4 {
			s.Set(weather.Tmin, i, -3, weather.Observed)
		}
		eto[i] = 2
	}
	s.Mark[weather.Tmax][7] = weather.Interpolated
	s.Data[weather.Rain][2] = 12
	c := plots.Record(&plots.RecordView{Units: plots.SI, Station: "Dry Fork", Site: "f.csv", Series: s, EToMM: eto})
	if want := "1 value is missing and 1 was filled, counted in all columns."; c.See != want {
		t.Errorf("said %q, want %q", c.See, want)
	}
	lanes := map[plots.Role]plots.Series{}
	for _, sr := range c.Panels[0].Series {
		lanes[sr.Role] = sr
	}
	gap, put := lanes[plots.Gap], lanes[plots.PutIn]
	if len(gap.X) != 1 || gap.Base[0] != 3.5 || gap.X[0] != 4.5 || gap.Y[0] != 1 {
		t.Errorf("gap %+v, want day 4 in lane 1", gap)
	}
	if len(put.X) != 1 || put.Base[0] != 6.5 || put.X[0] != 7.5 || put.Y[0] != 0 {
		t.Errorf("filled %+v, want day 7 in lane 0", put)
	}
	temps := c.Panels[1].Series[0]
	if temps.Y[0] != 10 || temps.Base[0] != -3 || !math.IsNaN(temps.Base[4]) {
		t.Errorf("temperatures %+v", temps)
	}
	if got := c.Panels[2].Note; got != "wettest day 12.0 mm on January 3, 2031" {
		t.Errorf("rain says %q", got)
	}
	// January is not whole: 20 mm, in another look.
	if et := c.Panels[3].Series[0]; et.Role != plots.PartRefET || et.Y[0] != 20 {
		t.Errorf("reference ET %+v", et)
	}
	for _, k := range c.Keys {
		if k.Role == plots.MadeUp || k.Role == plots.Sunshine || k.Role == plots.RefET {
			t.Errorf("the legend explains %q, which is nowhere", k.Label)
		}
	}
}

// A long record in steps: sums of rain and of whole years come out as they went
// in, every mark lies within its axis, and excluded years look different.
func TestRecordChartOfYears(t *testing.T) {
	r := sample.Record(12)
	c := plots.Record(r)
	rain, drawn := 0.0, 0.0
	for _, v := range r.Series.Data[weather.Rain] {
		rain += v
	}
	whole, part := 0, 0
	for i := range c.Panels {
		p := &c.Panels[i]
		if p.Title == "" || p.Note == "" || p.Y == nil || !(p.Y.Max > p.Y.Min) {
			t.Errorf("panel %d lacks title, note or axis", i)
		}
		for _, sr := range p.Series {
			switch sr.Role {
			case plots.RainFall:
				for _, v := range sr.Y {
					drawn += v
				}
			case plots.RefET:
				whole += len(sr.X)
			case plots.PartRefET:
				part += len(sr.X)
			}
			for k := range sr.X {
				if y := sr.Y[k]; y < p.Y.Min || y > p.Y.Max || sr.X[k] < c.X.Min || sr.X[k] > c.X.Max {
					t.Errorf("%s: (%g, %g) is outside its axes", p.Title, sr.X[k], y)
				}
			}
		}
	}
	if math.Abs(rain-drawn) > 1e-6 {
		t.Errorf("rain of %.3f mm is drawn as %.3f mm", rain, drawn)
	}
	if whole != 11 || part != 1 {
		t.Errorf("%d whole years and %d others, want 11 and the 1 that is left out", whole, part)
	}
	if !strings.Contains(strings.Join(c.Notes, " "), "steps of 5 days") {
		t.Errorf("the steps are not stated: %q", c.Notes)
	}
}

func TestRecordChartSaysSynthetic(t *testing.T) {
	s := weather.NewSeries(weather.UnknownStation(), cal.Of(2031, 1, 1), 2, weather.Rain)
	s.Set(weather.Rain, 0, 1, weather.Synthetic)
	s.Set(weather.Rain, 1, 0, weather.Synthetic)
	c := plots.Record(&plots.RecordView{Units: plots.SI, Series: s})
	if !strings.HasPrefix(c.See, "This is synthetic weather, not observed.") {
		t.Errorf("said %q", c.See)
	}
}

// 10 and 20 °C are 50 and 68 °F, 25.4 mm an inch: exact by definition.
func TestRecordInUSUnits(t *testing.T) {
	s := weather.NewSeries(weather.UnknownStation(), cal.Of(2030, 1, 1), 365, weather.Tmax, weather.Tmin, weather.Rain)
	eto := make([]float64, s.Days)
	for i := range s.Days {
		s.Set(weather.Tmax, i, 20, weather.Observed)
		s.Set(weather.Tmin, i, 10, weather.Observed)
		s.Set(weather.Rain, i, 25.4, weather.Observed)
		eto[i] = 2.54
	}
	c := plots.Record(&plots.RecordView{Series: s, EToMM: eto, Units: plots.US})
	titles := map[string]string{}
	for _, p := range c.Panels {
		titles[p.Title] = p.Note
	}
	for title, note := range map[string]string{
		"Temperature (°F)":        "lowest 50.0, highest 68.0",
		"Rain (in/day)":           "wettest day 1.0 inches on January 1, 2030",
		"Reference ET (in/month)": "mean 3.0 inches a month over 12 whole months",
	} {
		if got, ok := titles[title]; !ok || got != note {
			t.Errorf("%s: %q, want %q; panels %v", title, got, note, titles)
		}
	}
}
