package cli

import (
	"context"
	"io"
	"os"
	"path/filepath"
	"strings"

	"loamledger/scenarios/webfile"
	"loamledger/weather/diag"
)

// alive returns what writes an HTML report with the engine and the files of the scenario
// inside. Flags that change the scenario are refused, since the page has only its files.
func (l *loaded) alive(ctx context.Context, o *reportOptions) (func(io.Writer, []byte) error, error) {
	conflict := func(what, fix string) error { return &usageError{diag.FlagConflict, "--alive " + what, fix} }
	switch {
	case !strings.EqualFold(filepath.Ext(o.Out), ".html"):
		return nil, conflict("needs an HTML report", "choose a name such as report.html")
	case l.repeated != nil:
		return nil, conflict("needs a scenario in YAML, not the record of a run", "name the scenario itself")
	case len(o.Accept) > 0:
		return nil, conflict("conflicts with --accept", "write accept: ["+strings.Join(o.Accept, ", ")+"] under weather in the scenario")
	case o.forecastFlags.given():
		return nil, conflict("conflicts with --forecast", "name the file under forecast in the scenario")
	}
	inside := &webfile.Files{Scenario: filepath.Base(l.Scenario.File), Files: map[string][]byte{}}
	paths := map[string]string{}
	for _, file := range l.read {
		name := filepath.Base(file.Name)
		if other, taken := paths[name]; taken && other == file.Name {
			continue
		} else if taken {
			return nil, conflict("needs files of different names: "+name+" is in two folders", "rename one of them")
		}
		paths[name] = file.Name
		data, err := os.ReadFile(file.Name)
		if err != nil {
			return nil, err
		}
		inside.Files[name] = data
	}
	e, err := pageEngine(ctx)
	if err != nil {
		return nil, err
	}
	return func(w io.Writer, report []byte) error { return webfile.Alive(w, e, report, inside) }, nil
}
