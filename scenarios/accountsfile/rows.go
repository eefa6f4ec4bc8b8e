package accountsfile

import (
	"bufio"
	"errors"
	"io"
	"strings"
	"unicode/utf8"

	"loamledger/weather/diag"
)

// A Cell is one cell of a table, with its place. Line and Col count from 1.
type Cell struct {
	text      string
	line, col int
}

// Rows are the rows of a table, the heading first. At the end Next returns [io.EOF]; any
// other error is a system error. Bad says what is wrong with the row just read, whose cells
// are then those before it. The cells are valid until the next call.
type Rows interface {
	Next() (cells []Cell, bad *diag.Error, err error)
}

// mostLine is the maximum length of a row [bytes].
const mostLine = 1 << 16

// A csvRows reads CSV line by line. Quotes end on their line, so that a forgotten one costs
// one row and not the rest of the table.
type csvRows struct {
	in    *bufio.Reader
	name  string
	line  int
	sep   byte
	cells []Cell
}

// CSV returns the rows of a CSV text, separated by commas, semicolons or tabs. name is the
// file name for messages.
func CSV(r io.Reader, name string) Rows {
	return &csvRows{in: bufio.NewReaderSize(r, mostLine), name: name}
}

// Next returns the next row that is not blank.
func (c *csvRows) Next() ([]Cell, *diag.Error, error) {
	for {
		text, long, err := c.read()
		if err != nil {
			return nil, nil, err
		}
		if c.line == 1 {
			text = strings.TrimPrefix(text, "\ufeff")
			c.sep = separator(text)
		}
		if strings.Trim(text, string(rune(c.sep))+" \t") == "" && !long {
			continue
		}
		c.cells = c.cells[:0]
		bad := c.split(text)
		switch {
		case long:
			bad = c.fault(diag.TooLarge, 0, "shorten it", "the row is longer than 64 KiB")
		case !utf8.ValidString(text) || strings.IndexByte(text, 0) >= 0:
			bad = c.fault(diag.NotText, 0, "save the table as UTF-8 CSV", "the row is not UTF-8 text")
		}
		return c.cells, bad, nil
	}
}

// read returns the next line without its end, or its beginning if it is too long.
func (c *csvRows) read() (text string, long bool, err error) {
	line, err := c.in.ReadSlice('\n')
	c.line++
	text = string(line)
	for errors.Is(err, bufio.ErrBufferFull) {
		long = true
		_, err = c.in.ReadSlice('\n')
	}
	if errors.Is(err, io.EOF) && text != "" {
		err = nil
	}
	return strings.TrimRight(text, "\r\n"), long, err
}

func (c *csvRows) fault(code diag.Code, col int, fix, msg string) *diag.Error {
	return &diag.Error{Code: code, Pos: diag.Pos{File: c.name, Line: c.line, Col: col}, Msg: msg, Fix: fix}
}

// separator detects the separator from the heading.
func separator(heading string) byte {
	for _, sep := range []byte(";\t") {
		if strings.IndexByte(heading, sep) >= 0 && strings.IndexByte(heading, ',') < 0 {
			return sep
		}
	}
	return ','
}

// split adds the cells of a line, up to an error.
func (c *csvRows) split(text string) *diag.Error {
	for at := 0; ; {
		for at < len(text) && (text[at] == ' ' || text[at] == '\t' && c.sep != '\t') {
			at++
		}
		cell := Cell{line: c.line, col: at + 1}
		if at < len(text) && text[at] == '"' {
			var ok bool
			if cell.text, at, ok = unquote(text, at+1); !ok {
				return c.fault(diag.BadSyntax, cell.col, "put the whole cell in quotes on one line, and double any quotes inside it",
					"a quoted cell does not end properly")
			}
			c.cells = append(c.cells, cell)
			if at == len(text) {
				return nil
			}
			at++
			continue
		}
		end := strings.IndexByte(text[at:], c.sep)
		if end < 0 {
			cell.text = strings.TrimRight(text[at:], " \t")
			c.cells = append(c.cells, cell)
			return nil
		}
		stray := strings.IndexByte(text[at:at+end], '"') >= 0
		cell.text = strings.TrimRight(text[at:at+end], " \t")
		if stray {
			return c.fault(diag.BadSyntax, cell.col, "put the whole cell in quotes, and double any quotes inside it", "a cell has a stray quote")
		}
		c.cells = append(c.cells, cell)
		at += end + 1
	}
}

// unquote reads a quoted cell from behind its first quote. end is the place of the separator
// behind it, or the end of the text.
func unquote(text string, at int) (cell string, end int, ok bool) {
	var b strings.Builder
	for at < len(text) {
		quote := strings.IndexByte(text[at:], '"')
		if quote < 0 {
			return "", 0, false
		}
		b.WriteString(text[at : at+quote])
		at += quote + 1
		if at < len(text) && text[at] == '"' {
			b.WriteByte('"')
			at++
			continue
		}
		for at < len(text) && text[at] == ' ' {
			at++
		}
		return strings.TrimSpace(b.String()), at, at == len(text) || strings.IndexByte(",;\t", text[at]) >= 0
	}
	return "", 0, false
}
