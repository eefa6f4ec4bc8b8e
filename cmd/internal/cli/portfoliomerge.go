package cli

import (
	"bytes"
	"cmp"
	"container/heap"
	"context"
	"errors"
	"fmt"
	"io"
	"iter"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"loamledger/cmd/internal/outdir"
	"loamledger/scenarios/accountsfile"
	rows "loamledger/sim/portfolio"
	"loamledger/sim/portfolio/portfoliofile"
	"loamledger/weather/diag"
)

func newPortfolioMerge(s Streams) *cobra.Command {
	var out string
	var force, asJSON bool
	cmd := &cobra.Command{
		Use:   "merge SHARDS --out DIR",
		Short: "Join the shards of a portfolio",
		Long: `Joins the shards in a folder, written by loamledger portfolio with --shard or
--shards, into the files of one run. It checks the manifest of each: none may be
missing, double or from other inputs, and every file must be as it was written.
The result is the same for any number of shards. The shards stay.`,
		Example: `  loamledger portfolio merge shards --out results`,
		Args:    exactly(1, "one folder of shards"),
		RunE: func(cmd *cobra.Command, args []string) error {
			if out == "" {
				return &usageError{diag.MissingFlag, "--out is missing", "add --out DIR, the folder to write"}
			}
			record, err := mergeShards(cmd.Context(), args[0], out, force)
			if err != nil {
				return err
			}
			return record.print(s, out, asJSON)
		},
	}
	f := cmd.Flags()
	f.StringVarP(&out, "out", "o", "", "folder `DIR` to write; required")
	f.BoolVar(&force, "force", false, "replace the output of an earlier run")
	f.BoolVar(&asJSON, "json", false, "print the summary as JSON")
	return cmd
}

// A found shard is one with a manifest.
type foundShard struct {
	path string
	m    *accountsfile.Manifest
}

// findShards finds the shards in a folder, in order, and reports everything that keeps them
// from being joined.
func findShards(folder string) ([]foundShard, error) {
	const rightFolder = "name the folder that loamledger portfolio --shard wrote to"
	if info, err := os.Stat(folder); err == nil && !info.IsDir() {
		return nil, &diag.Error{Code: diag.NoSuchFile, Pos: diag.Pos{File: folder}, Msg: "this is a file, not a folder of shards",
			Fix: rightFolder}
	}
	entries, err := os.ReadDir(folder)
	if err != nil {
		return nil, openError(folder, err)
	}
	var list []foundShard
	var faults diag.List
	add := func(code diag.Code, path, fix, format string, args ...any) {
		faults.Add(code, diag.Pos{File: path}, fix, format, args...)
	}
	for _, e := range entries {
		path := filepath.Join(folder, e.Name())
		if !e.IsDir() || strings.HasPrefix(e.Name(), ".") {
			continue
		}
		m, err := readManifest(path)
		if err != nil {
			add(diag.DamagedFile, path, "run this shard again, with --force", "%v", outdir.Cause(err))
			continue
		}
		list = append(list, foundShard{path, m})
	}
	if len(list) == 0 && faults.Len() == 0 {
		add(diag.NoSuchFile, folder, rightFolder, "the folder has no shards")
	}
	if len(list) == 0 {
		return nil, faults.Err()
	}
	slices.SortStableFunc(list, func(a, b foundShard) int { return cmp.Compare(a.m.Shard, b.m.Shard) })
	first := list[0].m
	has := map[int]string{}
	for i := range list {
		m, path := list[i].m, list[i].path
		switch other, twice := has[m.Shard]; {
		case m.Of != first.Of:
			add(diag.Conflict, path, "keep the shards of one number apart", "this is one of %d shards, another is one of %d", m.Of, first.Of)
		case twice:
			add(diag.Duplicate, path, "remove one", "shard %d is also in %s", m.Shard, other)
		case !m.Work.Same(&first.Work):
			add(diag.Conflict, path, "run this shard again with the same inputs, with --force", "%s", difference(&m.Work, &first.Work))
		}
		has[m.Shard] = path
	}
	var missing []string
	for i := range first.Of {
		if has[i] == "" {
			missing = append(missing, fmt.Sprint(i))
		}
	}
	if n := len(missing); n > 0 {
		text := strings.Join(missing[:min(n, 20)], ",")
		if n > 20 {
			text += fmt.Sprintf(" and %d more", n-20)
		}
		add(diag.NoSuchFile, folder, "run them: --shard I/"+fmt.Sprint(first.Of), "%d of %d shards are missing: %s", n, first.Of, text)
	}
	return list, faults.Err()
}

