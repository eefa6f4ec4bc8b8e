package cli_test

import (
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"syscall"
	"testing"

	"loamledger/cmd/internal/cli"
)

// inside is set in the process with its own mount table.
const inside = "CLI_TEST_INSIDE"

// smallDisk mounts a private disk of the given size. It does so in a second
// process, which runs the test again; in the first it returns "", and the test
// ends.
func smallDisk(t *testing.T, size string) string {
	t.Helper()
	if os.Getenv(inside) == "" {
		cmd := exec.Command(os.Args[0], "-test.run=^"+t.Name()+"$", "-test.v")
		cmd.Env = append(os.Environ(), inside+"=1")
		cmd.SysProcAttr = &syscall.SysProcAttr{
			Cloneflags:  syscall.CLONE_NEWNS | syscall.CLONE_NEWUSER,
			UidMappings: []syscall.SysProcIDMap{{ContainerID: 0, HostID: os.Getuid(), Size: 1}},
			GidMappings: []syscall.SysProcIDMap{{ContainerID: 0, HostID: os.Getgid(), Size: 1}},
		}
		text, err := cmd.CombinedOutput()
		var exit *exec.ExitError
		switch {
		case err != nil && !errors.As(err, &exit):
			t.Skip("cannot start a process with its own mounts: ", err)
		case err != nil:
			t.Errorf("%v\n%s", err, text)
		case strings.Contains(string(text), "--- SKIP"):
			t.Skipf("%s", text)
		}
		return ""
	}
	at := t.TempDir()
	if err := syscall.Mount("tmpfs", at, "tmpfs", 0, "size="+size); err != nil {
		t.Skip("cannot mount a small disk here: ", err)
	}
	t.Cleanup(func() { syscall.Unmount(at, syscall.MNT_DETACH) })
	return at
}

func TestFullDisk(t *testing.T) {
	disk := smallDisk(t, "256k")
	if disk == "" {
		return
	}
	scenario := yard(t, 2)
	out := filepath.Join(disk, "out")
	for _, args := range [][]string{
		{"replay", scenario, "--out", out},
		{"demo", "--out", out},
	} {
		code, stdout, stderr := run(t.Context(), args...)
		const full = "no space left on device\n\tfix: free some disk space"
		if code != 1 || stdout != "" || !strings.Contains(stderr, out) || !strings.Contains(stderr, full) {
			t.Errorf("%q: exit code %d, printed %q and %q", args, code, stdout, stderr)
		}
		nothingLeft(t, disk)
	}
	// Following the advice in the message, there is enough space.
	if code, _, stderr := run(t.Context(), "replay", scenario, "--out", out, "--no-ledger", "--no-charts"); code != 0 {
		t.Errorf("exit code %d\n%s", code, stderr)
	}
	// The same for single files.
	if err := os.WriteFile(filepath.Join(disk, "filler"), make([]byte, 1<<18), 0o666); !errors.Is(err, syscall.ENOSPC) {
		t.Fatal(err)
	}
	data := filepath.Join(filepath.Dir(scenario), "weather.csv")
	code, stdout, stderr := run(t.Context(), "weather", data, "--latitude", "38.9", "-o", filepath.Join(disk, "out.csv"))
	if code != 1 || stdout != "" || !strings.Contains(stderr, "no space left on device") || !strings.Contains(stderr, "fix: ") {
		t.Errorf("weather: exit code %d, printed %q and %q", code, stdout, stderr)
	}
	code, stdout, stderr = run(t.Context(), "init", filepath.Join(disk, "out.yaml"))
	if code != 1 || stdout != "" || !strings.Contains(stderr, "no space left on device") || !strings.Contains(stderr, "fix: ") {
		t.Errorf("init: exit code %d, printed %q and %q", code, stdout, stderr)
	}
	for _, name := range []string{"out.csv", "out.csv.partial", "out.yaml"} {
		if _, err := os.Lstat(filepath.Join(disk, name)); err == nil {
			t.Errorf("%s is left behind", name)
		}
	}
}

