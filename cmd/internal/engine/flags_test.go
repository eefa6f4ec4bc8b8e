package engine

import (
	"context"
	"errors"
	"testing"
)

// The engine is no larger than recorded.
func TestSizeOfEngine(t *testing.T) {
	if testing.Short() {
		t.Skip("builds the standard library for another system")
	}
	e, err := Build(context.Background())
	if errors.Is(err, ErrNone) {
		t.Skip(err)
	}
	if err != nil {
		t.Fatal(err)
	}
	t.Logf("the engine has %d bytes compressed, of at most %d", len(e.Wasm), MaxBytes)
	if len(e.Wasm) > MaxBytes {
		t.Errorf("%d bytes, of at most %d", len(e.Wasm), MaxBytes)
	}
}
