package main

import (
	"errors"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"syscall"
	"testing"
	"time"
)

// asProgram makes the test binary behave as the program.
const asProgram = "LOAMLEDGER_TEST_AS_PROGRAM"

func TestMain(m *testing.M) {
	if os.Getenv(asProgram) != "" {
		if limit := os.Getenv(fileLimit); limit != "" {
			limitFiles(limit)
		}
		main()
	}
	os.Exit(m.Run())
}

// If a signal stops the program while it writes, nothing is left, and the exit
// code is 130.
func TestSignalsLeaveNothing(t *testing.T) {
	for _, sig := range []syscall.Signal{syscall.SIGINT, syscall.SIGTERM, syscall.SIGHUP} {
		t.Run(sig.String(), func(t *testing.T) {
			if signal.Ignored(sig) {
				t.Skip("this process was started to outlive the signal, and so is what it starts")
			}
			dir := t.TempDir()
			cmd := exec.Command(os.Args[0], "demo", "--out", filepath.Join(dir, "out"))
			cmd.Env = append(os.Environ(), asProgram+"=1")
			if err := cmd.Start(); err != nil {
				t.Fatal(err)
			}
			ended := make(chan error, 1)
			go func() { ended <- cmd.Wait() }()
			for len(names(t, dir)) == 0 { // until it starts writing
				select {
				case err := <-ended:
					t.Fatalf("ended before writing anything: %v", err)
				case <-time.After(time.Millisecond):
				}
			}
			if err := cmd.Process.Signal(sig); err != nil {
				t.Fatal(err)
			}
			err := <-ended
			var exit *exec.ExitError
			if !errors.As(err, &exit) || exit.ExitCode() != 130 {
				t.Errorf("ended with %v, want exit status 130", err)
			}
			if left := names(t, dir); len(left) != 0 {
				t.Errorf("left behind: %v", left)
			}
		})
	}
}

func names(t *testing.T, dir string) []string {
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, e := range entries {
		out = append(out, e.Name())
	}
	return out
}
