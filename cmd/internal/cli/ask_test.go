package cli_test

import (
	"bytes"
	"context"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"loamledger/cmd/internal/cli"
)

// A person who presses Ctrl-C in the middle leaves no file, and the command does not
// wait for another line.
func TestAskInterrupted(t *testing.T) {
	dir := t.TempDir()
	ctx, stop := context.WithCancel(context.Background())
	in, keys := io.Pipe()
	defer keys.Close()
	var out, errs bytes.Buffer
	done := make(chan int)
	go func() {
		done <- cli.Main(ctx, []string{"init", "--ask", "--out", filepath.Join(dir, "yard.yaml")}, cli.Streams{Out: &out, Err: &errs, In: in})
	}()
	for _, line := range []string{"38.9\n", "\n"} {
		if _, err := io.WriteString(keys, line); err != nil {
			t.Fatal(err)
		}
	}
	stop()
	if code := <-done; code != cli.Interrupted || !strings.Contains(errs.String(), "interrupted") {
		t.Errorf("exit code %d: %s", code, errs.String())
	}
	if left, err := os.ReadDir(dir); err != nil || len(left) > 0 {
		t.Errorf("left: %v %v", left, err)
	}
}

// Without a place to read answers from there is an error, not a wait.
func TestAskWithoutInput(t *testing.T) {
	var out, errs bytes.Buffer
	name := filepath.Join(t.TempDir(), "yard.yaml")
	if code := cli.Main(t.Context(), []string{"init", "--ask", "--out", name}, cli.Streams{Out: &out, Err: &errs}); code != 2 {
		t.Errorf("exit code %d: %s", code, errs.String())
	}
}
