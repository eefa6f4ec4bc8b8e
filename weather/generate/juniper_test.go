package generate

import (
	"testing"

	"loamledger/weather"
	"loamledger/weather/et0"
)

// TestDemoIsAPlausiblePlace holds the demonstration's years to what was asked
// of it: a semi-arid place with 300 to 500 mm in most years, fewer than 250 in
// dry ones, and 1200 to 1400 mm of ETo.
func TestDemoIsAPlausiblePlace(t *testing.T) {
	rec, err := Demo()
	if err != nil {
		t.Fatal(err)
	}
	if rec.Start.String() != "2013-01-01" || rec.End().String() != "2024-12-31" {
		t.Fatalf("the demonstration runs from %v to %v", rec.Start, rec.End())
	}
	res, err := et0.Daily(&rec.Series, et0.Options{})
	if err != nil {
		t.Fatal(err)
	}
	rain, eto, frost, storms := map[int]float64{}, map[int]float64{}, map[int]int{}, 0
	for i := range rec.Days {
		d := rec.Date(i)
		y := d.Year()
		rain[y] += rec.At(weather.Rain, i)
		eto[y] += res.EToMM[i]
		if rec.At(weather.Tmin, i) < 0 {
			frost[y]++
		}
		if m := d.Month(); m >= 6 && m <= 9 && rec.At(weather.Rain, i) >= 10 {
			storms++
		}
	}
	dry, usual := 0, 0
	for y := 2013; y <= 2024; y++ {
		t.Logf("%d: rain %.0f mm, ETo %.0f mm, %d nights of frost", y, rain[y], eto[y], frost[y])
		if rain[y] < 250 {
			dry++
		}
		if rain[y] >= 300 && rain[y] <= 500 {
			usual++
		}
		if eto[y] < 1200 || eto[y] > 1400 {
			t.Errorf("%d: ETo %.0f mm", y, eto[y])
		}
		if frost[y] < 40 || frost[y] > 160 {
			t.Errorf("%d: %d nights of frost", y, frost[y])
		}
	}
	t.Logf("%d summer days with 10 mm or more", storms)
	if dry < 1 || dry > 4 || usual < 6 {
		t.Errorf("%d years below 250 mm and %d of 300 to 500 mm", dry, usual)
	}
	if storms < 6 {
		t.Errorf("%d summer days with 10 mm or more in twelve years", storms)
	}
	for _, f := range rec.Findings {
		t.Logf("%s %d", f.Code, f.Count)
	}
}
