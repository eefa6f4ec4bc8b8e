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
	"unsafe"
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

// A second signal ends the program even if nobody reads what it prints, and even
// if it was started with the signal ignored, as shells start jobs in the background.
func TestSecondSignalEndsAStalledProgram(t *testing.T) {
	for _, prefix := range []string{"", `trap "" INT; `} {
		r, w, err := os.Pipe()
		if err != nil {
			t.Fatal(err)
		}
		defer r.Close()
		const size = 4096 // less than the command prints
		if _, _, errno := syscall.Syscall(syscall.SYS_FCNTL, w.Fd(), 1031 /* F_SETPIPE_SZ */, size); errno != 0 {
			t.Skip("the size of a pipe cannot be set: ", errno)
		}
		cmd := exec.Command("sh", "-c", prefix+`exec "$0" catalog --zones`, os.Args[0])
		cmd.Env, cmd.Stdout = append(os.Environ(), asProgram+"=1"), w
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		w.Close()
		ended := make(chan error, 1)
		go func() { ended <- cmd.Wait() }()
		for waiting(t, r) == 0 { // until it prints, of which not all fits
			time.Sleep(time.Millisecond)
		}
		n := 0
		for done := false; !done; n++ {
			_ = cmd.Process.Signal(syscall.SIGINT) // it may have ended
			select {
			case err = <-ended:
				done = true
			case <-time.After(50 * time.Millisecond): // two signals at once would be one
			}
		}
		var exit *exec.ExitError
		if !errors.As(err, &exit) || exit.ExitCode() != 130 || n < 2 {
			t.Errorf("%q: ended with %v after %d signals, want exit status 130 after two", prefix, err, n)
		}
	}
}

// waiting is the number of bytes in a pipe.
func waiting(t *testing.T, r *os.File) int {
	n := 0
	if _, _, errno := syscall.Syscall(syscall.SYS_IOCTL, r.Fd(), 0x541b /* FIONREAD */, uintptr(unsafe.Pointer(&n))); errno != 0 {
		t.Fatal(errno)
	}
	return n
}
