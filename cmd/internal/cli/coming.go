package cli

import (
	"context"
	"fmt"
	"io"
	"math"

	"github.com/jedib0t/go-pretty/v6/table"
	"github.com/jedib0t/go-pretty/v6/text"

	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/weather"
	"loamledger/weather/quantity"
)

// printComing shows what one strategy would do on the days past the record
// that are forecast: apart from history, and part of no tally.
func (l *loaded) printComing(ctx context.Context, w io.Writer, name string) error {
	if name == "" && len(l.Job.Strategies) > 0 {
		name = l.Job.Strategies[0].Name
	}
	job, c, ok := l.extend()
	if !ok {
		return nil
	}
	i := l.Scenario.StrategyIndex(name)
	job.Strategies = []strategy.Strategy{l.Job.Strategies[i]}
	minutes := make([][]float64, len(job.Zones))
	reasons := make([]string, len(c.Days))
	first := l.Job.Weather.Days()
	_, err := replay.Run(ctx, &job, func(s *replay.Sheet) error {
		if s.Strategy != name {
			return nil
		}
		for z := range job.Zones {
			if s.Zone != &job.Zones[z] {
				continue
			}
			for d := range c.Days {
				row := s.Row(first + d)
				minutes[z] = append(minutes[z], row.Minutes)
				if reasons[d] == "" {
					reasons[d] = row.Reason
				}
			}
		}
		return nil
	})
	if err != nil {
		return err
	}
	sys := l.Scenario.Units
	depth := quantity.Label(quantity.Depth, sys)
	fmt.Fprintf(w, "\nComing days, as forecast: not history, and in no figure above. Minutes under %q.\n", name)
	tw := table.NewWriter()
	tw.SetOutputMirror(w)
	style := table.StyleLight
	style.Options = table.OptionsNoBordersAndSeparators
	style.Options.SeparateHeader = true
	style.Format.Header = text.FormatDefault
	tw.SetStyle(style)
	head := table.Row{"date", "issued", "rain\n[" + depth + "]", "ETo\n[" + depth + "]"}
	var columns []table.ColumnConfig
	for z := range job.Zones {
		if z == mostComingZones {
			break
		}
		head = append(head, job.Zones[z].Name+"\n[min]")
	}
	for k := 3; k <= len(head); k++ {
		columns = append(columns, table.ColumnConfig{Number: k, Align: text.AlignRight, AlignHeader: text.AlignRight, WidthMax: 14, WidthMaxEnforcer: text.WrapSoft})
	}
	tw.AppendHeader(append(head, "why"))
	tw.SetColumnConfigs(columns)
	for d, day := range c.Days {
		row := table.Row{day.Date.String(), day.Issued.String(), depthText(day.RainMM, sys), depthText(day.EToMM, sys)}
		for z := range min(len(job.Zones), mostComingZones) {
			row = append(row, fmt.Sprintf("%.0f", minutes[z][d]))
		}
		tw.AppendRow(append(row, reasons[d]))
	}
	tw.Render()
	if n := len(job.Zones); n > mostComingZones {
		fmt.Fprintf(w, "Shown are the first %d of %d zones.\n", mostComingZones, n)
	}
	for _, col := range []weather.Column{weather.ETo, weather.Tmin} {
		if n := c.Usual[col]; n > 0 {
			fmt.Fprintf(w, "%s is not forecast on %s; what is usual then in the record stands in.\n", col.Label(), countOf(n, "day", "days"))
		}
	}
	if c.Series.Days > len(c.Days) {
		fmt.Fprintf(w, "The forecasts reach to %v, but after %v a day lacks an amount of rain, or lies further off than single days can be told.\n", c.Series.End(), c.Days[len(c.Days)-1].Date)
	}
	return nil
}

// mostComingZones is how many zones fit a screen.
const mostComingZones = 8

// depthText writes a depth in the units of the scenario, without its unit.
func depthText(mm float64, sys quantity.System) string {
	if math.IsNaN(mm) {
		return "-"
	}
	digits := 1
	if sys == quantity.US {
		digits = 2
	}
	return fmt.Sprintf("%.*f", digits, quantity.Convert(mm, quantity.Depth, sys))
}

func strategyNames(list []strategy.Strategy) []string {
	names := make([]string, len(list))
	for i := range list {
		names[i] = list[i].Name
	}
	return names
}
