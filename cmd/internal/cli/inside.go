package cli

import (
	"errors"
	"io"
	"path/filepath"
	"strings"

	"loamledger/weather/diag"
)

// A fence keeps the files that a scenario names under the scenario's folder, since
// it may be somebody else's. The zero fence lets everything through.
type fence struct {
	folder string   // of the scenario, as named
	but    []string // named by the user on the command line
}

// fenceOf returns the fence of a scenario.
func fenceOf(scenario string, common *scenarioFlags, flags *forecastFlags) fence {
	if common.Outside {
		return fence{}
	}
	out := fence{folder: filepath.Dir(scenario)}
	for _, name := range []string{flags.Forecast, flags.ForecastLayout} {
		if name != "" {
			out.but = append(out.but, name)
		}
	}
	return out
}

// check rejects a file outside the folder, whether it exists or not, also if only
// a link leads there.
func (f *fence) check(name string) error {
	if f.folder == "" {
		return nil
	}
	full, err := filepath.Abs(name)
	folder, ferr := filepath.Abs(f.folder)
	if err != nil || ferr != nil {
		return errors.Join(err, ferr)
	}
	for _, b := range f.but {
		if same, err := filepath.Abs(b); err == nil && same == full {
			return nil
		}
	}
	refuse := func(what string) error {
		return &diag.Error{Code: diag.OutsideFolder, Pos: diag.Pos{File: name}, Msg: "this " + what + " outside the scenario's folder",
			Fix: "copy the file into the folder of the scenario, or, if you trust the scenario, add --allow-outside"}
	}
	if !under(folder, full) {
		return refuse("file is")
	}
	real, err := filepath.EvalSymlinks(full)
	home, ferr := filepath.EvalSymlinks(folder)
	if err == nil && ferr == nil && !under(home, real) {
		return refuse("link leads")
	}
	return nil // if it cannot be followed, opening it says why
}

// under reports whether path is in folder; both are absolute.
func under(folder, path string) bool {
	rel, err := filepath.Rel(folder, path)
	return err == nil && rel != ".." && !strings.HasPrefix(rel, ".."+string(filepath.Separator))
}

// openNamed opens a file that a scenario names, which must be inside the fence.
func (in *inputs) openNamed(name string) (io.ReadCloser, error) {
	if err := in.fence.check(name); err != nil {
		return nil, err
	}
	return in.open(name)
}