// difference says what differs between two works.
func difference(a, b *accountsfile.Work) string {
	for i := range a.Inputs {
		if i < len(b.Inputs) && a.Inputs[i] != b.Inputs[i] {
			return fmt.Sprintf("%s differs from that of the other shards", a.Inputs[i].Name)
		}
	}
	switch {
	case a.Program != b.Program:
		return fmt.Sprintf("the shard is from version %s of loamledger, others from %s", a.Program, b.Program)
	case a.AllMonths != b.AllMonths:
		return "the shard was made with other flags than the other shards"
	}
	return "the shard has other inputs than the other shards"
}

// mergeShards joins the shards in folder into out.
func mergeShards(ctx context.Context, folder, out string, force bool) (*portfolioRecord, error) {
	list, err := findShards(folder)
	if err != nil {
		return nil, err
	}
	var keep []string
	for i := range list {
		for _, o := range list[i].m.Outputs {
			keep = append(keep, filepath.Join(list[i].path, o.Name))
		}
	}
	dir, err := outdir.Create(out, force, keep...)
	if err != nil {
		return nil, outError(err)
	}
	defer dir.Abort()
	m := &merger{ctx: ctx, shards: list, record: newPortfolioRecord(&list[0].m.Work)}
	for i := range list {
		if err := list[i].verify(); err != nil {
			return nil, err
		}
		m.record.Accounts.Add(list[i].m.Counts)
	}
	if m.tables, err = newTables(func(name string) (io.WriteCloser, error) { return dir.File(name) }, metaOf(&list[0].m.Work)); err != nil {
		return nil, err
	}
	defer m.tables.abandon()
	if err := m.all(); err != nil {
		return nil, err
	}
	m.record.finish()
	m.record.Outputs = dir.Outputs()
	var text bytes.Buffer
	if err := printJSON(&text, m.record); err != nil {
		return nil, err
	}
	f, err := dir.File("run.json")
	if err != nil {
		return nil, err
	}
	if _, err := f.Write(outdir.Seal(text.Bytes())); err != nil {
		return nil, err
	}
	if err := f.Close(); err != nil {
		return nil, err
	}
	return m.record, outError(dir.Commit())
}

// verify checks that the files of a shard are as they were written.
func (s *foundShard) verify() error {
	var faults diag.List
	for _, o := range s.m.Outputs {
		path := filepath.Join(s.path, o.Name)
		switch sum, err := fileSum(path); {
		case err != nil:
			return openError(path, err)
		case sum != o.SHA256:
			faults.Add(diag.DamagedFile, diag.Pos{File: path}, "run this shard again, with --force", "the file is not as it was written")
		}
	}
	return faults.Err()
}

// A merger joins the tables of shards, account by account in the order of IDs.
type merger struct {
	ctx    context.Context
	shards []foundShard
	tables *tables
	record *portfolioRecord
}

