package outdir

import (
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"syscall"
	"testing"
)

// inside is set in the process with its own mount table.
const inside = "OUTDIR_TEST_INSIDE"

// apart runs the calling test again in a process with private mounts, which end
// with it. It reports whether it is in that process.
func apart(t *testing.T) bool {
	t.Helper()
	if os.Getenv(inside) != "" {
		return true
	}
	cmd := exec.Command(os.Args[0], "-test.run=^"+t.Name()+"$", "-test.v")
	cmd.Env = append(os.Environ(), inside+"=1")
	cmd.SysProcAttr = &syscall.SysProcAttr{
		Cloneflags:  syscall.CLONE_NEWNS | syscall.CLONE_NEWUSER,
		UidMappings: []syscall.SysProcIDMap{{ContainerID: 0, HostID: os.Getuid(), Size: 1}},
		GidMappings: []syscall.SysProcIDMap{{ContainerID: 0, HostID: os.Getgid(), Size: 1}},
	}
	text, err := cmd.CombinedOutput()
	var exit *exec.ExitError
	if err != nil && !errors.As(err, &exit) {
		t.Skip("cannot start a process with its own mounts: ", err)
	}
	if err != nil {
		t.Errorf("%v\n%s", err, text)
	} else if strings.Contains(string(text), "--- SKIP") {
		t.Skipf("%s", text)
	}
	return false
}

func mount(t *testing.T, flags uintptr, options string) string {
	t.Helper()
	at := t.TempDir()
	if err := syscall.Mount("tmpfs", at, "tmpfs", flags, options); err != nil {
		t.Skip("cannot mount a small disk here: ", err)
	}
	t.Cleanup(func() { syscall.Unmount(at, syscall.MNT_DETACH) })
	return at
}

func TestReallyFullDisk(t *testing.T) {
	if !apart(t) {
		return
	}
	root := mount(t, 0, "size=64k")
	out := filepath.Join(root, "out")
	output(t, out, "old", false)
	before := tree(t, root)
	d, err := Create(out, true)
	if err != nil {
		t.Fatal(err)
	}
	err = write(d, "ledger.csv", strings.Repeat("a day of the ledger\n", 10_000))
	if !errors.Is(err, syscall.ENOSPC) || !strings.Contains(err.Error(), "fix: free some disk space") {
		t.Errorf("got %v", err)
	}
	if err := d.Commit(); !errors.Is(err, syscall.ENOSPC) {
		t.Errorf("Commit: %v", err)
	}
	if err := d.Abort(); err != nil {
		t.Fatal(err)
	}
	same(t, root, before)
	output(t, out, "new", true) // the space is free again
}

func TestReadOnlyDisk(t *testing.T) {
	if !apart(t) {
		return
	}
	root := mount(t, syscall.MS_RDONLY, "size=64k")
	_, err := Create(filepath.Join(root, "out"), false)
	if !errors.Is(err, syscall.EROFS) || !strings.Contains(err.Error(), root) || !strings.Contains(err.Error(), "fix: the disk is read-only") {
		t.Errorf("got %v", err)
	}
}

func TestFolderIsADisk(t *testing.T) {
	if !apart(t) {
		return
	}
	root := mount(t, 0, "size=64k")
	d, err := Create(root, true) // empty, so allowed at first
	if err != nil {
		t.Fatal(err)
	}
	if err := errors.Join(write(d, "run.json", "x")); err != nil {
		t.Fatal(err)
	}
	if err := d.Commit(); !errors.Is(err, syscall.EBUSY) || !strings.Contains(err.Error(), "fix: ") {
		t.Errorf("got %v", err)
	}
	parent := filepath.Dir(root)
	if err := d.Abort(); err != nil {
		t.Fatal(err)
	}
	for _, name := range tree(t, parent) {
		if strings.Contains(name, ".loamledger") {
			t.Errorf("%s was left behind", name)
		}
	}
}

func TestReadOnlyParent(t *testing.T) {
	root := t.TempDir()
	if err := os.Chmod(root, 0o555); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.Chmod(root, 0o777) })
	done := make(chan error)
	go func() {
		// Root may write anywhere, so this thread, which ends with the
		// goroutine, accesses files as nobody.
		runtime.LockOSThread()
		if os.Geteuid() == 0 {
			if err := os.Chmod(filepath.Dir(root), 0o755); err != nil {
				done <- err
				return
			}
			syscall.Setfsuid(65534)
		}
		_, err := Create(filepath.Join(root, "out"), false)
		done <- err
	}()
	err := <-done
	const fix = "fix: choose a folder for which you have write permission"
	if !errors.Is(err, os.ErrPermission) || !strings.Contains(err.Error(), root) || !strings.Contains(err.Error(), fix) {
		t.Errorf("got %v", err)
	}
}
