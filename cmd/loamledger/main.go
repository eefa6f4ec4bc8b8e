// Command loamledger replays watering strategies over years of daily weather
// and reports what each would have done.
package main

import (
	"context"
	"os"
	"os/signal"
	"syscall"

	"loamledger/cmd/internal/cli"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	context.AfterFunc(ctx, stop) // a second signal ends the program at once
	code := cli.Main(ctx, os.Args[1:], cli.Streams{Out: os.Stdout, Err: os.Stderr, Terminal: isTerminal(os.Stderr)})
	stop()
	os.Exit(code)
}

// isTerminal reports whether f is a screen that a person watches.
func isTerminal(f *os.File) bool {
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0 && os.Getenv("TERM") != "dumb"
}
