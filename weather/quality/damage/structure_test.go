package damage

import (
	"math/rand/v2"
	"slices"
	"strings"

	"loamledger/weather"
)

// Damages of the file itself: cells, rows, and the whole.

type texts = func(rng *rand.Rand, f *file) (string, place, bool)

// inRows damages the rows of a seeded day, which are given without the end of
// the last line.
func inRows(do func(rng *rand.Rand, f *file, i int, rows string) (string, bool)) texts {
	return func(rng *rand.Rand, f *file) (string, place, bool) {
		i := f.some(rng)
		from, to := f.rowsOf(i)
		first, end := f.offset(from), f.offset(to+1)-1
		text, ok := do(rng, f, i, f.text[first:end])
		if !ok {
			return "", place{}, false
		}
		at := f.at(i)
		at.from, _ = f.rowsOf(i - 1)           // a gap is named by the day above it
		at.to += 1 + strings.Count(text, "\n") // and other damage may show on the next line
		return f.with(first, end, text), at, true
	}
}

// inLine is inRows for the first line of the day.
func inLine(do func(f *file, line string) (string, bool)) texts {
	return inRows(func(_ *rand.Rand, f *file, _ int, rows string) (string, bool) {
		line, rest, more := strings.Cut(rows, "\n")
		text, ok := do(f, line)
		if more {
			text += "\n" + rest
		}
		return text, ok
	})
}

// offset is where a line begins.
func (f *file) offset(line int) (n int) {
	for _, l := range f.lines[:line-1] {
		n += len(l)
	}
	return n
}

// inWhole damages the whole file.
func inWhole(do func(f *file) (string, bool)) texts {
	return func(_ *rand.Rand, f *file) (string, place, bool) {
		text, ok := do(f)
		return text, place{}, ok
	}
}

// become replaces the file.
func become(text string) texts { return inWhole(func(*file) (string, bool) { return text, true }) }

// header reports whether the layout has a header line above its rows, and
// returns it.
func (f *file) header() (string, bool) {
	lines := strings.Split(strings.TrimRight(f.l.head, "\n"), "\n")
	h := lines[len(lines)-1]
	return h, f.l.head != "" && f.l.name != "epw"
}

// headerCells returns the header with the cells at which Tmax and Tmin stand.
func (f *file) headerCells() (cells []string, tmax, tmin int, ok bool) {
	h, ok := f.header()
	if !ok || !f.l.has([]weather.Column{weather.Tmax, weather.Tmin}) {
		return nil, 0, 0, false
	}
	index := func(c weather.Column) int {
		from, _ := f.cell(10, c)
		return strings.Count(quotedCommas(f.text[f.offset(f.lineOf(from)):from]), f.l.sep)
	}
	cells = strings.Split(h, f.l.sep)
	tmax, tmin = index(weather.Tmax), index(weather.Tmin)
	return cells, tmax, tmin, tmax != tmin && max(tmax, tmin) < len(cells)
}

// quotedCommas blanks the separators within quotes.
func quotedCommas(s string) string {
	b, in := []byte(s), false
	for i, c := range b {
		if c == '"' {
			in = !in
		} else if in && (c == ',' || c == ';') {
			b[i] = '_'
		}
	}
	return string(b)
}

func withHeader(f *file, cells []string) string {
	h, _ := f.header()
	return strings.Replace(f.text, h, strings.Join(cells, f.l.sep), 1)
}

// structureFaults lists the damages of cells, rows and files.
func structureFaults() []fault {
	var list []fault
	add := func(name string, do texts, codes ...weather.Code) {
		list = append(list, fault{name: name, years: 2, text: do, codes: codes})
	}
	same := func(name string, do texts) {
		list = append(list, fault{name: name, years: 2, text: do, none: true})
	}
	cellFaults(add)
	rowFaults(add)
	wholeFaults(add, same)
	return list
}

