// Command write writes the engine of the page beside the package that embeds it, for a
// release, and refuses one that is too large.
package main

import (
	"context"
	"fmt"
	"os"
	"path/filepath"

	"loamledger/cmd/internal/engine"
)

func main() {
	if err := write("cmd/internal/engine"); err != nil {
		fmt.Fprintln(os.Stderr, "error:", err)
		os.Exit(1)
	}
}

func write(folder string) error {
	e, err := engine.Build(context.Background())
	if err != nil {
		return err
	}
	fmt.Printf("the engine has %d bytes compressed, of at most %d\n", len(e.Wasm), engine.MaxBytes)
	if len(e.Wasm) > engine.MaxBytes {
		return fmt.Errorf("the engine of the page is too large: cut what it does not need")
	}
	for name, data := range map[string][]byte{"engine.wasm.gz": e.Wasm, "wasm_exec.js": e.Support, "go-license.txt": e.License} {
		if err := os.WriteFile(filepath.Join(folder, name), data, 0o644); err != nil {
			return err
		}
	}
	return nil
}
