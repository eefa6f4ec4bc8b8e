package yamlfile_test

import (
	"io"
	"io/fs"
	"math"
	"slices"
	"strings"
	"testing"

	"loamledger/scenarios"
	"loamledger/scenarios/yamlfile"
	"loamledger/sim/clock"
	"loamledger/sim/strategy"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
)

// ruled is base with rules, losses and people.
const ruled = base + `  - name: people
    programs: [lawns]
    monthly: auto
    zone_percent: {front lawn: 80 %}
    habit: {target: [10, 20, 30, 40, 50, 60, 70, 80, 90, 100, 110, 120], edits: 2, min_delay: 1 day, max_delay: 9 days, raise_by: 20 %}
    season: {start: 04-15, end: 02-29, frost: 28 F, frost_free_days: 10 days}
    suspend: [{from: 2014-07-01, to: 2014-07-14, zones: [bed]}, {from: 2014-08-01, to: 2014-08-02}]
    manual: [{date: 2014-07-03, zone: bed, minutes: 90 s, at: "6:15"}]
    sensor: {permit_at: 40 %, zones: [front lawn], read_zone: bed}
  - name: two refills
    refill: [{zones: [front lawn], mad: 40 %, at: "03:30"}, {zones: bed, mad: 60 %}]
limits:
  days: odd
  window: ["20:00-06:00"]
  max_minutes: 30 min
  exempt: [bed]
  exempt_manual: true
  flow: 20 gpm
  on_conflict: flag
  stages:
    - {name: two, from: 2014-06-01, to: 2014-09-30, days: [tue, sat], window: ["00:00-8:00", "19:00-24:00"]}
    - {name: three, from: 2014-08-01, to: 2014-08-31, ban: true, exempt: [bed]}
`

func mustRead(t *testing.T, text string) *scenarios.Scenario {
	t.Helper()
	sc, err := yamlfile.Read(strings.NewReader(text), "yard.yaml", func(string) (io.ReadCloser, error) { return nil, fs.ErrNotExist })
	if err != nil {
		t.Fatal(err)
	}
	return sc
}

// TestRules reads every rule as it is written.
func TestRules(t *testing.T) {
	sc := mustRead(t, ruled)
	l := sc.Limits
	odd := strategy.DayRule{Kind: strategy.OddDays}
	if l.Always.Days != odd || !slices.Equal(l.Always.Windows, []clock.Window{{FromMin: 1200, ToMin: 360}}) || l.Always.MaxMinutes != 30 ||
		l.Always.Ban || l.Always.Exempt != nil {
		t.Errorf("always: %+v", l.Always)
	}
	// 20 US gallons of 3.785411784 L a minute.
	if !slices.Equal(l.Exempt, []bool{false, true}) || !l.ExemptManual || !l.FlagOnly ||
		math.Abs(sc.Meters[0].FlowLMin-20*3.785411784) > 1e-9 {
		t.Errorf("%+v", l)
	}
	if len(l.Stages) != 2 {
		t.Fatalf("%d stages", len(l.Stages))
	}
	two, three := l.Stages[0], l.Stages[1]
	if two.Name != "two" || two.From != cal.Of(2014, 6, 1) || two.To != cal.Of(2014, 9, 30) ||
		two.Days.Weekdays != [7]bool{2: true, 6: true} || two.Exempt != nil || two.Ban ||
		!slices.Equal(two.Windows, []clock.Window{{FromMin: 0, ToMin: 480}, {FromMin: 1140, ToMin: 1440}}) {
		t.Errorf("%+v", two)
	}
	if !three.Ban || !slices.Equal(three.Exempt, []bool{false, true}) || len(three.Windows) != 0 || three.Days.Kind != strategy.AnyDay {
		t.Errorf("%+v", three)
	}
}

