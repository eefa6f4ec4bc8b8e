package ledgerfile

import (
	"io"

	"github.com/parquet-go/parquet-go"

	"loamledger/sim/replay"
)

// batchRows is how many rows go to the writer in one call.
const batchRows = 4096

// groupRows is how many rows make a row group: the writer holds one in memory.
const groupRows = 1 << 17

// A parquetRow is a [replay.Row] as Parquet stores it. Columns with few
// different values are dictionary-encoded.
type parquetRow struct {
	Date         int32   `parquet:"date,date,delta"`
	Strategy     string  `parquet:"strategy,dict"`
	Zone         string  `parquet:"zone,dict"`
	Minutes      float64 `parquet:"minutes,dict"`
	Cycles       int32   `parquet:"cycles,dict"`
	Reason       string  `parquet:"reason,dict"`
	EToMM        float64 `parquet:"eto_mm"`
	K            float64 `parquet:"k,dict"`
	ETcMM        float64 `parquet:"etc_mm"`
	RainMM       float64 `parquet:"rain_mm"`
	GrossMM      float64 `parquet:"gross_mm,dict"`
	SprayLossMM  float64 `parquet:"spray_loss_mm,dict"`
	IrrRunoffMM  float64 `parquet:"irrigation_runoff_mm,dict"`
	RainRunoffMM float64 `parquet:"rain_runoff_mm"`
	RainEvapMM   float64 `parquet:"rain_evaporated_mm"`
	PercIrrMM    float64 `parquet:"percolation_irrigation_mm"`
	PercRainMM   float64 `parquet:"percolation_rain_mm"`
	ETaMM        float64 `parquet:"eta_mm"`
	DepletionMM  float64 `parquet:"depletion_mm"`
	LowQuarterMM float64 `parquet:"low_quarter_depletion_mm"`
	TAWMM        float64 `parquet:"taw_mm,dict"`
	RAWMM        float64 `parquet:"raw_mm"`
	Ks           float64 `parquet:"ks"`
	Stress       bool    `parquet:"stress"`
	OversprayMM  float64 `parquet:"overspray_mm,dict"`
	BrokenMM     float64 `parquet:"broken_mm,dict"`
	FillDrainMM  float64 `parquet:"fill_drain_mm,dict"`
	LeakMM       float64 `parquet:"leak_mm,dict"`
	Filled       bool    `parquet:"filled"`
}

// A Parquet writes the ledger as Parquet: dates as DATE, depths as DOUBLE,
// stress as BOOLEAN, the rest as in the CSV. It is not for use by several
// goroutines at once.
type Parquet struct {
	w    *parquet.GenericWriter[parquetRow]
	rows []parquetRow
	err  error
}

// NewParquet returns a Parquet on w. The file's metadata receives meta, and for
// every column "column.<name>" with its unit and meaning. [Parquet.Close]
// writes the footer, without which the file cannot be read.
func NewParquet(w io.Writer, meta map[string]string) *Parquet {
	options := []parquet.WriterOption{
		parquet.MaxRowsPerRowGroup(groupRows),
		parquet.Compression(&parquet.Snappy),
		parquet.CreatedBy("loamledger", meta["version"], ""),
	}
	for _, c := range Columns() {
		text := c.About
		if c.Unit != "" {
			text += " [" + c.Unit + "]"
		}
		options = append(options, parquet.KeyValueMetadata("column."+c.Key, text))
	}
	for key, value := range meta {
		options = append(options, parquet.KeyValueMetadata(key, value))
	}
	return &Parquet{w: parquet.NewGenericWriter[parquetRow](w, options...), rows: make([]parquetRow, 0, batchRows)}
}

// Write appends the days of a sheet. It fails on a value that is no number and
// on a failing writer; after a failure nothing more is written.
func (p *Parquet) Write(s *replay.Sheet) error {
	for i := range s.Days() {
		if p.err != nil {
			return p.err
		}
		r := s.Row(i)
		if p.err = check(&r); p.err != nil {
			return p.err
		}
		p.rows = append(p.rows, parquetRow{
			Date: int32(r.Date), Strategy: r.Strategy, Zone: r.Zone, Minutes: r.Minutes, Cycles: int32(r.Cycles), Reason: r.Reason.String(),
			EToMM: r.EToMM, K: r.K, ETcMM: r.ETcMM, RainMM: r.RainMM, GrossMM: r.GrossMM, SprayLossMM: r.SprayLossMM,
			IrrRunoffMM: r.IrrRunoffMM, RainRunoffMM: r.RainRunoffMM, RainEvapMM: r.RainEvapMM, PercIrrMM: r.PercIrrMM, PercRainMM: r.PercRainMM,
			ETaMM: r.ETaMM, DepletionMM: r.DepletionMM, LowQuarterMM: r.LowQuarterMM, TAWMM: r.TAWMM, RAWMM: r.RAWMM, Ks: r.Ks, Stress: r.Stress,
			OversprayMM: r.OversprayMM, BrokenMM: r.BrokenMM, FillDrainMM: r.FillDrainMM, LeakMM: r.LeakMM, Filled: r.Filled,
		})
		if len(p.rows) == batchRows {
			p.flush()
		}
	}
	return p.err
}

func (p *Parquet) flush() {
	if p.err == nil {
		_, p.err = p.w.Write(p.rows)
	}
	p.rows = p.rows[:0]
}

// Close writes what is buffered and the footer. It does not close the writer
// beneath. After a failed Write it writes nothing and returns that failure.
func (p *Parquet) Close() error {
	p.flush()
	if p.err == nil {
		p.err = p.w.Close()
	}
	return p.err
}
