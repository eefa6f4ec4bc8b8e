package pdffile

import (
	"slices"
	"strconv"
	"strings"

	"loamledger/plots"
)

func itoa(n int) string { return strconv.Itoa(n) }

// A grid is a table as the sheet writes it: the first column has the names.
type grid struct {
	head  []string
	rows  []gridRow
	words []bool // columns of words, which line up at their beginning
}

type gridRow struct {
	cells  []string
	spread []string // in small print below the cells; empty or as long as cells
	under  string   // across all columns, below the row
	bold   bool
	gray   bool
}

// gridOf turns a table of the report into a grid.
func gridOf(t *plots.Table) *grid {
	g := &grid{head: append([]string{t.First}, t.Head...), words: append([]bool{true}, make([]bool, len(t.Head))...)}
	for i := range t.Head {
		g.words[i+1] = t.IsWords(i)
	}
	for _, r := range t.Rows {
		name := r.Name
		if r.Note != "" {
			name += " (" + r.Note + ")"
		}
		row := gridRow{cells: append([]string{name}, r.Cells...), under: r.Below(), bold: r.Named, gray: r.Reference,
			spread: append([]string{r.Spreads}, make([]string, len(r.Cells))...)}
		for i := range r.Cells {
			row.spread[i+1] = r.SpreadOf(i)
		}
		g.rows = append(g.rows, row)
	}
	return g
}

// textGrid makes a grid of words only.
func textGrid(head []string, rows [][]string) *grid {
	g := &grid{head: head, words: slices.Repeat([]bool{true}, len(head))}
	for _, r := range rows {
		g.rows = append(g.rows, gridRow{cells: r})
	}
	return g
}

// between is the space between two columns [pt].
const between = 7.0

// smallest is the smallest size of a table [pt]; below it, columns continue in a table
// of their own.
const smallest = 6.5

// table writes a table, in the largest size of at most size in which it fits.
func (s *sheet) table(g *grid, size float64) {
	for ; ; size -= 0.25 {
		if wide, ok := s.widths(g, size); ok {
			s.rows(g, wide, size)
			return
		}
		if size-0.25 < smallest {
			break
		}
	}
	n := len(g.head)
	if n < 3 { // cannot be split any more
		wide, _ := s.widths(g, smallest)
		s.rows(g, wide, smallest)
		return
	}
	half := 1 + n/2
	for _, span := range [][2]int{{1, half}, {half, n}} {
		part := &grid{head: pickOf(g.head, span), words: append([]bool{g.words[0]}, g.words[span[0]:span[1]]...)}
		for _, r := range g.rows {
			one := r
			one.cells = pickOf(r.cells, span)
			if len(r.spread) > 0 {
				one.spread = pickOf(r.spread, span)
			}
			if span[0] > 1 {
				one.under = ""
			}
			part.rows = append(part.rows, one)
		}
		s.table(part, smallest+0.75)
	}
}

func pickOf(list []string, span [2]int) []string {
	return append([]string{list[0]}, list[span[0]:span[1]]...)
}

// smallSize is the size of small print in a table of the given size.
func smallSize(size float64) float64 { return float64(size * 0.87) }

// cellWidth is how wide a cell is on one line.
func (s *sheet) cellWidth(r *gridRow, i int, size float64) float64 {
	f := s.plain
	if r.bold || i == 0 {
		f = s.bold
	}
	return max(f.width(r.cells[i], size), s.plain.width(r.spreadOf(i), smallSize(size)))
}

// spreadOf is the small print below a cell; empty for none.
func (r *gridRow) spreadOf(i int) string {
	if i >= len(r.spread) {
		return ""
	}
	return r.spread[i]
}

// widths divides the column of the sheet among the columns of a table: each gets at
// least its longest word. ok is false if even that does not fit.
func (s *sheet) widths(g *grid, size float64) (wide []float64, ok bool) {
	n := len(g.head)
	least, most := make([]float64, n), make([]float64, n)
	longest := func(f *face, text string, size float64) (w float64) {
		for _, one := range strings.Fields(text) {
			w = max(w, f.width(one, size))
		}
		return w
	}
	for i, h := range g.head {
		least[i] = longest(s.bold, h, size)
		most[i] = max(least[i], min(s.bold.width(h, size), 8*size))
		for k := range g.rows {
			w := s.cellWidth(&g.rows[k], i, size)
			most[i] = max(most[i], w)
			if spread := g.rows[k].spreadOf(i); g.words[i] {
				w = min(longest(s.bold, g.rows[k].cells[i], size), 9*size)
			} else if strings.ContainsAny(spread, "abcdefghijklmnopqrstuvwxyz") && w > 9*size { // words break
				w = max(min(longest(s.bold, g.rows[k].cells[i], size), 9*size), longest(s.plain, spread, smallSize(size)), 6*size)
			}
			least[i] = max(least[i], w)
		}
		if i == 0 {
			least[0] = max(least[0], min(most[0], 11*size))
		}
	}
	room := s.column() - float64(between*float64(n-1))
	sumLeast, sumMost := sum(least), sum(most)
	wide = slices.Clone(least)
	switch {
	case sumLeast > room:
		for i := range wide {
			wide[i] *= room / sumLeast
		}
		return wide, false
	case sumMost <= room:
		wide = slices.Clone(most)
		extra := (room - sumMost) / float64(n)
		for i := range wide {
			wide[i] += extra
		}
	default:
		for i := range wide {
			wide[i] += (room - sumLeast) * (most[i] - least[i]) / (sumMost - sumLeast)
		}
	}
	return wide, true
}

