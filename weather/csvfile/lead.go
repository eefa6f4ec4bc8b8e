package csvfile

import (
	"bytes"
	"slices"
	"strings"
)

// leadLines is how many lines from the start are searched for a header. The
// longest known preamble is about fifty lines.
const leadLines = 300

// A lead is the start of a file, inspected before anything is consumed.
type lead struct {
	lines [][]byte
	names map[int][]string
}

func newLead(s *scanner) *lead {
	h := &lead{names: map[int][]string{}}
	rest := s.buf[s.pos:s.end]
	for len(rest) > 0 && len(h.lines) < leadLines {
		i := bytes.IndexByte(rest, s.eol)
		if i < 0 {
			if s.eof {
				h.lines = append(h.lines, trimCR(rest))
			}
			break
		}
		h.lines = append(h.lines, trimCR(rest[:i]))
		rest = rest[i+1:]
	}
	return h
}

// text returns line n (from 1) unchanged, "" after the end.
func (h *lead) text(n int) string {
	if n < 1 || n > len(h.lines) {
		return ""
	}
	return string(h.lines[n-1])
}

// cells returns the comma-separated cells of line n (from 1), trimmed, in the
// file's own case.
func (h *lead) cells(n int) []string {
	if n < 1 || n > len(h.lines) {
		return nil
	}
	if c, ok := h.names[n]; ok {
		return c
	}
	row, bad := split(nil, h.lines[n-1], ',')
	var cells []string
	if bad == nil && len(row) > 1 {
		cells = cellNames(row)
	}
	h.names[n] = cells
	return cells
}

func cellNames(row []field) []string {
	cells := make([]string, len(row))
	for i, f := range row {
		cells[i] = string(f.text)
	}
	return cells
}

// has reports whether line n has all the names as whole cells, ignoring case.
func (h *lead) has(n int, names ...string) bool {
	cells := h.cells(n)
	if len(cells) == 0 {
		return false
	}
	for _, want := range names {
		if place(cells, want) < 0 {
			return false
		}
	}
	return true
}

// starts reports whether line n begins with exactly these cells, ignoring case.
func (h *lead) starts(n int, names ...string) bool {
	cells := h.cells(n)
	if len(cells) < len(names) {
		return false
	}
	for i, want := range names {
		if !strings.EqualFold(cells[i], want) {
			return false
		}
	}
	return true
}

// place returns the index of the cell called name, ignoring case, or -1.
func place(cells []string, name string) int {
	return slices.IndexFunc(cells, func(c string) bool { return strings.EqualFold(c, name) })
}
