package plots

import (
	"strings"

	"loamledger/sim"
)

// maxNamed is how many places are listed by name.
const maxNamed = 3

// grouped merges defaults that differ only in place, in the order of the first:
// nobody reads a page of equal lines.
func grouped(all []Default, zones []sim.Zone) []Default {
	isZone := map[string]bool{}
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
		all := len(zones) > 1
		for _, name := range where {
			all = all && isZone[name]
		}
		switch n := len(where); {
		case all && n == len(zones):
			out[i].Where = "all " + count(n, "zone", "zones")
		case n <= maxNamed:
			out[i].Where = strings.Join(where, ", ")
		default:
			one, many := "place", "places"
			if all {
				one, many = "zone", "zones"
			}
			out[i].Where = count(n, one, many) + ": " + strings.Join(where[:maxNamed-1], ", ") +
				" and " + count(n-maxNamed+1, "other", "others")
		}
	}
	return out
}
