package accountsfile

import (
	"errors"
	"io"
	"strings"

	"loamledger/scenarios/accounts"
	"loamledger/sim/ledgerfile"
	"loamledger/weather/diag"
)

// A parquetRows gives the rows of a Parquet table. Its rows count from 1, its columns, too.
type parquetRows struct {
	texts *ledgerfile.Texts
	name  string
	line  int
	cells []Cell
}

// Parquet returns the rows of a Parquet table in r, a file of size bytes, with the columns of
// a CSV table. A number has the unit in the name of its column, as in "area (ft2)"; the
// account must be text, since a number has lost its leading zeros. name is the file name for
// messages. An error is a [*diag.Error].
func Parquet(r io.ReaderAt, size int64, name string) (Rows, error) {
	t, err := ledgerfile.OpenTexts(r, size)
	if err != nil {
		return nil, &diag.Error{Code: diag.DamagedFile, Pos: diag.Pos{File: name}, Msg: err.Error(),
			Fix: "write the table anew, with columns of texts and plain numbers, or as CSV"}
	}
	for i, c := range t.Columns {
		if strings.EqualFold(c, accounts.ColumnAccount) && !t.IsText[i] {
			return nil, &diag.Error{Code: diag.WrongShape, Pos: diag.Pos{File: name},
				Msg: "the column account is not text", Fix: "write it as text: a number has no leading zeros"}
		}
	}
	return &parquetRows{texts: t, name: name}, nil
}

// Next returns the next row.
func (p *parquetRows) Next() ([]Cell, *diag.Error, error) {
	if p.cells == nil {
		for i, c := range p.texts.Columns {
			p.cells = append(p.cells, Cell{text: c, line: 1, col: i + 1})
		}
		return p.cells, nil, nil
	}
	texts, err := p.texts.Next()
	if errors.Is(err, io.EOF) {
		return nil, nil, err
	}
	if err != nil {
		return nil, nil, &diag.Error{Code: diag.DamagedFile, Pos: diag.Pos{File: p.name}, Msg: err.Error(), Fix: "write the table anew"}
	}
	p.line++
	for i := range p.cells {
		p.cells[i] = Cell{text: strings.TrimSpace(texts[i]), line: p.line, col: i + 1}
	}
	return p.cells, nil, nil
}
