package ledgerfile

import (
	"errors"
	"fmt"
	"io"
	"slices"

	"github.com/parquet-go/parquet-go"

	"loamledger/sim"
	"loamledger/sim/replay"
	"loamledger/weather/cal"
)

// ReadParquet reads back a ledger written by [Parquet], whole, and its
// metadata. It refuses a file that is no Parquet, whose columns are not those
// of [Columns], or that holds a value that is no number.
func ReadParquet(r io.ReaderAt, size int64) (rows []replay.Row, meta map[string]string, err error) {
	// The library panics on some damaged files; to the caller they are one
	// more kind of unreadable file.
	defer func() {
		if fault := recover(); fault != nil {
			rows, meta, err = nil, nil, fmt.Errorf("ledger: damaged Parquet: %v", fault)
		}
	}()
	f, err := parquet.OpenFile(r, size)
	if err != nil {
		return nil, nil, fmt.Errorf("ledger: not readable as Parquet: %w", err)
	}
	var got []string
	for _, field := range f.Schema().Fields() {
		got = append(got, field.Name())
	}
	if want := keys(Columns()); !slices.Equal(got, want) {
		return nil, nil, fmt.Errorf("ledger: columns are %q, want %q", got, want)
	}
	meta = map[string]string{}
	for _, kv := range f.Metadata().KeyValueMetadata {
		meta[kv.Key] = kv.Value
	}
	g := parquet.NewGenericReader[parquetRow](f)
	defer g.Close()
	batch := make([]parquetRow, 512)
	for {
		n, err := g.Read(batch)
		for i := range batch[:n] {
			row, bad := batch[i].row()
			if bad != nil {
				return nil, nil, bad
			}
			rows = append(rows, row)
		}
		if errors.Is(err, io.EOF) {
			return rows, meta, nil
		}
		if err != nil {
			return nil, nil, fmt.Errorf("ledger: row %d: %w", len(rows)+1, err)
		}
		if n == 0 {
			return nil, nil, fmt.Errorf("ledger: row %d: %w", len(rows)+1, io.ErrNoProgress)
		}
	}
}

func (p *parquetRow) row() (replay.Row, error) {
	reason, known := sim.ReasonNamed(p.Reason)
	if !known {
		return replay.Row{}, fmt.Errorf("ledger: reason %q is not known", p.Reason)
	}
	r := replay.Row{
		Date: cal.Date(p.Date), Strategy: p.Strategy, Zone: p.Zone, Minutes: p.Minutes, Cycles: int(p.Cycles), Reason: reason,
		EToMM: p.EToMM, K: p.K, ETcMM: p.ETcMM, RainMM: p.RainMM, GrossMM: p.GrossMM, SprayLossMM: p.SprayLossMM,
		IrrRunoffMM: p.IrrRunoffMM, RainRunoffMM: p.RainRunoffMM, RainEvapMM: p.RainEvapMM, PercIrrMM: p.PercIrrMM, PercRainMM: p.PercRainMM,
		ETaMM: p.ETaMM, DepletionMM: p.DepletionMM, LowQuarterMM: p.LowQuarterMM, TAWMM: p.TAWMM, RAWMM: p.RAWMM, Ks: p.Ks, Stress: p.Stress,
		OversprayMM: p.OversprayMM, BrokenMM: p.BrokenMM, FillDrainMM: p.FillDrainMM, LeakMM: p.LeakMM, Filled: p.Filled,
	}
	return r, check(&r)
}
