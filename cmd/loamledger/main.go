// Command loamledger replays irrigation strategies over years of daily weather
// and compares them.
package main

import (
	"context"
	"os"
	"os/signal"
	"runtime"
	"runtime/debug"
	"syscall"

	"loamledger/cmd/internal/cli"
)

// garbagePercent is the garbage allowed, as a percentage of the memory in use
// (see GOGC). A large run has hundreds of megabytes of plain numbers, which are
// cheap to scan: collecting more often than Go's default cuts the memory for 200
// zones by a third and costs no measurable time.
const garbagePercent = 30

// ballastBytes are asked for and never touched, so that they take up no memory.
// The collector counts them as in use, and lets about a third as much garbage
// gather before it first looks: a small run, such as a check, is over by then.
const ballastBytes = 64 << 20

func main() {
	var ballast []byte
	if os.Getenv("GOGC") == "" { // otherwise the user has chosen
		debug.SetGCPercent(garbagePercent)
		ballast = make([]byte, ballastBytes)
	}
	ctx, stop := signal.NotifyContext(context.Background(), endings()...)
	context.AfterFunc(ctx, stop) // a second signal ends the program at once
	code := cli.Main(ctx, os.Args[1:], cli.Streams{Out: os.Stdout, Err: os.Stderr, Terminal: isTerminal(os.Stderr)})
	stop()
	runtime.KeepAlive(ballast)
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
