package forecastfile

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"

	"loamledger/weather/diag"
)

const maxLine = 64 << 10 // bytes in the longest line

// lines yields the lines of a file, LF or CRLF, in bounded memory.
type lines struct {
	r    *bufio.Reader
	file string
	n    int // number of the last line returned
}

func newLines(r io.Reader, file string) *lines {
	return &lines{r: bufio.NewReaderSize(r, maxLine), file: file}
}

// next returns the next line without its end, valid until the next call. ok is
// false at the end of the file.
func (l *lines) next() (line []byte, ok bool, err error) {
	line, err = l.r.ReadSlice('\n')
	l.n++
	switch {
	case errors.Is(err, bufio.ErrBufferFull):
		return nil, false, l.refuse(diag.TooLarge, 0, "line too long: more than 64 KiB",
			"check that the file is plain text with one forecast per line")
	case err == io.EOF && len(line) == 0:
		return nil, false, nil
	case err != nil && err != io.EOF:
		return nil, false, fmt.Errorf("%s: %w", l.file, err)
	}
	if l.n == 1 {
		line = bytes.TrimPrefix(line, []byte("\xef\xbb\xbf"))
	}
	line = bytes.TrimSuffix(bytes.TrimSuffix(line, []byte("\n")), []byte("\r"))
	for i, b := range line {
		if b < ' ' && b != '\t' {
			return nil, false, l.refuse(diag.NotText, i+1, fmt.Sprintf("byte value %d: not a plain text file", b),
				"save it as CSV in UTF-8; decompress it first if it is compressed")
		}
	}
	return line, true, nil
}

func (l *lines) refuse(code diag.Code, col int, msg, fix string) error {
	return &diag.Error{Code: code, Pos: diag.Pos{File: l.file, Line: l.n, Col: col}, Msg: msg, Fix: fix}
}

// A cell is one field of a row without surrounding blanks and quotes.
type cell struct {
	text []byte
	col  int // byte column of the first byte, from 1
}

// split cuts a line at commas. No column contains text, so commas within quotes
// are not handled.
func split(dst []cell, line []byte) []cell {
	for from := 0; ; {
		end := bytes.IndexByte(line[from:], ',')
		text := line[from:]
		if end >= 0 {
			text = line[from : from+end]
		}
		dst = append(dst, trim(text, from))
		if end < 0 {
			return dst
		}
		from += end + 1
	}
}

func trim(text []byte, from int) cell {
	left := bytes.TrimLeft(text, " \t")
	c := cell{bytes.TrimRight(left, " \t"), from + len(text) - len(left) + 1}
	if n := len(c.text); n >= 2 && c.text[0] == '"' && c.text[n-1] == '"' {
		c.text, c.col = c.text[1:n-1], c.col+1
	}
	return c
}
