package cli

import (
	"errors"
	"strconv"

	"loamledger/cmd/internal/outdir"
	"loamledger/weather/diag"
	"loamledger/weather/et0"
)

// errorsJSON is printed when a command with --json fails.
type errorsJSON struct {
	Ready      *bool       `json:"ready,omitempty"`   // of check alone
	Verdict    string      `json:"verdict,omitempty"` // of check alone
	Errors     []errorJSON `json:"errors"`
	More       int         `json:"more,omitempty"` // input errors beyond those listed
	ExitStatus int         `json:"exit_status"`
}

// errorJSON is one error. Code is one of [diag.Codes]; an unknown position is
// omitted.
type errorJSON struct {
	Code    diag.Code `json:"code"`
	File    string    `json:"file,omitempty"`
	Line    int       `json:"line,omitempty"`
	Column  int       `json:"column,omitempty"`
	Message string    `json:"message"`
	Fix     string    `json:"fix,omitempty"`
	// Suggestions has the YAML that the fix offers and the place where it belongs.
	Suggestions []suggestionJSON `json:"suggestions,omitempty"`
}

type suggestionJSON struct {
	Place diag.Place `json:"place"`
	YAML  string     `json:"yaml"`
	// Where it belongs, if not at the error's position.
	Line   int `json:"line,omitempty"`
	Column int `json:"column,omitempty"`
}

// newErrorsJSON lists every error in err.
func newErrorsJSON(err error, status int) *errorsJSON {
	out := &errorsJSON{ExitStatus: status}
	if status == exitInterrupted {
		out.Errors = append(out.Errors, errorJSON{Code: diag.Interrupted, Message: interrupted})
		return out
	}
	leaves, more := diag.Leaves(err)
	for _, leaf := range leaves {
		out.add(leaf)
	}
	out.More = more
	return out
}

func (out *errorsJSON) add(err error) {
	var one *diag.Error
	var usage *usageError
	var need *et0.NeedError
	var system *outdir.Fault
	j := errorJSON{}
	switch {
	case errors.As(err, &one):
		j = errorJSON{one.Code, one.Pos.File, one.Pos.Line, one.Pos.Col, one.Msg, one.Fix, nil}
		for _, s := range one.Suggestions {
			j.Suggestions = append(j.Suggestions, suggestionJSON{s.Place, s.YAML, s.Pos.Line, s.Pos.Col})
		}
	case errors.As(err, &usage):
		j.Code, j.Message, j.Fix = usage.code, usage.msg, usage.fix
	case errors.As(err, &need):
		j.Code, j.Message, j.Fix = need.Code, need.Msg, need.Fix
	case errors.As(err, &system):
		j.Code, j.Message, j.Fix = system.Code, system.Msg, system.Fix
	default:
		j.Code, j.Message = outdir.CodeOf(err), err.Error()
	}
	out.Errors = append(out.Errors, j)
}

// wantsJSON reports whether args contain --json. It reads the raw arguments,
// since an error in the command line may keep flags from being parsed.
func wantsJSON(args []string) bool {
	wants := false
	for _, a := range args {
		switch {
		case a == "--":
			return wants
		case a == "--json":
			wants = true
		case len(a) > len("--json=") && a[:len("--json=")] == "--json=":
			wants, _ = strconv.ParseBool(a[len("--json="):])
		}
	}
	return wants
}
