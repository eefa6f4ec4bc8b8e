package cli

import (
	"context"
	"io"
	"path/filepath"
	"testing"
)

// BenchmarkDemo makes the demonstration with all its files.
func BenchmarkDemo(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		code := Main(context.Background(), []string{"demo", "--out", filepath.Join(b.TempDir(), "out")}, Streams{Out: io.Discard, Err: io.Discard})
		if code != exitDone {
			b.Fatalf("exit code %d", code)
		}
	}
}
