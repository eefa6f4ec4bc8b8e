package cli

import (
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

	"loamledger/scenarios"
	"loamledger/scenarios/runfile"
	"loamledger/scenarios/yamlfile"
	"loamledger/sim/replay"
	"loamledger/weather"
	"loamledger/weather/csvfile"
	"loamledger/weather/diag"
	"loamledger/weather/prepare"
)

// An inputFile is a file that a run has read.
type inputFile struct {
	Name   string `json:"name"`
	SHA256 string `json:"sha256"`
	Bytes  int64  `json:"bytes"`
}

// inputs opens files and keeps the hash of each. The zero inputs is ready.
type inputs struct {
	Files    []inputFile
	repeated *runfile.Run // the run that is repeated; nil for none
}

// open opens a file for reading; its hash is known once it is closed.
func (in *inputs) open(name string) (io.ReadCloser, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, openFault(name, err)
	}
	if info, err := f.Stat(); err == nil && info.Mode()&(fs.ModeDir|fs.ModeDevice) != 0 {
		f.Close()
		what := "folder"
		if !info.IsDir() {
			what = "device" // one may never end
		}
		return nil, &diag.Error{Code: diag.NotAFile, Pos: diag.Pos{File: name}, Msg: "this is a " + what + ", not a file", Fix: "name the file itself"}
	}
	h := sha256.New()
	return &hashed{in: in, f: f, r: io.TeeReader(f, h), sum: h.Sum, name: name}, nil
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
	// What a reader left unread belongs to the hash all the same.
	_, err := io.Copy(io.Discard, h)
	h.in.Files = append(h.in.Files, inputFile{h.name, hex.EncodeToString(h.sum(nil)), h.n})
	return errors.Join(err, h.f.Close())
}

// openFault makes a file that is not there or not readable a fault of the
// input, told with its name; anything else is the machine's.
func openFault(name string, err error) error {
	switch {
	case errors.Is(err, syscall.ELOOP):
		return &diag.Error{Code: diag.NotAFile, Pos: diag.Pos{File: name}, Msg: "this is a link that leads back to itself", Fix: "name the file itself"}
	case errors.Is(err, fs.ErrNotExist):
		if to, lerr := os.Readlink(name); lerr == nil {
			return &diag.Error{Code: diag.NoSuchFile, Pos: diag.Pos{File: name}, Msg: "this is a link to " + to + ", which is not there", Fix: "name the file itself"}
		}
		fix := "check the name; it is looked for in " + folderOf(name)
		if near := nearestFile(name); near != "" {
			fix = "did you mean " + near + "?"
		}
		return &diag.Error{Code: diag.NoSuchFile, Pos: diag.Pos{File: name}, Msg: "there is no such file", Fix: fix}
	case errors.Is(err, fs.ErrPermission):
		return &diag.Error{Code: diag.NoPermission, Pos: diag.Pos{File: name}, Msg: "the file or its folder may not be read", Fix: "give yourself read permission, or copy the file elsewhere"}
	}
	return fmt.Errorf("opening %s: %w", name, err)
}

// nearestFile returns the file beside the named one whose name is most like it.
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

// readScenario reads the scenario in the named file, which may be the run.json
// of an earlier run.
func (in *inputs) readScenario(name string) (*scenarios.Scenario, error) {
	f, err := in.open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	if strings.EqualFold(filepath.Ext(name), ".json") {
		run, err := runfile.Read(f, name)
		if err != nil {
			return nil, err
		}
		in.repeated = run
		return run.Scenario, nil
	}
	return yamlfile.Read(f, name, func(table string) (io.ReadCloser, error) { return in.open(beside(name, table)) })
}

// beside returns name as seen from the folder of scenario, unless it is absolute.
func beside(scenario, name string) string {
	if filepath.IsAbs(name) {
		return name
	}
	return filepath.Join(filepath.Dir(scenario), name)
}

// readRecord reads one station's record from the named file. at is where a
// scenario names it; a file that cannot be opened is put right there.
func (in *inputs) readRecord(name string, at diag.Pos, o csvfile.Options) (*weather.Record, error) {
	f, err := in.openAt(name, at)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return csvfile.Read(f, name, o)
}

// openAt opens a file that a scenario names at the given place, and puts a
// fault in opening it right there.
func (in *inputs) openAt(name string, at diag.Pos) (io.ReadCloser, error) {
	f, err := in.open(name)
	var fault *diag.Error
	if errors.As(err, &fault) && at.Line > 0 {
		return nil, &diag.Error{Code: fault.Code, Pos: at, Msg: name + ": " + fault.Msg, Fix: fault.Fix}
	}
	return f, err
}

// A loaded scenario has its weather, ready for a replay.
type loaded struct {
	inputs
	Scenario *scenarios.Scenario
	Weather  *prepare.Ready
	Job      replay.Job
	Forecast *siteForecast // nil where the scenario has none
	Ahead    *comingPlan   // the coming days; nil where none is forecast or asked for
	SelfTest bool          // also try the filling on days that are known
}

// load reads a scenario and its weather. All faults of the scenario are
// reported together, and so are those of all weather files it names; only a
// scenario without a fault says for sure which files those are.
func load(name string) (*loaded, error) {
	l := &loaded{}
	sc, err := l.readScenario(name)
	if err != nil {
		return nil, err
	}
	l.Scenario = sc
	if l.Weather, err = l.readWeather(name, sc); err != nil {
		return nil, err
	}
	l.Job = replay.Job{
		Zones: sc.SimZones(), Weather: simWeather(l.Weather), Strategies: sc.Strategies, Limits: sc.Limits,
		NoSpinUp: sc.NoSpinUp, StartShare: sc.StartShare, ExcludeYears: sc.Weather.ExcludeYears,
	}
	if err := l.readForecast(name); err != nil {
		return l, err
	}
	l.warnOfChanges()
	return l, nil
}
