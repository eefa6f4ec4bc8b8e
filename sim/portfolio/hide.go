package portfolio

import (
	"math"
	"slices"
)

// Hide marks the cells that must not be printed, so that nothing is said of fewer than
// least accounts: cells with fewer, and as many more as it takes that no such cell can be
// worked out from the others and from the figures of all n accounts, by any sums and
// differences over all groupings at once, and that no printed cell less another one
// inside it leaves fewer than least accounts. Where there is a choice the smallest cell
// is hidden. It returns the number of hidden cells.
//
// Only sums and differences are considered: someone who knows the water of some accounts
// in a cell can still work out the rest of it.
func Hide(groupings []Grouping, n, least int) (hidden int) {
	for g := range groupings {
		for c := range groupings[g].Cells {
			cell := &groupings[g].Cells[c]
			cell.Hidden = len(cell.Accounts) < least
		}
	}
	for {
		next := exposed(groupings, n, least)
		if next == nil {
			break
		}
		next.Hidden = true
	}
	for g := range groupings {
		for c := range groupings[g].Cells {
			if groupings[g].Cells[c].Hidden {
				hidden++
			}
		}
	}
	return hidden
}

// exposed returns the cell to hide next; nil if what is printed exposes nothing.
func exposed(groupings []Grouping, n, least int) *Cell {
	p := newAtoms(groupings, n)
	for g := range groupings {
		for c := range groupings[g].Cells {
			if cell := &groupings[g].Cells[c]; cell.Hidden && p.follows(p.vector(cell)) {
				if next := smallest(groupings[g].Cells); next != nil {
					return next
				}
				return smallestOf(groupings)
			}
		}
	}
	// Two printed cells of which one is inside the other: their difference.
	for g := range groupings {
		for c := range groupings[g].Cells {
			outer := &groupings[g].Cells[c]
			for h := range groupings {
				for d := range groupings[h].Cells {
					inner := &groupings[h].Cells[d]
					more := len(outer.Accounts) - len(inner.Accounts)
					if g != h && !outer.Hidden && !inner.Hidden && more > 0 && more < least && within(inner.Accounts, outer.Accounts) {
						return inner
					}
				}
			}
		}
	}
	for g := range groupings {
		for c := range groupings[g].Cells {
			cell := &groupings[g].Cells[c]
			if more := n - len(cell.Accounts); !cell.Hidden && more > 0 && more < least {
				return cell
			}
		}
	}
	return nil
}

// smallest returns the smallest printed cell; nil if there is none.
func smallest(cells []Cell) (best *Cell) {
	for i := range cells {
		if c := &cells[i]; !c.Hidden && (best == nil || len(c.Accounts) < len(best.Accounts)) {
			best = c
		}
	}
	return best
}

func smallestOf(groupings []Grouping) (best *Cell) {
	for g := range groupings {
		if c := smallest(groupings[g].Cells); c != nil && (best == nil || len(c.Accounts) < len(best.Accounts)) {
			best = c
		}
	}
	return best
}

// within reports whether every account of a is one of b; both ascend.
func within(a, b []int) bool {
	for _, v := range a {
		if _, found := slices.BinarySearch(b, v); !found {
			return false
		}
	}
	return true
}

// atoms are the smallest sets of accounts that the groupings tell apart. A cell is a sum
// of atoms, so what follows from printed cells is their linear span.
type atoms struct {
	of    []int // atom of each account
	count int
	basis [][]float64 // of the printed cells and of all accounts, in echelon form
	lead  []int
}

func newAtoms(groupings []Grouping, n int) *atoms {
	p := &atoms{of: make([]int, n)}
	p.count = 1
	for g := range groupings {
		split := map[[2]int]int{}
		next := make([]int, n)
		for a := range next {
			next[a] = -1
		}
		for c := range groupings[g].Cells {
			for _, a := range groupings[g].Cells[c].Accounts {
				key := [2]int{p.of[a], c}
				k, met := split[key]
				if !met {
					k = len(split)
					split[key] = k
				}
				next[a] = k
			}
		}
		p.of, p.count = next, len(split)
	}
	all := make([]float64, p.count)
	for k := range all {
		all[k] = 1
	}
	p.add(all)
	for g := range groupings {
		for c := range groupings[g].Cells {
			if cell := &groupings[g].Cells[c]; !cell.Hidden {
				p.add(p.vector(cell))
			}
		}
	}
	return p
}

// vector returns a cell as a sum of atoms.
func (p *atoms) vector(c *Cell) []float64 {
	v := make([]float64, p.count)
	for _, a := range c.Accounts {
		v[p.of[a]] = 1
	}
	return v
}

// tiny is the size below which a coefficient counts as 0; they are sums of few whole
// numbers.
const tiny = 1e-9

// reduced subtracts from v what the basis has of it.
func (p *atoms) reduced(v []float64) []float64 {
	v = slices.Clone(v)
	for i, row := range p.basis {
		if f := v[p.lead[i]]; math.Abs(f) > tiny {
			for k := range v {
				v[k] -= float64(f * row[k])
			}
		}
	}
	return v
}

// follows reports whether v is a sum of what is printed.
func (p *atoms) follows(v []float64) bool {
	for _, x := range p.reduced(v) {
		if math.Abs(x) > tiny {
			return false
		}
	}
	return true
}

func (p *atoms) add(v []float64) {
	v = p.reduced(v)
	at := -1
	for k, x := range v {
		if math.Abs(x) > tiny && (at < 0 || math.Abs(x) > math.Abs(v[at])) {
			at = k
		}
	}
	if at < 0 {
		return
	}
	f := v[at]
	for k := range v {
		v[k] /= f
	}
	for i := range p.basis { // keeps every leading column free in the other rows
		if g := p.basis[i][at]; math.Abs(g) > tiny {
			for k := range v {
				p.basis[i][k] -= float64(g * v[k])
			}
		}
	}
	p.basis, p.lead = append(p.basis, v), append(p.lead, at)
}

// Printable reports, for each of some rising numbers of first accounts of a ranking of n, whether what they have together
// may be printed, so that nothing is said of fewer than least accounts: neither of the first ones, nor of those between
// two numbers that are printed, nor of the rest.
func Printable(counts []int, n, least int) []bool {
	out := make([]bool, len(counts))
	last := 0
	for i, k := range counts {
		if rest := n - k; k-last >= least && (rest == 0 || rest >= least) {
			out[i], last = true, k
		}
	}
	return out
}
