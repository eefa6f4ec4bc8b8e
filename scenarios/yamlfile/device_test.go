package yamlfile_test

import (
	"io"
	"math"
	"strings"
	"testing"

	"loamledger/scenarios"
	"loamledger/scenarios/yamlfile"
)

// devices is a yard with two controllers and two meters.
const devices = `site: {name: Thistle Yard, latitude: 38.9, elevation: 490 m}
weather: {file: a.csv}
meters:
  - {name: main, flow: 30 gpm, serves: irrigation}
  - {name: house, reads: house.csv}
controllers:
  - {name: clock A, stations: 2, at_once: 2, window: "22:00-04:00"}
  - {name: clock B, timer: {starts: 3}}
zones:
  - {name: lawn, controller: Clock A, meter: main, area: 100 m2, plant: cool-season turf, soil: loam, sprinkler: spray}
  - {name: bed, controller: clock B, meter: house, area: 50 m2, plant: cool-season turf, soil: loam, sprinkler: spray}
programs:
  - {name: p, days: any, starts: ["23:00"], minutes: {lawn: 10, bed: 10}}
strategies:
  - {name: as found, programs: p}
`

func readDevices(text string) (*scenarios.Scenario, error) {
	return yamlfile.Read(strings.NewReader(text), "yard.yaml", nil)
}

// Hand: 30 gpm are 30 x 3.785411784 L/min.
func TestControllersAndMeters(t *testing.T) {
	sc, err := readDevices(devices)
	if err != nil {
		t.Fatal(err)
	}
	a, b := sc.Controllers[0], sc.Controllers[1]
	if a.Name != "clock A" || a.Stations != 2 || a.AtOnce != 2 || len(a.Windows) != 1 || a.Windows[0].FromMin != 1320 || a.Timer != nil {
		t.Errorf("clock A: %+v", a)
	}
	if b.Stations != 0 || b.AtOnce != 1 || b.Windows != nil || b.Timer == nil || b.Timer.Starts != 3 {
		t.Errorf("clock B: %+v", b)
	}
	m, h := sc.Meters[0], sc.Meters[1]
	if math.Abs(m.FlowLMin-30*3.785411784) > 1e-9 || m.Serves != scenarios.ServesIrrigation || m.Reads != nil {
		t.Errorf("main: %+v", m)
	}
	if h.FlowLMin != 0 || h.Serves != "" || h.Reads == nil || h.Reads.Name != "house.csv" {
		t.Errorf("house: %+v", h)
	}
	if z := sc.Zones[1]; z.Controller != 1 || z.Meter != 1 || z.ControllerName != "clock B" || sc.Zones[0].ControllerName != "clock A" {
		t.Errorf("bed: %+v", z)
	}
	for _, in := range sc.Inputs {
		if in.Key == "meters.house.serves" && (!in.Defaulted || in.Text != "not stated") {
			t.Errorf("%+v", in)
		}
	}
}

// A site that lists none has one of each, and limits.flow is that of the only meter,
// within which zones run together.
func TestOneControllerByDefault(t *testing.T) {
	one := strings.NewReplacer("controller: Clock A, meter: main, ", "", "controller: clock B, meter: house, ", "").Replace(devices)
	at, end := strings.Index(one, "meters:"), strings.Index(one, "zones:")
	one = one[:at] + one[end:]
	sc, err := readDevices(one)
	if err != nil {
		t.Fatal(err)
	}
	if len(sc.Controllers) != 1 || len(sc.Meters) != 1 || sc.Controllers[0].AtOnce != 1 || sc.Meters[0].FlowLMin != 0 {
		t.Errorf("%+v %+v", sc.Controllers, sc.Meters)
	}
	if sc, err = readDevices(one + "limits: {flow: 100 L/min}\n"); err != nil {
		t.Fatal(err)
	}
	if sc.Meters[0].FlowLMin != 100 || sc.Controllers[0].AtOnce != 0 {
		t.Errorf("%+v %+v", sc.Controllers, sc.Meters)
	}
}

func TestDeviceFaults(t *testing.T) {
	tests := []struct{ old, now, want string }{
		{"controller: Clock A, ", "", `zone "lawn": controller is missing` + "\n\tfix: add controller, one of: clock A, clock B"},
		{"meter: house, ", "meter: hose, ", `zone "bed": no meter is called "hose"` + "\n\t" + `fix: did you mean "house"? Valid: main, house`},
		{"stations: 2", "stations: 0", "stations 0 is outside 1 to 500\n\tfix: write how many valves it can serve, from 1 to 500"},
		{"controller: clock B, meter: house", "controller: clock A, meter: house",
			`controller "clock A" has 2 zones; it has 1 stations` + "\n\tfix: move zones to another controller, or correct stations"},
		{"name: house, reads", "name: main, reads", `duplicate meter name "main", see yard.yaml:4:12`},
		{"serves: irrigation", "serves: everything", `meter "main": unknown serves "everything"` + "\n\tfix: write one of: irrigation, mixed"},
		{"timer: {starts: 3}", "timer: none", `controller "clock B": unknown timer "none"`},
		{"programs:\n", "limits: {flow: 20 gpm}\nprograms:\n", "limits: flow is the flow of the only meter, and the site has 2 meters\n" +
			"\tfix: write flow under each of meters: main or house"},
		{"  - {name: house, reads: house.csv}\n", "limits: {flow: 20 gpm}\n",
			`limits: flow is given here and for meter "main"` + "\n\tfix: remove one"},
		{"meters:\n", "meters: main\nold:\n",
			"meters is the value \"main\", not a list\n\tfix: write a list, such as meters: [{name: main, flow: 30 gpm}]"},
		{"  - {name: as found, programs: p}", "  - {name: as found, programs: p, changes: [{zones: all, meter: main}]}", "meter"},
	}
	for _, tt := range tests {
		text := strings.Replace(devices, tt.old, tt.now, 1)
		if strings.Contains(tt.want, "1 stations") {
			text = strings.Replace(text, "stations: 2", "stations: 1", 1)
		}
		if text == devices {
			t.Fatalf("%q is not in the scenario", tt.old)
		}
		if _, err := readDevices(text); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s:\n got %v\nwant %s", tt.now, err, tt.want)
		}
	}
}

// A scenario without the list cannot name one of it.
func TestDeviceOfNoList(t *testing.T) {
	at, end := strings.Index(devices, "meters:"), strings.Index(devices, "controllers:")
	_, err := readDevices(devices[:at] + devices[end:])
	const want = `zone "lawn": meter "main", and the scenario lists no meters` +
		"\n\tfix: add meters: [{name: main}] to the scenario, or remove it"
	if err == nil || !strings.Contains(err.Error(), want) {
		t.Errorf("%v", err)
	}
}

// The table of zones has the same columns.
func TestDevicesInTheTable(t *testing.T) {
	table := "name,controller,meter,area,plant,soil,sprinkler\nlawn,clock A,main,100 m2,cool-season turf,loam,spray\n" +
		"bed,clock B,house,50 m2,cool-season turf,loam,spray\n"
	at, end := strings.Index(devices, "zones:"), strings.Index(devices, "programs:")
	text := devices[:at] + "zones: zones.csv\n" + devices[end:]
	sc, err := yamlfile.Read(strings.NewReader(text), "yard.yaml", func(string) (io.ReadCloser, error) {
		return io.NopCloser(strings.NewReader(table)), nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if z := sc.Zones[1]; z.Controller != 1 || z.MeterName != "house" {
		t.Errorf("%+v", z)
	}
}
