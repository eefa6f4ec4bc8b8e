package yamlfile_test

import (
	"errors"
	"io"
	"io/fs"
	"slices"
	"strings"
	"testing"

	"loamledger/scenarios/yamlfile"
	"loamledger/weather/diag"
)

// base is a valid scenario; each case breaks it in one place.
const base = `site: {name: Juniper Court, latitude: 38.9, elevation: 1600 ft}
units: us
weather: {file: weather.csv, wind_height: 2 m}
zones:
  - name: front lawn
    area: 2400 ft2
    plant: cool-season turf
    soil: clay loam
    slope: 4 %
    root_depth: 6 in
    sprinkler: {kind: spray, rate: 1.5 in/h, uniformity: 55 %, spray_loss: 3 %}
  - name: bed
    area: 600 ft2
    plant: {k: 0.5, p: 0.5}
    root_depth: 15 in
    sprinkler: {kind: drip, flow: 4 gpm}
programs:
  - name: lawns
    days: [mon, wed, fri]
    starts: ["05:30"]
    minutes: {front lawn: 20}
    cycle: 8 min
    soak: 30 min
strategies:
  - name: as found
    programs: [lawns]
  - name: weather
    programs: [lawns]
    et_percent: {design_eto: 0.25 in, days: 7 days}
    hold: {rain: {at_least: 0.25 in, dry_out: 2 days}}
`

// read reads a scenario text; there are no other files.
func read(text string) error {
	_, err := yamlfile.Read(strings.NewReader(text), "yard.yaml", func(string) (io.ReadCloser, error) { return nil, fs.ErrNotExist })
	return err
}

// A faultCase changes old, which is in base, to new. want is the whole message,
// its lines not indented.
type faultCase struct{ name, old, new, want string }

func TestFaults(t *testing.T) {
	if err := read(base); err != nil {
		t.Fatalf("the base is not sound: %v", err)
	}
	cases := slices.Concat(zoneFaults(), timerFaults(), strategyFaults())
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			if !strings.Contains(base, c.old) {
				t.Fatalf("base does not hold %q", c.old)
			}
			err := read(strings.Replace(base, c.old, c.new, 1))
			if !diag.IsInput(err) {
				t.Fatalf("got %v, want a fault of the input", err)
			}
			if got := strings.ReplaceAll(err.Error(), "\n\tfix: ", "\nfix: "); got != c.want {
				t.Errorf("got\n%s\nwant\n%s", got, c.want)
			}
		})
	}
	if len(cases) < 80 {
		t.Errorf("only %d cases ran", len(cases))
	}
}

