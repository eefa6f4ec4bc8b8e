package cli

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"

	"loamledger/plots"
	"loamledger/scenarios"
	"loamledger/scenarios/runfile"
	"loamledger/scenarios/study"
	"loamledger/scenarios/studyfile"
	"loamledger/scenarios/yamlfile"
	"loamledger/weather"
	"loamledger/weather/csvfile"
	"loamledger/weather/diag"

	"github.com/spf13/cobra"
)

// inputs opens files and keeps the hash of each. The zero value is ready to use.
type inputs struct {
	read     []study.InputFile
	repeated *runfile.Run     // the run being repeated, or nil
	fence    fence            // around the files that a scenario names
	named    *studyfile.Files // opens the files that a scenario names; see files
}

// open opens a file for reading; its hash is recorded when it is closed.
func (in *inputs) open(name string) (io.ReadCloser, error) {
	info, err := os.Stat(name) // before opening: a pipe may keep that waiting
	if err != nil {
		return nil, openError(name, err)
	}
	if what, fix := kindOf(info.Mode()); what != "" {
		return nil, &diag.Error{Code: diag.NotAFile, Pos: diag.Pos{File: name}, Msg: "this is a " + what + ", not a file", Fix: fix}
	}
	f, err := os.Open(name)
	if err != nil {
		return nil, openError(name, err)
	}
	h := sha256.New()
	return &hashed{in: in, f: f, r: io.TeeReader(f, h), sum: h.Sum, name: name}, nil
}

// kindOf names what is not a regular file, and what to do instead; empty for a file.
func kindOf(mode fs.FileMode) (what, fix string) {
	switch {
	case mode.IsDir():
		return "folder", "name a file"
	case mode&fs.ModeNamedPipe != 0:
		return "FIFO (a pipe)", "save what it delivers in a file, and name that: a run is repeated from its files"
	case mode&fs.ModeSocket != 0:
		return "socket", "name a file"
	case !mode.IsRegular():
		return "device", "name a file" // it may never end
	}
	return "", ""
}

type hashed struct {
	in   *inputs
	f    *os.File
	r    io.Reader
	sum  func([]byte) []byte
	name string
	n    int64
}

func (h *hashed) Read(p []byte) (int, error) {
	n, err := h.r.Read(p)
	h.n += int64(n)
	return n, err
}

func (h *hashed) Close() error {
	// The hash covers the whole file, including any part not read.
	_, err := io.Copy(io.Discard, h)
	h.in.read = append(h.in.read, study.InputFile{Name: h.name, SHA256: hex.EncodeToString(h.sum(nil)), Bytes: h.n})
	return errors.Join(err, h.f.Close())
}

// openError turns a missing or unreadable file into an input error that names
// the file; anything else is a system error.
func openError(name string, err error) error {
	input := func(code diag.Code, msg, fix string) error {
		return &diag.Error{Code: code, Pos: diag.Pos{File: name}, Msg: msg, Fix: fix}
	}
	switch {
	case errors.Is(err, syscall.ELOOP):
		return input(diag.NotAFile, "this is a link to itself", "name a file")
	case errors.Is(err, fs.ErrNotExist):
		if to, lerr := os.Readlink(name); lerr == nil {
			return input(diag.NoSuchFile, "this is a link to "+to+", which does not exist", "fix the link, or name a file")
		}
		fix := "check the name; loamledger looked in " + folderOf(name)
		if near := nearestFile(name); near != "" {
			fix = "did you mean " + near + "?"
		}
		return input(diag.NoSuchFile, "file not found", fix)
	case errors.Is(err, syscall.ENOTDIR):
		return input(diag.NoSuchFile, "file not found: "+filepath.Dir(name)+" is not a folder", "check the name")
	case errors.Is(err, fs.ErrPermission):
		return input(diag.NoPermission, "permission denied", "give yourself read permission, or copy the file elsewhere")
	}
	return fmt.Errorf("opening %s: %w", name, err)
}

// nearestFile returns the file in the same folder with the most similar name.
func nearestFile(name string) string {
	entries, err := os.ReadDir(filepath.Dir(name))
	if err != nil {
		return ""
	}
	var names []string
	for _, e := range entries {
		if !e.IsDir() {
			names = append(names, e.Name())
		}
	}
	near := diag.Nearest(filepath.Base(name), names)
	if near == "" {
		return ""
	}
	return filepath.Join(filepath.Dir(name), near)
}

func folderOf(name string) string {
	if dir := filepath.Dir(name); dir != "." {
		return dir
	}
	return "the current folder"
}

