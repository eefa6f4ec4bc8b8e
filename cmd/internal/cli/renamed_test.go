package cli

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"strings"
	"testing"
)

// ended runs a command and returns its exit code and what it printed on Err.
func ended(args ...string) (code int, stderr string) {
	var errs bytes.Buffer
	code = Main(context.Background(), args, Streams{Out: io.Discard, Err: &errs})
	return code, errs.String()
}

// The error for every old command names the new one, with and without
// arguments, and in help.
func TestRenamedCommands(t *testing.T) {
	root := newRoot(Streams{Out: io.Discard, Err: io.Discard})
	for _, r := range renamedCommands {
		old, now := r[0], r[1]
		if found, _, err := root.Find([]string{now}); err != nil || found.Name() != now {
			t.Errorf("there is no command %s", now)
		}
		want := fmt.Sprintf("loamledger: command %q is now called %q\n\tfix: write: loamledger %s\n", old, now, now)
		for _, args := range [][]string{{old}, {old, "yard.yaml"}, {old, "yard.yaml", "--strategy", "as found"}, {old, "--help"}, {"help", old}} {
			if code, stderr := ended(args...); code != exitCommand || stderr != want {
				t.Errorf("%q: exit code %d, %q, want %q", args, code, stderr, want)
			}
		}
	}
}

// The error for every old flag names the new one, for every command that has it,
// and no command still has the old one.
func TestRenamedFlags(t *testing.T) {
	root := newRoot(Streams{Out: io.Discard, Err: io.Discard})
	seen := map[[2]string]bool{}
	for _, cmd := range root.Commands() {
		for _, r := range renamedFlags {
			old, now := r[0], r[1]
			if cmd.Flags().Lookup(old) != nil {
				t.Errorf("%s still has --%s", cmd.Name(), old)
			}
			if cmd.Flags().Lookup(now) == nil {
				continue
			}
			seen[r] = true
			want := fmt.Sprintf("loamledger: flag --%s is now called --%s\n\tfix: write --%s", old, now, now)
			for _, args := range [][]string{{cmd.Name(), "--" + old}, {cmd.Name(), "x.yaml", "--" + old + "=1"}} {
				if code, stderr := ended(args...); code != exitCommand || !strings.HasPrefix(stderr, want) {
					t.Errorf("%q: exit code %d, %q, want %q", args, code, stderr, want)
				}
			}
		}
	}
	for _, r := range renamedFlags {
		if !seen[r] {
			t.Errorf("no command has --%s, the new name of --%s", r[1], r[0])
		}
	}
}

// A command without the new flag does not suggest it.
func TestRenamedFlagOfAnotherCommand(t *testing.T) {
	code, stderr := ended("check", "yard.yaml", "--coming", "x")
	if code != exitCommand || !strings.HasPrefix(stderr, "loamledger: unknown flag: --coming\n") {
		t.Errorf("exit code %d, %q", code, stderr)
	}
}

// --out, with -o for short, is the one name for where to write.
func TestOutIsTheOneName(t *testing.T) {
	root := newRoot(Streams{Out: io.Discard, Err: io.Discard})
	var with []string
	for _, cmd := range root.Commands() {
		f := cmd.Flags().Lookup("out")
		if f == nil {
			if short := cmd.Flags().ShorthandLookup("o"); short != nil {
				t.Errorf("%s: -o is --%s", cmd.Name(), short.Name)
			}
			continue
		}
		with = append(with, cmd.Name())
		if f.Shorthand != "o" {
			t.Errorf("%s: --out has the short form %q", cmd.Name(), f.Shorthand)
		}
	}
	if got := strings.Join(with, " "); got != "calibrate demo generate init page portfolio replay report settings tradeoff weather" {
		t.Errorf("--out is a flag of %s", got)
	}
}

// An unknown command is reported as such even if it has flags.
func TestUnknownCommandWithFlags(t *testing.T) {
	code, stderr := ended("reply", "yard.yaml", "--out", "x")
	if code != exitCommand || stderr != "loamledger: unknown command \"reply\"\n\tfix: did you mean replay?\n" {
		t.Errorf("exit code %d, %q", code, stderr)
	}
	code, stderr = ended("--loud")
	if code != exitCommand || !strings.HasPrefix(stderr, "loamledger: unknown flag: --loud\n") {
		t.Errorf("exit code %d, %q", code, stderr)
	}
}
