package catalog

import (
	"slices"
	"strings"

	"loamledger/scenarios/names"
)

// findAll returns the entries of a list that are called name, by their own names
// first: an entry's name is never ambiguous.
func findAll[T any](list []T, name string, called func(T) (string, []string)) []T {
	var own, other []T
	for _, v := range list {
		first, more := called(v)
		switch {
		case matches(name, first):
			own = append(own, v)
		case slices.ContainsFunc(more, func(a string) bool { return matches(name, a) }):
			other = append(other, v)
		}
	}
	if len(own) > 0 {
		return own
	}
	return other
}

// only returns the entry of a list of one.
func only[T any](list []T) (v T, ok bool) {
	if len(list) != 1 {
		return v, false
	}
	return list[0], true
}

func namesOf[T any](list []T, name func(T) string) []string {
	out := make([]string, len(list))
	for i, v := range list {
		out[i] = name(v)
	}
	return out
}

// LikePlants returns the plantings that an unknown name probably means: those
// called by the longest run of its words; none if no word is known.
func LikePlants(name string) []string {
	words := names.Words(name)
	for n := len(words); n > 0; n-- {
		for i := range len(words) - n + 1 {
			if found := FindPlants(strings.Join(words[i:i+n], " ")); len(found) > 0 {
				return namesOf(found, func(p Plant) string { return p.Name })
			}
		}
	}
	return nil
}
