package csvfile

import (
	"bytes"
	"strings"
)

// numberAfter reads the first number behind word in a line, letter case aside.
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

// lowerASCII makes capitals small and keeps every byte in its place, whatever
// the encoding.
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

// fact puts the number behind word into to when the line has one.
func fact(to *float64, line []byte, word string) {
	if v, ok := numberAfter(line, word); ok {
		*to = v
	}
}
