package cli

import (
	"context"
	"encoding/csv"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/jedib0t/go-pretty/v6/table"
	"github.com/jedib0t/go-pretty/v6/text"

	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/weather"
	"loamledger/weather/quantity"
)

// A comingPlan is what every strategy would do on the days past the record
// that are forecast: apart from history, and part of no tally.
type comingPlan struct {
	coming
	Zones []string
	Rows  map[string][][]replay.Row // by strategy, then zone, then day
}

// lookAhead replays on past the record. It returns nil where no forecast
// reaches past it.
func (l *loaded) lookAhead(ctx context.Context) (*comingPlan, error) {
	job, c, ok := l.extend()
	if !ok {
		return nil, nil
	}
	p := &comingPlan{coming: c, Rows: map[string][][]replay.Row{}}
	for z := range job.Zones {
		p.Zones = append(p.Zones, job.Zones[z].Name)
	}
	first := l.Job.Weather.Days()
	_, err := replay.Run(ctx, &job, func(s *replay.Sheet) error {
		if l.Scenario.StrategyIndex(s.Strategy) < 0 {
			return nil // a reference
		}
		var rows []replay.Row
		for d := range c.Days {
			rows = append(rows, s.Row(first+d))
		}
		p.Rows[s.Strategy] = append(p.Rows[s.Strategy], rows)
		return nil
	})
	return p, err
}

// writeComing writes every strategy's coming days as CSV, in SI.
func (l *loaded) writeComing(w io.Writer, p *comingPlan) error {
	cw := csv.NewWriter(w)
	_ = cw.Write([]string{"date", "issued", "strategy", "zone", "minutes", "reason", "rain_mm", "eto_mm"}) // kept for Error
	for i := range l.Job.Strategies {
		name := l.Job.Strategies[i].Name
		for z, rows := range p.Rows[name] {
			for d, row := range rows {
				day := p.Days[d]
				_ = cw.Write([]string{day.Date.String(), day.Issued.String(), name, p.Zones[z], plain(row.Minutes), row.Reason.String(), plain(day.RainMM), plain(day.EToMM)})
			}
		}
	}
	cw.Flush()
	return cw.Error()
}

// plain writes the shortest number that reads back as v.
func plain(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// printComing shows one strategy's coming days.
func (l *loaded) printComing(w io.Writer, p *comingPlan, name string) {
	if p == nil {
		return
	}
	if name == "" && len(l.Job.Strategies) > 0 {
		name = l.Job.Strategies[0].Name
	}
	c, plans := &p.coming, p.Rows[name]
	sys := l.Scenario.Units
	depth := quantity.Label(quantity.Depth, sys)
	fmt.Fprintf(w, "\nComing days, as forecast: not history, and in no figure above. Minutes under %q.\n", name)
	tw := plainTable(w)
	head := table.Row{"date", "issued", "rain\n[" + depth + "]", "ETo\n[" + depth + "]"}
	var columns []table.ColumnConfig
	for z := range min(len(p.Zones), mostComingZones) {
		head = append(head, p.Zones[z]+"\n[min]")
	}
	for k := 3; k <= len(head); k++ {
		columns = append(columns, table.ColumnConfig{Number: k, Align: text.AlignRight, AlignHeader: text.AlignRight, WidthMax: 14, WidthMaxEnforcer: text.WrapSoft})
	}
	tw.AppendHeader(append(head, "why"))
	tw.SetColumnConfigs(columns)
	for d, day := range c.Days {
		row := table.Row{day.Date.String(), day.Issued.String(), depthText(day.RainMM, sys), depthText(day.EToMM, sys)}
		for z := range min(len(p.Zones), mostComingZones) {
			row = append(row, fmt.Sprintf("%.0f", plans[z][d].Minutes))
		}
		tw.AppendRow(append(row, reasonsOn(plans, d)))
	}
	tw.Render()
	if n := len(p.Zones); n > mostComingZones {
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
}

// reasonsOn tells the reasons of day d, each once: zones may differ.
func reasonsOn(plans [][]replay.Row, d int) string {
	var words []string
	for _, rows := range plans {
		if r := rows[d].Reason.String(); !slices.Contains(words, r) {
			words = append(words, r)
		}
	}
	return strings.Join(words, ", ")
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
