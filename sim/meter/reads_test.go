package meter_test

import (
	"testing"

	"loamledger/sim/meter"
	"loamledger/weather/cal"
)

// monthly returns reads on the first of each month from the given one.
func monthly(y, m int, use ...float64) (out []meter.Read) {
	for i, v := range use {
		out = append(out, meter.Read{From: cal.Of(y, m+i, 1), To: cal.Of(y, m+i+1, 1), M3: v, Kind: meter.Actual})
	}
	return out
}

// Published: twelve equal estimates of 885 units, then a read of −4,132 (AWWA M36, as
// reproduced in a text on loss control). Hand: 12·885 − 4132 = 6488 units in the 396
// days from January 1, 2023 to February 1, 2024, 16.3838 a day: 507.899 in January of
// 31 days instead of 885, 458.747 in February of 28. Thirteen months are longer than
// two monthly bills, so the run does not count.
func TestEstimatesThenCorrection(t *testing.T) {
	reads := monthly(2023, 1, 885, 885, 885, 885, 885, 885, 885, 885, 885, 885, 885, 885, -4132, 500)
	for i := range 12 {
		reads[i].Kind = meter.Estimated
	}
	h := meter.Clean(reads, 0)
	if len(h.Periods) != 2 || h.Cycle.MedianDays != 31 {
		t.Fatalf("%d periods, %+v", len(h.Periods), h.Cycle)
	}
	run := h.Periods[0]
	if run.Kind != meter.Corrected || run.Days() != 396 || !run.Left || run.Why != meter.TooLong || run.M3 != 6488 {
		t.Errorf("%+v", run)
	}
	near(t, "January", h.SpreadM3[0], 507.899, 0.001)
	near(t, "February", h.SpreadM3[1], 458.747, 0.001)
	sum := 0.0
	for i := range 13 {
		sum += h.SpreadM3[i]
		if h.Of[i] != 0 || h.Reads[i].M3 != reads[i].M3 {
			t.Errorf("read %d: period %d, as given %g", i, h.Of[i], h.Reads[i].M3)
		}
	}
	near(t, "sum", sum, 6488, 1e-9)
	if p := h.Periods[1]; p.Left || p.Kind != meter.Actual || h.SpreadM3[13] != 500 {
		t.Errorf("%+v", p)
	}
}

// Hand: an estimate of 30 and a read of 10 make 40 m³ in January and February, 59
// days, which is within two monthly bills; an estimate at the end, an estimate before a
// gap, a read of 12 days and a replaced meter do not count.
func TestPeriodsLeftOut(t *testing.T) {
	reads := monthly(2023, 1, 30, 10, 5, 6, 7, 8)
	reads[0].Kind, reads[2].Kind = meter.Estimated, meter.Estimated
	reads[3].GapDays = 3
	reads[3].From += 3
	reads[4].Unknown, reads[4].Replaced = true, true
	reads = append(reads, meter.Read{From: cal.Of(2023, 7, 1), To: cal.Of(2023, 7, 13), M3: 2, Kind: meter.Actual},
		meter.Read{From: cal.Of(2023, 7, 13), To: cal.Of(2023, 8, 13), M3: 9, Kind: meter.Estimated})
	h := meter.Clean(reads, 0)
	var got []meter.Reason
	for i := range h.Periods {
		got = append(got, h.Periods[i].Why)
	}
	want := []meter.Reason{"", meter.NotRead, "", meter.Reset, "", meter.TooShort, meter.NotRead}
	if len(got) != len(want) {
		t.Fatal(got)
	}
	for i := range want {
		if got[i] != want[i] || h.Periods[i].Left != (want[i] != "") {
			t.Errorf("period %d: %q, want %q", i, got[i], want[i])
		}
	}
	if p := h.Periods[0]; p.M3 != 40 || p.Days() != 59 || p.Kind != meter.Corrected {
		t.Errorf("%+v", p)
	}
	if h.Gaps != 1 || h.GapDays != 3 {
		t.Error(h.Gaps, h.GapDays)
	}
	meter.Bounds(h.Periods, cal.Of(2023, 1, 1), cal.Of(2023, 7, 1), cal.Of(2023, 4, 10))
	if h.Periods[2].Why != meter.Straddles || h.Periods[4].Left {
		t.Errorf("%+v", h.Periods)
	}
	meter.Bounds(h.Periods, cal.Of(2023, 2, 1), cal.Of(2023, 7, 1), 0)
	if h.Periods[0].Why != meter.OutOfRecord {
		t.Errorf("%+v", h.Periods[0])
	}
}

// Hand: 6 m³ of a pool filled from April 29 to May 4, 6 days, are 1 m³ a day: 2 fall
// into April and 4 into May. A main break on June 1 leaves out June, and July only if
// it lasts until then.
func TestEvents(t *testing.T) {
	h := meter.Clean(monthly(2023, 4, 20, 21, 22, 23), 0)
	done := meter.ApplyEvents(h.Periods, []meter.Event{
		{Kind: meter.PoolFill, From: cal.Of(2023, 4, 29), To: cal.Of(2023, 5, 4), Adjust: true, AdjustM3: 6},
		{Kind: meter.MainBreak, From: cal.Of(2023, 6, 1), To: cal.Of(2023, 6, 1)},
	})
	if h.Periods[0].M3 != 18 || h.Periods[1].M3 != 17 || h.Periods[2].Why != meter.InEvent || h.Periods[3].Left || len(done) != 3 {
		t.Errorf("%+v, %+v", h.Periods, done)
	}
}