// rowFaults lists the damages of rows.
func rowFaults(add func(string, texts, ...weather.Code)) {
	short := func(f *file, line string) (string, bool) {
		return line[:strings.LastIndexAny(strings.TrimRight(line, f.l.sep+" \""), f.l.sep+" ")], true
	}
	add("a row cut short", inLine(func(f *file, line string) (string, bool) { return line[:len(line)/2], true }))
	add("a row without its last cells", inLine(short), weather.CodeMissingValues)
	add("a cell too many", inLine(func(f *file, line string) (string, bool) { return line + f.l.sep + "7", true }))
	add("a quote that is not closed", inCell(func(w string) string { return `"` + w }))
	add("two rows joined", inRows(func(_ *rand.Rand, f *file, i int, rows string) (string, bool) {
		if strings.Contains(rows, "\n") {
			return strings.Replace(rows, "\n", "", 1), true
		}
		return rows + strings.TrimSuffix(f.l.row(f.days[i+1]), "\n"), true
	}))
	add("a row broken in two", inLine(func(f *file, line string) (string, bool) {
		k := strings.Index(line[len(line)/2:], f.l.sep)
		if k < 0 {
			return "", false
		}
		k += len(line) / 2
		return line[:k+1] + "\n" + line[k+1:], true
	}))
	add("another separator in a row", inLine(func(f *file, line string) (string, bool) {
		return strings.ReplaceAll(line, f.l.sep, "|"), true
	}))
	add("a cell lost, so that the others move up", inRows(func(_ *rand.Rand, f *file, i int, rows string) (string, bool) {
		if strings.Contains(rows, "\n") || f.starts == nil {
			return "", false
		}
		from, to := f.cell(i, cellColumn(f))
		from, to = from-f.starts[i], to-f.starts[i]
		if from > 0 && rows[from-1] == '"' {
			from, to = from-1, to+1
		}
		return rows[:from] + strings.TrimPrefix(rows[to:], f.l.sep) + f.l.sep, true
	}), weather.CodeTmaxBelowTmin, weather.CodeOddValue, weather.CodeOddCell, weather.CodePastLimits, weather.CodeRainLoneDay,
		weather.CodeMissingValues, weather.CodeDewPointAboveTmax, weather.CodeHumidityBelow2)
	add("a line of notes", inLine(func(_ *file, line string) (string, bool) { return line + "\nstation moved to the new mast", true }))
	add("a line of totals", inLine(func(f *file, line string) (string, bool) {
		return line + "\nTotal" + strings.Repeat(f.l.sep, strings.Count(line, f.l.sep)), true
	}))
	add("a mark of a merge", inLine(func(_ *file, line string) (string, bool) { return "<<<<<<< HEAD\n" + line, true }))
	add("the header repeated among the rows", inLine(func(f *file, line string) (string, bool) {
		h, ok := f.header()
		return line + "\n" + h, ok
	}))
	add("a day twice with different values", inRows(func(_ *rand.Rand, f *file, i int, rows string) (string, bool) {
		d := f.days[i]
		d.set(cellColumn(f), 9.9)
		if f.starts == nil {
			return "", false
		}
		return rows + "\n" + strings.TrimSuffix(f.l.row(d), "\n"), true
	}))
	add("rows twice", inRows(func(_ *rand.Rand, _ *file, _ int, rows string) (string, bool) { return rows + "\n" + rows, true }),
		weather.CodeDuplicateRows)
	add("a row lost", lose(1), weather.CodeMissingDays)
	add("two months lost", lose(60), weather.CodeMissingDays)
	add("the next row first", inRows(func(_ *rand.Rand, f *file, i int, rows string) (string, bool) {
		if f.starts == nil {
			return "", false
		}
		return f.l.row(f.days[i+1]) + rows, true
	}), weather.CodeDatesOutOfOrder, weather.CodeDuplicateRows)
	add("a row of another year", func(rng *rand.Rand, f *file) (string, place, bool) {
		if f.starts == nil {
			return "", place{}, false
		}
		i := f.some(rng)
		d, at := f.days[i], f.at(i)
		d.date += 365 * 60
		at.from, _ = f.rowsOf(i - 1)
		at.last = d.date
		return f.with(f.starts[i], f.starts[i+1], f.l.row(d)), at, true
	}, weather.CodeMissingDays)
}

// lose drops n days.
func lose(n int) texts {
	return func(rng *rand.Rand, f *file) (string, place, bool) {
		i := f.some(rng)
		at := place{0, 0, f.days[i].date, f.days[i+n-1].date}
		if f.starts == nil {
			return f.l.write(slices.Concat(f.days[:i], f.days[i+n:])), at, true
		}
		return f.with(f.starts[i], f.starts[i+n], ""), at, true
	}
}

