package accountsfile

import (
	"cmp"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"

	"github.com/gocarina/gocsv"

	"loamledger/weather/diag"
)

// A Failure is one reason why an account has no result.
type Failure struct {
	Account     string // empty if its row cannot be read
	File        string
	Row, Column int // 0 if unknown
	Code        diag.Code
	Reason, fix string
}

// failedName is what the file of them is called.
const failedName = "failed.csv"

// Faults returns the single errors in the input errors of an account.
func Faults(err error) (list []*diag.Error) {
	leaves, _ := diag.Leaves(err)
	for _, leaf := range leaves {
		var one *diag.Error
		if !errors.As(leaf, &one) {
			one = &diag.Error{Code: diag.System, Msg: leaf.Error()}
		}
		list = append(list, one)
	}
	return list
}

// Failures returns why an account has no result; table is the name of the file of accounts.
// If cells of the account are wrong, they are named, each once, and not what follows from
// them.
func Failures(account, table string, err error) (list []Failure) {
	faults := Faults(err)
	own := slices.ContainsFunc(faults, func(e *diag.Error) bool { return e.Pos.File == table && e.Pos.Line > 0 })
	for _, e := range faults {
		f := Failure{account, diag.Base(e.Pos.File), e.Pos.Line, e.Pos.Col, e.Code, e.Msg, e.Remedy()}
		if e.Pos.File == "" {
			f.File = ""
		}
		again := slices.ContainsFunc(list, func(o Failure) bool {
			return o.File == f.File && o.Row == f.Row && o.Column == f.Column && o.Code == f.Code && f.Row > 0
		})
		if !again && (!own || e.Pos.File == table) {
			list = append(list, f)
		}
	}
	return list
}

// SortFailures sorts by account and place.
func SortFailures(list []Failure) {
	slices.SortStableFunc(list, func(a, b Failure) int {
		return cmp.Or(cmp.Compare(a.Account, b.Account), cmp.Compare(a.File, b.File), a.Row-b.Row, a.Column-b.Column)
	})
}

// A failedRow is a line of failed.csv. Its fields are texts: the library would read an empty cell as 0.
type failedRow struct {
	Account string `csv:"account"`
	File    string `csv:"file"`
	Row     string `csv:"row"`
	Column  string `csv:"column"`
	Code    string `csv:"code"`
	Reason  string `csv:"reason"`
	Fix     string `csv:"fix"`
}

// WriteFailures writes them as CSV.
func WriteFailures(w io.Writer, list []Failure) error {
	number := func(n int) string {
		if n == 0 {
			return ""
		}
		return strconv.Itoa(n)
	}
	rows := make([]failedRow, len(list))
	for i, f := range list {
		rows[i] = failedRow{text(f.Account), f.File, number(f.Row), number(f.Column), string(f.Code), text(f.Reason), text(f.fix)}
	}
	return gocsv.Marshal(rows, w)
}

// text keeps a spreadsheet from taking a text for a formula.
func text(s string) string {
	if s != "" && (s[0] == '=' || s[0] == '+' || s[0] == '-' || s[0] == '@') {
		return "'" + s
	}
	return s
}

// ReadFailures reads what [WriteFailures] wrote.
func ReadFailures(r io.Reader) ([]Failure, error) {
	rows, err := gocsv.NewUnmarshaller(csv.NewReader(r), failedRow{})
	if err != nil {
		return nil, fmt.Errorf("the heading is not that of %s: %w", failedName, err)
	}
	if len(rows.MismatchedStructFields) > 0 || len(rows.MismatchedHeaders) > 0 {
		return nil, errors.New("the heading is not that of " + failedName)
	}
	var out []Failure
	for {
		read, err := rows.Read()
		if errors.Is(err, io.EOF) {
			return out, nil
		}
		if err != nil {
			return nil, err
		}
		row := read.(failedRow)
		line, _ := strconv.Atoi(row.Row)
		col, _ := strconv.Atoi(row.Column)
		out = append(out, Failure{row.Account, row.File, line, col, diag.Code(row.Code), row.Reason, row.Fix})
	}
}
