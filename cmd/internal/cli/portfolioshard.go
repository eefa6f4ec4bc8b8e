package cli

import (
	"cmp"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"sync"

	"loamledger/cmd/internal/outdir"
	"loamledger/cmd/internal/progress"
	"loamledger/scenarios/accounts"
	"loamledger/scenarios/accountsfile"
	"loamledger/weather/diag"
)

// manifestName is the file by which a shard is complete.
const manifestName = "manifest.json"

// shardName is the folder of a shard.
func (s shardOf) shardName() string { return fmt.Sprintf("shard-%05d-of-%05d", s.i, s.n) }

// A job is one account of a shard under way.
type job struct {
	account *accounts.Account
	faults  error
	rows    *accounts.Rows
	done    chan struct{}
}

// finished returns the manifest of a shard in folder that is complete and has the same inputs.
// stale says that there is another one.
func (p *portfolio) finished(folder string, s shardOf) (m *accountsfile.Manifest, stale bool) {
	m, err := readManifest(filepath.Join(folder, s.shardName()))
	if err != nil {
		_, serr := os.Lstat(filepath.Join(folder, s.shardName()))
		return nil, serr == nil
	}
	if m.Shard != s.i || m.Of != s.n || !m.Work.Same(&p.work) {
		return nil, true
	}
	return m, false
}

// readManifest reads the manifest of the shard in a folder.
func readManifest(shard string) (*accountsfile.Manifest, error) {
	f, err := os.Open(filepath.Join(shard, manifestName))
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return accountsfile.ReadManifest(f)
}

// shard replays one shard into folder. It takes memory for the accounts of the shard and for
// the rows under way.
func (p *portfolio) shard(ctx context.Context, folder string, s shardOf, step func()) (*accountsfile.Manifest, error) {
	list, err := p.accountsOf(s)
	if err != nil {
		return nil, err
	}
	shown := filepath.Join(folder, s.shardName())
	temp, release, err := outdir.PartialFolder(folder)
	if err != nil {
		return nil, writeError(folder, err)
	}
	defer release()
	m := &accountsfile.Manifest{Layout: accountsfile.ManifestVersion, Shard: s.i, Of: s.n, Work: p.work}
	if err := p.fillShard(ctx, temp, shown, list, m, step); err != nil {
		_ = os.RemoveAll(temp) // the first error is the one to report
		return nil, err
	}
	if err := os.Rename(temp, shown); err != nil {
		_ = os.RemoveAll(temp)
		if done, _ := p.finished(folder, s); done != nil {
			return done, nil // another process was faster, with the same inputs
		}
		return nil, writeError(shown, err)
	}
	return m, nil
}

// accountsOf reads the accounts of a shard, by ID.
func (p *portfolio) accountsOf(s shardOf) ([]*job, error) {
	var list []*job
	skip := func(id string) bool { return accounts.Shard(id, s.n) != s.i }
	err := p.eachAccount(skip, func(a *accounts.Account, faults error) error {
		list = append(list, &job{account: a, faults: faults, done: make(chan struct{})})
		return nil
	})
	slices.SortStableFunc(list, func(a, b *job) int { return cmp.Compare(a.account.ID, b.account.ID) })
	return list, err
}

// fillShard replays accounts on several goroutines and writes them in order.
func (p *portfolio) fillShard(ctx context.Context, temp, shown string, list []*job, m *accountsfile.Manifest, step func()) error {
	create := func(name string) (io.WriteCloser, error) { return createShardFile(temp, shown, name) }
	t, err := newTables(create, metaOf(&p.work))
	if err != nil {
		return err
	}
	defer t.abandon()
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	work := make(chan *job)
	// What is done waits for its turn; so much and no more may wait.
	turn := make(chan struct{}, 8*p.options.Workers)
	var wg sync.WaitGroup
	defer wg.Wait()
	defer stop()
	for range p.options.Workers {
		wg.Go(func() {
			r := accounts.NewReplayer(p.program, p.sites, accounts.Options{AllMonths: p.options.AllMonths})
			for j := range work {
				r = p.replayJob(ctx, r, j)
				close(j.done)
			}
		})
	}
	wg.Go(func() {
		defer close(work)
		for _, j := range list {
			select {
			case turn <- struct{}{}:
			case <-ctx.Done():
				return
			}
			select {
			case work <- j:
			case <-ctx.Done():
				return
			}
		}
	})
	for i, j := range list {
		select {
		case <-j.done:
		case <-ctx.Done():
			return ctx.Err()
		}
		if err := p.take(t, j, &m.Counts); err != nil {
			return err
		}
		list[i] = nil
		<-turn
		step()
	}
	if err := t.close(); err != nil {
		return err
	}
	return p.seal(temp, shown, m)
}

