package runfile_test

import (
	"encoding/json"
	"io"
	"slices"
	"strings"
	"testing"

	"loamledger/scenarios"
	"loamledger/scenarios/catalog"
	"loamledger/scenarios/runfile"
	"loamledger/scenarios/yamlfile"
	"loamledger/weather/quantity"
)

// puddle is a parameter that no zone has: water in hollows. A single
// declaration takes it through every reader and writer.
func puddle() scenarios.ZoneParam {
	return scenarios.ZoneParam{
		Key: "soil.puddle", Column: "puddle", Doc: "water that stands in hollows", Dim: quantity.Depth, Max: 20,
		Default: func(b scenarios.ZoneBasis) catalog.Figure {
			return catalog.Figure{Value: 2, Low: 1, High: 5, Grade: catalog.Guess, Source: "invented for the soil " + b.Soil.Name}
		},
		Set: func(z *scenarios.Zone, v float64) { z.SurfaceStorageMM += v },
	}
}

const (
	beforeZones = "site: {name: A, latitude: 1, elevation: 1 m}\nweather: {file: a.csv}\nzones:"
	afterZones  = "strategies: [{name: r, refill: {mad: 40 %}}]\n"
	inYAML      = beforeZones + `
  - {name: given, area: 100 m2, plant: cool-season turf, soil: {name: loam, puddle: 0.3 in}, sprinkler: spray}
  - {name: not given, area: 100 m2, plant: cool-season turf, soil: loam, sprinkler: spray}
` + afterZones
	table = "name,area,plant,soil,puddle (in),sprinkler\ngiven,100 m2,cool-season turf,loam,0.3,spray\nnot given,100 " +
		"m2,cool-season turf,loam,,spray\n"
)

func openTable(string) (io.ReadCloser, error) { return io.NopCloser(strings.NewReader(table)), nil }

func TestInventedParameterReachesEveryOutput(t *testing.T) {
	const mm = 0.3 * 25.4
	plain := read(t, strings.Replace(inYAML, ", puddle: 0.3 in", "", 1)).Zones[0].SurfaceStorageMM
	byYAML := read(t, inYAML, puddle())
	byCSV, err := yamlfile.Read(strings.NewReader(beforeZones+" zones.csv\n"+afterZones), "yard.yaml", openTable, puddle())
	if err != nil {
		t.Fatal(err)
	}
	for _, sc := range []*scenarios.Scenario{byYAML, byCSV} {
		// The zone itself.
		if a, b := sc.Zones[0].SurfaceStorageMM, sc.Zones[1].SurfaceStorageMM; a != plain+mm || b != plain+2 {
			t.Errorf("the surfaces hold %g and %g mm, want %g and %g", a, b, plain+mm, plain+2)
		}
		// The list of inputs, with the place of what is given.
		if place := sc.Place("zones.given.soil.puddle"); place.Line == 0 {
			t.Error("the given value has no place")
		}
		// The list of defaults, with the source.
		i := slices.IndexFunc(sc.Defaults(), func(in scenarios.Input) bool { return in.Key == "zones.not given.soil.puddle" })
		if i < 0 || sc.Defaults()[i].Source != "invented for the soil loam" || sc.Defaults()[i].Range != "1 mm to 5 mm" ||
			sc.Defaults()[i].Value != 2 {
			t.Errorf("the default is not in the list as declared: %d of %+v", i, sc.Defaults())
		}
		// What explain lists.
		k := slices.IndexFunc(sc.ZoneValues[0], func(v scenarios.ZoneValue) bool { return v.Key == "soil.puddle" })
		if k < 0 || sc.ZoneValues[0][k].Text(quantity.US) != "0.3 in" {
			t.Errorf("the values of the zone are %+v", sc.ZoneValues[0])
		}
		// run.json, and the scenario read back from it.
		var rec struct {
			Scenario struct {
				Zones []struct{ Soil map[string]any }
			}
			Zones []struct {
				Parameters []struct {
					Key, Unit string
					Value     float64
					Default   bool
				}
			}
		}
		data, err := json.Marshal(runfile.New(sc))
		if err == nil {
			// Some values are lists; they are ignored here.
			err = json.Unmarshal(data, &rec)
		}
		if err != nil {
			t.Fatal(err)
		}
		for z, want := range []float64{mm, 2} {
			found := false
			for _, p := range rec.Zones[z].Parameters {
				found = found || p.Key == "soil.puddle" && p.Value == want && p.Unit == "mm" && p.Default == (z == 1)
			}
			if !found || rec.Scenario.Zones[z].Soil["puddle"] == nil {
				t.Errorf("zone %d of run.json lacks the parameter: %+v, %v", z, rec.Zones[z], rec.Scenario.Zones[z])
			}
		}
		repeated(t, sc, puddle())
	}
}

func TestInventedParameterHasGoodFaults(t *testing.T) {
	tests := []struct{ old, new, want string }{
		{"0.3 in", "0.3", `yard.yaml:4:85: zone "given": soil: puddle 0.3 has no unit`},
		{"0.3 in", "3 in", `yard.yaml:4:85: zone "given": soil: puddle 3 in is outside 0 in to 0.787 in`},
		{"puddle:", "puddel:", `did you mean "puddle"?`},
	}
	for _, tt := range tests {
		_, err := yamlfile.Read(strings.NewReader(strings.Replace(inYAML, tt.old, tt.new, 1)), "yard.yaml", nil, puddle())
		if err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: got\n%v\nwant\n%s", tt.new, err, tt.want)
		}
	}
	// No other reader knows it.
	if _, err := yamlfile.Read(strings.NewReader(inYAML), "yard.yaml", nil); err == nil ||
		!strings.Contains(err.Error(), `unknown key "puddle"`) {
		t.Errorf("got %v", err)
	}
}
