package cli

import (
	"context"
	"io"
	"path/filepath"
	"testing"
)

// BenchmarkDemo runs the demo with all its files.
func BenchmarkDemo(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		args := []string{"demo", "--out", filepath.Join(b.TempDir(), "out")}
		code := Main(context.Background(), args, Streams{Out: io.Discard, Err: io.Discard})
		if code != exitDone {
			b.Fatalf("exit code %d", code)
		}
	}
}
