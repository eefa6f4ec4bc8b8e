package study

import (
	"strings"
	"testing"

	"loamledger/sim"
	"loamledger/sim/replay"
	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/forecast"
)

// By hand, over five days of January 2013 with rain of 6, 0, 7, 0 and (filled)
// 9 mm, forecast a day ahead as 8, 9, 0, 0 and 9 mm: a hit, a false alarm, a
// miss, a correct negative, and a day that does not count. POD 1/2, FAR 1/2,
// bias 1, n 4. The hold looks two days ahead, so lead 3 is not shown.
func TestSkillOfArchivedForecasts(t *testing.T) {
	text := strings.Replace(yardText, "strategies:", "forecast: {file: a.csv}\nstrategies:\n"+
		"  - {name: by forecast, programs: [p], hold: {forecast: {at_least: 5 mm, days: 2 days}}}\n", 1)
	sc := readYard(t, text)
	rec := inventRecord(t, 2)
	for i, mm := range []float64{6, 0, 7, 0, 9} {
		mark := weather.Observed
		if i == 4 {
			mark = weather.Climatology
		}
		rec.Set(weather.Rain, i, mm, mark)
	}
	var list []forecast.Forecast
	for i, mm := range []float64{8, 9, 0, 0, 9} {
		f := forecast.Unknown(rec.Date(i)-1, rec.Date(i))
		f.RainMM = mm
		far := forecast.Unknown(rec.Date(i)-3, rec.Date(i))
		far.RainMM = mm
		list = append(list, f, far)
	}
	archive, err := forecast.NewArchive(list)
	if err != nil {
		t.Fatal(err)
	}
	w, err := Prepare(sc, Records{Parts: []*weather.Record{rec}})
	if err != nil {
		t.Fatal(err)
	}
	f, err := Announce(sc, w, &ForecastFile{Name: "a.csv", Archive: archive})
	if err != nil {
		t.Fatal(err)
	}
	st, err := New(sc, w, f)
	if err != nil {
		t.Fatal(err)
	}
	skills := st.skills()
	if len(skills) != 1 || len(skills[0].scores) != 1 {
		t.Fatalf("skills %+v", skills)
	}
	s := skills[0].scores[0]
	if s.LeadDays != 1 || s.N() != 4 || s.POD() != 0.5 || s.FAR() != 0.5 || s.Bias() != 1 || s.Unknown != 1 {
		t.Errorf("score %+v", s)
	}
	if got := st.skillFact(); !strings.HasPrefix(got, "1 day ahead, at least ") ||
		!strings.HasSuffix(got, ": POD 0.50, FAR 0.50, bias 1.00 in 4 forecasts") {
		t.Errorf("fact %q", got)
	}
	if st, err = New(sc, w, nil); err != nil || st.skills() != nil || st.SkillViews() != nil || st.skillPart() != nil {
		t.Errorf("without forecasts there is a skill (%v)", err)
	}
}

// By hand: 100 and 300 m²; 10 and 2 mm of water are 1.6 m³; runoff of 1 mm on
// the small zone is an event of 0.1 m³, 0.1 mm on the large one is none but
// 0.03 m³; stress on 2 days of the small zone is half an area-weighted day.
func TestComingSumsByHand(t *testing.T) {
	c := &Coming{days: make([]comingDay, 2), zones: []string{"small", "large"}, areaM2: []float64{100, 300}, rows: map[string][][]replay.Row{
		"s": {
			{{Minutes: 20, GrossMM: 10, IrrRunoffMM: 1, Grading: sim.Grading{StressZone: true}}, {Grading: sim.Grading{StressZone: true}}},
			{{}, {Minutes: 5, GrossMM: 2, IrrRunoffMM: 0.1}},
		}}}
	got := c.sums("s")
	got.WaterM3, got.RunoffM3 = tenThousandth(got.WaterM3), tenThousandth(got.RunoffM3)
	want := ComingSums{WateringDays: 2, Minutes: 25, WaterM3: 1.6, StressDays: 0.5, WorstZone: "small", WorstDays: 2,
		RunoffEvents: 1, RunoffM3: 0.13}
	if got != want {
		t.Errorf("sums %+v, want %+v", got, want)
	}
}

// A daily file is known from the morning after the record's last day, and no
// earlier: history does not change.
func TestDailyFileIsNotKnownInTheRecord(t *testing.T) {
	sc := readYard(t, strings.Replace(yardText, "strategies:", "forecast: {file: a.csv}\nstrategies:", 1))
	rec := inventRecord(t, 2)
	last := rec.End()
	days := weather.NewSeries(weather.UnknownStation(), last-2, 5, weather.Rain, weather.Tmax, weather.Tmin)
	for i := range days.Days {
		days.Set(weather.Rain, i, 30, weather.Observed)
		days.Set(weather.Tmax, i, 20, weather.Observed)
		days.Set(weather.Tmin, i, 10, weather.Observed)
	}
	w, err := Prepare(sc, Records{Parts: []*weather.Record{rec}})
	if err != nil {
		t.Fatal(err)
	}
	f, err := Announce(sc, w, &ForecastFile{Name: "a.csv", Layout: "own", Daily: &weather.Record{Series: *days}})
	if err != nil {
		t.Fatal(err)
	}
	if f.days != 0 || f.past != 3 || f.inside || f.ahead.Len() != 2 {
		t.Errorf("known on %d days, %d past, inside %v, %d ahead", f.days, f.past, f.inside, f.ahead.Len())
	}
	one, ok := f.ahead.Known(last+1, last+cal.Date(1))
	if !ok || one.RainMM != 30 || one.TmaxC != 20 || !(one.EToMM > 0) {
		t.Errorf("known on the first morning: %+v, %v", one, ok)
	}
	if _, ok := f.ahead.Known(last, last+1); ok {
		t.Error("known before it was issued")
	}
}
