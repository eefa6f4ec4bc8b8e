package settingsfile

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"loamledger/sim/settings"
	"loamledger/sim/strategy"
	"loamledger/weather/quantity"
)

// The texts around what to enter on a timer that can follow the weather.
const (
	followingHead = "This strategy follows the weather. On a timer that can do so, enter what it asks for of these:"
	followingNote = "Minutes are those of the peak month at its usual ETo. K is the plant coefficient in the peak month. Water per depth " +
		"and in the roots is the soil's available water. Efficiency includes spray loss and uneven coverage."
)

// followingMonths lists the ETo of the peak month and the months' table.
func followingMonths(f *settings.Following, sys quantity.System) []string {
	day := func(mm float64) string {
		if math.IsNaN(mm) {
			return "unknown"
		}
		decimals := 1
		if sys == quantity.US {
			decimals = 2
		}
		return strconv.FormatFloat(quantity.Convert(mm, quantity.Depth, sys), 'f', decimals, 64) // the months line up
	}
	var months []string
	for m, mm := range f.EToMM {
		text := strategy.MonthNames[m] + " " + day(mm)
		if share := f.Share(m); !math.IsNaN(share) {
			text += fmt.Sprintf(" (%.0f%%)", 100*share)
		}
		months = append(months, text)
	}
	unit := quantity.Label(quantity.Depth, sys)
	return []string{
		fmt.Sprintf("ETo of the peak month, %s: %s %s a day, the mean of the record", strategy.MonthNames[f.PeakMonth-1],
			day(f.EToMM[f.PeakMonth-1]), unit),
		fmt.Sprintf("ETo by month [%s/d] and its share of the peak: %s", unit, strings.Join(months, ", ")),
	}
}

// followingGrid lists the entries of each zone, below a head.
func followingGrid(f *settings.Following, s *settings.Sheet, sys quantity.System) [][]string {
	rows := [][]string{{"zone", "min a day", "min a week", "K", "water per depth [" + quantity.Label(quantity.Capacity, sys) + "]",
		"root depth", "water in roots [" + quantity.Label(quantity.Depth, sys) + "]", "allowed depletion",
		"rate [" + quantity.Label(quantity.Rate, sys) + "]", "efficiency"}}
	share := func(v float64) string {
		if math.IsNaN(v) {
			return "unknown"
		}
		return quantity.Number(100*v, 0) + "%"
	}
	bare := func(v float64, dim quantity.Dimension, decimals int) string {
		if math.IsNaN(v) || v <= 0 {
			return "unknown"
		}
		return quantity.Number(quantity.Convert(v, dim, sys), decimals)
	}
	decimals := 0
	if sys == quantity.US {
		decimals = 2
	}
	for i := range f.Zones {
		z := &f.Zones[i]
		minutes := []string{"none", "none"}
		if z.MinutesPerWeek > 0 {
			minutes = []string{settings.WholeMinutesText(z.MinutesPerDay), settings.WholeMinutesText(z.MinutesPerWeek)}
		}
		roots := "unknown"
		if z.RootDepthM > 0 {
			roots = quantity.Format(z.RootDepthM, quantity.Length, sys)
		}
		rows = append(rows, append([]string{s.Zones[z.Zone].Name}, append(minutes, quantity.Number(z.K[f.PeakMonth-1], 2),
			bare(z.AWCMMPerM, quantity.Capacity, decimals), roots, bare(s.Zones[z.Zone].TAWMM, quantity.Depth, decimals), share(z.Depletion),
			bare(z.RateMMH, quantity.Rate, decimals), share(z.Efficiency))...))
	}
	return rows
}

// byMonth lists the run times per start by month, below a head: for a timer without
// percentages.
func (p *Page) byMonth() [][]string {
	s := p.Sheet
	months := s.Watered()
	head := []string{"zone"}
	for _, m := range months {
		head = append(head, strategy.MonthNames[m])
	}
	rows := [][]string{head}
	entries := s.Entries()
	all := len(s.Months())
	for i := 0; i+all <= len(entries); i += all {
		row := []string{rowName(s, &entries[i])}
		for _, e := range entries[i : i+all] {
			if e.Percent > 0 {
				row = append(row, settings.WholeMinutesText(e.Minutes))
			}
		}
		rows = append(rows, row)
	}
	return rows
}