// TestPeople reads what people do to a controller as it is written.
func TestPeople(t *testing.T) {
	sc := mustRead(t, ruled)
	st := sc.Strategies[sc.StrategyIndex("people")]
	var suspensions []strategy.Suspend
	for _, p := range st.Parts {
		switch p := p.(type) {
		case strategy.ZonePercent:
			if p.Share[0] != 0.8 || !math.IsNaN(p.Share[1]) {
				t.Errorf("%+v", p)
			}
		case strategy.Habit:
			if p.Edits != 2 || p.MinDelay != 1 || p.MaxDelay != 9 || p.RaiseBy != 0.2 || p.Target == nil || math.Abs(p.Target[11]-1.2) > 1e-12 {
				t.Errorf("%+v", p)
			}
		case strategy.Season: // 28 °F are −2.2 °C
			if p.Start != 415 || p.End != 229 || math.Abs(p.FrostC+20.0/9) > 1e-9 || p.FrostFreeDays != 10 {
				t.Errorf("%+v", p)
			}
		case strategy.Suspend:
			suspensions = append(suspensions, p)
		case strategy.Manual:
			if p != (strategy.Manual{Date: cal.Of(2014, 7, 3), Zone: 1, Minutes: 1.5, AtMin: 375}) {
				t.Errorf("%+v", p)
			}
		case strategy.Sensor:
			if p.ReadZone != 2 || !slices.Equal(p.Zones, []bool{true, false}) || p.PermitAt != 0.4 {
				t.Errorf("%+v", p)
			}
		}
	}
	if len(st.Parts) != 9 || len(suspensions) != 2 || !slices.Equal(suspensions[0].Zones, []bool{false, true}) ||
		!slices.Equal(suspensions[1].Zones, []bool{true, true}) {
		t.Errorf("%d parts, suspensions %+v", len(st.Parts), suspensions)
	}
	st = sc.Strategies[sc.StrategyIndex("two refills")]
	a, b := st.Parts[0].(*strategy.Refill), st.Parts[1].(*strategy.Refill)
	if a.MAD != 0.4 || b.MAD != 0.6 || a.StartMin != 210 || b.StartMin != 240 || !slices.Equal(a.Zones, []bool{true, false}) ||
		!slices.Equal(b.Zones, []bool{false, true}) {
		t.Errorf("%+v and %+v", a, b)
	}
}

// TestLossesAndStores reads losses and the balance of a plain store. 3 gal on
// 600 ft² is 0.2037 mm; a leak of 0.1 gpm on it is 9.78 mm a day.
func TestLossesAndStores(t *testing.T) {
	sc := mustRead(t, strings.Replace(base, "{kind: drip, flow: 4 gpm}",
		"{kind: drip, flow: 4 gpm, overspray: 5 %, broken_heads: 10 %, fill_drain: 3 gal}\n    leak: 0.1 gpm", 1))
	z := &sc.Zones[1]
	const area = 600 * 0.09290304
	if z.OversprayShare != 0.05 || z.BrokenShare != 0.1 || math.Abs(z.FillDrainMM-3*3.785411784/area) > 1e-9 ||
		math.Abs(z.LeakMMDay-0.1*3.785411784*1440/area) > 1e-9 {
		t.Errorf("%+v", z.Zone)
	}
	sc = mustRead(t, strings.Replace(base, "    plant: {k: 0.5, p: 0.5}\n    root_depth: 15 in\n",
		"    plant: {k: 0.5}\n    balance: working storage\n    storage: 0.85 in\n    rain: {method: share, effective: 80 %}\n", 1))
	for _, in := range sc.Inputs {
		if slices.Contains([]string{"zones.bed.strips", "zones.bed.plant.p", "zones.bed.soil.awc", "zones.bed.sprinkler.uniformity",
			"zones.bed.root_depth"}, in.Key) {
			t.Errorf("%s is listed as used", in.Key)
		}
	}
	z = &sc.Zones[1]
	if !z.WorkingStorage || math.Abs(z.TAWMM-0.85*25.4) > 1e-9 || z.Strips != 1 || z.DULQ != 1 || !z.Rain.KeepLight ||
		z.Rain.EffectiveShare != 0.8 {
		t.Errorf("%+v", z.Zone)
	}
}

