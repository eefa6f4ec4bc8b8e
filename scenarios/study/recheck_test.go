package study

import (
	"context"
	"encoding/json"
	"math"
	"slices"
	"strings"
	"testing"

	"loamledger/plots"
	"loamledger/sim"
	"loamledger/sim/replay"
	"loamledger/sim/tally"
	"loamledger/weather"
	"loamledger/weather/quantity"
)

// yardWith is the yard with other strategies, in US units, and its result over two
// years.
func yardWith(t *testing.T, programs, strategies string) (*Study, *tally.Table) {
	t.Helper()
	return yardOver(t, inventRecord(t, 2), programs, strategies)
}

// yardOver is the same over another record.
func yardOver(t *testing.T, rec *weather.Record, programs, strategies string) (*Study, *tally.Table) {
	t.Helper()
	text, _, _ := strings.Cut(yardText, "programs:")
	sc := readYard(t, strings.Replace(text, "units: si", "units: us", 1)+"programs:\n"+programs+"strategies:\n"+strategies)
	w, err := Prepare(sc, Records{Parts: []*weather.Record{rec}})
	if err != nil {
		t.Fatal(err)
	}
	l, err := New(sc, w, nil)
	if err != nil {
		t.Fatal(err)
	}
	l.Job.Brief = true
	table, err := l.Replay(context.Background(), nil)
	if err != nil {
		t.Fatal(err)
	}
	return l, table
}

const (
	longRuns  = "  - {name: p, days: [mon, wed, fri], starts: [\"05:00\"], minutes: {front: 24, back: 30}}\n"
	asFoundIs = "  - {name: as found, programs: [p]}\n"
)

// TestVerdictOverDesignETo: the case of 75 % is the replay of a scenario whose
// design ETo is 75 % of the record's peak month, computed here from the record;
// the first strategy is the same in all cases.
func TestVerdictOverDesignETo(t *testing.T) {
	l, table := yardWith(t, longRuns, asFoundIs+"  - {name: et, programs: [p], et_percent: {design_eto: auto}}\n")
	var sum, days [13]float64
	for i, v := range l.Job.Weather.EToMM {
		m := int(l.Weather.Date(i).Month())
		sum[m] += v
		days[m]++
	}
	peak := 0.0
	for m := 1; m <= 12; m++ {
		peak = max(peak, sum[m]/days[m])
	}
	d := l.checks.design
	if d == nil || !slices.Equal(d.Strategies, []int{1}) || math.Abs(d.MM[0]-peak) > 1e-9 || !d.Auto[0] || len(d.Cases) != 3 {
		t.Fatalf("%+v, want the second strategy at %g mm, auto", d, peak)
	}
	for _, c := range d.Cases {
		given := quantity.Convert(c.Factor*peak, quantity.Depth, quantity.SI)
		text, err := json.Marshal(given)
		if err != nil {
			t.Fatal(err)
		}
		_, want := yardWith(t, longRuns, asFoundIs+"  - {name: et, programs: [p], et_percent: {design_eto: "+string(text)+" mm}}\n")
		for z := range want.Zones {
			if a, b := c.Table.Total(1, z), want.Total(1, z); math.Abs(a.GrossMM-b.GrossMM) > 1e-6*b.GrossMM || a.StressDays != b.StressDays {
				t.Errorf("factor %g, zone %d: %g mm and %d days, given as a number %g and %d", c.Factor, z, a.GrossMM, a.StressDays, b.GrossMM,
					b.StressDays)
			}
			if a, b := c.Table.Total(0, z), table.Total(0, z); a != b {
				t.Errorf("factor %g changes the first strategy", c.Factor)
			}
		}
	}
	if low, high := d.Cases[0].Table.Compare()[1].Change, d.Cases[2].Table.Compare()[1].Change; !(low > high) {
		t.Errorf("a lower design ETo waters %+.2f, a higher one %+.2f", low, high)
	}
	// Shown on the page, in print and in JSON, each time with its hindsight.
	page := plots.NewReport(l.ChartData(table, NewSeason(&l.Job, 0)), l.Facts(table, 0))
	if page.Design != nil && strings.Contains(strings.Join(page.Design.Head, " "), "%") {
		t.Errorf("a heading is not filled in: %q", page.Design.Head)
	}
	// Stress days of the first columns are those of whole zones; the notes must not say otherwise.
	if !slices.ContainsFunc(page.Front.Notes, func(n plots.Item) bool {
		return strings.HasPrefix(n.Term, "Thirsty day") && strings.Contains(n.Text, "plants of a zone as a whole got clearly less")
	}) {
		t.Errorf("a thirsty day is explained as %+v", page.Front.Notes)
	}
	if page.Design == nil || len(page.Design.Rows) != 3 || !strings.Contains(page.Design.Caption, "hindsight") {
		t.Errorf("the page has %+v", page.Design)
	}
	front := page.Front.Technical[slices.IndexFunc(page.Front.Technical, func(i plots.FrontFact) bool { return i.Term == "Design ETo" })].Text
	lines := strings.Join(l.checkLines(table), "\n")
	for _, text := range []string{front, lines} {
		if !strings.Contains(text, "hindsight") || !strings.Contains(text, "25% lower or higher") {
			t.Errorf("%q", text)
		}
	}
	if g := l.DesignGrid(table); g == nil || len(g.Rows) != 3 || !strings.HasSuffix(g.Rows[0][1], " in, auto") {
		t.Errorf("%+v", g)
	}
	if rec := l.ChecksRecord(table); len(rec.Design) != 3 || !rec.Design[0].Auto || rec.Design[0].Hindsight == "" ||
		rec.Design[0].Factor != 0.75 {
		t.Errorf("%+v", rec.Design)
	}
}