// Law: a message has a position with line and column, a rule and a fix, and no
// error is reported for the consequences of another.
func TestOneFaultOneMessage(t *testing.T) {
	for _, c := range slices.Concat(zoneFaults(), timerFaults(), strategyFaults()) {
		err := read(strings.Replace(base, c.old, c.new, 1))
		var many *diag.Errors
		if !errors.As(err, &many) {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		for _, e := range many.List {
			if e.Pos.Line == 0 || e.Pos.Col == 0 || e.Msg == "" || e.Fix == "" {
				t.Errorf("%s: incomplete message %q", c.name, e)
			}
		}
		if n := len(many.List); n != 1 && c.name != "many faults at once" && c.name != "a soil half given" {
			t.Errorf("%s: %d messages for one fault:\n%v", c.name, n, err)
		}
	}
}

func TestMissingTableOfZones(t *testing.T) {
	from, to := strings.Index(base, "zones:"), strings.Index(base, "programs:")
	err := read(base[:from] + "zones: zones.csv\n" + base[to:])
	const want = "yard.yaml:4:8: table of zones not found: \"zones.csv\"\n\tfix: check the name; it is relative to the scenario's folder"
	if err == nil || err.Error() != want {
		t.Errorf("got %v, want %s", err, want)
	}
}

func TestWholeFileRefused(t *testing.T) {
	tests := []struct{ name, text, want string }{
		{"empty", "", "yard.yaml: the scenario is empty"},
		{"only comments", "# nothing\n", "yard.yaml: the scenario is empty"},
		{"binary", "\x00\x01", "yard.yaml: this is not a UTF-8 text file"},
		{"not UTF-8", "site: \xff", "yard.yaml: this is not a UTF-8 text file"},
		{"too large", strings.Repeat("# comment\n", 200_000), "yard.yaml: the scenario is larger than 1024 KiB"},
		{"a list", "- 1\n", "yard.yaml:1:1: this is not a scenario: it has no keys"},
		{"a word", "hello", "yard.yaml:1:1: this is not a scenario: it has no keys"},
		{"two documents", "a: 1\n---\nb: 2\n", "yard.yaml:3:1: a second document begins here"},
		{"deep brackets", "zones: " + strings.Repeat("[", 9000), "yard.yaml:1:24: lists and groups are nested too deeply"},
		{"deep dashes", "zones:\n  " + strings.Repeat("- ", 9000), "yard.yaml:2:35: lists and groups are nested too deeply"},
		{"deep indents", "a:\n" + indents(300), "yard.yaml:201:201: lists and groups are nested too deeply"},
		{"aliases", "a: &a [x, x]\nb: &b [*a, *a]\nc: [*b, *b]\n", "yard.yaml:1:4: anchors, aliases and merge keys (& * <<) are not supported"},
		{"a tag", "a: !!str x\n", "yard.yaml:1:4: tags and directives (! %) are not supported"},
		{"a question mark", "? a\n: b\n", "yard.yaml:1:1: keys after a question mark are not supported"},
		{"a very long line", "a: " + strings.Repeat("x", 30_000), "yard.yaml:1: line too long: 30003 bytes"},
	}
	for _, tt := range tests {
		err := read(tt.text)
		if !diag.IsInput(err) || !strings.HasPrefix(err.Error(), tt.want) {
			t.Errorf("%s: got %.300v, want %s", tt.name, err, tt.want)
		}
	}
}

// indents nests n groups by indentation.
func indents(n int) string {
	var b strings.Builder
	for i := range n {
		b.WriteString(strings.Repeat(" ", i+1) + "a:\n")
	}
	return b.String()
}

// A failing reader is a system error, not an input error.
func TestMachineFaults(t *testing.T) {
	broken := errors.New("the disk is gone")
	_, err := yamlfile.Read(io.MultiReader(strings.NewReader("a: 1"), failing{broken}), "yard.yaml", nil)
	if !errors.Is(err, broken) || diag.IsInput(err) {
		t.Errorf("got %v", err)
	}
	from, to := strings.Index(base, "zones:"), strings.Index(base, "programs:")
	text := base[:from] + "zones: zones.csv\n" + base[to:]
	_, err = yamlfile.Read(strings.NewReader(text), "yard.yaml", func(string) (io.ReadCloser, error) { return nil, broken })
	if !errors.Is(err, broken) || diag.IsInput(err) {
		t.Errorf("got %v", err)
	}
}

type failing struct{ err error }

func (f failing) Read([]byte) (int, error) { return 0, f.err }

// Errors in the scenario, in its table of zones and in duplicate keys are
// reported together.
func TestFaultsOfBothFilesTogether(t *testing.T) {
	from, to := strings.Index(base, "zones:"), strings.Index(base, "programs:")
	text := base[:from] + "zones: zones.csv\n" + strings.Replace(base[to:], "wed", "wde", 1) + "units: si\n"
	_, err := yamlfile.Read(strings.NewReader(text), "yard.yaml", func(string) (io.ReadCloser, error) {
		return io.NopCloser(strings.NewReader("name,area,sprinkler\nfront lawn,2400 ft2\n")), nil
	})
	const want = `yard.yaml:19:1: duplicate key "units", see yard.yaml:2:1
	fix: remove one
yard.yaml:7:17: program "lawns": days: the value "wde" is not a weekday
	fix: did you mean "wed"? Valid: sun, mon, tue, wed, thu, fri, sat
zones.csv:2:1: this row does not have 3 cells like the first row
	fix: give every row as many cells as the first row`
	if !diag.IsInput(err) || err.Error() != want {
		t.Errorf("got\n%v\nwant\n%s", err, want)
	}
}
