// Command loamledger replays watering strategies over years of daily weather
// and reports what each would have done.
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

// garbagePercent is how much garbage may gather, as a share of what is in use.
// A large run holds hundreds of megabytes of plain numbers, which cost the
// collector next to nothing to look at: collecting more often than Go does by
// itself takes a third off the memory of 200 zones and no time that shows.
const garbagePercent = 30

// ballastBytes are asked for and never touched, so that they take up no memory.
// The collector counts them as in use, and lets about a third as much garbage
// gather before it first looks: a small run, such as a check, is over by then.
const ballastBytes = 64 << 20

func main() {
	var ballast []byte
	if os.Getenv("GOGC") == "" { // else the user has chosen
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

// endings returns the signals that ask the program to tidy up and end. A
// terminal that is closed asks so, too, unless the program was started so as to
// outlive it, as nohup does.
func endings() []os.Signal {
	signals := []os.Signal{os.Interrupt, syscall.SIGTERM}
	if !signal.Ignored(syscall.SIGHUP) {
		signals = append(signals, syscall.SIGHUP)
	}
	return signals
}

// isTerminal reports whether f is a screen that a person watches.
func isTerminal(f *os.File) bool {
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0 && os.Getenv("TERM") != "dumb"
}