// TestVerdictOverMarks: the cases are the replays of scenarios whose plants have
// those marks; water is the same in all. Page, print and JSON have the verdict.
func TestVerdictOverMarks(t *testing.T) {
	const two = asFoundIs + "  - {name: et, programs: [p], et_percent: {design_eto: auto}}\n"
	l, table := yardWith(t, longRuns, two)
	m := l.checks.marks
	if m == nil || len(m.Cases) != 3 {
		t.Fatalf("%+v", m)
	}
	moved := false
	for i, c := range m.Cases {
		job := l.Job
		job.Zones = slices.Clone(job.Zones)
		for z := range job.Zones { // cool-season turf has 0.8 and 0.5
			job.Zones[z].ToleranceR7, job.Zones[z].BrowningR7 = []float64{0.7, 0.8, 0.9}[i], []float64{0.4, 0.5, 0.6}[i]
		}
		want, err := replay.Run(context.Background(), &job, nil)
		if err != nil {
			t.Fatal(err)
		}
		for s := range table.Strategies {
			for z := range table.Zones {
				a, b, given := c.Table.Total(s, z), want.Total(s, z), table.Total(s, z)
				if a.StressZoneDays != b.StressZoneDays || a.BrownDays != b.BrownDays || a.GrossMM != given.GrossMM {
					t.Errorf("shift %g: %d and %d days and %g mm, want %d and %d and %g", c.Shift, a.StressZoneDays, a.BrownDays, a.GrossMM,
						b.StressZoneDays, b.BrownDays, given.GrossMM)
				}
				moved = moved || a.StressZoneDays != given.StressZoneDays
			}
		}
	}
	if !moved {
		t.Error("no mark has an effect")
	}
	data := l.ChartData(table, NewSeason(&l.Job, 0))
	text := data.MarksVerdict(m)
	page := plots.NewReport(data, l.Facts(table, 0))
	if !strings.HasPrefix(text, "The verdict ") || !slices.Contains(page.Notes, plots.Item{Term: "Plant marks", Text: text}) ||
		!slices.Contains(l.checkLines(table), text) {
		t.Errorf("%q is not on the page or not in print", text)
	}
	rec := l.ChecksRecord(table).Marks
	if len(rec) != 3 || rec[0].Shift != -0.1 || !rec[1].Same || rec[2].Shift != 0.1 || len(rec[0].Strategies) != 2 ||
		(rec[0].Same && rec[2].Same) != strings.Contains(text, "verdict is the same") {
		t.Errorf("%+v", rec)
	}
}

// TestMarksStayShares: marks are moved within 0 to 1.
func TestMarksStayShares(t *testing.T) {
	for _, tt := range []struct{ mark, by, want float64 }{{0.95, -0.1, 0.85}, {0.95, 0.1, 1}, {0.05, -0.1, 0}, {0.05, 0.1, 0.15}} {
		if got := sim.MovedMark(tt.mark, tt.by); math.Abs(got-tt.want) > 1e-12 {
			t.Errorf("%g moved by %g is %g, want %g", tt.mark, tt.by, got, tt.want)
		}
	}
}

