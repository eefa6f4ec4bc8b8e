package plots_test

import (
	"loamledger/plots"
	"loamledger/plots/internal/sample"
)

// studies are the studies that laws of charts are tried on.
func studies() map[string]*plots.Study {
	return map[string]*plots.Study{
		"four":   sample.Study(sample.Options{Strategies: 4, Zones: 3, Years: 4}),
		"twelve": sample.Study(sample.Options{Strategies: 12, Zones: 1, Years: 3, LongNames: true, Units: plots.SI}),
		"one":    sample.Study(sample.Options{Strategies: 1, Zones: 1, Years: 1}),
	}
}