// A soil given by numbers needs no available water capacity in a plain store,
// where it would be rejected as having no effect.
func TestStoreOnOwnSoil(t *testing.T) {
	sc := mustRead(t, strings.Replace(base, "    plant: {k: 0.5, p: 0.5}\n    root_depth: 15 in\n",
		"    plant: {k: 0.5}\n    soil: {intake: 9 mm/h, surface_storage: 6 mm}\n    balance: working storage\n    storage: 20 mm\n", 1))
	if z := &sc.Zones[1]; !z.WorkingStorage || z.TAWMM != 20 || z.IntakeMMH != 9 || z.SurfaceStorageMM != 6 {
		t.Errorf("%+v", z.Zone)
	}
}

// TestRuleFaults: each error with its position, the problem and the fix.
func TestRuleFaults(t *testing.T) {
	refilled := "  - name: as found\n    programs: [lawns]"
	for _, c := range []struct{ name, old, new, want string }{
		{"a stage without a rule", "{name: three, from: 2014-08-01, to: 2014-08-31, ban: true, exempt: [bed]}",
			"{name: three, from: 2014-08-01, to: 2014-08-31}", `limits: stage "three" has no effect`},
		{"a stage without an end", "to: 2014-08-31, ", "", `to is missing`},
		{"a stage that ends before it begins", "to: 2014-09-30", "to: 2014-05-30", "to 2014-05-30 is before from 2014-06-01"},
		{"a window of nothing", `"20:00-06:00"`, `"20:00-20:00"`, "not a time range"},
		{"a window in other words", `"20:00-06:00"`, `"8 pm to 6 am"`, "not a time range"},
		{"an hour that is none", `"20:00-06:00"`, `"20:00-26:00"`, "not a time range"},
		{"windows that overlap", `"00:00-8:00", "19:00-24:00"`, `"00:00-8:00", "07:00-09:00"`, "two windows overlap"},
		{"windows that overlap after midnight", `"00:00-8:00", "19:00-24:00"`, `"20:00-6:00", "05:00-09:00"`, "two windows overlap"},
		{"an unknown way", "on_conflict: flag", "on_conflict: ignore", `unknown on_conflict "ignore"`},
		{"an unknown zone", "exempt: [bed]\n  exempt", "exempt: [bad]\n  exempt", `unknown zone "bad"`},
		{"an unknown rule", "max_minutes: 30 min", "least_minutes: 30 min", `unknown key "least_minutes"`},
		{"no unit", "max_minutes: 30 min", "max_minutes: 30", "30 has no unit"},
		{"a suspension backwards", "to: 2014-07-14", "to: 2014-06-14", "suspend: to 2014-06-14 is before from 2014-07-01"},
		{"a day that no year has", "start: 04-15", "start: 04-31", "not a day of the year"},
		{"an hour that no day has", `at: "6:15"`, `at: "24:15"`, "not a time of day"},
		{"a season of nothing", "season: {start: 04-15, end: 02-29, frost: 28 F, frost_free_days: 10 days}", "season: {}",
			"season: no effect without start, end or frost"},
		{"clear days without frost", "frost: 28 F, ", "", "frost_free_days has no effect without frost"},
		{"the greatest delay below the least", "max_delay: 9 days", "max_delay: 0 days", "max_delay of 0 days is below min_delay of 1"},
		{"a refill of a zone that a program waters", refilled, refilled + "\n    refill: {zones: all}",
			`both a program and a refill water zone "front lawn"`},
		{"two refills of one zone", "zones: bed, mad: 60 %", "zones: all, mad: 60 %", `two refills water zone "front lawn"`},
		{"two sensors for one zone", "sensor: {permit_at: 40 %, zones: [front lawn], read_zone: bed}",
			"sensor: [{permit_at: 40 %}, {permit_at: 30 %, zones: bed}]", `two soil sensors control zone "bed"`},
		{"soak without cycle in a refill", "mad: 40 %,", "mad: 40 %, soak: 20 min,", "soak has no effect without cycle"},
		{"a sensor in no zone", "read_zone: bed", "read_zone: pond", `unknown zone "pond"`},
		{"a rain sensor that dries in two ways", "dry_out: 2 days", "dry_out: 2 days, dry_out_eto: 5 mm", "dry_out and dry_out_eto conflict"},
		{"bounds the wrong way round", "days: 7 days}", "min: 90 %, max: 50 %}", "max is below min"},
		{"a ramp without dates", "    soak: 30 min\n", "    soak: 30 min\n    ramp_to: 50 %\n", "ramp_to needs from and to"},
		{"losses above all water", "spray_loss: 3 %", "spray_loss: 40 %, broken_heads: 60 %", "add up to"},
		{"roots in a plain store", "    root_depth: 15 in\n", "    root_depth: 15 in\n    balance: working storage\n    storage: 20 mm\n",
			"root_depth has no effect with storage"},
		{"coverage of a plain store", "{kind: drip, flow: 4 gpm}",
			"{kind: drip, flow: 4 gpm, uniformity: 80 %}\n    balance: working storage\n    storage: 20 mm",
			"sprinkler.uniformity has no effect in a plain store"},
		{"strips of a plain store", "{kind: drip, flow: 4 gpm}",
			"{kind: drip, flow: 4 gpm}\n    balance: working storage\n    storage: 20 mm\n    strips: 4", "strips has no effect in a plain store"},
		{"a plain store of no size", "    root_depth: 15 in\n", "    balance: working storage\n", "storage is missing"},
		{"storage of a root zone", "    root_depth: 15 in\n", "    root_depth: 15 in\n    storage: 20 mm\n",
			"storage requires balance: working storage"},
		{"a percentage of no zone", "zone_percent: {front lawn: 80 %}", "zone_percent: 80 %", "not zones with their percentages"},
		{"a percentage without its sign", "zone_percent: {front lawn: 80 %}", "zone_percent: {front lawn: 80}", "80 has no unit"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if !strings.Contains(ruled, c.old) {
				t.Fatalf("the scenario does not hold %q", c.old)
			}
			err := read(strings.Replace(ruled, c.old, c.new, 1))
			if !diag.IsInput(err) {
				t.Fatalf("got %v, want a fault of the input", err)
			}
			text := err.Error()
			if !strings.Contains(text, c.want) || !strings.Contains(text, "fix: ") || !strings.HasPrefix(text, "yard.yaml:") {
				t.Errorf("got\n%s\nwant %q, a place and a fix", text, c.want)
			}
		})
	}
}

