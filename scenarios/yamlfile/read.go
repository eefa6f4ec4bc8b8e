// Package yamlfile reads a scenario from YAML, so that every value knows its
// line and column. It is the only home of the YAML library.
//
// A scenario needs only the plain parts of YAML: anchors, aliases, tags, merge
// keys and several documents in one file are refused, as are files above
// [MaxBytes] and deep nesting, so that no small file can ask for much work.
package yamlfile

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"strings"
	"unicode/utf8"

	"loamledger/scenarios"
	"loamledger/scenarios/zonefile"
	"loamledger/weather/diag"
)

// MaxBytes is the size of the largest scenario, and of the largest table of
// zones, that is read.
const MaxBytes = 1 << 20

// Read reads the scenario in r. name is the file's name for messages. Where
// the scenario names a CSV table of zones, open is called with that name, as
// written; open may be nil if there is to be none. All faults of
// both files are reported together, as one error that [diag.IsInput] knows;
// other errors are the machine's.
func Read(r io.Reader, name string, open func(name string) (io.ReadCloser, error)) (*scenarios.Scenario, error) {
	return ReadWith(scenarios.Build, r, name, open)
}

// ReadWith is [Read] with another function in the place of [scenarios.Build],
// such as one that knows other kinds of parts.
func ReadWith(build func(*scenarios.Node, string) (*scenarios.Scenario, error), r io.Reader, name string, open func(string) (io.ReadCloser, error)) (*scenarios.Scenario, error) {
	text, err := slurp(r, name)
	if err != nil {
		return nil, err
	}
	root, errText := parse(text, name)
	if root == nil && errText != nil {
		return nil, errText
	}
	errZones := fetchZones(root, open)
	if errZones != nil && !diag.IsInput(errZones) {
		return nil, errZones
	}
	sc, err := build(root, name)
	if err = errors.Join(errText, err, errZones); err != nil {
		return nil, err
	}
	return sc, nil
}

// slurp reads all of r and refuses what is no reasonable text.
func slurp(r io.Reader, name string) (string, error) {
	data, err := io.ReadAll(io.LimitReader(r, MaxBytes+1))
	if err != nil {
		return "", fmt.Errorf("reading %s: %w", name, err)
	}
	one := func(code diag.Code, fix, format string, args ...any) error {
		var l diag.List
		l.Add(code, diag.Pos{File: name}, fix, format, args...)
		return l.Err()
	}
	if len(data) > MaxBytes {
		return "", one(diag.TooLarge, "put zones in a CSV table, or part the site", "the scenario is larger than %d KiB", MaxBytes>>10)
	}
	text := strings.TrimPrefix(string(data), "\ufeff")
	if !utf8.ValidString(text) || strings.ContainsRune(text, 0) {
		return "", one(diag.NotText, "save it as plain text in UTF-8", "this is not a text file in UTF-8")
	}
	return text, nil
}

// fetchZones puts the rows of a CSV table in the place of its name, or what
// stands for a fault there.
func fetchZones(root *scenarios.Node, open func(string) (io.ReadCloser, error)) error {
	if root == nil {
		return nil
	}
	for i := range root.Entries {
		e := &root.Entries[i]
		if e.Key != "zones" || e.Value.Kind != scenarios.Scalar {
			continue
		}
		table, pos := strings.TrimSpace(e.Value.Text), e.Value.Pos
		e.Value = &scenarios.Node{Pos: pos, Kind: scenarios.Broken}
		fault := func(code diag.Code, fix, format string, args ...any) error {
			var l diag.List
			l.Add(code, pos, fix, format, args...)
			return l.Err()
		}
		if table == "" || open == nil {
			return fault(diag.WrongShape, "write the zones here as a list, or name a CSV table beside this scenario", "zones is %q, not a list of zones", table)
		}
		f, err := open(table)
		if errors.Is(err, fs.ErrNotExist) {
			return fault(diag.NoSuchFile, "check the name; it counts from the folder of this scenario", "there is no table of zones %q", table)
		}
		if err != nil {
			return fmt.Errorf("opening the table of zones: %w", err)
		}
		node, err := zonefile.Read(io.LimitReader(f, MaxBytes+1), table)
		if closeErr := f.Close(); err == nil && closeErr != nil {
			err = fmt.Errorf("reading %s: %w", table, closeErr)
		}
		if err != nil {
			return err
		}
		e.Value = node
	}
	return nil
}

// Tree reads the YAML in r as a tree that knows its places, for small files
// other than scenarios. An empty file gives nil.
func Tree(r io.Reader, name string) (*scenarios.Node, error) {
	text, err := slurp(r, name)
	if err != nil {
		return nil, err
	}
	return parse(text, name)
}
