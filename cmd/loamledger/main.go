// Command loamledger replays irrigation strategies over years of daily weather
// and compares them.
package main

import (
	"context"
	"os"
	"os/signal"
	"runtime/debug"
	"syscall"

	"loamledger/cmd/internal/cli"
)

// memoryLimit is how much memory a run may take before garbage is collected more
// often. Small runs are over before the first collection, and large ones do not
// double what they need. The limit is soft: a run that needs more gets it and pays
// with processor time.
const memoryLimit = 256 << 20

func main() {
	if os.Getenv("GOMEMLIMIT") == "" { // otherwise the user has chosen
		debug.SetMemoryLimit(memoryLimit)
	}
	ctx, stop := signal.NotifyContext(context.Background(), endings()...)
	context.AfterFunc(ctx, stop) // a second signal ends the program at once
	code := cli.Main(ctx, os.Args[1:], cli.Streams{Out: os.Stdout, Err: os.Stderr, Terminal: isTerminal(os.Stderr)})
	stop()
	os.Exit(code)
}

// endings returns the signals that ask the program to clean up and exit. They
// include the closing of the terminal, unless the program was started to
// outlive it, for example with nohup.
func endings() []os.Signal {
	signals := []os.Signal{os.Interrupt, syscall.SIGTERM}
	if !signal.Ignored(syscall.SIGHUP) {
		signals = append(signals, syscall.SIGHUP)
	}
	return signals
}

// isTerminal reports whether f is an interactive terminal.
func isTerminal(f *os.File) bool {
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0 && os.Getenv("TERM") != "dumb"
}
