package cli

import (
	"io"
	"math"

	"github.com/jedib0t/go-pretty/v6/table"
	"github.com/jedib0t/go-pretty/v6/text"

	"loamledger/weather/quantity"
)

// What several commands say below their figures.
const (
	caution     = "All figures are estimates before any change (ex-ante). Local watering rules come first."
	noWholeYear = "The record holds no whole calendar year: stress days of a median and a dry year are not given."
)

// plainTable returns a table without a frame; columns that are not given are
// to the left.
func plainTable(w io.Writer, columns ...table.ColumnConfig) table.Writer {
	tw := table.NewWriter()
	tw.SetOutputMirror(w)
	style := table.StyleLight
	style.Options = table.OptionsNoBordersAndSeparators
	style.Options.SeparateHeader = true
	style.Format.Header = text.FormatDefault
	tw.SetStyle(style)
	tw.SetColumnConfigs(columns)
	return tw
}

// toTheRight sets columns from first to last to the right, as numbers are.
func toTheRight(first, last int) []table.ColumnConfig {
	var columns []table.ColumnConfig
	for i := first; i <= last; i++ {
		columns = append(columns, table.ColumnConfig{Number: i, Align: text.AlignRight, AlignHeader: text.AlignRight})
	}
	return columns
}

// volumeText writes a volume in the units of the scenario, whole and without
// its unit.
func volumeText(m3 float64, sys quantity.System) string {
	return group(int(math.Round(quantity.Convert(m3, quantity.Volume, sys))))
}
