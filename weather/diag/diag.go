// Package diag describes errors in input files: the location, what was found
// there, the rule it breaks and what to write instead. All errors of a run are
// collected and reported together.
package diag

import (
	"cmp"
	"errors"
	"fmt"
	"path"
	"slices"
	"sort"
	"strings"
)

// A Pos is a location in an input file. Line and Col count from 1, Col in bytes;
// 0 means unknown and is not printed.
type Pos struct {
	File      string
	Line, Col int
}

func (p Pos) String() string {
	switch {
	case p.Line == 0:
		return p.File
	case p.Col == 0:
		return fmt.Sprintf("%s:%d", p.File, p.Line)
	}
	return fmt.Sprintf("%s:%d:%d", p.File, p.Line, p.Col)
}

// Base returns the name of a file without its folders, whose names end with a slash or a backslash.
func Base(name string) string { return path.Base(strings.ReplaceAll(name, `\`, "/")) }

// An Error is one error in one input file. Code is one of [Codes]. Msg gives
// the value found and the rule it breaks; Fix says what to write instead.
// Neither starts with a capital nor ends with a full stop.
type Error struct {
	Code Code
	Pos  Pos
	Msg  string
	Fix  string
	// Suggestions has each YAML text that Fix offers.
	Suggestions []Suggestion
}

func (e *Error) Error() string {
	if e.Fix == "" {
		return fmt.Sprintf("%v: %s", e.Pos, e.Msg)
	}
	return fmt.Sprintf("%v: %s\n\tfix: %s", e.Pos, e.Msg, e.Remedy())
}

// Most is how many errors a [List] keeps; the rest are only counted.
const Most = 20

// A List collects errors. The zero List is ready to use.
type List struct {
	errs []*Error
	more int
}

// Add records an error and returns it. fix may be empty only if there is no remedy
// to name.
func (l *List) Add(code Code, pos Pos, fix, format string, args ...any) *Error {
	e := &Error{Code: code, Pos: pos, Msg: fmt.Sprintf(format, args...), Fix: fix}
	l.Append(e)
	return e
}

// Append records errors made elsewhere.
func (l *List) Append(errs ...*Error) {
	for _, e := range errs {
		if len(l.errs) < Most {
			l.errs = append(l.errs, e)
		} else {
			l.more++
		}
	}
}

// Len returns the number of errors recorded, including those beyond [Most].
func (l *List) Len() int { return len(l.errs) + l.more }

// Err returns nil for an empty list, otherwise a [*Errors] sorted by location.
func (l *List) Err() error {
	if len(l.errs) == 0 {
		return nil
	}
	errs := slices.Clone(l.errs)
	sort.SliceStable(errs, func(i, j int) bool {
		a, b := errs[i].Pos, errs[j].Pos
		return cmp.Or(cmp.Compare(a.File, b.File), cmp.Compare(a.Line, b.Line), cmp.Compare(a.Col, b.Col)) < 0
	})
	return &Errors{List: errs, More: l.more}
}

// Errors combines the errors in one or more input files.
type Errors struct {
	List []*Error
	More int // errors found beyond the first [Most]
}

func (e *Errors) Error() string {
	var b strings.Builder
	for i, one := range e.List {
		if i > 0 {
			b.WriteByte('\n')
		}
		b.WriteString(one.Error())
	}
	switch {
	case e.More == 1:
		b.WriteString("\nand one more error")
	case e.More > 1:
		fmt.Fprintf(&b, "\nand %d more errors", e.More)
	}
	return b.String()
}

// Leaves returns the single errors that err joins, in order: those of [errors.Join] and of
// each [*Errors]. more counts the errors that the latter left out. A nil error has none.
func Leaves(err error) (leaves []error, more int) {
	if err == nil {
		return nil, 0
	}
	if joined, ok := err.(interface{ Unwrap() []error }); ok {
		for _, e := range joined.Unwrap() {
			list, n := Leaves(e)
			leaves, more = append(leaves, list...), more+n
		}
		return leaves, more
	}
	var many *Errors
	if !errors.As(err, &many) {
		return []error{err}, 0
	}
	for _, e := range many.List {
		leaves = append(leaves, e)
	}
	return leaves, many.More
}

// IsInput reports whether every leaf of err is an error in an input file, as
// opposed to a system error such as a full disk.
func IsInput(err error) bool {
	leaves, _ := Leaves(err)
	for _, leaf := range leaves {
		if one := (*Error)(nil); !errors.As(leaf, &one) {
			return false
		}
	}
	return len(leaves) > 0
}

// Nearest returns the candidate closest to word, or "" if none is close enough
// to suggest. Case is ignored; a transposition counts as one edit.
func Nearest(word string, candidates []string) string {
	w := strings.ToLower(word)
	best, bestAt := "", 1+min(2, len(w)/3)
	for _, c := range candidates {
		if d := edits(w, strings.ToLower(c)); d < bestAt {
			best, bestAt = c, d
		}
	}
	return best
}

// edits is the optimal string alignment distance between a and b, in bytes.
func edits(a, b string) int {
	prev2, prev, cur := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range prev {
		prev[j] = j
	}
	for i := 1; i <= len(a); i++ {
		cur[0] = i
		for j := 1; j <= len(b); j++ {
			cost := 1
			if a[i-1] == b[j-1] {
				cost = 0
			}
			cur[j] = min(prev[j]+1, cur[j-1]+1, prev[j-1]+cost)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				cur[j] = min(cur[j], prev2[j-2]+1)
			}
		}
		prev2, prev, cur = prev, cur, prev2
	}
	return prev[len(b)]
}