// TestStoresInATable: a table of zones may have both plain stores and root
// zones.
func TestStoresInATable(t *testing.T) {
	const table = "name,area,k,soil,sprinkler,rate,spray_loss,balance,storage,root_depth\n" +
		"store,1000 ft2,0.6,loam,spray,1.6 in/h,45 %,working storage,0.85 in,\n" +
		"lawn,1000 ft2,0.6,loam,spray,1.6 in/h,3 %,,,6 in\n"
	const text = `site: {name: Juniper Court, latitude: 38.9, elevation: 1600 ft, rain: {method: share, effective: 80 %}}
weather: {file: weather.csv, wind_height: 2 m}
zones: zones.csv
strategies:
  - {name: refill, refill: {mad: 50 %}}
`
	sc, err := yamlfile.Read(strings.NewReader(text), "yard.yaml",
		func(string) (io.ReadCloser, error) { return io.NopCloser(strings.NewReader(table)), nil })
	if err != nil {
		t.Fatal(err)
	}
	if a, b := &sc.Zones[0], &sc.Zones[1]; !a.WorkingStorage || math.Abs(a.TAWMM-0.85*25.4) > 1e-9 || b.WorkingStorage || b.Strips != 8 {
		t.Errorf("%+v and %+v", a.Zone, b.Zone)
	}
}
