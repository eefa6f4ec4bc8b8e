package damage

import (
	"os"
	"slices"
	"testing"

	"loamledger/weather"
)

// long reports whether every fault is tried in every layout, at several places.
func long() bool { return os.Getenv("LONG") != "" }

// sampled is the share of the tries, one in so many, without long.
const sampled = 5

// longSeeds is how many places each fault has in each layout with long.
const longSeeds = 3

// Undamaged files give nothing doubtful or decisive, in every layout.
func TestUndamaged(t *testing.T) {
	for _, years := range []int{2, 4, 8, 12} {
		for _, l := range layouts() {
			if years > 4 && !long() && l.sep != "," {
				continue
			}
			rec, err := read(&l, l.write(temperate(years, 34)))
			if err != nil {
				t.Errorf("%s: %v", l.name, err)
				continue
			}
			for _, c := range l.cols {
				if !rec.Has(c) {
					t.Errorf("%s lacks %s", l.name, c.Key())
				}
			}
			for _, f := range rec.Findings {
				if f.Code.Weight() > weather.Note {
					t.Errorf("%s, %d undamaged years: %s %s", l.name, years, f.Code, f.Detail)
				}
			}
		}
	}
}

// A count is how often each outcome occurred.
type count [outcomes]int

// Every damage in every layout is refused or reported at its place, or leaves
// every value as it was; what passes without a word is a known blind spot.
func TestDamage(t *testing.T) {
	faults, all := faults(), layouts()
	seeds := uint64(1)
	if long() {
		seeds = longSeeds
	}
	byLayout := make([]count, len(all))
	unseen := map[string]int{}
	for k := range faults {
		for j := range all {
			if !long() && (k+j)%sampled != 0 {
				continue
			}
			for seed := range seeds {
				x, l := &faults[k], &all[j]
				o, detail, ok := try(x, l, seed)
				if !ok {
					break
				}
				byLayout[j][o]++
				_, known := blind(x.name, l.name)
				switch {
				case o == astray, o == silent && !known:
					t.Errorf("%s | %s | %s: seed %d, %s", x.name, l.name, o, seed, detail)
				case o != same && x.none:
					t.Errorf("%s | %s | %s: seed %d, %s", x.name, l.name, o, seed, detail)
				case o == silent:
					unseen[x.name]++
				}
			}
		}
	}
	for _, b := range blindSpots() {
		if long() && unseen[b.fault] == 0 {
			t.Errorf("%s is always seen, so it is not a blind spot", b.fault)
		}
	}
	t.Log("\n" + table(all, byLayout))
}

// faults lists every kind of damage.
func faults() []fault { return slices.Concat(structureFaults(), valueFaults()) }
