package plots

import (
	"slices"
	"strings"

	"loamledger/sim"
)

// maxNamed is how many places are listed by name.
const maxNamed = 3

// Grouped merges defaults that differ only in place, in the order of the first:
// nobody reads a page of equal lines.
func Grouped(all []Default, zones []sim.Zone, strategies []string) []Default {
	isZone, isStrategy := map[string]bool{}, map[string]bool{}
	for _, name := range strategies {
		isStrategy[name] = true
	}
	for i := range zones {
		isZone[zones[i].Name] = true
	}
	var out []Default
	places := map[Default][]string{}
	for _, d := range all {
		where := d.Where
		d.Where = ""
		if places[d] == nil {
			out = append(out, d)
		}
		places[d] = append(places[d], where)
	}
	for i := range out {
		where := places[out[i]]
		all, strategies := len(zones) > 1, true
		for _, name := range where {
			all, strategies = all && isZone[name], strategies && isStrategy[name] && !isZone[name]
		}
		if strategies { // their names may have commas
			where = slices.Clone(where)
			for i := range where {
				where[i] = quote(where[i])
			}
		}
		switch n := len(where); {
		case all && n == len(zones):
			out[i].Where = "all " + count(n, "zone", "zones")
		case n <= maxNamed:
			out[i].Where = punctuated(strings.Join(where, ", "))
		default:
			one, many := "place", "places"
			switch {
			case all:
				one, many = "zone", "zones"
			case strategies:
				one, many = "strategy", "strategies"
			}
			out[i].Where = punctuated(count(n, one, many) + ": " + strings.Join(where[:maxNamed-1], ", ") + " and " + otherWords(n-maxNamed+1))
		}
	}
	return out
}