// replayJob replays one account. A mistake of the program costs that account alone; the
// replayer is then a new one.
func (p *portfolio) replayJob(ctx context.Context, r *accounts.Replayer, j *job) (next *accounts.Replayer) {
	next = r
	a := j.account
	if j.faults != nil || a.Exclude != "" {
		return r
	}
	if os.Getenv(traceVariable) == "" {
		defer func() {
			if fault := recover(); fault != nil {
				j.faults = &diag.Error{Code: diag.System, Pos: a.Pos, Msg: fmt.Sprintf("mistake in the program: %v", fault),
					Fix: "set " + traceVariable + "=1, replay this account alone and report what it prints"}
				next = accounts.NewReplayer(p.program, p.sites, accounts.Options{AllMonths: p.options.AllMonths})
			}
		}()
	}
	out, err := r.Account(ctx, a)
	if err != nil {
		j.faults = err
		return r
	}
	j.rows = out.Clone()
	return r
}

// take adds the result of one account to the tables.
func (p *portfolio) take(t *tables, j *job, c *accountsfile.Counts) error {
	c.In++
	a := j.account
	switch {
	case a.Exclude != "":
		c.Excluded++
		t.excluded = append(t.excluded, accountsfile.Failure{Account: a.ID, File: filepath.Base(a.Pos.File), Row: a.Pos.Line,
			Column: a.Pos.Col, Reason: a.Exclude})
	case j.faults != nil && (errors.Is(j.faults, context.Canceled) || errors.Is(j.faults, context.DeadlineExceeded)):
		return j.faults
	case j.faults != nil:
		c.Failed++
		t.failed = append(t.failed, accountsfile.Failures(a.ID, p.table, j.faults)...)
	default:
		c.Done++
		c.Rows += len(j.rows.Results)
		return t.put(j.rows)
	}
	return nil
}

// seal writes the manifest, with the hashes of all files.
func (p *portfolio) seal(temp, shown string, m *accountsfile.Manifest) error {
	for _, name := range shardFiles() {
		sum, err := fileSum(filepath.Join(temp, name))
		if err != nil {
			return writeError(filepath.Join(shown, name), err)
		}
		m.Outputs = append(m.Outputs, accountsfile.Output{Name: name, SHA256: sum})
	}
	f, err := createShardFile(temp, shown, manifestName)
	if err != nil {
		return err
	}
	return errors.Join(accountsfile.WriteManifest(f, m), f.Close())
}

// fileSum returns the hash of a file.
func fileSum(name string) (string, error) {
	f, err := os.Open(name)
	if err != nil {
		return "", err
	}
	defer f.Close()
	h := sha256.New()
	if _, err := io.Copy(h, f); err != nil {
		return "", err
	}
	return hex.EncodeToString(h.Sum(nil)), nil
}

// one runs one shard into the folder that flags name.
func (p *portfolio) one(ctx context.Context, s Streams, shard shardOf) error {
	folder := p.options.Out
	if err := makeFolder(folder); err != nil {
		return err
	}
	m, stale := p.finished(folder, shard)
	switch path := filepath.Join(folder, shard.shardName()); {
	case m != nil:
		fmt.Fprintf(s.Out, "Shard %d of %d was finished before, with the same inputs: left alone. %s\n", shard.i, shard.n, countsLine(&m.Counts))
		return nil
	case stale && !p.options.Force:
		return &usageError{diag.Exists, path + " has other inputs or is not complete", "choose another folder, or replace it with --force"}
	case stale:
		if err := removeShard(path); err != nil {
			return err
		}
	}
	counter := progress.NewCounter(s.progressOut(), s.Terminal, p.count/shard.n, "accounts", lineEvery)
	m, err := p.shard(ctx, folder, shard, counter.Step)
	n, took := counter.Done()
	if err != nil {
		return err
	}
	fmt.Fprintf(s.Out, "Shard %d of %d is finished. %s\n", shard.i, shard.n, countsLine(&m.Counts))
	rateLine(s, n, took)
	return nil
}

// makeFolder makes a folder in which shards are put, if it is not there.
func makeFolder(folder string) error {
	err := os.Mkdir(folder, 0o777)
	switch {
	case err == nil, errors.Is(err, fs.ErrExist):
		return nil
	case errors.Is(err, fs.ErrNotExist):
		return noFolder(filepath.Dir(folder))
	}
	return writeError(folder, err)
}

// removeShard deletes a shard, and nothing that is not a shard's.
func removeShard(path string) error {
	entries, err := os.ReadDir(path)
	if err != nil {
		return writeError(path, err)
	}
	for _, e := range entries {
		if !slices.Contains(shardFiles(), e.Name()) && e.Name() != manifestName {
			return &usageError{diag.OutputRefused, path + " contains " + e.Name() + ", which is not from loamledger", "move that file out"}
		}
	}
	if err := os.RemoveAll(path); err != nil {
		return writeError(path, err)
	}
	return nil
}

// countsLine says how accounts reconcile.
func countsLine(c *accountsfile.Counts) string {
	return fmt.Sprintf("%d accounts = %d done + %d failed + %d excluded.", c.In, c.Done, c.Failed, c.Excluded)
}
