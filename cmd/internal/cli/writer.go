package cli

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"io"
	"os"
	"path/filepath"

	"loamledger/cmd/internal/outdir"
	"loamledger/scenarios/study"
	"loamledger/sim/ledgerfile"
	"loamledger/sim/replay"
	"loamledger/sim/tally"
	"loamledger/weather/cal"
)

// A writer writes one output folder.
type writer struct {
	*loaded
	dir     *outdir.Dir
	options *replayOptions
	date    cal.Date
	ahead   *study.Coming // nil if no day after the record is forecast
}

// all replays the scenario and writes every file.
func (w *writer) all(ctx context.Context) (*tally.Table, error) {
	season := w.season()
	table, err := w.ledgers(ctx, season)
	if err != nil {
		return nil, err
	}
	if w.options.draw != nil {
		if err := w.options.draw(table); err != nil {
			return nil, err
		}
	}
	err = w.file("tally.csv", func(f io.Writer) error {
		return ledgerfile.WriteTally(f, table, tally.Measures(), w.TallyPlaces())
	})
	if err != nil {
		return nil, err
	}
	if w.Scenario.Limits != nil {
		if err := w.file("compliance.csv", func(f io.Writer) error { return ledgerfile.WriteBreaches(f, table, w.Applies) }); err != nil {
			return nil, err
		}
	}
	if bills := w.BillTable(table); bills != nil {
		if err := w.file("bills.csv", func(f io.Writer) error { return writeRows(f, bills) }); err != nil {
			return nil, err
		}
	}
	if w.ahead != nil {
		if err := w.file("outlook.csv", func(f io.Writer) error { return w.writeOutlook(f, w.ahead) }); err != nil {
			return nil, err
		}
	}
	if !w.options.NoCharts {
		if err := w.pictures(ctx, table, season); err != nil {
			return nil, err
		}
	}
	for _, name := range w.options.Extra {
		if err := w.copy(name); err != nil {
			return nil, err
		}
	}
	record := w.record(table, w.ahead)
	record.Outputs = w.dir.Outputs()
	return table, w.file("run.json", func(f io.Writer) error { return printSealed(f, record) })
}

// season chooses the days of the depletion charts; nil for no charts.
func (w *writer) season() *study.Season {
	if w.options.NoCharts {
		return nil
	}
	return study.NewSeason(&w.Job, replay.RankYears(&w.Job).Dry)
}

// ledgers replays the study and passes each sheet to the ledger files and the
// charts.
func (w *writer) ledgers(ctx context.Context, season *study.Season) (*tally.Table, error) {
	var sinks []func(*replay.Sheet) error
	var closers []func() error
	if !w.options.NoLedger {
		if !w.options.NoCSV {
			f, done, err := w.create("ledger.csv")
			if err != nil {
				return nil, err
			}
			ledger := ledgerfile.NewCSV(f, ledgerfile.Columns())
			sinks, closers = append(sinks, ledger.Write), append(closers, ledger.Close, done)
		}
		f, done, err := w.create("ledger.parquet")
		if err != nil {
			return nil, errors.Join(err, closeAll(closers))
		}
		ledger := ledgerfile.NewParquet(f, w.Metadata(), ledgerfile.Columns())
		sinks, closers = append(sinks, ledger.Write), append(closers, ledger.Close, done)
	}
	if season != nil {
		sinks = append(sinks, season.Take)
	}
	var sink func(*replay.Sheet) error
	if len(sinks) > 0 {
		sink = func(s *replay.Sheet) error { return together(ctx, s, sinks) }
	}
	table, err := w.Replay(ctx, sink)
	return table, errors.Join(err, closeAll(closers))
}

// together passes a sheet to every sink at the same time.
func together(ctx context.Context, s *replay.Sheet, sinks []func(*replay.Sheet) error) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	done := make(chan error, len(sinks))
	for _, sink := range sinks {
		go func() { done <- sink(s) }()
	}
	var first error
	for range sinks {
		if err := <-done; err != nil && first == nil {
			first = err
		}
	}
	return first
}

// closeAll closes in order and returns the first error.
func closeAll(closers []func() error) error {
	var first error
	for _, c := range closers {
		if err := c(); err != nil && first == nil {
			first = err
		}
	}
	return first
}

// create opens a file in the folder; done flushes and closes it.
func (w *writer) create(name string) (f io.Writer, done func() error, err error) {
	file, err := w.dir.File(name)
	if err != nil {
		return nil, nil, err
	}
	b := bufio.NewWriterSize(file, 1<<16)
	return b, func() error {
		err := b.Flush()
		if cerr := file.Close(); err == nil {
			err = cerr
		}
		return err
	}, nil
}

// file writes one file in the folder.
func (w *writer) file(name string, write func(io.Writer) error) error {
	f, done, err := w.create(name)
	if err != nil {
		return err
	}
	err = write(f)
	if cerr := done(); err == nil {
		err = cerr
	}
	return err
}

// copy copies an input file to the folder.
func (w *writer) copy(name string) error {
	data, err := os.ReadFile(name)
	if err != nil {
		return err
	}
	return w.file("inputs/"+filepath.Base(name), func(f io.Writer) error {
		_, err := f.Write(data)
		return err
	})
}

// pictures draws the charts and writes the report.
func (w *writer) pictures(ctx context.Context, table *tally.Table, season *study.Season) error {
	p, err := w.printed(ctx, table, season, w.ahead, w.date)
	if err != nil {
		return err
	}
	for _, f := range p.files() {
		err := w.file("charts/"+f.name+".png", func(to io.Writer) error {
			_, err := to.Write(f.png)
			return err
		})
		if err != nil {
			return err
		}
	}
	if w.options.PDF {
		if err := w.file("report.pdf", p.writePDF); err != nil {
			return err
		}
	}
	return w.file("report.html", p.writeHTML)
}

// printJSON writes v indented.
func printJSON(w io.Writer, v any) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(v)
}

// printSealed writes run.json with its own hash.
func printSealed(f io.Writer, record runRecord) error {
	var text bytes.Buffer
	if err := printJSON(&text, record); err != nil {
		return err
	}
	_, err := f.Write(outdir.Seal(text.Bytes()))
	return err
}
