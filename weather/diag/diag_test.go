package diag

import (
	"errors"
	"io/fs"
	"strings"
	"testing"
)

func TestListReportsAllInOrder(t *testing.T) {
	var l List
	l.Add(BadSyntax, Pos{"b.yaml", 2, 1}, "write b", "b is wrong")
	l.Add(BadSyntax, Pos{"a.csv", 9, 4}, "write a", "a is wrong")
	l.Add(BadSyntax, Pos{"a.csv", 3, 4}, "", "first")
	want := "a.csv:3:4: first\na.csv:9:4: a is wrong\n\tfix: write a\nb.yaml:2:1: b is wrong\n\tfix: write b"
	if got := l.Err().Error(); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

func TestListCountsTheRest(t *testing.T) {
	var l List
	for range Most + 5 {
		l.Add(BadSyntax, Pos{File: "x"}, "", "again")
	}
	if one := (&Errors{List: l.errs, More: 1}).Error(); !strings.HasSuffix(one, "and one more error") {
		t.Error(one)
	}
	if l.Len() != Most+5 || !strings.HasSuffix(l.Err().Error(), "and 5 more errors") {
		t.Errorf("%d errors, text ends %q", l.Len(), l.Err().Error()[len(l.Err().Error())-30:])
	}
}

func TestIsInput(t *testing.T) {
	in, machine := error(&Error{Msg: "x"}), error(&fs.PathError{Op: "open", Path: "p", Err: fs.ErrNotExist})
	if IsInput(nil) || !IsInput(in) || IsInput(machine) || IsInput(errors.Join(in, machine)) || !IsInput(errors.Join(in, in)) {
		t.Error("an error counts as an input error only if all its leaves do")
	}
}

func TestNearest(t *testing.T) {
	days := []string{"mon", "tue", "wed", "thu", "fri", "sat", "sun"}
	for word, want := range map[string]string{"mno": "mon", "wedd": "wed", "Tue": "tue", "xyz": "", "weekly": ""} {
		if got := Nearest(word, days); got != want {
			t.Errorf("Nearest(%q) = %q, want %q", word, got, want)
		}
	}
}

// Folders do not appear in texts, whatever their separator.
func TestBase(t *testing.T) {
	for name, want := range map[string]string{"a.csv": "a.csv", "/tmp/x/a.csv": "a.csv", `C:\x\a.csv`: "a.csv", "x/y, b/a.csv": "a.csv",
		"": "."} {
		if got := Base(name); got != want {
			t.Errorf("Base(%q) is %q, want %q", name, got, want)
		}
	}
}
