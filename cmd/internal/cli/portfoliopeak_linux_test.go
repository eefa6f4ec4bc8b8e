package cli

import (
	"math"
	"os"
	"path/filepath"
	"testing"
)

// peakProgram waters a lawn of 100 m² at 30 mm/h for 20 minutes, 10 mm or 1 m³, on Monday, Wednesday and Friday, and a bed of
// 50 m² at 12 mm/h for 30 minutes, 6 mm or 0.3 m³, on Monday. The lawn leaks 0.1 L/min, 0.144 m³ a day.
const peakProgram = `portfolio: 1
name: peaks
stations: [{name: dry, file: weather.csv, latitude: 38.9, longitude: -120, elevation: 490 m}]
as_found: {scale: 100%}
zones:
  - {name: lawn, area: 100 m2, plant: tall fescue, soil: loam, leak: 0.1 L/min, sprinkler: {kind: spray, rate: 30 mm/h}}
  - {name: bed, area: 50 m2, plant: "shrubs, dry climate", soil: loam, sprinkler: {kind: drip, rate: 12 mm/h}}
programs:
  - {name: lawn, days: [mon, wed, fri], starts: ["05:00"], minutes: {lawn: 20}}
  - {name: bed, days: [mon], starts: ["07:00"], minutes: {bed: 30}}
  - {name: lawn apart, days: [tue, thu], starts: ["05:00"], minutes: {lawn: 20}}
strategies:
  - {name: as found, programs: [lawn, bed]}
  - {name: half, programs: [lawn, bed], monthly: [50, 50, 50, 50, 50, 50, 50, 50, 50, 50, 50, 50]}
  - {name: apart, programs: [lawn apart, bed]}
  - {name: smaller, like: as found, changes: [{zones: [lawn], area: 40 m2, minutes: same minutes}]}
`

// Peak day and month by hand. As found a Monday has 1 + 0.3 + 0.144 = 1.444 m³. January and October 1990 begin on a Monday and have 31
// days: 5 Mondays, 5 Wednesdays and 4 Fridays, 14 × 1 + 5 × 0.3 + 31 × 0.144 = 19.964 m³; no other month of that year has more. At half
// the run times a Monday has 0.65 + 0.144 = 0.794, January 7.75 + 4.464 = 12.214. With the lawn on other days the day with the most has
// the lawn alone, 1.144; January has 5 Tuesdays and 4 Thursdays, 9 × 1 + 5 × 0.3 + 4.464 = 14.964, and May, which begins on a Tuesday, 5
// and 5, and 4 Mondays: 10 + 1.2 + 4.464 = 15.664. A lawn of 40 m² has 0.4 m³ at the same rate, and leaks as before: 0.844, and
// 14 × 0.4 + 1.5 + 4.464 = 11.564 in January.
func TestPeakDayOfAnAccountByHand(t *testing.T) {
	dir := t.TempDir()
	for name, text := range map[string]string{"weather.csv": string(longWeather(3)), "program.yaml": peakProgram,
		"accounts.csv": "account\n1\n"} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	out := filepath.Join(dir, "out")
	mustRun(t, "portfolio", filepath.Join(dir, "accounts.csv"), "--program", filepath.Join(dir, "program.yaml"), "--out", out)
	want := map[string][2]float64{"as found": {1.444, 19.964}, "half": {0.794, 12.214}, "apart": {1.144, 15.664}, "smaller": {0.844, 11.564}}
	seen := 0
	for _, r := range resultsOf(t, out) {
		if r.Year != 1990 {
			continue
		}
		seen++
		if w := want[r.Measure]; math.Abs(r.PeakDayM3-w[0]) > 1e-9 || math.Abs(r.PeakMonthM3-w[1]) > 1e-9 {
			t.Errorf("%s: peak day %v m³ and month %v m³, by hand %v and %v", r.Measure, r.PeakDayM3, r.PeakMonthM3, w[0], w[1])
		}
	}
	if seen != len(want) {
		t.Errorf("%d measures", seen)
	}
}