// TestOneStrategyHasNoMarks: with nothing to compare there is no verdict to flip.
func TestOneStrategyHasNoMarks(t *testing.T) {
	l, table := yardWith(t, longRuns, asFoundIs)
	if l.checks.marks != nil || l.ChecksRecord(table).Marks != nil {
		t.Errorf("%+v", l.checks.marks)
	}
}

// TestDryWinterIsAdvisedOn: a summer season leaves the soil dry in a winter
// without rain; a sheet and the notes then advise water, with the days of a mean
// whole year summed here from the daily rows.
func TestDryWinterIsAdvisedOn(t *testing.T) {
	const summer = "  - {name: summer, programs: [p], season: {start: 06-15, end: 08-15}}\n"
	l, _ := yardWith(t, longRuns, asFoundIs+summer)
	for i := range l.Job.Weather.RainMM {
		if m := l.Weather.Date(i).Month(); m > 8 || m < 4 {
			l.Job.Weather.RainMM[i] = 0
		}
	}
	table, err := replay.Run(context.Background(), &l.Job, nil)
	if err != nil {
		t.Fatal(err)
	}
	days := [2]float64{}
	for z := range days {
		for _, year := range table.WholeYears() {
			sum := table.Year(1, z, year)
			days[z] += float64(sum.DryWinterDays) / float64(len(table.WholeYears()))
		}
	}
	if days[0] < 1 || days[1] < 1 {
		t.Fatalf("%v dry winter days", days)
	}
	sheet, err := l.Sheet(context.Background(), &l.Job.Strategies[1], &SheetOptions{PercentStep: 0.05})
	if err != nil {
		t.Fatal(err)
	}
	record, err := l.SheetRecord(sheet)
	if err != nil {
		t.Fatal(err)
	}
	notes, err := l.Notes(table)
	if err != nil {
		t.Fatal(err)
	}
	note := plots.WinterWater(table, plots.US, 1)
	want := "front " + quantity.Number(math.RoundToEven(days[0]), 0) + ", back " + quantity.Number(math.RoundToEven(days[1]), 0) +
		" under “summer”"
	if !strings.Contains(note, want) || !strings.Contains(note, "above 40 °F without snow or ice") || !strings.Contains(note, "no source") {
		t.Errorf("%q, want %q", note, want)
	}
	if !strings.Contains(strings.Join(notes, "\n"), want) {
		t.Errorf("notes lack %q: %q", want, notes)
	}
	if len(sheet.Advice) != 1 || !slices.Equal(record.Advice, sheet.Advice) || !strings.Contains(sheet.Advice[0], "under “summer") {
		t.Errorf("sheet %q, record %q", sheet.Advice, record.Advice)
	}
}

// TestNoDesignNoTable: strategies without a design ETo have nothing to vary.
func TestNoDesignNoTable(t *testing.T) {
	l, table := yardWith(t, longRuns, asFoundIs+"  - {name: refill, refill: {mad: 50 %}}\n")
	if l.checks.design != nil || l.DesignGrid(table) != nil || len(l.ChecksRecord(table).Design) > 0 {
		t.Errorf("%+v", l.checks.design)
	}
}

// TestSuggestedCyclesHalveRunoff: what is suggested is replayed here from a
// scenario with those cycles, which must give the promised runoff, at most half.
func TestSuggestedCyclesHalveRunoff(t *testing.T) {
	l, table := yardWith(t, longRuns, asFoundIs)
	at := slices.IndexFunc(l.checks.cycles, func(c plots.CycleTrial) bool { return c.Zone == 0 })
	if at < 0 {
		t.Fatalf("nothing for the front: %+v", l.checks.cycles)
	}
	c := l.checks.cycles[at]
	years := float64(len(table.WholeYears()))
	before := table.Total(0, 0)
	if want := before.IrrRunoffMM / 1000 * 100 / years; math.Abs(c.BeforeM3-want) > 1e-9 { // 100 m²
		t.Errorf("before: %g m³, want %g", c.BeforeM3, want)
	}
	cycles := strings.Replace(longRuns, "}}", "}, cycle: "+quantity.Number(c.CycleMin, 0)+" min, soak: "+quantity.Number(c.SoakMin,
		0)+" min}", 1)
	other, again := yardWith(t, cycles, asFoundIs)
	after := again.Total(0, 0)
	if want := after.IrrRunoffMM / 1000 * 100 / years; math.Abs(c.AfterM3-want) > 1e-9 || want > c.BeforeM3/2 {
		t.Errorf("promised %g m³, replayed %g, before %g", c.AfterM3, want, c.BeforeM3)
	}
	if len(other.checks.cycles) > 0 && other.checks.cycles[0].Zone == 0 && c.AfterM3 == 0 {
		t.Error("a zone without runoff gets advice")
	}
	lines := strings.Join(l.checkLines(table), "\n")
	page := plots.NewReport(l.ChartData(table, NewSeason(&l.Job, 0)), l.Facts(table, 0))
	for what, text := range map[string]string{"notes": lines, "page": strings.Join(page.Runoff.Rows[0].Cells, " "),
		"next steps": strings.Join(page.Front.Steps, " ")} {
		if !strings.Contains(text, c.Words()) {
			t.Errorf("%s lack %q: %q", what, c.Words(), text)
		}
	}
	if rec := l.ChecksRecord(table); len(rec.Cycles) == 0 || rec.Cycles[0].Zone != "front" || len(rec.Runoff) == 0 {
		t.Errorf("%+v", rec)
	}
}

