// Package engine gets the engine of the page that computes. A program built with the tag
// page has it inside; any other builds it from the source beside it, which needs Go.
package engine

import (
	"context"
	"errors"

	"loamledger/scenarios/webfile"
)

// ErrNone is returned by a program without an engine inside that cannot build one: it is
// not in its source, or Go is not installed.
var ErrNone = errors.New("no engine inside, and none can be built")

// Get returns the engine. An error other than [ErrNone] says what went wrong as it was
// built.
func Get(ctx context.Context, version string) (*webfile.Engine, error) {
	e, err := get(ctx)
	if err != nil {
		return nil, err
	}
	e.Version = version
	return e, nil
}
