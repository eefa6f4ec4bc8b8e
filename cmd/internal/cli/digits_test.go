package cli_test

import (
	"bytes"
	"crypto/sha256"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestSameDigits checks the numbers of results against hashes that were recorded on amd64: every digit is the same on other processors.
// .ci/run long repeats it on those that it can run. ledger.parquet has the values of ledger.csv, but libraries compress it in other ways on
// other processors.
func TestSameDigits(t *testing.T) {
	const examples = "../../../scenarios/examples/"
	dir := t.TempDir()
	var b strings.Builder
	note := func(name string, text []byte) {
		if bytes.HasPrefix(text, []byte("{")) {
			text = numbersOf(t, text) // words may change
		}
		fmt.Fprintf(&b, "%x  %s\n", sha256.Sum256(text), name)
	}
	note("ranges quail-terrace", runOut(t, "ranges", examples+"quail-terrace.yaml", "--draws", "100", "--json"))
	note("bill quail-terrace", runOut(t, "bill", examples+"rates/quail-terrace-rates.yaml",
		"--reads", examples+"rates/quail-terrace-reads.csv", "--json"))
	note("calibrate tansy-court", runOut(t, "calibrate", examples+"tansy-court.yaml", "--json"))
	note("tune weir-meadow", runOut(t, "tune", examples+"weir-meadow.yaml", "--json"))
	note("settings weir-meadow", runOut(t, "settings", examples+"weir-meadow.yaml", "--strategy", "refill at a third", "--json"))
	normals := filepath.Join(dir, "normals.yaml")
	if err := os.WriteFile(normals, runOut(t, "generate", "--template"), 0o666); err != nil {
		t.Fatal(err)
	}
	made := filepath.Join(dir, "weather.csv")
	runOut(t, "generate", "--normals", normals, "--seed", "1", "--out", made)
	files := []string{made}
	fit := filepath.Join(dir, "like.csv")
	runOut(t, "generate", "--fit", examples+"juniper-court-weather.csv", "--latitude", "38.9", "--elevation", "1600 ft",
		"--seed", "2", "--out", fit)
	files = append(files, fit)
	out := filepath.Join(dir, "out")
	runOut(t, "replay", examples+"quail-terrace.yaml", "--draws", "100", "--out", out)
	for _, name := range []string{"bills.csv", "ledger.csv", "tally.csv", "run.json"} {
		files = append(files, filepath.Join(out, name))
	}
	for _, name := range files {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		note(filepath.Base(name), text)
	}
	const record = "testdata/digits.sha256"
	if os.Getenv("UPDATE") != "" {
		if err := os.WriteFile(record, []byte(b.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(record)
	if err != nil {
		t.Fatal(err)
	}
	if string(want) != b.String() {
		t.Errorf("outputs are\n%swant\n%s", b.String(), want)
	}
}

// numbersOf returns the numbers of a JSON text, in order and as they are written.
func numbersOf(t *testing.T, text []byte) (out []byte) {
	t.Helper()
	d := json.NewDecoder(bytes.NewReader(text))
	d.UseNumber()
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return out
		}
		if err != nil {
			t.Fatal(err)
		}
		if n, ok := token.(json.Number); ok {
			out = append(append(out, n...), '\n')
		}
	}
}
