// Package published reads tables typed from publications, for tests alone: CSV with the source in line 1 and a header.
package published

import (
	"bytes"
	"embed"
	"encoding/csv"
	"os"
	"testing"
)

//go:embed *.csv
var tables embed.FS

// Cells returns the rows of the table called name, without the header. The table must name its source and have a row.
func Cells(t testing.TB, name string) [][]string {
	t.Helper()
	return lines(t, name, open(t, name))[1:]
}

// Rows is [Cells] by column.
func Rows(t testing.TB, name string) []map[string]string {
	t.Helper()
	return byColumn(lines(t, name, open(t, name)))
}

// Read returns the rows of the table at path, outside this folder, by column. Its first lines may be comments; it must have a row.
func Read(t testing.TB, path string) []map[string]string {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return byColumn(lines(t, path, text))
}

func open(t testing.TB, name string) []byte {
	t.Helper()
	text, err := tables.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.HasPrefix(text, []byte("# ")) {
		t.Fatalf("%s: no source in line 1", name)
	}
	return text
}

func lines(t testing.TB, name string, text []byte) [][]string {
	t.Helper()
	r := csv.NewReader(bytes.NewReader(text))
	r.Comment = '#'
	out, err := r.ReadAll()
	if err != nil || len(out) < 2 {
		t.Fatalf("%s: %d lines, %v", name, len(out), err)
	}
	return out
}

func byColumn(lines [][]string) []map[string]string {
	out := make([]map[string]string, 0, len(lines)-1)
	for _, line := range lines[1:] {
		row := make(map[string]string, len(line))
		for i, cell := range line {
			row[lines[0][i]] = cell
		}
		out = append(out, row)
	}
	return out
}
