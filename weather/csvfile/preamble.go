package csvfile

import (
	"bytes"
	"strings"
)

// numberAfter reads the first number after word in a line, ignoring case.
func numberAfter(line []byte, word string) (float64, bool) {
	i := bytes.Index(lowerASCII(line), []byte(word))
	if i < 0 {
		return nan, false
	}
	rest := line[i+len(word):]
	start := bytes.IndexAny(rest, "+-.0123456789")
	if start < 0 || len(bytes.TrimLeft(rest[:start], " \t:=")) > 0 {
		return nan, false
	}
	rest = rest[start:]
	end := 0
	for end < len(rest) && strings.IndexByte("+-.0123456789eE", rest[end]) >= 0 {
		end++
	}
	v, ok := number(rest[:end])
	if !ok {
		return nan, false
	}
	return v, true
}

// lowerASCII converts ASCII letters to lower case and keeps every byte in
// place, in any encoding.
func lowerASCII(line []byte) []byte {
	low := make([]byte, len(line))
	for i, c := range line {
		if c >= 'A' && c <= 'Z' {
			c += 'a' - 'A'
		}
		low[i] = c
	}
	return low
}

// fact stores the number after word in to, if the line has one.
func fact(to *float64, line []byte, word string) {
	if v, ok := numberAfter(line, word); ok {
		*to = v
	}
}
