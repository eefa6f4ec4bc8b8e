package ledgerfile

import (
	"math"
	"strings"
)

// quoted returns s as a CSV field. It is quoted, with quotes doubled, if it
// contains a comma, a quote or a line break (RFC 4180 rules 5 to 7), or starts or
// ends with a space, which some readers would drop.
func quoted(s string) string {
	if !strings.ContainsAny(s, ",\"\r\n") && strings.TrimSpace(s) == s {
		return s
	}
	return `"` + strings.ReplaceAll(s, `"`, `""`) + `"`
}

// appendHeader appends the line of column names.
func appendHeader(b []byte, columns []Column) []byte {
	for i := range columns {
		if i > 0 {
			b = append(b, ',')
		}
		b = append(b, columns[i].Key...)
	}
	return append(b, '\n')
}

// finite reports whether v is neither NaN nor infinite.
func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