// TestRunoffOfPartOfAYear: a record without a whole year has runoff in its days,
// summed here from the tally (100 m² and 264.172 gal/m³), and none "a year"; where
// the verdict differs, it is told within a sentence.
func TestRunoffOfPartOfAYear(t *testing.T) {
	rec := inventRecord(t, 2)
	cut := *rec
	cut.Days = 200
	for c := range cut.Data {
		if cut.Data[c] != nil {
			cut.Data[c], cut.Mark[c] = cut.Data[c][:200], cut.Mark[c][:200]
		}
	}
	l, table := yardOver(t, &cut, longRuns, asFoundIs+"  - {name: et, programs: [p], et_percent: {design_eto: auto}}\n")
	if n := len(table.WholeYears()); n != 0 || len(l.checks.cycles) == 0 {
		t.Fatalf("%d whole years, trials %+v", n, l.checks.cycles)
	}
	list := plots.Runoff(table, tally.Measures(), 0)
	front := list[slices.IndexFunc(list, func(r plots.ZoneRunoff) bool { return r.Zone == 0 })]
	if want := table.Total(0, 0).IrrRunoffMM / 1000 * 100; math.Abs(front.M3-want) > 1e-9 {
		t.Errorf("%g m³, want %g", front.M3, want)
	}
	page := plots.NewReport(l.ChartData(table, NewSeason(&l.Job, 0)), l.Facts(table, 0))
	steps := strings.Join(page.Front.Steps, " ")
	data := l.ChartData(table, &Season{})
	runoff := strings.Join(data.RunoffLines(l.checks.cycles), " ")
	for what, text := range map[string]string{"runoff lines": runoff, "next steps": steps} {
		if strings.Contains(text, "gal a year") || !strings.Contains(text, "gal in these 200 days") {
			t.Errorf("%s: %q", what, text)
		}
	}
	verdict := data.DesignVerdict(l.checks.design)
	for _, start := range []string{"No option", "Best trade-off", "Too close"} {
		if strings.Contains(verdict, "of it, "+start) {
			t.Errorf("a capital within the sentence: %q", verdict)
		}
	}
	if !strings.Contains(verdict, "of it, ") {
		t.Errorf("the verdict does not flip: %q", verdict)
	}
}

// TestRunoffWorstFirst: zones are in the order of their gallons, with events a
// year and nights a week of the months with watering, summed here day by day.
func TestRunoffWorstFirst(t *testing.T) {
	l, table := yardWith(t, longRuns, asFoundIs+"  - {name: summer, programs: [p], season: {start: 05-01, end: 09-30}}\n")
	list := plots.Runoff(table, tally.Measures(), 1)
	if !slices.IsSortedFunc(list, func(a, b plots.ZoneRunoff) int { return int(math.Copysign(1, b.M3-a.M3)) }) || len(list) == 0 {
		t.Errorf("%+v", list)
	}
	events, season := 0.0, 0.0
	job := l.Job
	job.Brief = false
	if _, err := replay.Run(context.Background(), &job, func(s *replay.Sheet) error {
		if s.Strategy != "summer" || s.Zone.Name != "front" {
			return nil
		}
		for i := range s.Days() {
			r := s.Row(i)
			if m := r.Date.Month(); m >= 5 && m <= 9 {
				season++
			}
			if r.IrrRunoffMM >= 0.25 {
				events++
			}
		}
		return nil
	}); err != nil {
		t.Fatal(err)
	}
	for _, r := range list {
		if r.Zone == 0 && (math.Abs(r.Nights-7*events/season) > 1e-9 || math.Abs(r.Events-events/float64(len(table.WholeYears()))) > 1e-9) {
			t.Errorf("%+v, want %g events in %g days", r, events, season)
		}
	}
}

