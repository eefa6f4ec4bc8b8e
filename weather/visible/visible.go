// Package visible writes text from files so that it can neither steer a terminal
// nor hide or reorder what a page shows.
package visible

import (
	"fmt"
	"io"
	"strings"
	"unicode"
	"unicode/utf8"
)

// A Writer writes text to another writer. Control characters other than tabs and
// ends of lines, and characters that change the direction of writing, are written
// as \u and four hexadecimal digits, which JSON reads as the same character. Bytes
// that are not UTF-8 become U+FFFD. Close the writer after the last text.
type Writer struct {
	w    io.Writer
	rest []byte // the begin of a character
	out  []byte
}

// NewWriter returns a writer to w.
func NewWriter(w io.Writer) *Writer { return &Writer{w: w} }

// Write writes text; a character may be parted between two calls.
func (v *Writer) Write(p []byte) (int, error) {
	text := append(v.rest, p...)
	v.out = v.out[:0]
	for len(text) > 0 && utf8.FullRune(text) {
		r, n := utf8.DecodeRune(text)
		v.put(r)
		text = text[n:]
	}
	v.rest = append([]byte(nil), text...)
	if _, err := v.w.Write(v.out); err != nil {
		return 0, err
	}
	return len(p), nil
}

func (v *Writer) put(r rune) {
	if hidden(r) {
		v.out = fmt.Appendf(v.out, `\u%04x`, r)
	} else {
		v.out = utf8.AppendRune(v.out, r)
	}
}

// Close writes what is left; it does not close the writer below.
func (v *Writer) Close() error {
	if len(v.rest) == 0 {
		return nil
	}
	v.rest = nil
	_, err := v.w.Write([]byte("\ufffd"))
	return err
}

// Text returns s as a Writer would write it.
func Text(s string) string {
	var b strings.Builder
	w := NewWriter(&b)
	_, _ = w.Write([]byte(s)) // a builder never fails
	_ = w.Close()
	return b.String()
}

// hidden reports whether r must not be shown as it is.
func hidden(r rune) bool {
	switch {
	case r == '\n' || r == '\t':
		return false
	case unicode.Is(unicode.Cc, r), unicode.Is(unicode.Bidi_Control, r):
		return true
	}
	return r == '\u2028' || r == '\u2029' || r == '\ufeff'
}
