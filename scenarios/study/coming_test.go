package study

import (
	"context"
	"reflect"
	"testing"

	"loamledger/sim/replay"
	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/forecast"
)

// Looking ahead does not change the study, ends with the first day without a
// rain forecast, and counts the days with the usual ETo as a substitute.
func TestLookAhead(t *testing.T) {
	sc := readYard(t, yardText+"forecast: {file: a.csv}\n")
	rec := inventRecord(t, 2)
	last := rec.End()
	var list []forecast.Forecast
	for k := range 5 {
		f := forecast.Unknown(last, last+1+cal.Date(k))
		f.RainMM = float64(k)
		if k == 0 {
			f.EToMM = 4
		}
		if k != 3 { // the day after the gap is forecast, and out of reach
			list = append(list, f)
		}
	}
	archive, err := forecast.NewArchive(list)
	if err != nil {
		t.Fatal(err)
	}
	w, err := Prepare(sc, Records{Parts: []*weather.Record{rec}})
	if err != nil {
		t.Fatal(err)
	}
	f, err := Announce(sc, w, &ForecastFile{Name: "a test", Archive: archive})
	if err != nil {
		t.Fatal(err)
	}
	st, err := New(sc, w, f)
	if err != nil {
		t.Fatal(err)
	}
	before, err := replay.Run(context.Background(), &st.Job, nil)
	if err != nil {
		t.Fatal(err)
	}
	c, err := st.LookAhead(context.Background())
	if err != nil || c == nil {
		t.Fatalf("nothing ahead: %v", err)
	}
	if len(c.days) != 3 || c.days[0].date != last+1 || c.days[0].etoMM != 4 || c.days[2].rainMM != 2 || c.to != last+5 {
		t.Errorf("days ahead %+v, to %v", c.days, c.to)
	}
	if c.usual[weather.ETo] != 2 || c.usual[weather.Rain] != 0 {
		t.Errorf("the usual ETo on %d days, the usual rain on %d, want 2 and 0", c.usual[weather.ETo], c.usual[weather.Rain])
	}
	if table := st.ComingTable(c); len(table) != 1+2*2*3 || len(c.rows) != 2 {
		t.Errorf("%d rows of a header and 2 strategies, 2 zones, 3 days; strategies %d", len(table), len(c.rows))
	}
	if st.Job.Weather.Days() != int(last-rec.Start)+1 {
		t.Errorf("the record has %d days now", st.Job.Weather.Days())
	}
	after, err := replay.Run(context.Background(), &st.Job, nil)
	if err != nil || !reflect.DeepEqual(before.Compare(), after.Compare()) {
		t.Errorf("looking ahead has changed the replay (%v)", err)
	}
	if st, err = New(sc, w, nil); err != nil {
		t.Fatal(err)
	}
	if c, err := st.LookAhead(context.Background()); c != nil || err != nil {
		t.Errorf("without forecasts: %v, %v", c, err)
	}
}
