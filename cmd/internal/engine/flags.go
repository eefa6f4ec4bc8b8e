package engine

// Package is the program that is the engine.
const Package = "loamledger/cmd/engine"

// Flags are the flags of go build: without symbols, and without inlining outside the
// replay and what it calls, which makes the engine an eighth smaller and no slower.
func Flags() []string {
	return []string{"-trimpath", "-ldflags=-s -w", "-gcflags=all=-l", "-gcflags=loamledger/sim/...=", "-gcflags=loamledger/weather/cal=",
		"-gcflags=math=", "-gcflags=math/bits=", "-gcflags=slices="}
}

// MaxBytes is the size that the compressed engine may have: the page should open at once
// from a slow disk and fit into a mail.
const MaxBytes = 3_000_000
