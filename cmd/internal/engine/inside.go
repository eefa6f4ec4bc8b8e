//go:build page

package engine

import (
	"context"
	_ "embed"

	"loamledger/scenarios/webfile"
)

// The files are written by .ci/engine and are not part of the source.
var (
	//go:embed engine.wasm.gz
	wasm []byte
	//go:embed wasm_exec.js
	support []byte
	//go:embed go-license.txt
	license []byte
)

func get(context.Context) (*webfile.Engine, error) {
	return &webfile.Engine{Wasm: wasm, Support: support, License: license}, nil
}
