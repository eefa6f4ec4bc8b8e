// Package studyfile reads the files that a scenario names: weather, layouts,
// forecasts, rates and meter reads. A command reads them from a folder, a page
// from what was dropped on it; what is read, and in which order, is the same.
//
// # Promises
//
// Files are opened only through [Files], so this package does not know where they
// are. An error of a file is an error of the input, with its place.
package studyfile

import (
	"io"
	"slices"

	"loamledger/sim/bill"
	"loamledger/sim/readsfile"
	"loamledger/weather/diag"
)

// Files opens the files that a scenario names.
type Files struct {
	// Path returns what a file is called in messages, and by Open, from its name in the
	// scenario.
	Path func(name string) string
	// Open opens a file by its path. at is the place of its name in the scenario; the
	// zero place is the command line.
	Open func(path string, at diag.Pos) (io.ReadCloser, error)

	// Kept has the rates as last read; nil if they are not kept.
	Kept *KeptRates

	reads map[string][]readsfile.Row // by path, so that none is read twice
}

// KeptRates are rates with their text, so that the same text is not read again. The zero
// value has none.
type KeptRates struct {
	path  string
	text  []byte
	rates *bill.Rates
}

// Reads reads meter reads. A file is read once; the rows are the caller's.
func (f *Files) Reads(path string, at diag.Pos) ([]readsfile.Row, error) {
	if rows, is := f.reads[path]; is {
		return slices.Clone(rows), nil
	}
	r, err := f.Open(path, at)
	if err != nil {
		return nil, err
	}
	defer r.Close()
	rows, err := readsfile.Read(r, path)
	if err != nil {
		return nil, err
	}
	if f.reads == nil {
		f.reads = map[string][]readsfile.Row{}
	}
	f.reads[path] = rows
	return slices.Clone(rows), nil
}
