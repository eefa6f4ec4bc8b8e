package cli

import (
	"io"

	"github.com/jedib0t/go-pretty/v6/table"
	"github.com/jedib0t/go-pretty/v6/text"

	"loamledger/scenarios/study"
)

// plainTable returns a table without borders; columns not listed are
// left-aligned.
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

// printGrid prints a table.
func printGrid(w io.Writer, g *study.Grid) {
	head := make(table.Row, len(g.Head))
	var columns []table.ColumnConfig
	for i, name := range g.Head {
		c := table.ColumnConfig{Number: i + 1}
		if i < len(g.Columns) {
			how := g.Columns[i]
			if how.Right {
				c.Align, c.AlignHeader = text.AlignRight, text.AlignRight
			}
			if how.Width > 0 {
				c.WidthMax, c.WidthMaxEnforcer = how.Width, text.WrapSoft
			}
			if how.HeadWidth > 0 {
				name = text.WrapSoft(name, how.HeadWidth)
			}
		}
		head[i] = name
		columns = append(columns, c)
	}
	tw := plainTable(w, columns...)
	tw.AppendHeader(head)
	for i, cells := range g.Rows {
		if i == g.Rule && i > 0 {
			tw.AppendSeparator()
		}
		row := make(table.Row, len(cells))
		for k, cell := range cells {
			row[k] = cell
		}
		tw.AppendRow(row)
	}
	tw.Render()
}
