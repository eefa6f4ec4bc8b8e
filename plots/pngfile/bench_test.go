package pngfile

import (
	"io"
	"testing"

	"loamledger/plots"
	"loamledger/plots/internal/sample"
)

// BenchmarkChart draws and encodes each kind with eight strategies.
func BenchmarkChart(b *testing.B) {
	for _, c := range plots.Charts(sample.Study(sample.Options{Strategies: 8, Zones: 1, Years: 30})) {
		b.Run(c.Name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if err := Draw(&c).Write(io.Discard); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Milliseconds())/float64(b.N), "ms/chart")
		})
	}
}

// BenchmarkLongRecord draws the depletion of 30 years at once, about 11,000
// points for each of ten strategies.
func BenchmarkLongRecord(b *testing.B) {
	s := sample.Study(sample.Options{Strategies: 8, Zones: 1, Years: 30, WholeRecord: true})
	c := plots.DrySeason(s, &s.Traces[0])
	for b.Loop() {
		if err := Draw(&c).Write(io.Discard); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(b.Elapsed().Milliseconds())/float64(b.N), "ms/chart")
}
