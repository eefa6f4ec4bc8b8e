package csvfile

import (
	"bytes"
	"fmt"
	"io"

	"loamledger/weather/diag"
)

const (
	maxLine   = 1 << 20   // longest line of a weather table
	leadBytes = 256 << 10 // how much is inspected to detect a layout
)

// A scanner yields the lines of a file with their numbers in bounded memory.
// Lines may end in any mix of LF and CRLF, or in bare CR.
type scanner struct {
	src      io.Reader
	name     string
	buf      []byte
	pos, end int // the unread bytes are buf[pos:end]
	full     int // end before truncation at a zero byte
	eof      bool
	eol      byte
	line     int // number of the last line returned
	noFinal  bool
	err      error // what stopped the scanner
}

// newScanner reads the start of src and rejects anything that is not text.
func newScanner(src io.Reader, name string) (*scanner, error) {
	s := &scanner{src: src, name: name, buf: make([]byte, leadBytes), eol: '\n'}
	for !s.eof && s.end < len(s.buf) && s.err == nil {
		s.fill()
	}
	if msg, fix := foreign(s.buf[:s.full]); msg != "" {
		return nil, &diag.Error{Code: diag.NotText, Pos: diag.Pos{File: name}, Msg: msg, Fix: fix}
	}
	if s.err != nil {
		return nil, s.err
	}
	start := s.buf[:s.end]
	if len(bytes.TrimSpace(bytes.TrimPrefix(start, bom))) == 0 && s.eof {
		return nil, &diag.Error{Code: diag.EmptyFile, Pos: diag.Pos{File: name}, Msg: "the file is empty",
			Fix: "download it again; a weather file has a header and one row per day"}
	}
	if bytes.HasPrefix(start, bom) {
		s.pos = len(bom)
	}
	if bytes.IndexByte(start, '\n') < 0 && bytes.IndexByte(start, '\r') >= 0 {
		s.eol = '\r'
	}
	return s, nil
}

var bom = []byte("\xef\xbb\xbf")

// signatures are the first bytes of files that are often renamed to .csv.
var signatures = []struct{ magic, what, fix string }{
	{"\x1f\x8b", "gzip data", "decompress it first (gunzip)"},
	{"PK\x03\x04", "a zip archive or spreadsheet workbook", "unzip it, or save the sheet as CSV"},
	{"\xd0\xcf\x11\xe0", "an old spreadsheet workbook", "save the sheet as CSV"},
	{"BZh", "bzip2 data", "decompress it first (bunzip2)"},
	{"\xfd7zXZ", "xz data", "decompress it first (unxz)"},
	{"\x28\xb5\x2f\xfd", "zstd data", "decompress it first (unzstd)"},
	{"PAR1", "a Parquet file", "export it as CSV"},
	{"\x89HDF", "an HDF5 or netCDF file", "export the point as CSV"},
	{"CDF", "a netCDF file", "export the point as CSV"},
	{"%PDF", "a PDF document", "ask the source for CSV"},
	{"\xff\xfe", "UTF-16 text", "save it as UTF-8"},
	{"\xfe\xff", "UTF-16 text", "save it as UTF-8"},
}

// foreign names the file type if the bytes are not plain text, and the remedy.
func foreign(b []byte) (msg, fix string) {
	for _, s := range signatures {
		if bytes.HasPrefix(b, []byte(s.magic)) {
			return "the file contains " + s.what + ", not lines of text", s.fix
		}
	}
	if n := min(len(b), 64); n >= 8 && bytes.Count(b[:n], []byte{0}) >= n/3 {
		return "the file contains UTF-16 or binary data, not plain text", "save it as UTF-8 text"
	}
	start := bytes.ToLower(bytes.TrimSpace(bytes.TrimPrefix(b[:min(len(b), 200)], bom)))
	if bytes.HasPrefix(start, []byte("<!doctype")) || bytes.HasPrefix(start, []byte("<html")) {
		return "the file is a web page, not a table", "download the data itself; a web page often means an expired link or a login"
	}
	if bytes.HasPrefix(start, []byte("{")) || bytes.HasPrefix(start, []byte("[{")) {
		return "the file is JSON, not a table", "ask the source for CSV"
	}
	return "", ""
}

// fill reads more bytes into the buffer, which must have room.
func (s *scanner) fill() {
	for range 100 {
		n, err := s.src.Read(s.buf[s.end:])
		if n < 0 || n > len(s.buf)-s.end {
			panic("csvfile: reader returned an impossible count")
		}
		s.full = s.end + n
		if i := bytes.IndexByte(s.buf[s.end:s.end+n], 0); i >= 0 {
			at := s.end + i
			line := s.line + 1 + bytes.Count(s.buf[s.pos:at], []byte{'\n'})
			col := at - max(s.pos-1, bytes.LastIndexByte(s.buf[:at], '\n'))
			s.err = &diag.Error{Code: diag.NotText, Pos: diag.Pos{File: s.name, Line: line, Col: col},
				Msg: "a zero byte: the file is binary or damaged", Fix: "download it again as plain text"}
			n = i
		}
		s.end += n
		switch {
		case err == io.EOF:
			s.eof = true
			return
		case err != nil && s.err == nil:
			s.err = fmt.Errorf("%s: %w", s.name, err)
		}
		if n > 0 || s.err != nil {
			return
		}
	}
	s.err = fmt.Errorf("%s: %w", s.name, io.ErrNoProgress)
}

// next returns the next line without its end, valid until the next call.
func (s *scanner) next() ([]byte, bool) {
	seen := 0
	for {
		if i := bytes.IndexByte(s.buf[s.pos+seen:s.end], s.eol); i >= 0 {
			line := s.buf[s.pos : s.pos+seen+i]
			s.pos += seen + i + 1
			s.line++
			return trimCR(line), true
		}
		seen = s.end - s.pos
		if s.err != nil {
			return nil, false
		}
		if seen > maxLine {
			s.err = &diag.Error{Code: diag.TooLarge, Pos: diag.Pos{File: s.name, Line: s.line + 1}, Msg: "line longer than 1 MiB: not a daily table",
				Fix: "check that the file is plain text with one row per line"}
			return nil, false
		}
		if s.eof {
			if seen == 0 {
				return nil, false
			}
			line := s.buf[s.pos:s.end]
			s.pos, s.noFinal = s.end, true
			s.line++
			return trimCR(line), true
		}
		if s.pos > 0 {
			copy(s.buf, s.buf[s.pos:s.end])
			s.pos, s.end = 0, seen
		}
		if s.end == len(s.buf) {
			bigger := make([]byte, min(2*len(s.buf), maxLine+leadBytes))
			copy(bigger, s.buf[:s.end])
			s.buf = bigger
		}
		s.fill()
	}
}

func trimCR(line []byte) []byte {
	if n := len(line); n > 0 && line[n-1] == '\r' {
		return line[:n-1]
	}
	return line
}
