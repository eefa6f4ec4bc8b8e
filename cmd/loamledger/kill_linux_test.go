package main

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// fileLimit is the largest file the program may write [B], as a full disk would
// allow; see TestMain.
const fileLimit = "LOAMLEDGER_TEST_FILE_LIMIT"

// limitFiles sets the limit of the process.
func limitFiles(bytes string) {
	var n uint64
	fmt.Sscan(bytes, &n)
	if err := syscall.Setrlimit(syscall.RLIMIT_FSIZE, &syscall.Rlimit{Cur: n, Max: n}); err != nil {
		panic(err)
	}
}

// A writing is a command that writes; out is what it writes.
type writing struct {
	name, out string
	args      []string
	limit     int // a file size [B] that it exceeds
}

// writings lists every command that writes, with output in dir.
func writings(dir string) []writing {
	const example = "../../scenarios/examples/juniper-court"
	list := []writing{
		{"demo", "out", []string{"demo", "--out"}, 4096},
		{"replay", "out", []string{"replay", example + ".yaml", "--out"}, 4096},
		{"weather", "out.csv", []string{"weather", example + "-weather.csv", "--latitude", "38.9", "--elevation", "490 m", "--out"}, 4096},
		{"init", "out.yaml", []string{"init"}, 512},
		{"generate", "out.csv", []string{"generate", "--fit", example + "-weather.csv", "--latitude", "38.9", "--elevation", "490 m",
			"--years", "30", "--seed", "1", "--out"}, 4096},
		{"settings to a folder", "out", []string{"settings", example + ".yaml", "--strategy", "as found", "--out"}, 512},
		{"settings to a file", "out.html", []string{"settings", example + ".yaml", "--strategy", "as found", "--out"}, 512},
		{"tradeoff", "out.csv", []string{"tradeoff", example + ".yaml", "--strategy", "as found", "--plot", filepath.Join(dir, "out.png"),
			"--out"}, 64},
	}
	for i := range list {
		list[i].args = append(list[i].args, filepath.Join(dir, list[i].out))
	}
	return list
}

// program returns the program with a command.
func (w *writing) program(dir string, env ...string) (*exec.Cmd, *bytes.Buffer) {
	var b bytes.Buffer
	cmd := exec.Command(os.Args[0], w.args...)
	cmd.Env = append(append(os.Environ(), asProgram+"=1", "TMPDIR="+dir+"/tmp"), env...)
	cmd.Stdout, cmd.Stderr = &b, &b
	return cmd, &b
}

// tree returns the digest of every file in dir, by name.
func tree(t *testing.T, dir string) map[string]string {
	t.Helper()
	out := map[string]string{}
	err := fs.WalkDir(os.DirFS(dir), ".", func(name string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			if name == "tmp" {
				return fs.SkipDir
			}
			return err
		}
		text, err := os.ReadFile(filepath.Join(dir, name))
		out[name] = fmt.Sprintf("%x", sha256.Sum256(text))
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// unfinished reports the name of an unfinished output, which the next run
// deletes.
func unfinished(name string) bool { return strings.HasPrefix(name, ".loamledger-partial-") }

// folder is where a command writes: in memory if possible, because 200 killed
// runs would wait for a real disk.
func folder(t *testing.T) string {
	dir, err := os.MkdirTemp("/dev/shm", "loamledger-test-")
	if err != nil {
		dir = t.TempDir()
	}
	t.Cleanup(func() { os.RemoveAll(dir) })
	if err := os.Mkdir(filepath.Join(dir, "tmp"), 0o777); err != nil {
		t.Fatal(err)
	}
	return dir
}

// kills is how often each command is killed.
func kills() int {
	if os.Getenv("LONG") != "" {
		return 200
	}
	return 3
}

// However early or late a command is killed, its output is absent or complete,
// and the next run deletes what it left.
func TestKilled(t *testing.T) {
	for _, w := range writings("") {
		t.Run(w.name, func(t *testing.T) {
			t.Parallel()
			dir := folder(t)
			for _, again := range writings(dir) {
				if again.name == w.name {
					w = again
				}
			}
			cmd, text := w.program(dir)
			start := time.Now()
			if err := cmd.Run(); err != nil {
				t.Fatalf("%v\n%s", err, text)
			}
			takes := time.Since(start)
			want := tree(t, dir)
			if len(want) == 0 {
				t.Fatal("nothing is written")
			}
			rng := rand.New(rand.NewPCG(1, uint64(len(w.name))))
			absent, complete := 0, 0
			for range kills() {
				clear(t, dir)
				cmd, _ := w.program(dir)
				if err := cmd.Start(); err != nil {
					t.Fatal(err)
				}
				time.Sleep(time.Duration(1.2 * rng.Float64() * float64(takes)))
				cmd.Process.Kill()
				cmd.Wait()
				finished := 0
				for name, digest := range tree(t, dir) {
					if top, _, _ := strings.Cut(name, "/"); unfinished(top) {
						continue
					}
					finished++
					if want[name] != digest {
						t.Errorf("%s is not what a whole run writes", name)
					}
				}
				switch {
				case finished == len(want):
					complete++
				case finished == 0:
					absent++
				case w.name != "tradeoff": // which writes two files, one after the other
					t.Errorf("%d files of %d", finished, len(want))
				}
			}
			t.Logf("killed %d times: %d absent, %d complete", kills(), absent, complete)
			clear(t, dir)
			if cmd, text := w.program(dir); cmd.Run() != nil {
				t.Fatalf("after the kills: %s", text)
			}
			for name := range tree(t, dir) {
				if top, _, _ := strings.Cut(name, "/"); unfinished(top) {
					t.Errorf("%s is left behind", name)
				}
			}
		})
	}
}

// clear deletes finished output.
func clear(t *testing.T, dir string) {
	t.Helper()
	for _, name := range names(t, dir) {
		if name == "tmp" || unfinished(name) {
			continue
		}
		if err := os.RemoveAll(filepath.Join(dir, name)); err != nil {
			t.Fatal(err)
		}
	}
}

// A command whose file may not grow, as on a full disk, ends with exit code 1
// and leaves nothing. The limit is the process's own, so nothing is mounted.
func TestFilesMayNotGrow(t *testing.T) {
	for _, w := range writings("") {
		t.Run(w.name, func(t *testing.T) {
			dir := folder(t)
			for _, again := range writings(dir) {
				if again.name == w.name {
					w = again
				}
			}
			for limit := 0; limit <= w.limit; limit = max(64, 4*limit) {
				cmd, text := w.program(dir, fmt.Sprintf("%s=%d", fileLimit, limit))
				err := cmd.Run()
				if cmd.ProcessState.ExitCode() != 1 || !strings.Contains(text.String(), "file too large") {
					t.Errorf("at %d bytes: %v\n%s", limit, err, text)
				}
				if left := names(t, dir); len(left) != 1 || len(names(t, filepath.Join(dir, "tmp"))) > 0 {
					t.Errorf("at %d bytes: left behind: %v, %v", limit, left, names(t, filepath.Join(dir, "tmp")))
				}
			}
		})
	}
}
