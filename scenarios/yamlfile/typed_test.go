package yamlfile_test

import (
	"io"
	"strings"
	"testing"

	"loamledger/scenarios"
	"loamledger/scenarios/yamlfile"
)

// typed replaces words of the base by others that people type for the same.
var typed = []struct{ old, new, key, as string }{
	{"plant: cool-season turf", "plant: Cool season lawn", "zones.front lawn.plant.name", "cool-season turf"},
	{"plant: cool-season turf", "plant: TALL-FESCUE", "zones.front lawn.plant.name", "tall fescue"},
	{"plant: cool-season turf", "plant: bermuda", "zones.front lawn.plant.name", "bermudagrass"},
	{"soil: clay loam", "soil: heavy clay", "zones.front lawn.soil.name", "clay"},
	{"soil: clay loam", "soil: {name: clay_loam}", "zones.front lawn.soil.name", "clay loam"},
	{"kind: spray", "kind: pop up spray", "zones.front lawn.sprinkler.kind", "spray"},
	{"plant: {k: 0.5, p: 0.5}", "plant: {k: 0.5, p: 40 %}", "zones.bed.plant.p", "0.4"},
	{"plant: {k: 0.5, p: 0.5}", "plant: {k: 50%}", "zones.bed.plant.k", "0.5"},
	{"days: [mon, wed, fri]", "days: daily", "programs.lawns.days", "any"},
	{"days: [mon, wed, fri]", "days: MWF", "programs.lawns.days", "[mon, wed, fri]"},
	{"days: [mon, wed, fri]", "days: [Mondays, wed, Friday]", "programs.lawns.days", "mon, wed, fri"},
	{`["05:30"]`, "4:30am", "programs.lawns.starts", "04:30"},
	{`["05:30"]`, "[4:30 AM, 6 p.m.]", "programs.lawns.starts", "04:30, 18:00"},
	{`["05:30"]`, "[0430]", "programs.lawns.starts", "04:30"},
	{"    et_percent: {design_eto: 0.25 in, days: 7 days}", "    season: {start: May 1, end: 10/15}", "strategies.weather.season.start",
		"05-01"},
	{
		"    et_percent: {design_eto: 0.25 in, days: 7 days}",
		"    season: {start: May 1, end: 10/15}",
		"strategies.weather.season.end",
		"10-15",
	},
	{"units: us", "units: us\nlimits: {window: 8pm-6am}", "limits.window", "20:00-06:00"},
	{"  - name: as found\n    programs: [lawns]", "  - name: as found\n    programs: [Lawns]", "strategies.as found.programs", ""},
	{"  - name: as found\n    programs: [lawns]", "  - name: as found\n    programs: [la-wns]", "strategies.as found.programs", "lawns"},
}

// What is understood is recorded with what it was read as, and the canonical
// scenario has that word.
func TestTypedWordsAreUnderstood(t *testing.T) {
	for _, tt := range typed {
		sc := mustRead(t, strings.Replace(base, tt.old, tt.new, 1))
		found := false
		for _, in := range sc.Inputs {
			if in.Key == tt.key && !in.Defaulted {
				found = true
				if in.ReadAs != tt.as {
					t.Errorf("%q: %s is read as %q, want %q", tt.new, tt.key, in.ReadAs, tt.as)
				}
			}
		}
		if !found {
			t.Errorf("%q: no input %s", tt.new, tt.key)
		}
		again, err := scenarios.Build(sc.Canonical, "again")
		if err != nil {
			t.Fatalf("%q: the canonical scenario: %v", tt.new, err)
		}
		if len(again.Programs) != len(sc.Programs) || again.Programs[0].Days != sc.Programs[0].Days {
			t.Errorf("%q: the canonical scenario has other programs", tt.new)
		}
	}
}