func (m *merger) all() error {
	t := m.tables
	if err := mergeTable(m, resultsName, portfoliofile.ReadResults, func(r *rows.Result) string { return r.Account },
		func(list []rows.Result) error {
			m.record.addResults(list)
			return t.results.Write(list...)
		}); err != nil {
		return err
	}
	if err := mergeTable(m, monthsName, portfoliofile.ReadMonths, func(r *rows.Month) string { return r.Account },
		func(list []rows.Month) error { return t.months.Write(list...) }); err != nil {
		return err
	}
	if err := mergeTable(m, billsName, portfoliofile.ReadBills, func(r *rows.Bill) string { return r.Account },
		func(list []rows.Bill) error { return t.bills.Write(list...) }); err != nil {
		return err
	}
	if err := mergeTable(m, accountsName, portfoliofile.ReadAccounts, func(r *rows.Account) string { return r.ID },
		func(list []rows.Account) error {
			m.record.addAccount(&list[0])
			return t.accounts.Write(list...)
		}); err != nil {
		return err
	}
	for i := range m.shards {
		for _, list := range []struct {
			name string
			to   *[]accountsfile.Failure
		}{{failedName, &t.failed}, {excludedName, &t.excluded}} {
			more, err := readFailures(filepath.Join(m.shards[i].path, list.name))
			if err != nil {
				return err
			}
			*list.to = append(*list.to, more...)
		}
	}
	m.record.addFailures(t.failed)
	return t.close()
}

func readFailures(path string) ([]accountsfile.Failure, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, openError(path, err)
	}
	defer f.Close()
	list, err := accountsfile.ReadFailures(f)
	if err != nil {
		return nil, &diag.Error{Code: diag.DamagedFile, Pos: diag.Pos{File: path}, Msg: err.Error(), Fix: "run this shard again, with --force"}
	}
	return list, nil
}

// A cursor is a place in one table of one shard.
type cursor[T any] struct {
	row  T
	id   string
	next func() (T, error, bool)
}

// A cursors is a heap of cursors by account.
type cursors[T any] []*cursor[T]

func (c cursors[T]) Len() int           { return len(c) }
func (c cursors[T]) Less(i, k int) bool { return c[i].id < c[k].id }
func (c cursors[T]) Swap(i, k int)      { c[i], c[k] = c[k], c[i] }
func (c *cursors[T]) Push(x any)        { *c = append(*c, x.(*cursor[T])) }
func (c *cursors[T]) Pop() any {
	last := (*c)[len(*c)-1]
	*c = (*c)[:len(*c)-1]
	return last
}

// errStopped ends a reader whose rows are no longer wanted.
var errStopped = errors.New("stopped")

// A rowReader reads the rows of one table.
type rowReader[T any] = func(r io.ReaderAt, size int64, name string, take func(*T) error) (map[string]string, error)

// mergeTable passes the rows of a table on, all rows of one account at a time.
func mergeTable[T any](m *merger, name string, read rowReader[T],
	id func(*T) string, write func([]T) error) error {
	var open cursors[T]
	for i := range m.shards {
		path := filepath.Join(m.shards[i].path, name)
		f, err := os.Open(path)
		if err != nil {
			return openError(path, err)
		}
		defer f.Close()
		info, err := f.Stat()
		if err != nil {
			return openError(path, err)
		}
		next, stop := iter.Pull2(func(yield func(T, error) bool) {
			_, err := read(f, info.Size(), path, func(row *T) error {
				if !yield(*row, nil) {
					return errStopped
				}
				return nil
			})
			if err != nil && !errors.Is(err, errStopped) {
				var none T
				yield(none, err)
			}
		})
		defer stop()
		c := &cursor[T]{next: next}
		if more, err := c.advance(id); err != nil {
			return err
		} else if more {
			open = append(open, c)
		}
	}
	heap.Init(&open)
	var list []T
	for len(open) > 0 {
		if err := m.ctx.Err(); err != nil {
			return err
		}
		c := open[0]
		account := c.id
		list = list[:0]
		for more := true; more && c.id == account; {
			list = append(list, c.row)
			var err error
			if more, err = c.advance(id); err != nil {
				return err
			}
			if !more {
				heap.Pop(&open)
			}
		}
		if len(open) > 0 && open[0] == c {
			heap.Fix(&open, 0)
		}
		if err := write(list); err != nil {
			return err
		}
	}
	return nil
}

// advance goes to the next row; more is false at the end.
func (c *cursor[T]) advance(id func(*T) string) (more bool, err error) {
	row, err, more := c.next()
	if err != nil || !more {
		return false, err
	}
	c.row, c.id = row, strings.Clone(id(&row))
	return true, nil
}
