package accountsfile

import (
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"testing"

	"loamledger/weather/diag"
)

// Every joined error of an account is a failure, not only the first one found.
func TestJoinedErrorsAreAllFailures(t *testing.T) {
	var list diag.List
	list.Add(diag.BadQuantity, diag.Pos{File: "a.csv", Line: 3, Col: 2}, "write an area", "area is wrong")
	list.Add(diag.BadQuantity, diag.Pos{File: "a.csv", Line: 4, Col: 2}, "write an area", "area is wrong too")
	one := &diag.Error{Code: diag.MissingKey, Pos: diag.Pos{File: "a.csv", Line: 5, Col: 1}, Msg: "soil is missing"}
	var got []string
	for _, f := range Failures("7", "a.csv", errors.Join(fmt.Errorf("read: %w", one), list.Err())) {
		got = append(got, fmt.Sprintf("%s:%d:%d %s", f.File, f.Row, f.Column, f.Reason))
	}
	want := []string{"a.csv:5:1 soil is missing", "a.csv:3:2 area is wrong", "a.csv:4:2 area is wrong too"}
	if !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
	if list := Failures("7", "a.csv", fs.ErrNotExist); len(list) != 1 || list[0].Code != diag.System {
		t.Errorf("a system error gives %v", list)
	}
}
