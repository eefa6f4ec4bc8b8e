package strategy

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"testing"
)

// A sensor that is told no zone to read sits in each zone it governs.
func TestSensorReadsItsOwnZone(t *testing.T) {
	args := Args{"permit_at": {Number: 0.4, Given: true}, "zones": {Zones: []bool{true, true}}, "placement": {Word: "average"}, "reads": {Zone: -1}}
	if s := sensorKind().Make(args).(Sensor); s.Reads != 0 {
		t.Errorf("reads %d, want 0: each its own", s.Reads)
	}
	delete(args, "reads")
	if s := sensorKind().Make(args).(Sensor); s.Reads != 0 {
		t.Errorf("without the parameter reads %d, want 0", s.Reads)
	}
	args["reads"] = Value{Given: true, Zone: 1}
	if s := sensorKind().Make(args).(Sensor); s.Reads != 2 {
		t.Errorf("reads %d, want 2: the second zone", s.Reads)
	}
}

// Every parameter that a kind's Make reads is declared in its file, and none is
// declared in vain: an undeclared one would silently be its zero value.
func TestMakeReadsWhatIsDeclared(t *testing.T) {
	files, err := filepath.Glob("part_*.go")
	if err != nil || len(files) < 10 {
		t.Fatalf("%d files, %v", len(files), err)
	}
	read, declared := regexp.MustCompile(`a\["([a-z_]*)"\]`), regexp.MustCompile(`\{(?:Key: "([a-z_]+)", )?Type: `)
	for _, name := range files {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		keys := func(re *regexp.Regexp) []string {
			var out []string
			for _, m := range re.FindAllStringSubmatch(string(text), -1) {
				out = append(out, m[1])
			}
			slices.Sort(out)
			return slices.Compact(out)
		}
		if got, want := keys(read), keys(declared); !slices.Equal(got, want) {
			t.Errorf("%s: Make reads %q, declared are %q", name, got, want)
		}
	}
}
