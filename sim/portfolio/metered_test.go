package portfolio

import (
	"errors"
	"math"
	"slices"
	"testing"

	"loamledger/weather/cal"
)

func day(y, m, d int) cal.Date { return cal.Of(y, m, d) }

// By hand, bills of 2001 and 2002, 730 days. Account 0 has one read a year of 100 and 300 m³: 400 ÷ 730 × 365.25 = 200.1 m³ a year.
// Account 1 has a read from December 22, 2000 to January 11, 2001, 20 days with 40 m³, of which 10 days and 20 m³ count, and the rest of
// the two years with 580: 600, so 300.2 a year. Account 2 has only 2001: too few days. Account 3 has none. Account x is unknown.
func TestMeteredRankingByHand(t *testing.T) {
	table := collected(t, town(4, func(int) float64 { return 50 }), Bills{Early: Years{2001, 2002}, Late: Years{2004, 2010}})
	id := func(a int) string { return table.Accounts[a] }
	b := NewMetered(Years{2001, 2002}, 2005)
	for _, r := range []MeteredRead{
		{Account: id(0), From: day(2001, 1, 1), To: day(2002, 1, 1), M3: 100},
		{Account: id(0), From: day(2002, 1, 1), To: day(2003, 1, 1), M3: 300, Estimated: true},
		{Account: id(0), From: day(2003, 1, 1), To: day(2004, 1, 1), M3: 9999},
		{Account: id(0), From: day(2005, 2, 1), To: day(2005, 3, 1), M3: 9999},
		{Account: id(1), From: day(2000, 12, 22), To: day(2001, 1, 11), M3: 40},
		{Account: id(1), From: day(2001, 1, 11), To: day(2003, 1, 1), M3: 580},
		{Account: id(2), From: day(2001, 1, 1), To: day(2002, 1, 1), M3: 1000},
		{Account: "x", From: day(2001, 1, 1), To: day(2003, 1, 1), M3: 5},
	} {
		b.Add(r)
	}
	r, err := table.RankMetered(b)
	if err != nil {
		t.Fatal(err)
	}
	if !slices.Equal(r.Order, []int{1, 0}) || r.First != day(2001, 1, 1) || r.Last != day(2002, 12, 31) || r.Bills != 4 || r.Unknown != 1 ||
		r.Without != 1 || r.Short != 1 || r.Estimated != 1 || math.Abs(r.EstimatedDays-365.0/1460) > 1e-12 || r.Outside != 2 || r.After != 1 {
		t.Errorf("%+v", r)
	}
	// The replay uses 50 m³ a year: 200.14 and 300.2 ÷ 50, and the middle of 4.0027 and 6.0041.
	if math.Abs(r.Times-(400+600)/730.0*365.25/2/50) > 1e-9 {
		t.Errorf("bills are %g times the replay", r.Times)
	}
	if s := b.sums[id(1)]; math.Abs(s.m3-600) > 1e-9 || s.days != 730 {
		t.Errorf("%+v", s)
	}
	// The first half of two accounts is the one with the higher bill.
	offers := table.Offers(1, r.Order, []float64{0.5, 1}, 0.05)
	late := table.LateSavings(1)
	if offers[0].N != 1 || offers[0].LateM3 != late[1] || math.Abs(offers[1].LateM3-(late[0]+late[1])/2) > 1e-9 {
		t.Errorf("%+v of %v", offers, late)
	}
}

// What cannot be ranked is refused.
func TestMeteredRankingRefuses(t *testing.T) {
	rows := town(3, func(int) float64 { return 50 })
	bills := func(outdoor bool) *Metered {
		b := NewMetered(Years{2001, 2002}, 2020)
		b.Outdoor = outdoor
		b.Add(MeteredRead{Account: collected(t, rows, Bills{}).Accounts[0], From: day(2001, 1, 1), To: day(2003, 1, 1), M3: 100})
		return b
	}
	for _, tt := range []struct {
		b    Bills
		of   *Metered
		want error
	}{
		{Bills{Early: Years{2001, 2002}, Late: Years{2002, 2010}}, bills(false), errSameYears},
		{Bills{Early: Years{2001, 2002}, Late: Years{2004, 2010}, By: ByExcess}, bills(false), ErrIndoors},
		{Bills{Early: Years{1901, 1902}, Late: Years{2004, 2010}, By: ByExcess}, bills(true), ErrNoYears},
		{Bills{Early: Years{2001, 2002}, Late: Years{2030, 2031}}, bills(false), ErrNoYears},
		{Bills{Early: Years{2001, 2002}, Late: Years{2004, 2010}, By: ByExcess}, bills(true), nil},
		{Bills{Early: Years{2001, 2002}, Late: Years{2004, 2010}}, bills(false), nil},
	} {
		if _, err := collected(t, rows, tt.b).RankMetered(tt.of); !errors.Is(err, tt.want) {
			t.Errorf("%+v: %v, want %v", tt.b, err, tt.want)
		}
	}
}

