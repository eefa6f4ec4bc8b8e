package catalog_test

import (
	"encoding/csv"
	"strings"
	"testing"

	"loamledger/scenarios/catalog"
)

// scaled divides a figure by unit, so that it is in the unit of the reference.
func scaled(f catalog.Figure, unit float64) catalog.Figure {
	f.Value, f.Low, f.High = f.Value/unit, f.Low/unit, f.High/unit
	return f
}

// coefficient is a plant's K in a set as a figure: the range over months where
// they differ.
func coefficient(t *testing.T, name, set string) catalog.Figure {
	t.Helper()
	p := plant(t, name)
	c, ok := p.Coefficient(set)
	if !ok {
		t.Fatalf("%s has no K in set %s", name, set)
	}
	return catalog.Figure{Value: c.K[6], Low: c.Low, High: c.High}
}

// fahrenheit turns a figure in °C into °F.
func fahrenheit(f catalog.Figure) catalog.Figure {
	f.Value, f.Low, f.High = f.Value*9/5+32, f.Low*9/5+32, f.High*9/5+32
	return f
}

func interval(t *testing.T, name string, of func(catalog.Watering) catalog.Interval) catalog.Figure {
	t.Helper()
	w, ok := catalog.FindWatering(name)
	if !ok {
		t.Fatalf("no watering row %q", name)
	}
	i := of(w)
	return catalog.Figure{Value: max(i.Printed, i.Low), Low: i.Low, High: i.High}
}

