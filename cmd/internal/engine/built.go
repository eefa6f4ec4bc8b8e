//go:build !page

package engine

import (
	"context"

	"loamledger/scenarios/webfile"
)

func get(ctx context.Context) (*webfile.Engine, error) { return Build(ctx) }