func sum(list []float64) (total float64) {
	for _, v := range list {
		total += v
	}
	return total
}

// rows writes a table with the given widths of columns; the heading is repeated on
// every page. A table that is not long stays on one page.
func (s *sheet) rows(g *grid, wide []float64, size float64) {
	s.need(s.kept(func() { s.body(g, wide, size) }, s.headHeight(g, wide, size)+float64(3*size*leading)))
	s.body(g, wide, size)
}

// body writes the heading and the rows of a table.
func (s *sheet) body(g *grid, wide []float64, size float64) {
	s.header(g, wide, size)
	for k := range g.rows {
		r := &g.rows[k]
		cells := s.cells(r, wide, size)
		high := size * leading
		for i, c := range cells {
			tall := float64(float64(len(c)) * size * 1.15)
			if small := s.spreadLines(r, i, wide[i], size); len(small) > 0 {
				tall += float64(float64(len(small)) * smallSize(size) * 1.15)
				if r.under != "" {
					tall += 2
				}
			}
			high = max(high, tall)
		}
		var under []string
		if r.under != "" {
			under = s.plain.wrap(r.under, smallSize(size), s.column()-6)
		}
		total := high + float64(float64(len(under))*smallSize(size)*1.12)
		if room := min(total+3, 300); !s.dry && s.y+room > s.bottom() {
			before := s.page
			if s.need(room + s.headHeight(g, wide, size) + 4); s.page != before {
				s.header(g, wide, size)
			}
		}
		s.row(r, g.words, cells, wide, size)
		s.y += high
		for _, line := range under {
			s.put(s.plain, smallSize(size), faint, s.left, s.y-1, line)
			s.y += float64(smallSize(size) * 1.12)
		}
		s.line(s.left, s.y+0.6, s.right, hair, 0.4)
		s.y += 2
		s.fresh = false
	}
	s.y += paraGap + 2
}

// cells breaks the cells of a row into lines.
func (s *sheet) cells(r *gridRow, wide []float64, size float64) [][]string {
	out := make([][]string, len(r.cells))
	for i, text := range r.cells {
		f := s.plain
		if r.bold {
			f = s.bold
		}
		out[i] = f.wrap(text, size, max(wide[i]+0.01, size))
	}
	return out
}

// row writes the lines of a row.
func (s *sheet) row(r *gridRow, words []bool, cells [][]string, wide []float64, size float64) {
	f, gray := s.plain, ink
	if r.bold {
		f = s.bold
	}
	if r.gray {
		f, gray = s.italic, faint
	}
	x := s.left
	for i, lines := range cells {
		for k, line := range lines {
			at := x
			if !words[i] {
				at = x + wide[i] - f.width(line, size)
			}
			s.put(f, size, gray, at, s.y+float64(float64(k)*size*1.15), line)
		}
		for k, line := range s.spreadLines(r, i, wide[i], size) {
			at := x
			if !words[i] {
				at = x + wide[i] - s.plain.width(line, smallSize(size))
			}
			s.put(s.plain, smallSize(size), faint, at, s.y+float64(float64(len(lines))*size*1.15)+float64(float64(k)*smallSize(size)*1.15), line)
		}
		x += wide[i] + between
	}
}

// spreadLines breaks the small print below a cell into lines.
func (s *sheet) spreadLines(r *gridRow, i int, wide, size float64) []string {
	if r.spreadOf(i) == "" {
		return nil
	}
	return s.plain.wrap(r.spreadOf(i), smallSize(size), max(wide+0.01, size))
}

// headHeight is the height of the heading of a table.
func (s *sheet) headHeight(g *grid, wide []float64, size float64) float64 {
	most := 0.0
	for i, h := range g.head {
		most = max(most, float64(float64(len(s.bold.wrap(h, size, wide[i]+0.01)))*size*1.15))
	}
	return most
}

// header writes the heading of a table, bottom-aligned.
func (s *sheet) header(g *grid, wide []float64, size float64) {
	high := s.headHeight(g, wide, size)
	x := s.left
	for i, h := range g.head {
		lines := s.bold.wrap(h, size, wide[i]+0.01)
		y := s.y + high - float64(float64(len(lines))*size*1.15)
		for _, line := range lines {
			at := x
			if !g.words[i] {
				at = x + wide[i] - s.bold.width(line, size)
			}
			s.put(s.bold, size, ink, at, y, line)
			y += float64(size * 1.15)
		}
		x += wide[i] + between
	}
	s.y += high
	s.line(s.left, s.y+1, s.right, ink, 0.8)
	s.y += 3
	s.fresh = false
}
