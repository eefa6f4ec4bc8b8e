package examples

import (
	"context"
	"crypto/sha256"
	"encoding/binary"
	"fmt"
	"maps"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"loamledger/scenarios"
	"loamledger/scenarios/demo"
	"loamledger/scenarios/study"
	"loamledger/scenarios/yamlfile"
	"loamledger/sim/ledgerfile"
	"loamledger/sim/replay"
	"loamledger/weather"
	"loamledger/weather/csvfile"
	"loamledger/weather/generate"
)

// TestSameDigits checks that every number of the ledgers of three sites has the bits that were recorded, on this
// processor as on any other: .ci/run long repeats it on those that it can run. The numbers are golden, recorded on amd64.
func TestSameDigits(t *testing.T) {
	var b strings.Builder
	for _, name := range []string{"demo", "saltbush-lane.yaml", "weir-meadow.yaml"} {
		sc, rec := site(t, name)
		w, err := study.Prepare(sc, study.Records{Parts: []*weather.Record{rec}})
		if err != nil {
			t.Fatal(err)
		}
		s, err := study.New(sc, w, nil)
		if err != nil {
			t.Fatal(err)
		}
		days, sums := 0, map[string][]byte{}
		var runner replay.Runner
		if _, err := runner.Run(context.Background(), &s.Job, func(sheet *replay.Sheet) error {
			days += sheet.Days()
			sums[sheet.Strategy+"\n"+sheet.Zone.Name] = bitsOf(sheet)
			return nil
		}); err != nil {
			t.Fatal(err)
		}
		all := sha256.New()
		for _, key := range slices.Sorted(maps.Keys(sums)) {
			all.Write(sums[key])
		}
		fmt.Fprintf(&b, "%s %d zone-days sha256 %x\n", name, days, all.Sum(nil))
	}
	const file = "testdata/ledgers.sha256"
	if os.Getenv("UPDATE") != "" {
		if err := os.WriteFile(file, []byte(b.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if b.String() != string(want) {
		t.Errorf("the ledgers are\n%swant\n%s", b.String(), want)
	}
}

// site returns a scenario and its record as read.
func site(t *testing.T, name string) (*scenarios.Scenario, *weather.Record) {
	t.Helper()
	if name == "demo" {
		sc, err := yamlfile.Read(strings.NewReader(demo.Scenario), demo.ScenarioFile, open)
		if err != nil {
			t.Fatal(err)
		}
		rec, err := generate.Demo()
		if err != nil {
			t.Fatal(err)
		}
		return sc, rec
	}
	sc := read(t, name)
	f, err := os.Open(sc.Weather.Files[0].Name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rec, err := csvfile.Read(f, sc.Weather.Files[0].Name, csvfile.Options{WindHeightM: &sc.Weather.WindHeightM})
	if err != nil {
		t.Fatal(err)
	}
	return sc, rec
}

// bitsOf returns a hash of all numbers of a ledger, unrounded. All NaNs count as one.
func bitsOf(sheet *replay.Sheet) []byte {
	var buf []byte
	columns := ledgerfile.Columns()
	for i := range sheet.Days() {
		d := ledgerfile.Day{Row: sheet.Row(i), Sheet: sheet, Index: i}
		for k := range columns {
			if columns[k].Float == nil {
				continue
			}
			v := columns[k].Float(&d)
			if v != v {
				v = math.NaN()
			}
			buf = binary.LittleEndian.AppendUint64(buf, math.Float64bits(v))
		}
	}
	sum := sha256.Sum256(buf)
	return sum[:]
}
