package scenarios_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"loamledger/scenarios"
	"loamledger/scenarios/catalog"
	"loamledger/scenarios/yamlfile"
	"loamledger/weather/quantity"
)

// written writes v, in the base unit of d, in any of its units.
func written(t *rapid.T, v float64, d quantity.Dimension) string {
	u := rapid.SampledFrom(quantity.Units(d)).Draw(t, "unit")
	return fmt.Sprintf("%.12g %s", u.Of(v), u.Name)
}

// Law: for any valid numbers of a zone, in any units, the zone has these
// numbers, its TAW is AWC times root depth, and rate, flow and area agree.
func TestZonesKeepWhatTheyAreGiven(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		area, awc, root := draw("area", 1, 1e4), draw("awc", 20, 350), draw("root", 0.05, 2)
		intake, storage := draw("intake", 0.5, 60), draw("storage", 0, 15)
		rate, du, loss, slope := draw("rate", 1, 80), draw("du", 0.25, 1), draw("loss", 0, 0.4), draw("slope", 0, 0.6)
		k, p, cn := draw("k", 0, 1.4), draw("p", 0.1, 0.8), draw("cn", 30, 98)
		strips := rapid.SampledFrom([]int{1, 4, 8, 12, 16, 20}).Draw(t, "strips")
		put := "rate: " + written(t, rate, quantity.Rate)
		if rapid.Bool().Draw(t, "by flow") {
			put = "flow: " + written(t, scenarios.FlowFromRate(rate, area), quantity.Flow)
		}
		text := around(fmt.Sprintf(`  - name: front lawn
    area: %s
    plant: {k: %.12g, p: %.12g}
    soil: {awc: %s, intake: %s, surface_storage: %s, curve_number: %.12g}
    slope: %s
    root_depth: %s
    strips: %d
    sprinkler: {kind: spray, %s, uniformity: %s, spray_loss: %s}`,
			written(t, area, quantity.Area), k, p, written(t, awc, quantity.Capacity), written(t, intake, quantity.Rate),
			written(t, storage, quantity.Depth), cn, written(t, slope, quantity.Fraction), written(t, root, quantity.Length), strips, put,
			written(t, du, quantity.Fraction), written(t, loss, quantity.Fraction)), asFound)
		sc, err := yamlfile.Read(strings.NewReader(text), "yard.yaml", nil)
		if err != nil {
			t.Fatalf("%v\n%s", err, text)
		}
		z := sc.Zones[0]
		for what, pair := range map[string][2]float64{
			"area": {z.AreaM2, area}, "TAW": {z.TAWMM, awc * root}, "intake": {z.IntakeMMH, intake}, "storage": {z.SurfaceStorageMM,
				storage}, "rate": {z.PRMMH, rate},
			"DU": {z.DULQ, du}, "loss": {z.LossShare, loss}, "slope": {z.SlopeShare, slope}, "K": {z.K[5], k}, "p": {z.P, p}, "CN": {z.Rain.CN, cn},
			"flow": {z.FlowLMin * 60, z.PRMMH * z.AreaM2}, "strips": {float64(z.Strips), float64(strips)},
		} {
			if math.Abs(pair[0]-pair[1]) > 1e-9*max(1, math.Abs(pair[1])) {
				t.Errorf("%s is %v, want %v", what, pair[0], pair[1])
			}
		}
	})
}

// Law: every plant, soil, sprinkler kind and cover in the catalog makes a zone,
// and defaults are listed with their sources.
func TestEveryCombinationOfTheCatalog(t *testing.T) {
	zones := 0
	for _, plant := range catalog.Plants() {
		for _, set := range plant.SetNames() {
			for _, soil := range catalog.SoilNames() {
				for _, kind := range catalog.SprinklerNames() {
					text := around(fmt.Sprintf("  - {name: front lawn, area: 100 m2, plant: %q, coefficients: %s, soil: %s, sprinkler: "+
						"{kind: %s, rate: 10 mm/h}}", plant.Name, set, soil, kind), asFound)
					sc, err := yamlfile.Read(strings.NewReader(text), "yard.yaml", nil)
					if err != nil {
						t.Fatal(err)
					}
					z := sc.Zones[0]
					if z.TAWMM <= 0 || z.Rain.CN < 30 || z.Rain.CN > 100 || z.IntakeMMH <= 0 || z.DULQ < 0.25 || z.Plant != plant.Name ||
						z.Coefficients != set {
						t.Errorf("%s\n%+v", text, z)
					}
					for _, in := range sc.Defaults() {
						if in.Source == "" || in.Text == "" {
							t.Errorf("%+v", in)
						}
					}
					zones++
				}
			}
		}
	}
	if zones < 800 {
		t.Errorf("%d combinations", zones)
	}
}

// A scenario can be built from a tree that came from no file.
func ExampleBuild() {
	word := func(s string) *scenarios.Node { return &scenarios.Node{Kind: scenarios.Scalar, Text: s} }
	root := &scenarios.Node{Kind: scenarios.Map, Entries: []scenarios.Entry{{Key: "units", Value: word("us")},
		{Key: "zones", Value: word("none")}}}
	_, err := scenarios.Build(root, "made up")
	fmt.Println(strings.Count(err.Error(), "fix:"), "faults, the first:")
	fmt.Println(strings.SplitN(err.Error(), "\n", 2)[0])
	// Output:
	// 4 faults, the first:
	// : scenario: site is missing
}