// names lists the files read.
func (in *inputs) names() (out []string) {
	for _, f := range in.read {
		out = append(out, f.Name)
	}
	return out
}

// readScenario reads a scenario file, or the run.json of an earlier run.
func (in *inputs) readScenario(name string, common scenarioFlags, flags forecastFlags) (*scenarios.Scenario, error) {
	f, err := in.open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	if strings.EqualFold(filepath.Ext(name), ".json") {
		if flags.given() {
			return nil, errRepeatForecast
		}
		if err := common.repeat(); err != nil {
			return nil, err
		}
		run, err := runfile.Read(f, name)
		if err != nil {
			return nil, err
		}
		in.repeated = run
		return run.Scenario, nil
	}
	build := func(root *scenarios.Node, file string) (*scenarios.Scenario, error) {
		common.put(root)
		flags.put(root, name)
		return scenarios.Build(root, file)
	}
	return yamlfile.ReadWith(build, f, name, func(table string) (io.ReadCloser, error) { return in.openNamed(beside(name, table)) })
}

// beside resolves name against the folder of scenario, unless it is absolute.
func beside(scenario, name string) string {
	if filepath.IsAbs(name) {
		return name
	}
	return filepath.Join(filepath.Dir(scenario), name)
}

// readRecord reads one station's record from the named file. at is where the
// scenario names it; errors in opening the file point there.
func (in *inputs) readRecord(name string, at diag.Pos, o csvfile.Options) (*weather.Record, error) {
	f, err := in.openAt(name, at)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return csvfile.Read(f, name, o)
}

// files returns what opens the files that the scenario in the named file names, the empty
// name for a scenario made of flags.
func (in *inputs) files(scenario string) *studyfile.Files {
	if in.named == nil {
		in.named = &studyfile.Files{Path: func(name string) string { return beside(scenario, name) }, Open: in.openAt}
	}
	return in.named
}

// openAt opens a file that a scenario names at the given position; errors in
// opening it point there.
func (in *inputs) openAt(name string, at diag.Pos) (io.ReadCloser, error) {
	f, err := in.openNamed(name)
	var input *diag.Error
	if errors.As(err, &input) && at.Line > 0 {
		return nil, &diag.Error{Code: input.Code, Pos: at, Msg: name + ": " + input.Msg, Fix: input.Fix}
	}
	return f, err
}

// A loaded study has all its files read.
type loaded struct {
	inputs
	*study.Study
	logo    *plots.Picture         // of who made the report; nil for none
	meters  []study.MeterInput     // those with reads
	metered []*study.ComparedMeter // compared with a replay, in a run
}

// load reads a scenario and its weather. All errors in the scenario are
// reported together, then all errors in its weather files: only a scenario
// without errors names them reliably.
func load(name string, common scenarioFlags) (*loaded, error) {
	return loadWith(name, common, forecastFlags{})
}

// loadWith is load with the forecast file that flags name, if any.
func loadWith(name string, common scenarioFlags, flags forecastFlags) (*loaded, error) {
	l := &loaded{}
	l.fence = fenceOf(name, &common, &flags)
	sc, err := l.readScenario(name, common, flags)
	if err != nil {
		return nil, err
	}
	files := l.files(name)
	records, err := files.Records(sc)
	if err != nil {
		return nil, err
	}
	ready, err := study.Prepare(sc, records)
	if err != nil {
		return nil, err
	}
	file, err := files.Forecast(sc)
	if err != nil {
		return nil, err
	}
	forecasts, err := study.Announce(sc, ready, file)
	if err != nil {
		return nil, err
	}
	if l.Study, err = study.New(sc, ready, forecasts); err != nil {
		return nil, err
	}
	if err := files.Price(l.Study); err != nil {
		return nil, err
	}
	if err := l.readMeters(name); err != nil {
		return nil, err
	}
	if err := l.readLogo(name); err != nil {
		return nil, err
	}
	l.warnOfChanges()
	l.Files, l.Sources, l.Layout, l.Program = l.read, l.sources(), studyfile.LayoutTitle(l.Weather.Layout), Version
	return l, nil
}

// onScenario makes the action of a command on one scenario: it checks the flags before
// anything is read, loads the scenario and acts on it.
func onScenario(check func() error, common *scenarioFlags, act func(context.Context, *loaded) error) func(*cobra.Command, []string) error {
	return func(cmd *cobra.Command, args []string) error {
		if err := check(); err != nil {
			return err
		}
		l, err := load(args[0], *common)
		if err != nil {
			return err
		}
		return act(cmd.Context(), l)
	}
}
