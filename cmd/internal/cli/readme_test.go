package cli_test

import (
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

const readme = "../../../README.md"

// blockLines returns the lines of README.md that are indented by four spaces, as
// printed: the commands for the reader to paste, one a line.
func blockLines(t *testing.T) []string {
	t.Helper()
	text := string(read(t, readme))
	if strings.Contains(text, "```") {
		t.Fatal("README.md has a fenced block; indent commands by four spaces, so that this test runs them")
	}
	var lines []string
	for line := range strings.Lines(text) {
		if command, ok := strings.CutPrefix(strings.TrimRight(line, "\n"), "    "); ok && strings.TrimSpace(command) != "" {
			lines = append(lines, command)
		}
	}
	return lines
}

// The commands of README.md run in an empty folder, as printed, from the first
// line to a report. The go command is the only one replaced: the test's own
// binary is the program that it would build or run.
func TestREADME(t *testing.T) {
	if testing.Short() {
		t.Skip("runs the demo and every command of README.md")
	}
	shell, err := exec.LookPath("sh")
	if err != nil {
		t.Skip("no sh here")
	}
	program, err := exec.LookPath("loamledger") // of testscript
	if err != nil {
		t.Fatal(err)
	}
	lines := blockLines(t)
	dir := t.TempDir()
	for _, line := range lines {
		command, comment, _ := strings.Cut(line, "  #")
		command = strings.TrimSpace(command)
		if rest, ok := strings.CutPrefix(command, "go run ./cmd/loamledger"); ok {
			line = "loamledger" + rest + "  #" + comment
		}
		switch command {
		case "go test ./...":
			continue // this test is part of it
		case "go build -o loamledger ./cmd/loamledger":
			if err := os.Symlink(program, filepath.Join(dir, "loamledger")); err != nil {
				t.Fatal(err)
			}
			continue
		}
		cmd := exec.Command(shell, "-c", line)
		cmd.Dir = dir
		if strings.Contains(command, "--ask") {
			cmd.Stdin = strings.NewReader(strings.Repeat("\n", 60)) // Enter is an answer to every question
		}
		var stderr strings.Builder
		cmd.Stderr = &stderr
		if out, err := cmd.Output(); err != nil || stderr.Len() > 0 {
			t.Fatalf("%s\n%v\n%s%s", line, err, out, stderr.String())
		}
	}
	// The demo's report, and the one of the reader's own site.
	var reports []string
	err = fs.WalkDir(os.DirFS(dir), ".", func(name string, e fs.DirEntry, err error) error {
		if err == nil && e.Name() == "report.html" {
			reports = append(reports, name)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(reports) < 2 || !slices.Contains(reports, "loamledger-demo/report.html") {
		t.Errorf("the commands of README.md wrote the reports %q", reports)
	}
	t.Logf("%d commands, reports %q", len(lines), reports)
}

// A command in a sentence: from the name of the program to the closing backtick
// or the end of the line.
var inSentence = regexp.MustCompile("loamledger ([a-z]+)([^`\n]*)")

// subcommands are the commands of commands.
var subcommands = []string{"portfolio evaluate", "portfolio merge"}

// Every command in README.md and DEVELOPERS.md, in blocks and in sentences,
// exists and has the flags that it is given.
func TestDocumentedCommandsExist(t *testing.T) {
	names := commands(t)
	found := 0
	for _, file := range []string{readme, "../../../DEVELOPERS.md"} {
		for line := range strings.Lines(string(read(t, file))) {
			spans := regexp.MustCompile("`[^`]*`").FindAllString(line, -1)
			if strings.HasPrefix(line, "    ") {
				command, _, _ := strings.Cut(line, "  #")
				spans = []string{command}
			}
			for _, span := range spans {
				m := inSentence.FindStringSubmatch(span)
				if m == nil {
					continue
				}
				found++
				if !slices.Contains(names, m[1]) {
					t.Errorf("%s: there is no command %s: %s", filepath.Base(file), m[1], span)
					continue
				}
				help := done(t, "help", m[1])
				for _, command := range subcommands {
					if under, name, _ := strings.Cut(command, " "); under == m[1] && strings.HasPrefix(m[2], " "+name+" ") {
						help = done(t, "help", under, name)
					}
				}
				for _, f := range flagWord.FindAllString(m[2], -1) {
					if !strings.Contains(help, f+" ") {
						t.Errorf("%s: %s has no flag %s: %s", filepath.Base(file), m[1], f, span)
					}
				}
			}
		}
	}
	if found < 8 {
		t.Errorf("%d commands found", found)
	}
}