// TestWaterInTheColdRaisesAlarms: shares are summed here from the daily rows; a
// summer season has none. Both zones are cool-season turf, at rest in months with
// a mean below 4 °C.
func TestWaterInTheColdRaisesAlarms(t *testing.T) {
	l, table := yardWith(t, longRuns, asFoundIs+"  - {name: summer, programs: [p], season: {start: 06-15, end: 08-31}}\n")
	month := map[int][2]float64{}
	key := func(i int) int { d := l.Weather.Date(i); return 12*d.Year() + int(d.Month()) }
	tmin := l.Weather.Data[weather.Tmin]
	for i := range tmin {
		m := month[key(i)]
		month[key(i)] = [2]float64{m[0] + (l.Weather.Data[weather.Tmax][i]+tmin[i])/2, m[1] + 1}
	}
	var all, frozen, dormant float64
	job := l.Job
	if _, err := replay.Run(context.Background(), &job, func(s *replay.Sheet) error {
		for i := range s.Days() {
			if s.Strategy != "as found" {
				break
			}
			m3 := s.Row(i).GrossMM * s.Zone.AreaM2
			all += m3
			if tmin[i] < 0 {
				frozen += m3
			}
			if m := month[key(i)]; m[0]/m[1] < 4 {
				dormant += m3
			}
		}
		return nil
	}); err != nil {
		t.Fatal(err)
	}
	want := map[plots.AlarmCode]float64{plots.WaterFrozen: frozen / all, plots.WaterDormant: dormant / all}
	if len(l.checks.cold) != 2 || frozen == 0 || dormant == 0 {
		t.Fatalf("%+v, want both for as found only: %g, %g", l.checks.cold, frozen/all, dormant/all)
	}
	for _, a := range l.checks.cold {
		if a.Strategy != "as found" || math.Abs(a.Value-want[a.Code]) > 1e-9 || !strings.Contains(a.Text, "%") {
			t.Errorf("%+v, want %g", a, want[a.Code])
		}
	}
	var codes []string
	for _, w := range l.Warnings(table) {
		codes = append(codes, w.Code)
	}
	for code := range want {
		if !slices.Contains(codes, string(code)) {
			t.Errorf("%q is not among the warnings for scripts: %q", code, codes)
		}
	}
}

// TestFactsOfPageOne: yearly ETo, and the sets of K, stand on page one.
func TestFactsOfPageOne(t *testing.T) {
	l, table := yardWith(t, longRuns, asFoundIs)
	page := plots.NewReport(l.ChartData(table, NewSeason(&l.Job, 0)), l.Facts(table, 0))
	got := map[string]string{}
	for _, f := range page.Front.Technical {
		got[f.Term] = f.Text
	}
	sum := 0.0
	for _, v := range l.Job.Weather.EToMM {
		sum += v
	}
	year := quantity.Format(sum/float64(len(table.WholeYears())), quantity.Depth, quantity.US)
	if !strings.Contains(got["Reference ET"], year+" a year") || !strings.HasSuffix(year, " in") {
		t.Errorf("%q lacks %s", got["Reference ET"], year)
	}
	if !strings.Contains(got["Plant coefficients"], l.Scenario.Zones[0].Coefficients) {
		t.Errorf("%q", got["Plant coefficients"])
	}
	l.Weather.OtherET = []string{"eto_old is not used: an older method"}
	if !strings.Contains(l.otherETo(), "eto_old is not used: an older method") {
		t.Errorf("%q", l.otherETo())
	}
}

// TestScreensPrintThreeDigits of a volume: no estimate has more. Hand: 9,690 m³
// are 9690/0.003785411784 = 2,559,827 gal.
func TestScreensPrintThreeDigits(t *testing.T) {
	for m3, want := range map[float64]string{9690: "2,560,000", 0: "0", 1: "264", 0.1: "26", 4: "1,060", math.NaN(): "-"} {
		if got := volumeText(m3, quantity.US); got != want {
			t.Errorf("%g m³: %q, want %q", m3, got, want)
		}
	}
}
