package zonefile

import (
	"loamledger/scenarios"
)

// columnsOf returns the parameters that have a column, in order.
func columnsOf(list []scenarios.ZoneParam) []scenarios.ZoneParam {
	var out []scenarios.ZoneParam
	for _, p := range list {
		if p.Column != "" {
			out = append(out, p)
		}
	}
	return out
}

// names returns the names of the valid columns.
func (t *table) names() []string {
	var out []string
	for _, p := range t.columns {
		out = append(out, p.Column)
	}
	return out
}
