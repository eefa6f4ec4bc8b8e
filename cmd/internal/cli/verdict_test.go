package cli_test

import (
	"encoding/csv"
	"encoding/json"
	"os"
	"path/filepath"
	"strconv"
	"testing"
)

// A judged is the part of run.json that a verdict rests on.
type judged struct {
	Results struct {
		MedianYear int `json:"median_year"`
		DryYear    int `json:"dry_year"`
		Baseline   struct {
			Strategy string `json:"strategy"`
		} `json:"baseline"`
	} `json:"results"`
	Verdict struct {
		Code, Strategy string
		NotReady       []struct{ Strategy, Code string } `json:"not_ready"`
	} `json:"verdict"`
}

// rows reads a CSV file into maps by column.
func rows(t *testing.T, name string) (out []map[string]string) {
	t.Helper()
	f, err := os.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	all, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, line := range all[1:] {
		row := map[string]string{}
		for i, v := range line {
			row[all[0][i]] = v
		}
		out = append(out, row)
	}
	return out
}

// TestVerdictRecounted counts again, from tally.csv and compliance.csv alone, who may be
// recommended in every example and the demo: nobody with more browning days of
// the driest quarter in a zone than the baseline in the median or the dry year,
// nobody with more than 14 stress days in a zone and more than the baseline in the
// median year, nobody with a forbidden run. The record must name just these, and the
// verdict nobody of them.
func TestVerdictRecounted(t *testing.T) {
	files, err := filepath.Glob("../../../scenarios/examples/*.yaml")
	if err != nil || len(files) < 6 {
		t.Fatalf("%d examples: %v", len(files), err)
	}
	counted, barred := 0, 0
	for _, name := range append(files, "") {
		out := filepath.Join(t.TempDir(), "out")
		if name == "" {
			done(t, "demo", "--out", out)
		} else {
			done(t, "replay", name, "--no-charts", "--no-ledger", "--out", out)
		}
		var r judged
		if err := json.Unmarshal(read(t, filepath.Join(out, "run.json")), &r); err != nil {
			t.Fatal(err)
		}
		type key struct{ strategy, zone, year, column string }
		days := map[key]int{}
		strategies := map[string]bool{}
		zones := map[string]bool{}
		for _, row := range rows(t, filepath.Join(out, "tally.csv")) {
			strategies[row["strategy"]], zones[row["zone"]] = true, true
			for _, column := range []string{"stress_days_zone", "browning_days_quarter"} {
				n, err := strconv.Atoi(row[column])
				if err != nil {
					t.Fatal(err)
				}
				days[key{row["strategy"], row["zone"], row["year"], column}] = n
			}
		}
		forbidden := map[string]int{}
		if _, err := os.Stat(filepath.Join(out, "compliance.csv")); err == nil {
			for _, row := range rows(t, filepath.Join(out, "compliance.csv")) {
				forbidden[row["strategy"]]++
			}
		}
		want := map[[2]string]bool{}
		base, median, dry := r.Results.Baseline.Strategy, strconv.Itoa(r.Results.MedianYear), strconv.Itoa(r.Results.DryYear)
		for st := range strategies {
			if st == base || st == "no watering" || st == "least water at full supply" || st == base+", if cut to the rules" {
				continue
			}
			counted++
			if forbidden[st] > 0 {
				want[[2]string{st, "breaks-rules"}] = true
			}
			for z := range zones {
				for _, y := range []string{median, dry} {
					if days[key{st, z, y, "browning_days_quarter"}] > days[key{base, z, y, "browning_days_quarter"}] {
						want[[2]string{st, "browns-more"}] = true
					}
				}
				n := days[key{st, z, median, "stress_days_zone"}]
				if n > 14 && n > days[key{base, z, median, "stress_days_zone"}] {
					want[[2]string{st, "too-thirsty"}] = true
				}
			}
		}
		got := map[[2]string]bool{}
		for _, b := range r.Verdict.NotReady {
			got[[2]string{b.Strategy, b.Code}] = true
			if b.Strategy == r.Verdict.Strategy {
				t.Errorf("%s: the verdict is about %q, which is not ready", name, b.Strategy)
			}
		}
		for k := range want {
			if !got[k] {
				t.Errorf("%s: the record lacks %v", name, k)
			}
		}
		for k := range got {
			if !want[k] {
				t.Errorf("%s: the record has %v, which the files do not show", name, k)
			}
		}
		barred += len(want)
	}
	if counted < 20 || barred < 10 {
		t.Errorf("%d strategies and %d rules not met are too few to say much", counted, barred)
	}
}
