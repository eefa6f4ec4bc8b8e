package cli

import (
	"context"
	"fmt"
	"io"
	"os"
	"time"

	"loamledger/cmd/internal/outdir"
	"loamledger/cmd/internal/progress"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// usualShard is the number of accounts in a shard if no number of shards is given: a kill
// loses at most that many, and memory does not grow with the table.
const usualShard = 1000

// lineEvery is the time between lines of progress where there is no terminal.
const lineEvery = 15 * time.Second

// progressOut is where progress is shown.
func (s *Streams) progressOut() io.Writer {
	if s.Terminal {
		return s.bar
	}
	return s.Err
}

// rateLine says how fast accounts were replayed.
func rateLine(s Streams, n int, took time.Duration) {
	if n > 0 {
		fmt.Fprintf(s.Err, "%s in %v, %.1f accounts a second\n", quantity.Count(n, "account", "accounts"), took.Round(time.Millisecond),
			float64(n)/took.Seconds())
	}
}

// all runs every shard that is not finished in a folder beside the output, joins them and
// deletes them.
func (p *portfolio) all(ctx context.Context, s Streams) error {
	o := p.options
	keep := append(p.names(), p.table)
	dir, err := outdir.Create(o.Out, o.Force, keep...) // before the work, so that it is not lost
	if err != nil {
		return outError(err)
	}
	dir.Abort()
	folder := dir.Path() + ".shards"
	if err := makeFolder(folder); err != nil {
		return err
	}
	n := max((p.count+usualShard-1)/usualShard, 1)
	if err := p.clearShards(folder, n); err != nil {
		return err
	}
	counter := progress.NewCounter(s.progressOut(), s.Terminal, p.count, "accounts", lineEvery)
	for i := range n {
		shard := shardOf{i, n}
		if m, _ := p.finished(folder, shard); m != nil {
			counter.Skip(m.Counts.In)
			continue
		}
		if _, err := p.shard(ctx, folder, shard, counter.Step); err != nil {
			counter.Done()
			return err
		}
	}
	done, took := counter.Done()
	rateLine(s, done, took)
	record, err := mergeShards(ctx, folder, o.Out, o.Force)
	if err != nil {
		return err
	}
	if err := os.RemoveAll(folder); err != nil {
		return writeError(folder, err)
	}
	return record.print(s, o.Out, o.JSON)
}

// clearShards deletes the shards of earlier runs with other inputs. A folder with anything
// else in it is refused.
func (p *portfolio) clearShards(folder string, n int) error {
	entries, err := os.ReadDir(folder)
	if err != nil {
		return openError(folder, err)
	}
	for _, e := range entries {
		path := folder + string(os.PathSeparator) + e.Name()
		var shard shardOf
		if _, err := fmt.Sscanf(e.Name(), "shard-%05d-of-%05d", &shard.i, &shard.n); err != nil || shard.shardName() != e.Name() {
			if e.Name()[0] == '.' {
				continue // unfinished; the next shard deletes what a killed run left
			}
			return &usageError{diag.OutputRefused, path + " is not from loamledger", "move it out, or choose another output folder"}
		}
		if m, _ := p.finished(folder, shard); m == nil || shard.n != n {
			if err := removeShard(path); err != nil {
				return err
			}
		}
	}
	return nil
}