// wholeFaults lists the damages of the whole file.
func wholeFaults(add func(string, texts, ...weather.Code), same func(string, texts)) {
	add("an empty file", become(""))
	add("a file of blanks", become(" \n\n\t\n"))
	add("gzip", become("\x1f\x8b\x08\x00\x00\x00\x00\x00"))
	add("a workbook", become("PK\x03\x04\x14\x00\x06\x00"))
	add("a web page", become("<!DOCTYPE html><html><body>Session expired</body></html>"))
	add("JSON", become(`{"error": "no data"}`))
	add("UTF-16", inWhole(func(f *file) (string, bool) {
		var b strings.Builder
		b.WriteString("\xff\xfe")
		for i := range f.text {
			b.WriteByte(f.text[i])
			b.WriteByte(0)
		}
		return b.String(), true
	}))
	add("a line of two megabytes", inLine(func(_ *file, line string) (string, bool) { return line + strings.Repeat(" ", 2<<20), true }))
	add("nothing below the header", inWhole(func(f *file) (string, bool) { return f.l.head, f.l.head != "" }))
	add("no header", inWhole(func(f *file) (string, bool) {
		h, ok := f.header()
		return strings.Replace(f.text, h+"\n", "", 1), ok
	}))
	add("an unknown name for Tmax", inWhole(func(f *file) (string, bool) {
		cells, tmax, _, ok := f.headerCells()
		if ok {
			cells[tmax] = strings.ReplaceAll(cells[tmax], cells[tmax], "hottest")
		}
		return withHeader(f, cells), ok
	}))
	add("Tmax and Tmin swapped in the header", inWhole(func(f *file) (string, bool) {
		cells, tmax, tmin, ok := f.headerCells()
		if ok {
			cells[tmax], cells[tmin] = cells[tmin], cells[tmax]
		}
		return withHeader(f, cells), ok
	}), weather.CodeTmaxBelowTmin)
	add("a name twice in the header", inWhole(func(f *file) (string, bool) {
		cells, tmax, tmin, ok := f.headerCells()
		if ok {
			cells[tmin] = cells[tmax]
		}
		return withHeader(f, cells), ok
	}))
	add("another separator everywhere", inWhole(func(f *file) (string, bool) { return strings.ReplaceAll(f.text, f.l.sep, "|"), true }))
	add("decimal commas everywhere", inWhole(func(f *file) (string, bool) {
		rows := f.text[len(f.l.head):]
		return f.l.head + strings.ReplaceAll(rows, ".", ","), strings.Contains(rows, ".")
	}))
	add("the file twice", inWhole(func(f *file) (string, bool) { return f.text + f.text, true }), weather.CodeDuplicateRows)
	add("two stations in one file", inWhole(func(f *file) (string, bool) {
		rows := f.text[len(f.l.head):]
		if f.l.id == "" {
			return "", false
		}
		id, rest, _ := strings.Cut(f.l.id, ",")
		other := strings.TrimSuffix(id[:len(id)-1]+"8,"+rest, ",")
		return f.text + strings.ReplaceAll(rows, f.l.id, other), true
	}))
	add("a download that ends within a row", inWhole(func(f *file) (string, bool) {
		last := f.lines[len(f.lines)-1]
		return f.text[:len(f.text)-len(last)+len(last)/2], true
	}))
	add("a download that ends between rows", inWhole(func(f *file) (string, bool) { return f.text[:f.offset(len(f.lines)*3/4)], true }))
	add("a download that ends within the last number", inWhole(func(f *file) (string, bool) {
		from, to := f.cell(len(f.days)-1, f.l.cols[len(f.l.cols)-1])
		return f.text[:to-1], to-from > 2 && strings.TrimRight(f.text[to:], "\n") == ""
	}))
	same("lines that end in CR LF", inWhole(func(f *file) (string, bool) { return strings.ReplaceAll(f.text, "\n", "\r\n"), true }))
	same("lines that end in CR", inWhole(func(f *file) (string, bool) { return strings.ReplaceAll(f.text, "\n", "\r"), true }))
	same("a byte order mark", inWhole(func(f *file) (string, bool) { return "\xef\xbb\xbf" + f.text, true }))
	same("blank lines among the rows", inLine(func(_ *file, line string) (string, bool) { return line + "\n\n\n", true }))
	same("blanks at the ends of lines", inWhole(func(f *file) (string, bool) { return strings.ReplaceAll(f.text, "\n", "  \n"), true }))
	same("no end of the last line", inWhole(func(f *file) (string, bool) { return strings.TrimRight(f.text, "\n"), true }))
}
