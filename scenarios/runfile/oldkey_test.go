package runfile_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"loamledger/scenarios"
	"loamledger/scenarios/runfile"
	"loamledger/scenarios/yamlfile"
	"loamledger/scenarios/zonefile"
	"loamledger/weather/diag"
)

// renamedKeys is a scenario with every key that once had another name. It is
// JSON, so that the readers of YAML and of run.json both take it.
const renamedKeys = `{
"site": {"name": "Thistle Yard", "latitude": "38.9", "elevation": "490 m"},
"weather": {"file": "a.csv", "layout_file": "map.yaml", "dew_point_offset": "2 C", "coastal": "true", "default_wind": "2 m/s"},
"zones": [{"name": "lawn", "area": "100 m2", "plant": "cool-season turf", "soil": "loam",
  "sprinkler": {"kind": "spray", "catch_cans": ["7", "9", "11", "13", "15", "17", "19", "21"],
    "spray_loss": "3 %", "broken_heads": "2 %"}}],
"programs": [{"name": "p", "days": "odd", "starts": ["05:30"], "minutes": {"lawn": "20"}}],
"limits": {"exempt_manual": "true", "on_conflict": "flag", "max_minutes": "60 min",
  "stages": [{"name": "dry", "from": "2014-06-01", "to": "2014-09-30", "max_minutes": "20 min"}]},
"strategies": [
  {"name": "a", "programs": "p",
    "et_percent": {"design_eto": "6 mm", "days": "7 days", "subtract_rain": "true", "min": "10 %", "max": "150 %"},
    "habit": {"target": ["1", "2", "3", "4", "5", "6", "7", "8", "9", "10", "11", "12"], "min_delay": "14 days", "max_delay": "42 days",
      "raise_by": "20 %", "visible_below": "70 %", "raise_after": "7 days", "lower_after": "60 days"},
    "hold": {"rain": {"at_least": "6 mm", "miss_rate": "10 %"}, "frost": {"below": "3 C"}, "wind": {"above": "5 m/s"},
      "forecast": {"at_least": "5 mm", "min_probability": "50 %", "max_held": "3 days"}},
    "season": {"frost": "-2 C", "frost_free_days": "21 days"},
    "sensor": {"permit_at": "40 %", "zones": "lawn", "read_zone": "lawn"}},
  {"name": "b.hold.rain", "refill": {"override_beyond": "80 %", "assumed_storage": "90 %", "assumed_rate": "90 %", "assumed_k": "90 %",
    "assumed_rain": "90 %", "assumed_rain_error": "20 %"}}]
}`

// rename gives the key at a place its old name and says how often.
func rename(node any, place []string, k scenarios.OldKey) int {
	switch node := node.(type) {
	case []any:
		n := 0
		for _, item := range node {
			n += rename(item, place, k)
		}
		return n
	case map[string]any:
		if len(place) > 0 {
			return rename(node[place[0]], place[1:], k)
		}
		if v, ok := node[k.New]; ok {
			delete(node, k.New)
			node[k.Old] = v
			return 1
		}
	}
	return 0
}

// readBoth reads a scenario as YAML and as run.json.
func readBoth(t *testing.T, tree any) map[string]error {
	t.Helper()
	text, err := json.Marshal(tree)
	if err != nil {
		t.Fatal(err)
	}
	_, yamlErr := yamlfile.Read(strings.NewReader(string(text)), "in.yaml", nil)
	_, jsonErr := runfile.Read(strings.NewReader(`{"scenario": `+string(text)+`}`), "run.json")
	return map[string]error{"in.yaml": yamlErr, "run.json": jsonErr}
}

func parsed(t *testing.T) (tree any) {
	t.Helper()
	if err := json.Unmarshal([]byte(renamedKeys), &tree); err != nil {
		t.Fatal(err)
	}
	return tree
}

// Every old key is an error with its place that names the new one, and nothing
// besides: no key is missed because it has its old name.
func TestOldKeysNameTheNewOnes(t *testing.T) {
	for file, err := range readBoth(t, parsed(t)) {
		if file == "in.yaml" && err != nil {
			t.Fatalf("the scenario in today's keys: %v", err)
		}
		if err != nil && strings.Contains(err.Error(), "called") {
			t.Fatalf("%s in today's keys: %v", file, err)
		}
	}
	for _, k := range scenarios.OldKeys() {
		if k.Moved != "" {
			continue
		}
		tree := parsed(t)
		place := strings.Split(k.Place, ".")
		if n := rename(tree, place, k); n != 1 {
			t.Errorf("%s: %d keys %s in the scenario of this test, want 1", k.Place, n, k.New)
			continue
		}
		for file, err := range readBoth(t, tree) {
			var all *diag.Errors
			if !errors.As(err, &all) {
				t.Errorf("%s.%s in %s: %v", k.Place, k.Old, file, err)
				continue
			}
			form := fmt.Sprintf(`(?s)^%s:1:\d+: .*: %s is called %s now\n\tfix: write %s\b.* instead of %s(: \{.*\})?$`,
				regexp.QuoteMeta(file), k.Old, k.New, k.New, k.Old)
			if len(all.List) != 1 || !regexp.MustCompile(form).MatchString(err.Error()) {
				t.Errorf("%s.%s: %v", k.Place, k.Old, err)
			}
		}
	}
}

// A key that went to another place says where.
func TestMovedKeysSayWhere(t *testing.T) {
	tree := parsed(t)
	tree.(map[string]any)["money"] = map[string]any{"rates": "r.yaml", "meter_reads": "reads.csv"}
	for file, err := range readBoth(t, tree) {
		const want = "money: meter_reads is called meters.reads now\n\tfix: write meters: [{name: main, reads: reads.csv}] " +
			"at the top of the scenario instead of meter_reads"
		if err == nil || !strings.HasSuffix(err.Error(), want) {
			t.Errorf("%s: %v", file, err)
		}
	}
}

// The same list answers for the columns of the table of zones.
func TestOldColumnsNameTheNewOnes(t *testing.T) {
	columns := scenarios.OldColumns()
	var old []string
	for _, k := range columns {
		old = append(old, k.Old)
		_, err := zonefile.Read(strings.NewReader("name,area,sprinkler,"+k.Old+"\nlawn,100 m2,spray,3 %\n"), "zones.csv")
		want := fmt.Sprintf("zones.csv:1:21: unknown column %q\n\tfix: write %s instead of %s", k.Old, k.New, k.Old)
		if err == nil || err.Error() != want {
			t.Errorf("column %s: %v", k.Old, err)
		}
	}
	if slices.Sort(old); !slices.Equal(old, []string{"broken", "loss"}) {
		t.Errorf("old columns %q", old)
	}
}

// An old family is answered as a whole, with the old keys under it.
func TestOldFamilyOfHolds(t *testing.T) {
	text := strings.Replace(renamedKeys, `"hold": {"rain": {"at_least": "6 mm", "miss_rate": "10 %"}, "frost": {`,
		`"skip": {"rain": {"above": "6 mm", "dry_out": "2 days"}, "freeze": {`, 1)
	_, err := yamlfile.Read(strings.NewReader(text), "in.yaml", nil)
	const want = `in.yaml:15:5: strategy "a": skip is called hold now` + "\n\t" +
		"fix: write hold: {rain: {at_least: …, dry_out: …}, frost: …, wind: …, forecast: …} " +
		"instead of skip: {rain: {above: …, dry_out: …}, freeze: …, wind: …, forecast: …}"
	if err == nil || err.Error() != want {
		t.Errorf("%v", err)
	}
}
