package engine

import (
	"bytes"
	"compress/gzip"
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"

	"loamledger/scenarios/webfile"
)

// Build builds the engine with the Go of this machine, from the source of this program.
// The same source and Go give the same bytes.
func Build(ctx context.Context) (*webfile.Engine, error) {
	if _, err := exec.LookPath("go"); err != nil {
		return nil, ErrNone
	}
	folder := "."
	if _, file, _, ok := runtime.Caller(0); ok {
		if _, err := os.Stat(file); err == nil {
			folder = filepath.Dir(file)
		}
	}
	run := func(args ...string) ([]byte, error) {
		cmd := exec.CommandContext(ctx, "go", args...)
		cmd.Dir = folder
		cmd.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm", "CGO_ENABLED=0", "GOFLAGS=", "GOWORK=off")
		var told bytes.Buffer
		cmd.Stderr = &told
		out, err := cmd.Output()
		if err != nil {
			err = fmt.Errorf("go %s: %w\n%s", args[0], err, strings.TrimSpace(told.String()))
		}
		return out, err
	}
	if _, err := run("list", Package); err != nil {
		return nil, ErrNone
	}
	temp, err := os.MkdirTemp("", "loamledger-engine-*")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(temp)
	out := filepath.Join(temp, "engine.wasm")
	if _, err := run(append(append([]string{"build", "-o", out}, Flags()...), Package)...); err != nil {
		return nil, err
	}
	code, err := os.ReadFile(out)
	if err != nil {
		return nil, err
	}
	if code, err = joinData(code); err != nil {
		return nil, err
	}
	e := &webfile.Engine{}
	var packed bytes.Buffer
	z, err := gzip.NewWriterLevel(&packed, gzip.BestCompression)
	if err != nil {
		return nil, err
	}
	if _, err := z.Write(code); err != nil {
		return nil, err
	}
	if err := z.Close(); err != nil {
		return nil, err
	}
	e.Wasm = packed.Bytes()
	root, err := run("env", "GOROOT")
	if err != nil {
		return nil, err
	}
	goroot := strings.TrimSpace(string(root))
	if e.Support, err = os.ReadFile(filepath.Join(goroot, "lib", "wasm", "wasm_exec.js")); err != nil {
		return nil, err
	}
	e.License, err = os.ReadFile(filepath.Join(goroot, "LICENSE"))
	return e, err
}
