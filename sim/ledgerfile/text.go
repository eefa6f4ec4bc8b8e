package ledgerfile

import (
	"math"
	"strconv"
	"strings"
)

// appendFloat appends v in the fewest digits that read back as v. Most values
// of a ledger are 0 or 1, which need no search for digits. Minus zero is
// written as 0: it is the same depth.
func appendFloat(b []byte, v float64) []byte {
	switch v {
	case 0:
		return append(b, '0')
	case 1:
		return append(b, '1')
	}
	return strconv.AppendFloat(b, v, 'g', -1, 64)
}

// A memo remembers the digits of the last value of a column that seldom
// changes: the search for the fewest digits is most of the work of a line.
type memo struct {
	v    float64
	text []byte
}

func (m *memo) append(b []byte, v float64) []byte {
	if v == 0 {
		return append(b, '0')
	}
	if v != m.v {
		m.v, m.text = v, appendFloat(m.text[:0], v)
	}
	return append(b, m.text...)
}

// quoted returns s as a CSV field: in quotes, with quotes doubled, where it
// holds a comma, a quote or a line break (RFC 4180 rules 5 to 7), or starts or
// ends with a space, which some readers would drop.
func quoted(s string) string {
	if !strings.ContainsAny(s, ",\"\r\n") && strings.TrimSpace(s) == s {
		return s
	}
	return `"` + strings.ReplaceAll(s, `"`, `""`) + `"`
}

// finite reports whether v is a number.
func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