// Each figure that a row of the reference judges "keep" or "change" lies in the
// published range of that row, and its own range overlaps the published one.
// Where a figure was decided otherwise, why says so and only the ranges are
// compared.
func TestFiguresInPublishedRanges(t *testing.T) {
	rows, err := csv.NewReader(reference(t, "catalogue-values.csv")).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	sprinkler := func(name string) catalog.Sprinkler {
		s, ok := catalog.FindSprinkler(name)
		if !ok {
			t.Fatalf("no sprinkler %q", name)
		}
		return s
	}
	summer := func(w catalog.Watering) catalog.Interval { return w.Summer }
	winter := func(w catalog.Watering) catalog.Interval { return w.Winter }
	const foot, depth, rate = 1000.0 / 12, 0.0254, 25.4
	type check struct {
		item, quantity string // of the row; the start of the quantity is enough
		figure         catalog.Figure
		why            string // only the ranges are compared, because
	}
	checks := []check{
		{"cool-season turf", "K, flat, set S623", coefficient(t, "cool-season turf", catalog.S623), ""},
		{"cool-season turf", "K by month, set UC", coefficient(t, "cool-season turf", catalog.UC), ""},
		{"cool-season turf", "K by stage", coefficient(t, "cool-season turf", catalog.FAO56), ""},
		{"cool-season turf", "K, days 2 and later", plant(t, "cool-season turf").Ka, ""},
		{"cool-season turf", "K, monthly extremes", plant(t, "cool-season turf").Kd, ""},
		{"cool-season turf", "K in winter against growth", plant(t, "cool-season turf").Kd, "the row is a mild coast, the figure a cold winter"},
		{"overseeded ryegrass on bermuda", "K, 15 Oct-31 Mar", coefficient(t, "overseeded ryegrass", catalog.Arizona), ""},
		{"overseeded ryegrass on bermuda", "K by month", plant(t, "overseeded ryegrass").Ka, ""},
		{"warm-season turf", "K, flat, set S623", coefficient(t, "warm-season turf", catalog.S623), ""},
		{"warm-season turf", "K by month, set UC", coefficient(t, "warm-season turf", catalog.UC), ""},
		{"warm-season turf", "K by stage", coefficient(t, "warm-season turf", catalog.FAO56), ""},
		{"warm-season turf", "K in active growth, weighing", plant(t, "bermudagrass").Ka, ""},
		{"warm-season turf", "K, 1 Apr-14 Oct", coefficient(t, "bermudagrass", catalog.Arizona), ""},
		{"warm-season turf", "K in late autumn and winter", plant(t, "warm-season turf").Kd, ""},
		{"warm-season turf", "K, monthly extremes", plant(t, "warm-season turf").Ka, ""},
		{"bahiagrass", "K by month", coefficient(t, "bahiagrass", catalog.Florida), ""},
		{"shrubs, dry climate", "K, flat", coefficient(t, "shrubs, dry climate", catalog.S623), ""},
		{"shrubs, humid climate", "K, flat", coefficient(t, "shrubs, humid climate", catalog.S623), ""},
		{"ground cover, dry climate", "K, flat", coefficient(t, "ground cover, dry climate", catalog.S623), ""},
		{"trees, dry climate", "K, flat", coefficient(t, "trees, dry climate", catalog.S623), ""},
		{"conifers", "K, set FAO-56", coefficient(t, "conifers", catalog.FAO56), ""},
		{"palms", "K, set FAO-56", coefficient(t, "palms", catalog.FAO56), ""},
		{"palms", "K in gardens", coefficient(t, "palms", catalog.S623), ""},
		{"desert plants", "K, flat", coefficient(t, "desert plants", catalog.S623), ""},
		{"high-need planting", "K, set LCM", coefficient(t, "high-need planting", catalog.LCM), ""},
		{"moderate-need planting", "K, set LCM", coefficient(t, "moderate-need planting", catalog.LCM), ""},
		{"low-need planting", "K, set LCM", coefficient(t, "low-need planting", catalog.LCM), ""},
		{"very low-need planting", "K, set LCM", coefficient(t, "very low-need planting", catalog.LCM), ""},
		{"density factor", "kd default", catalog.DefaultDensity(), ""},
		{"microclimate factor", "kmc default", catalog.DefaultMicroclimate(), ""},

		{"any lawn", "intake rate", scaled(catalog.LawnIntake(), rate), ""},
		{"any lawn", "Green-Ampt", scaled(catalog.LawnIntake(), rate), ""},
		{"cool-season turf", "root depth", scaled(plant(t, "cool-season turf").RootDepth, depth), ""},
		{"warm-season turf", "root depth", scaled(plant(t, "warm-season turf").RootDepth, depth), ""},
		{"annual flowers", "root depth", scaled(plant(t, "annual flowers").RootDepth, depth), ""},
		{"shrubs", "root depth", scaled(plant(t, "shrubs, dry climate").RootDepth, depth), ""},
		{"ground cover", "root depth", scaled(plant(t, "ground cover, dry climate").RootDepth, depth), ""},
		{"trees, conifers, palms", "root depth", scaled(plant(t, "palms, humid climate").RootDepth, depth), ""},
		{"desert plants", "root depth", scaled(plant(t, "desert plants").RootDepth, depth), ""},
		{"cool-season turf", "stress fraction p", plant(t, "tall fescue").P, ""},
		{"warm-season turf", "stress fraction p", plant(t, "zoysiagrass").P, ""},
		{"annual flowers", "stress fraction p", plant(t, "annual flowers").P, ""},
		{"shrubs, ground cover, trees", "stress fraction p", plant(t, "trees, humid climate").P, ""},

		{"desert trees", "days between waterings, low desert, summer", interval(t, "desert trees", summer), ""},
		{"desert trees", "days between waterings, low desert, winter", interval(t, "desert trees", winter), ""},
		{"high-use trees", "days between waterings, low desert, summer", interval(t, "other trees, palms, conifers", summer), ""},
		{"high-use trees", "days between waterings, low desert, winter", interval(t, "other trees, palms, conifers", winter), ""},
		{"desert shrubs", "days between waterings, low desert, summer", interval(t, "desert shrubs", summer), ""},
		{"desert shrubs", "days between waterings, low desert, winter", interval(t, "desert shrubs", winter), ""},
		{"high-use shrubs", "days between waterings, low desert, summer", interval(t, "other shrubs", summer), ""},
		{"high-use shrubs", "days between waterings, low desert, winter", interval(t, "other shrubs", winter), ""},
		{"desert ground cover and vines", "days between waterings, low desert, summer", interval(t, "desert ground cover, vines", summer), ""},
		{"desert ground cover and vines", "days between waterings, low desert, winter", interval(t, "desert ground cover, vines", winter), ""},
		{"high-use ground cover and vines", "days between waterings, low desert, summer", interval(t, "other ground cover, vines", summer), ""},
		{"high-use ground cover and vines", "days between waterings, low desert, winter", interval(t, "other ground cover, vines", winter), ""},
		{"cacti and succulents", "days between waterings, low desert, summer", interval(t, "cacti, succulents", summer), ""},
		{"annual flowers", "days between waterings, low desert, summer", interval(t, "annual flowers", summer), ""},
		{"annual flowers", "days between waterings, low desert, winter", interval(t, "annual flowers", winter), ""},
		{"bermudagrass", "days between waterings, low desert, summer", interval(t, "warm-season grass", summer), ""},
		{"bermudagrass, dormant", "days between waterings, low desert, winter", interval(t, "warm-season grass", winter), ""},
		{"ryegrass over bermuda", "days between waterings, low desert, winter", interval(t, "cool-season grass, winter rye", winter), ""},

		{"spray", "precipitation rate", scaled(sprinkler("spray").Rate, rate), ""},
		{"rotor", "precipitation rate", scaled(sprinkler("rotor").Rate, rate), ""},
		{"multi-stream", "precipitation rate", scaled(sprinkler("multi-stream").Rate, rate), ""},
		{"spray", "DU_LQ, as found", scaled(sprinkler("spray").DU, .01), ""},
		{"rotor", "DU_LQ, as found", scaled(sprinkler("rotor").DU, .01), ""},
		{"spray", "DU_LQ, new heads", scaled(sprinkler("spray").NewDU, .01), ""},
		{"drip", "emission uniformity", scaled(sprinkler("drip").DU, .01), ""},
		{"spray", "spray loss, humid", scaled(sprinkler("spray").Loss, .01), ""},
		{"spray, rotor", "drift and evaporation", scaled(sprinkler("rotor").Loss, .01), ""},
		{"rain sensor", "advised set point", scaled(catalog.RainSensors().SetPoint, rate), ""},

		{"cool-season turf", "best for shoots", fahrenheit(plant(t, "cool-season turf").T1C), "full activity is reached at the edge of the best"},
		{"warm-season turf", "dormancy begins", fahrenheit(plant(t, "warm-season turf").T0C), ""},
		{"warm-season turf", "best for shoots", fahrenheit(plant(t, "warm-season turf").T1C), "full K comes with green-up, before the best"},
		{"warm-season turf", "base temperature", plant(t, "warm-season turf").T0C, ""},
		{"bermudagrass", "green-up begins", fahrenheit(plant(t, "bermudagrass").T1C), "from first to full green takes weeks more"},
		{"tall fescue", "least share of full ET", plant(t, "tall fescue").Tolerance, ""},
		{"Kentucky bluegrass", "least share of full ET", plant(t, "Kentucky bluegrass").Tolerance, ""},
		{"perennial ryegrass", "least share of ETo", scaled(plant(t, "perennial ryegrass").Tolerance, 1/0.8), ""}, // K 0.8
		{"bermudagrass", "least share of full ET", plant(t, "bermudagrass").Tolerance, "0.75 to 0.94 in a later trial (Ketchum et al. 2023)"},
		{"zoysiagrass", "least share of full ET", plant(t, "zoysiagrass").Tolerance, ""},
		{"St. Augustinegrass", "least share of ETo", scaled(plant(t, "St. Augustinegrass").Tolerance, 1/0.8), ""}, // Ka 0.8
	}
	for _, s := range catalog.Soils() {
		checks = append(checks, check{s.Name, "available water", scaled(s.AWC, foot), ""})
		why := ""
		if s.Name == "sandy clay" || s.Name == "silty clay" {
			why = "above the class of 1949; the FAO manual has clay up to 0.20 in/h"
		}
		checks = append(checks, check{s.Name, "intake rate, wet soil", scaled(s.Intake, rate), why})
	}
	judged := 0
	for _, row := range rows[1:] {
		if row[9] == "keep" || row[9] == "change" {
			judged++
		}
	}
	end := func(text string, open float64) float64 {
		if text == "" {
			return open
		}
		return number(t, text)
	}
	for _, c := range checks {
		found := false
		for _, row := range rows[1:] {
			if row[0] != c.item || !strings.HasPrefix(row[1], c.quantity) || row[9] != "keep" && row[9] != "change" || found {
				continue
			}
			found = true
			low, high, slack := end(row[4], -1), end(row[6], 1e9), 1e-9
			if v := c.figure.Value; c.why == "" && (v < low-slack || v > high+slack) {
				t.Errorf("%s, %s: %v, published %s to %s", c.item, row[1], v, row[4], row[6])
			}
			if c.figure.High > 0 && (c.figure.Low > high+slack || c.figure.High < low-slack) {
				t.Errorf("%s, %s: range %v to %v, published %s to %s", c.item, row[1], c.figure.Low, c.figure.High, row[4], row[6])
			}
		}
		if !found {
			t.Errorf("no row for %s, %s", c.item, c.quantity)
		}
	}
	t.Logf("%d figures compared; %d rows are judged, the others describe what the catalog does not have", len(checks), judged)
}
