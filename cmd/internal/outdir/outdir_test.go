package outdir

import (
	"encoding/json"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"syscall"
	"testing"
)

// tree lists every file below root with its content, and every folder.
func tree(t *testing.T, root string) []string {
	t.Helper()
	var got []string
	err := fs.WalkDir(os.DirFS(root), ".", func(name string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			got = append(got, name+"/")
			return err
		}
		text, err := os.ReadFile(filepath.Join(root, name))
		got = append(got, name+"="+string(text))
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	slices.Sort(got)
	return got
}

func same(t *testing.T, root string, want []string) {
	t.Helper()
	if got := tree(t, root); !slices.Equal(got, want) {
		t.Errorf("folder has\n%q, want\n%q", got, want)
	}
}

func write(d *Dir, name, text string) error {
	f, err := d.File(name)
	if err != nil {
		return err
	}
	_, err = f.Write([]byte(text))
	return errors.Join(err, f.Close())
}

// output writes a small, complete output.
func output(t *testing.T, path, text string, force bool) {
	t.Helper()
	d, err := Create(path, force)
	if err != nil {
		t.Fatal(err)
	}
	defer d.Abort()
	if err := errors.Join(write(d, "run.json", text), write(d, "charts/need.png", text), d.Commit()); err != nil {
		t.Fatal(err)
	}
}

func TestWholeOutput(t *testing.T) {
	root := t.TempDir()
	out := filepath.Join(root, "out")
	d, err := Create(out, false)
	if err != nil {
		t.Fatal(err)
	}
	if err := errors.Join(write(d, "run.json", "1"), write(d, "charts/need.png", "2")); err != nil {
		t.Fatal(err)
	}
	if _, err := os.Lstat(out); !errors.Is(err, fs.ErrNotExist) {
		t.Error("the folder is there before Commit")
	}
	if err := d.Commit(); err != nil {
		t.Fatal(err)
	}
	want := []string{"./", "out/", "out/charts/", "out/charts/need.png=2", "out/run.json=1"}
	same(t, root, want)
	if err := errors.Join(d.Abort(), d.Commit(), d.Abort()); err != nil {
		t.Errorf("Abort and Commit after Commit: %v", err)
	}
	same(t, root, want)
	if err := write(d, "ledger.csv", "late"); !errors.Is(err, ErrAborted) {
		t.Errorf("a file after Commit: %v", err)
	}
}

func TestReplacing(t *testing.T) {
	root := t.TempDir()
	out := filepath.Join(root, "out")
	output(t, out, "old", false)
	_, err := Create(out, false)
	if !errors.Is(err, ErrRefused) || !strings.Contains(err.Error(), "--force") || !strings.Contains(err.Error(), out) {
		t.Errorf("existing folder without force: %v", err)
	}
	if err := os.WriteFile(filepath.Join(out, ".DS_Store"), nil, 0o666); err != nil {
		t.Fatal(err)
	}
	output(t, out, "new", true)
	same(t, root, []string{"./", "out/", "out/charts/", "out/charts/need.png=new", "out/run.json=new"})
	empty := filepath.Join(root, "empty")
	if err := os.Mkdir(empty, 0o777); err != nil {
		t.Fatal(err)
	}
	output(t, empty, "x", true)
}

// A folder that may contain somebody's work is rejected even with force, and
// nothing is left next to it.
func TestForeignFoldersAreRefused(t *testing.T) {
	for name, files := range map[string][]string{
		"no marker":        {"tally.csv"},
		"somebody's notes": {"run.json", "notes.txt"},
		"a folder":         {"run.json", "photos/a.png"},
		"among charts":     {"run.json", "charts/list.xlsx"},
		"only notes":       {"notes.txt"},
	} {
		t.Run(name, func(t *testing.T) {
			root := t.TempDir()
			out := filepath.Join(root, "out")
			for _, f := range files {
				full := filepath.Join(out, f)
				if err := errors.Join(os.MkdirAll(filepath.Dir(full), 0o777), os.WriteFile(full, []byte("mine"), 0o666)); err != nil {
					t.Fatal(err)
				}
			}
			before := tree(t, root)
			if _, err := Create(out, true); !errors.Is(err, ErrRefused) || !strings.Contains(err.Error(), "fix: ") {
				t.Errorf("got %v", err)
			}
			same(t, root, before)
		})
	}
}

func TestPathsThatCannotBe(t *testing.T) {
	root, links := t.TempDir(), t.TempDir()
	plain, dangling := filepath.Join(root, "plain.txt"), filepath.Join(links, "dangling")
	if err := errors.Join(os.WriteFile(plain, nil, 0o666), os.Symlink(filepath.Join(root, "nowhere"), dangling)); err != nil {
		t.Fatal(err)
	}
	for _, path := range []string{
		"", string(filepath.Separator), plain, filepath.Join(plain, "out"), filepath.Join(root, "no", "such", "out"), dangling,
	} {
		d, err := Create(path, true)
		if err == nil || !strings.Contains(err.Error(), filepath.Dir(path)) && path != "" {
			t.Errorf("Create(%q) = %v, %v", path, d, err)
		}
	}
	same(t, root, []string{"./", "plain.txt="})
}

// A link to an output folder stays a link; its target is replaced.
func TestLinkIsFollowed(t *testing.T) {
	root := t.TempDir()
	output(t, filepath.Join(root, "real"), "old", false)
	link := filepath.Join(root, "latest")
	if err := os.Symlink("real", link); err != nil {
		t.Skip("no symbolic links here: ", err)
	}
	output(t, link, "new", true)
	text, err := os.ReadFile(filepath.Join(root, "real", "run.json"))
	if to, lerr := os.Readlink(link); err != nil || lerr != nil || to != "real" || string(text) != "new" {
		t.Errorf("link leads to %q (%v), which holds %q (%v)", to, lerr, text, err)
	}
}

func TestOnlyKnownFiles(t *testing.T) {
	root := t.TempDir()
	d, err := Create(filepath.Join(root, "out"), false)
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{
		"", ".", "../run.json", "/run.json", "charts", "charts/", "charts/../run.json", "charts/a/b.png", "notes.txt",
	} {
		if _, err := d.File(name); err == nil {
			t.Errorf("File(%q) was created", name)
		}
	}
	if err := d.Abort(); err != nil {
		t.Fatal(err)
	}
	same(t, root, []string{"./"})
}

// failing is a file on a disk that fills up at the first write, at Sync or at
// Close.
type failing struct {
	handle
	at string
}

func (f failing) Write(p []byte) (int, error) {
	if f.at == "write" {
		return len(p) / 2, &fs.PathError{Op: "write", Path: "temporary", Err: syscall.ENOSPC}
	}
	return f.handle.Write(p)
}

func (f failing) Sync() error {
	if f.at == "sync" {
		return &fs.PathError{Op: "sync", Path: "temporary", Err: syscall.ENOSPC}
	}
	return f.handle.Sync()
}

func (f failing) Close() error {
	err := f.handle.Close()
	if f.at == "close" {
		return &fs.PathError{Op: "close", Path: "temporary", Err: syscall.ENOSPC}
	}
	return err
}

func TestFullDiskLeavesTheOldOutput(t *testing.T) {
	for _, at := range []string{"open", "write", "sync", "close"} {
		t.Run(at, func(t *testing.T) {
			root := t.TempDir()
			out := filepath.Join(root, "out")
			output(t, out, "old", false)
			before := tree(t, root)
			d, err := Create(out, true)
			if err != nil {
				t.Fatal(err)
			}
			if err := write(d, "run.json", "new"); err != nil {
				t.Fatal(err)
			}
			d.open = func(path string) (handle, error) {
				if at == "open" {
					return nil, &fs.PathError{Op: "open", Path: path, Err: syscall.ENOSPC}
				}
				h, err := create(path)
				return failing{h, at}, err
			}
			err = write(d, "ledger.csv", "many days")
			for _, err := range []error{err, d.Commit()} { // Commit repeats the error of the write
				if !errors.Is(err, syscall.ENOSPC) {
					t.Fatalf("got %v", err)
				}
				text := err.Error()
				named := strings.Contains(text, filepath.Join(out, "ledger.csv")) && !strings.Contains(text, ".loamledger")
				if !named || !strings.Contains(text, "fix: free some disk space") {
					t.Errorf("got %v", err)
				}
			}
			if err := d.Abort(); err != nil {
				t.Fatal(err)
			}
			same(t, root, before)
		})
	}
}

func TestOpenFileHoldsCommitBack(t *testing.T) {
	root := t.TempDir()
	d, err := Create(filepath.Join(root, "out"), false)
	if err != nil {
		t.Fatal(err)
	}
	f, err := d.File("tally.csv")
	if err != nil {
		t.Fatal(err)
	}
	if err := d.Commit(); err == nil || !strings.Contains(err.Error(), "tally.csv is still open") {
		t.Errorf("got %v", err)
	}
	if err := errors.Join(f.Close(), f.Close(), d.Commit()); err != nil {
		t.Error(err)
	}
}

// If somebody else creates the folder during the run, theirs stays.
func TestNameTakenMeanwhile(t *testing.T) {
	root := t.TempDir()
	out := filepath.Join(root, "out")
	d, err := Create(out, false)
	if err != nil {
		t.Fatal(err)
	}
	err = errors.Join(write(d, "run.json", "ours"), os.Mkdir(out, 0o777), os.WriteFile(filepath.Join(out, "a.txt"), []byte("theirs"), 0o666))
	if err != nil {
		t.Fatal(err)
	}
	if err := d.Commit(); !errors.Is(err, ErrRefused) {
		t.Errorf("got %v", err)
	}
	if err := d.Abort(); err != nil {
		t.Fatal(err)
	}
	same(t, root, []string{"./", "out/", "out/a.txt=theirs"})
}

// If the rename into place fails because the temporary folder is gone, the old
// output, already moved aside, is restored.
func TestFailedRenameRestores(t *testing.T) {
	root := t.TempDir()
	out := filepath.Join(root, "out")
	output(t, out, "old", false)
	before := tree(t, root)
	d, err := Create(out, true)
	if err != nil {
		t.Fatal(err)
	}
	if err := errors.Join(write(d, "run.json", "new"), os.RemoveAll(d.temp)); err != nil {
		t.Fatal(err)
	}
	if err := d.Commit(); err == nil || !strings.Contains(err.Error(), out) {
		t.Errorf("got %v", err)
	}
	if err := d.Abort(); err != nil {
		t.Fatal(err)
	}
	same(t, root, before)
}

// An interrupt aborts from another goroutine while files are being written.
func TestAbortWhileWriting(t *testing.T) {
	root := t.TempDir()
	d, err := Create(filepath.Join(root, "out"), false)
	if err != nil {
		t.Fatal(err)
	}
	started := make(chan bool, 4)
	var wg sync.WaitGroup
	for range 4 {
		wg.Go(func() {
			for i := 0; ; i++ {
				f, err := d.File("charts/" + string(rune('a'+i%26)) + strings.Repeat("x", i/26) + ".png")
				if err == nil {
					_, err = f.Write([]byte("picture"))
					err = errors.Join(err, f.Close())
				}
				if errors.Is(err, ErrAborted) {
					return
				}
				if err != nil && !errors.Is(err, fs.ErrExist) {
					t.Error(err)
					return
				}
				select {
				case started <- true:
				default:
				}
			}
		})
	}
	<-started
	for range 3 {
		wg.Go(func() {
			if err := d.Abort(); err != nil {
				t.Error(err)
			}
		})
	}
	wg.Wait()
	same(t, root, []string{"./"})
	if err := d.Commit(); !errors.Is(err, ErrAborted) {
		t.Errorf("Commit after Abort: %v", err)
	}
}

// TestEditedRecordIsSpared: run.json is replaced only as it was written, also if an
// earlier text in it looks like the place of its hash; one without its own hash, of an
// earlier version, is replaced as before.
func TestEditedRecordIsSpared(t *testing.T) {
	root := t.TempDir()
	out := filepath.Join(root, "out")
	record := func(d *Dir) string {
		text, err := json.Marshal(struct {
			Name    string
			Outputs []Output
		}{Unsealed, d.Outputs()})
		if err != nil {
			t.Fatal(err)
		}
		return string(Seal(text))
	}
	again := func() error {
		d, err := Create(out, true)
		if err != nil {
			return err
		}
		defer d.Abort()
		return errors.Join(write(d, "tally.csv", "1"), write(d, "run.json", record(d)), d.Commit())
	}
	for range 2 {
		if err := again(); err != nil {
			t.Fatal(err)
		}
	}
	path := filepath.Join(out, "run.json")
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, append(text, '\n'), 0o666); err != nil {
		t.Fatal(err)
	}
	if err := again(); !errors.Is(err, ErrRefused) || !strings.Contains(err.Error(), "contains run.json, which was changed or added") {
		t.Errorf("an edited run.json: %v", err)
	}
	old := regexp.MustCompile(`\{"name":"run.json"[^}]*\},`).ReplaceAll(text, nil)
	if len(old) == len(text) {
		t.Fatalf("no entry of run.json in %s", text)
	}
	if err := errors.Join(os.WriteFile(path, old, 0o666), again()); err != nil {
		t.Errorf("a run.json without its own hash: %v", err)
	}
}
