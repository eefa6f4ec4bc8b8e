// Package yamlfile reads a scenario from YAML, with the line and column of
// every value. It is the only home of the YAML library.
//
// A scenario needs only plain YAML. Anchors, aliases, tags, merge keys, several
// documents in one file, files above [maxBytes] and deep nesting are errors, so
// that no small file can cause much work.
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

// maxBytes is the maximum size of a scenario, and of a CSV table of zones
// [bytes].
const maxBytes = 1 << 20

// Read reads the scenario in r. name is the file name for messages. If the
// scenario names a CSV table of zones, open is called with that name, as
// written; with a nil open, a table is an error. more lists zone parameters in
// addition to those of [scenarios.ZoneParams]. All errors in both files are
// reported together, as one error that [diag.IsInput] recognizes; other errors
// are system errors.
func Read(r io.Reader, name string, open func(name string) (io.ReadCloser, error), more ...scenarios.ZoneParam) (*scenarios.Scenario,
	error) {
	build := func(root *scenarios.Node, name string) (*scenarios.Scenario, error) {
		return scenarios.Build(root, name, more...)
	}
	return ReadWith(build, r, name, open, more...)
}

// ReadWith is like [Read], with another function in place of [scenarios.Build],
// such as one that knows other kinds of parts.
func ReadWith(build func(*scenarios.Node, string) (*scenarios.Scenario, error), r io.Reader, name string,
	open func(string) (io.ReadCloser, error), more ...scenarios.ZoneParam) (*scenarios.Scenario, error) {
	text, err := slurp(r, name)
	if err != nil {
		return nil, err
	}
	root, errText := parse(text, name)
	if root == nil && errText != nil {
		return nil, errText
	}
	return readTree(build, root, errText, name, open, more)
}

// readTree reads the scenario in a tree; errText is what is wrong with its text.
func readTree(build func(*scenarios.Node, string) (*scenarios.Scenario, error), root *scenarios.Node, errText error, name string,
	open func(string) (io.ReadCloser, error), more []scenarios.ZoneParam) (*scenarios.Scenario, error) {
	errZones := fetchZones(root, open, more)
	if errZones != nil && !diag.IsInput(errZones) {
		return nil, errZones
	}
	sc, err := build(root, name)
	if err = errors.Join(errText, err, errZones); err != nil {
		return nil, err
	}
	return sc, nil
}

// slurp reads all of r and rejects anything but text of a reasonable size.
func slurp(r io.Reader, name string) (string, error) {
	data, err := io.ReadAll(io.LimitReader(r, maxBytes+1))
	if err != nil {
		return "", fmt.Errorf("reading %s: %w", name, err)
	}
	one := func(code diag.Code, fix, format string, args ...any) error {
		var l diag.List
		l.Add(code, diag.Pos{File: name}, fix, format, args...)
		return l.Err()
	}
	if len(data) > maxBytes {
		return "", one(diag.TooLarge, "move the zones to a CSV table, or split the site", "the scenario is larger than %d KiB", maxBytes>>10)
	}
	text := strings.TrimPrefix(string(data), "\ufeff")
	if !utf8.ValidString(text) || strings.ContainsRune(text, 0) {
		return "", one(diag.NotText, "save it as plain UTF-8 text", "this is not a UTF-8 text file")
	}
	return text, nil
}

// fetchZones replaces the name of a CSV table by its rows, or by a broken node
// after an error.
func fetchZones(root *scenarios.Node, open func(string) (io.ReadCloser, error), more []scenarios.ZoneParam) error {
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
			return fault(diag.WrongShape, "write the zones here as a list, or name a CSV table in the scenario's folder",
				"zones is %q, not a list of zones", table)
		}
		f, err := open(table)
		if errors.Is(err, fs.ErrNotExist) {
			return fault(diag.NoSuchFile, "check the name; it is relative to the scenario's folder", "table of zones not found: %q", table)
		}
		if err != nil {
			return fmt.Errorf("opening the table of zones: %w", err)
		}
		node, err := zonefile.Read(io.LimitReader(f, maxBytes+1), table, more...)
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

// Tree reads the YAML in r as a tree with positions, for small files other than
// scenarios. An empty file gives nil.
func Tree(r io.Reader, name string) (*scenarios.Node, error) {
	text, err := slurp(r, name)
	if err != nil {
		return nil, err
	}
	return parse(text, name)
}
