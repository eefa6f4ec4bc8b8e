package yamlfile_test

import (
	"fmt"
	"io"
	"strings"
	"testing"

	"loamledger/scenarios/yamlfile"
)

// BenchmarkRead reads a site of 500 zones from a table, the size that matters
// for a large portfolio.
func BenchmarkRead(b *testing.B) {
	const zones = 500
	var table strings.Builder
	table.WriteString("name,area (ft2),plant,soil,slope,sprinkler,rate\n")
	for i := range zones {
		fmt.Fprintf(&table, "zone %d,%d,cool-season turf,clay loam,4 %%,spray,1.5 in/h\n", i, 1000+i)
	}
	from, to := strings.Index(base, "zones:"), strings.Index(base, "programs:")
	text := base[:from] + "zones: zones.csv\n" + strings.Replace(base[to:], "front lawn", "zone 7", 1)
	open := func(string) (io.ReadCloser, error) { return io.NopCloser(strings.NewReader(table.String())), nil }
	b.ReportAllocs()
	for b.Loop() {
		if _, err := yamlfile.Read(strings.NewReader(text), "yard.yaml", open); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(zones*float64(b.N)/b.Elapsed().Seconds(), "zones/s")
}