// Published: the bounds of the classes are in the class above, 0.05 <= P/PET < 0.20 and so on (global humidity index of UNEP/GRID,
// documentation summary, after the World Atlas of Desertification 1992).
func TestAridity(t *testing.T) {
	eto := 1000.0
	for rain, want := range map[float64]string{0: "hyper-arid", 49.9: "hyper-arid", 50: "arid", 199: "arid", 200: "semi-arid",
		499: "semi-arid",
		500: "dry subhumid", 649: "dry subhumid", 650: "humid", 3000: "humid"} {
		if got := Aridity(&rain, &eto); got != want {
			t.Errorf("rain of %g: %s, want %s", rain, got, want)
		}
	}
	zero := 0.0
	if Aridity(nil, &eto) != "" || Aridity(&eto, nil) != "" || Aridity(&eto, &zero) != "" {
		t.Error("an unknown climate has a class")
	}
	low, high, ok := AridityBounds("semi-arid")
	if _, top, _ := AridityBounds(humid); low != 0.2 || high != 0.5 || !ok || top != 0 {
		t.Errorf("%g to %g", low, high)
	}
	if _, _, ok := AridityBounds(""); ok {
		t.Error("no class has bounds")
	}
	names := []string{"", humid, "arid", "hyper-arid", "dry subhumid", "semi-arid"}
	slices.SortFunc(names, Drier)
	if !slices.Equal(names, []string{"hyper-arid", "arid", "semi-arid", "dry subhumid", humid, ""}) {
		t.Errorf("%q", names)
	}
}

// By hand: of four accounts that pay 100 a year as found, a measure takes 20, 4, −10 and 30 off the bill: the mean is 11, two fall by
// more than 5%, one stays, one rises. Sorted −10, 4, 20, 30: median 12, P10 −10 + 0.3 × 14 = −5.8, P90 20 + 0.7 × 10 = 27.
func TestBillStatsByHand(t *testing.T) {
	c := NewCollector(Bills{})
	for a, off := range []float64{20, 4, -10, 30} {
		for k, money := range []float64{100, 100 - off} {
			v := money
			c.Add(&Result{Account: string(rune('a' + a)), Measure: []string{"as found", "months"}[k], Reference: k == 0, Year: 2001, WholeYear: true,
				AreaM2: 1, VolumeM3: 1, Money: &v})
		}
	}
	table, err := c.Table()
	if err != nil || !table.HasMoney {
		t.Fatal(err)
	}
	s := table.BillStats(1, 0.05)
	want := BillStats{Reference: 100, Mean: 11, P10: -5.8, Median: 12, P90: 27, Falls: 0.5, Stays: 0.25, Rises: 0.25}
	for i, pair := range [][2]float64{{s.Reference, want.Reference}, {s.Mean, want.Mean}, {s.P10, want.P10}, {s.Median, want.Median},
		{s.P90, want.P90},
		{s.Falls, want.Falls}, {s.Stays, want.Stays}, {s.Rises, want.Rises}} {
		if math.Abs(pair[0]-pair[1]) > 1e-9 {
			t.Errorf("%d: %g, by hand %g", i, pair[0], pair[1])
		}
	}
}

// By hand, of 18 accounts and at least 5: the first 2 and 4 are too few, 5 may be printed; 7 and 9 are 2 and 4 more; 11 are 6 more and
// leave 7; 13 are 2 more, 14 three, 16 leave 2; all 18 are 7 more. Of 11, the first 7 would leave 4.
func TestPrintableByHand(t *testing.T) {
	for _, tt := range []struct {
		counts []int
		n      int
		want   []bool
	}{
		{[]int{2, 4, 5, 7, 9, 11, 13, 14, 16, 18}, 18, []bool{false, false, true, false, false, true, false, false, false, true}},
		{[]int{7, 11}, 11, []bool{false, true}},
		{[]int{4}, 4, []bool{false}},
	} {
		if got := Printable(tt.counts, tt.n, 5); !slices.Equal(got, tt.want) {
			t.Errorf("%v of %d: %v, by hand %v", tt.counts, tt.n, got, tt.want)
		}
	}
}
