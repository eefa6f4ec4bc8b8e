// Command loamledger replays irrigation strategies over years of daily weather
// and compares them.
package main

import (
	"context"
	"os"
	"os/signal"
	"syscall"

	"loamledger/cmd/internal/cli"
)

func main() {
	ctx, stop := context.WithCancel(context.Background())
	signals := make(chan os.Signal, 2)
	signal.Notify(signals, endings()...)
	go func() {
		<-signals
		stop()
		// A second signal ends the program at once, even if it waits for a writer or
		// a reader that has stalled, and was started with the signal ignored.
		<-signals
		os.Exit(cli.Interrupted)
	}()
	os.Exit(cli.Main(ctx, os.Args[1:], cli.Streams{Out: os.Stdout, Err: os.Stderr, In: os.Stdin, Terminal: isTerminal(os.Stderr),
		Typed: isTerminal(os.Stdin)}))
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
