package scenarios_test

import (
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"loamledger/scenarios"
	"loamledger/testdata/published"
	"loamledger/weather/quantity"
)

func number(t *testing.T, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// printed is half a unit in the last printed digit of s.
func printed(s string) float64 {
	_, part, _ := strings.Cut(s, ".")
	return 0.5001 * math.Pow10(-len(part))
}

func TestRateFromFlowAsPublished(t *testing.T) {
	for _, row := range published.Rows(t, "sprinkler-rate.csv") {
		flow, errF := quantity.Parse(row["gpm"]+" gpm", quantity.Flow)
		area, errA := quantity.Parse(row["area_ft2"]+" ft2", quantity.Area)
		if errF != nil || errA != nil {
			t.Fatal(errF, errA)
		}
		rate := scenarios.RateFromFlow(flow, area)
		if got, want := rate/25.4, number(t, row["pr_in_h"]); math.Abs(got-want) > printed(row["pr_in_h"]) {
			t.Errorf("%s gpm on %s ft²: %v in/h, want %v", row["gpm"], row["area_ft2"], got, want)
		}
		if got := scenarios.FlowFromRate(rate, area); !near(got, flow) {
			t.Errorf("flow %v came back as %v", flow, got)
		}
	}
}

// A zone's soil and slope give the intake, the surface storage, the longest
// cycle and the shortest soak of the published table.
func TestCyclesAsPublished(t *testing.T) {
	rows := published.Rows(t, "sprinkler-cycles.csv")
	for _, row := range rows {
		z := zone(t, "area: 100 m2, plant: cool-season turf, soil: "+row["soil"]+", slope: "+row["slope_pct"]+" %, "+
			"sprinkler: {kind: spray, spray_loss: 0 %, rate: "+row["pr_in_h"]+" in/h}")
		want(t, row["soil"]+" intake", z.IntakeMMH, 25.4*number(t, row["ir_in_h"]))
		want(t, row["soil"]+" surface storage", z.SurfaceStorageMM, 25.4*number(t, row["asa_in"]))
		cycle, soak := z.LongestCycle()
		if row["cycle_min"] == "" {
			if cycle != 0 {
				t.Errorf("%s: longest cycle %v, want no limit", row["soil"], cycle)
			}
			continue
		}
		if w := number(t, row["cycle_min"]); math.Abs(cycle-w) > printed(row["cycle_min"]) {
			t.Errorf("%s: longest cycle %v min, want %v", row["soil"], cycle, w)
		}
		if w := number(t, row["soak_min"]); math.Abs(soak-w) > printed(row["soak_min"]) {
			t.Errorf("%s: shortest soak %v min, want %v", row["soil"], soak, w)
		}
	}
}

// The public test landscape of six zones, as far as a scenario expresses it.
func TestReferenceLandscape(t *testing.T) {
	dir, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(dir, "..", "..", "shared", "reference", "test-landscape.csv")
	if _, err := os.Stat(path); err != nil {
		t.Skip("shared reference data not present")
	}
	kinds := map[string]string{"pop-up spray": "spray", "surface drip": "drip", "rotor": "rotor"}
	checked := 0
	for _, row := range published.Read(t, path) {
		var k []string
		for _, m := range []string{"jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"} {
			k = append(k, row["kc_"+m])
		}
		z := zone(t, "area: "+row["area_ft2"]+" ft2, plant: ["+strings.Join(k,
			", ")+"], root_depth: 6 in, soil: "+row["soil_texture"]+", slope: "+row["slope_pct"]+
			" %, sprinkler: {kind: "+kinds[row["irrigation"]]+", rate: "+row["precip_rate_in_h"]+" in/h}")
		want(t, "intake of zone "+row["zone"], z.IntakeMMH, 25.4*number(t, row["intake_rate_in_h"]))
		want(t, "surface storage of zone "+row["zone"], z.SurfaceStorageMM, 25.4*number(t, row["asa_in"]))
		want(t, "K in August of zone "+row["zone"], z.K[7], number(t, row["kc_aug"]))
		if got, w := quantity.Convert(z.FlowLMin, quantity.Flow, quantity.US), number(t,
			row["flow_gpm_derived"]); math.Abs(got-w) > printed(row["flow_gpm_derived"]) {
			t.Errorf("flow of zone %s: %v gpm, want %v", row["zone"], got, w)
		}
		checked++
	}
	if checked != 6 {
		t.Errorf("%d zones checked, want 6", checked)
	}
}