// A result that could not be printed is an error.
func TestNowhereToPrint(t *testing.T) {
	full, err := os.OpenFile("/dev/full", os.O_WRONLY, 0)
	if err != nil {
		t.Skip("no /dev/full here: ", err)
	}
	defer full.Close()
	scenario := yard(t, 2)
	for _, args := range [][]string{{"replay", scenario}, {"check", scenario}, {"catalog"}, {"catalog", "--json"}, {"--help"}} {
		var errs strings.Builder
		code := cli.Main(t.Context(), args, cli.Streams{Out: full, Err: &errs})
		told := errs.String()
		if code != 1 || !strings.HasPrefix(told, "loamledger: printing the result: ") || !strings.Contains(told, "no space left on device") {
			t.Errorf("%q: exit code %d, %q", args, code, errs.String())
		}
	}
	// What was written is complete and stays.
	dir := t.TempDir()
	for _, args := range [][]string{{"--out", filepath.Join(dir, "a")}, {"--out", filepath.Join(dir, "b"), "--json"}} {
		var errs strings.Builder
		code := cli.Main(t.Context(), append([]string{"replay", scenario, "--no-charts"}, args...), cli.Streams{Out: full, Err: &errs})
		if told := errs.String(); code != 1 || !strings.Contains(told, "every file and folder that this run wrote is complete") {
			t.Errorf("%q: exit code %d, %q", args, code, told)
		}
		if code, _, stderr := run(t.Context(), "replay", scenario, "--no-charts", "--out", args[1], "--force"); code != 0 {
			t.Errorf("%q: the folder is not that of a whole run: %s", args, stderr)
		}
	}
	nothingLeft(t, dir)
}

// A folder or file without read permission is reported as such.
func TestUnreadable(t *testing.T) {
	scenario := yard(t, 2)
	dir := filepath.Dir(scenario)
	data := filepath.Join(dir, "weather.csv")
	denied := func(t *testing.T, args []string, want string) {
		t.Helper()
		done := make(chan struct{})
		var code int
		var stdout, stderr string
		go func() {
			defer close(done)
			// Root may read anything, so this thread, which ends with the goroutine,
			// accesses files as nobody.
			runtime.LockOSThread()
			if os.Geteuid() == 0 {
				syscall.Setfsuid(65534)
			}
			code, stdout, stderr = run(t.Context(), args...)
		}()
		<-done
		if code != 3 || stdout != "" || stderr != want {
			t.Errorf("%q: exit code %d, printed %q and\n%swant\n%s", args, code, stdout, stderr, want)
		}
		nothingLeft(t, dir)
	}
	// Only the owner may enter the temporary folders above.
	for up := dir; up != os.TempDir() && up != "/"; up = filepath.Dir(up) {
		if err := os.Chmod(up, 0o755); err != nil {
			t.Fatal(err)
		}
	}
	if err := errors.Join(os.Chmod(dir, 0o777), os.Chmod(data, 0)); err != nil { // the output itself could be written
		t.Fatal(err)
	}
	const notReady = "yard.yaml: Not ready for a replay: 1 error.\n"
	const rest = ": permission denied\n\tfix: give yourself read permission, or copy the file elsewhere\n"
	denied(t, []string{"replay", scenario, "--out", filepath.Join(dir, "out")}, "loamledger: "+scenario+":4:17: "+data+rest)
	denied(t, []string{"weather", data, "-o", filepath.Join(dir, "out.csv")}, "loamledger: "+data+rest)
	if err := os.Chmod(scenario, 0); err != nil {
		t.Fatal(err)
	}
	denied(t, []string{"check", scenario}, notReady+"loamledger: "+scenario+rest)
	if err := os.Chmod(dir, 0); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.Chmod(dir, 0o755) })
	denied(t, []string{"check", scenario}, notReady+"loamledger: "+scenario+rest)
}