// A time of day needs no quotes, in braces or out of them.
func TestTimesWithoutQuotes(t *testing.T) {
	for text, want := range map[string]int{"[4:30]": 270, "[05:30]": 330, "4:30": 270, "\n      - 4:30": 270} {
		if sc := mustRead(t, strings.Replace(base, `["05:30"]`, text, 1)); sc.Programs[0].Starts[0] != want {
			t.Errorf("%q: starts %v", text, sc.Programs[0].Starts)
		}
	}
	from, to := strings.Index(base, "  - name: lawns"), strings.Index(base, "strategies:")
	braces := base[:from] + "  - {name: lawns, days: any, starts: [4:30, 05:30, 6:30pm], minutes: {front lawn: 20}}\n" + base[to:]
	if s := mustRead(t, braces).Programs[0].Starts; len(s) != 3 || s[0] != 270 || s[1] != 330 || s[2] != 1110 {
		t.Errorf("in braces: starts %v", s)
	}
}

// Names in another spelling, and twins in another Unicode form, are the same name.
func TestNamesInOtherSpellings(t *testing.T) {
	text := strings.NewReplacer("- name: front lawn", "- name: caf\u00e9 lawn", "{front lawn: 20}", "{Cafe\u0301-Lawn: 20}").Replace(base)
	if sc := mustRead(t, text); sc.Programs[0].Minutes[0] != 20 {
		t.Errorf("minutes %v", sc.Programs[0].Minutes)
	}
	twins := strings.NewReplacer("- name: front lawn", "- name: caf\u00e9", "{front lawn: 20}", "{caf\u00e9: 20}",
		"- name: bed", "- name: cafe\u0301").
		Replace(base)
	if err := read(twins); err == nil || !strings.Contains(err.Error(), "duplicate zone name") {
		t.Errorf("twins: %v", err)
	}
}

// Hand: 40 emitters of 1 gph flow 40 gph = 40/60 gpm = 2.5236 L/min; on 600 ft², by
// PR = 96.25 gpm/ft², that is 96.25 · 0.66667 / 600 = 0.106944 in/h = 2.71639 mm/h.
func TestDripByEmitters(t *testing.T) {
	near := func(what string, got, want float64) {
		t.Helper()
		if got < want*(1-1e-5) || got > want*(1+1e-5) {
			t.Errorf("%s %v, want %v", what, got, want)
		}
	}
	for _, flow := range []string{"1 gph", "3.785411784 L/h", "3.785411784 lph"} {
		text := strings.Replace(base, "kind: drip, flow: 4 gpm", "kind: drip, emitters: 40, emitter_flow: "+flow, 1)
		z := mustRead(t, text).Zones[1]
		near("flow", z.FlowLMin, 2.52360786)
		near("rate", z.PRMMH, 2.716389)
		near("emitters", z.Emitters, 40)
		near("emitter flow", z.EmitterLMin, 3.785411784/60)
	}
	// The same in a table of zones.
	from, to := strings.Index(base, "zones:"), strings.Index(base, "programs:")
	table := "name,area,plant,sprinkler,emitters,emitter_flow (gph),flow\nfront lawn,2400 ft2,TallFescue,sprays,,,\n" +
		"bed,600 ft2,annuals,dripline,40,1,\n"
	sc, err := yamlfile.Read(strings.NewReader(base[:from]+"zones: zones.csv\n"+base[to:]), "yard.yaml", func(string) (io.ReadCloser, error) {
		return io.NopCloser(strings.NewReader(table)), nil
	})
	if err != nil {
		t.Fatal(err)
	}
	near("rate in a table", sc.Zones[1].PRMMH, 2.716389)
	if z := sc.Zones[0]; z.Plant != "tall fescue" || z.Sprinkler != "spray" {
		t.Errorf("the table has %s, %s", z.Plant, z.Sprinkler)
	}
	_, err = yamlfile.Read(strings.NewReader(base[:from]+"zones: zones.csv\n"+base[to:]), "yard.yaml", func(string) (io.ReadCloser, error) {
		return io.NopCloser(strings.NewReader(strings.Replace(table, "TallFescue", "lawn", 1))), nil
	})
	if err == nil || !strings.Contains(err.Error(), `zones.csv:2:21: zone "front lawn": plant "lawn" could mean "cool-season turf" or`) {
		t.Errorf("a lawn in the table: %v", err)
	}
}
