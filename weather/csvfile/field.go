package csvfile

import "bytes"

// A field is one cell of a row, without surrounding quotes and blanks.
type field struct {
	text []byte
	col  int // byte column of its first byte, from 1
}

// A badQuote says where the quoting of a line is wrong.
type badQuote struct {
	col int
	msg string
}

// split splits a line at sep into dst, which it reuses. The fields point into
// the line, except where a doubled quote had to be unescaped.
func split(dst []field, line []byte, sep byte) ([]field, *badQuote) {
	dst = dst[:0]
	if bytes.IndexByte(line, '"') >= 0 {
		return splitQuoted(dst, line, sep)
	}
	for from := 0; ; {
		i := bytes.IndexByte(line[from:], sep)
		if i < 0 {
			return append(dst, trimmed(line[from:], from)), nil
		}
		dst = append(dst, trimmed(line[from:from+i], from))
		from += i + 1
	}
}

func splitQuoted(dst []field, line []byte, sep byte) ([]field, *badQuote) {
	for from := 0; ; {
		i := from
		for i < len(line) && (line[i] == ' ' || line[i] == '\t') && line[i] != sep {
			i++
		}
		if i == len(line) || line[i] != '"' {
			end := bytes.IndexByte(line[from:], sep)
			if end < 0 {
				return append(dst, trimmed(line[from:], from)), nil
			}
			dst = append(dst, trimmed(line[from:from+end], from))
			from += end + 1
			continue
		}
		open := i
		i++
		begin, doubled := i, false
		for {
			end := bytes.IndexByte(line[i:], '"')
			if end < 0 {
				return dst, &badQuote{open + 1, "a quote is not closed on its line"}
			}
			i += end
			if i+1 >= len(line) || line[i+1] != '"' {
				break
			}
			doubled = true
			i += 2
		}
		text := line[begin:i]
		if doubled {
			text = bytes.ReplaceAll(text, []byte(`""`), []byte(`"`))
		}
		dst = append(dst, trimmed(text, begin))
		i++
		for i < len(line) && (line[i] == ' ' || line[i] == '\t') && line[i] != sep {
			i++
		}
		if i == len(line) {
			return dst, nil
		}
		if line[i] != sep {
			return dst, &badQuote{i + 1, "text between a closing quote and the next separator"}
		}
		from = i + 1
	}
}

// splitBlank splits a line at runs of blanks, for tables without separators.
func splitBlank(dst []field, line []byte) []field {
	dst = dst[:0]
	for i := 0; i < len(line); {
		if line[i] == ' ' || line[i] == '\t' {
			i++
			continue
		}
		from := i
		for i < len(line) && line[i] != ' ' && line[i] != '\t' {
			i++
		}
		dst = append(dst, field{line[from:i], from + 1})
	}
	return dst
}

// trimmed makes a field of text that starts at byte from of its line.
func trimmed(text []byte, from int) field {
	i, j := 0, len(text)
	for i < j && (text[i] == ' ' || text[i] == '\t') {
		i++
	}
	if i == j {
		return field{nil, from + 1}
	}
	for text[j-1] == ' ' || text[j-1] == '\t' {
		j--
	}
	return field{text[i:j], from + i + 1}
}

// blank reports whether a line is blank.
func blank(line []byte) bool { return len(bytes.TrimLeft(line, " \t")) == 0 }
