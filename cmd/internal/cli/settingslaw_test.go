package cli_test

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// enteredSheet is what a person reads from the JSON of a sheet to enter it.
type enteredSheet struct {
	Refused []struct{ Reason, Nearest string }
	Entries []struct {
		Zone, Program, Days string
		Month               int
		Starts              []string
		ProgramMinutes      float64 `json:"program_minutes"`
		Percent             float64
		Cycle               float64 `json:"cycle_minutes"`
		Soak                float64 `json:"soak_minutes"`
	}
	AsAsked struct {
		M3 float64 `json:"volume_m3_per_year"`
	} `json:"as_asked"`
	Sheet struct {
		M3 float64 `json:"volume_m3_per_year"`
	}
	Effect struct {
		Exact  bool
		Change float64
	}
}

// yaml writes the sheet as programs and a strategy, by nothing but its entries.
func (s *enteredSheet) yaml(t *testing.T, more string) string {
	t.Helper()
	minutes, head := map[string][]string{}, map[string]string{}
	var names []string
	percent := [12]float64{}
	for _, e := range s.Entries {
		percent[e.Month-1] = e.Percent
		if _, ok := head[e.Program]; !ok {
			names = append(names, e.Program)
			days := "[" + strings.ReplaceAll(strings.ToLower(e.Days), " ", ", ") + "]"
			var every int
			var from string
			if n, _ := fmt.Sscanf(e.Days, "every %d days, starting %s", &every, &from); n == 2 {
				days = fmt.Sprintf("{every: %d days, from: %s}", every, from)
			} else if e.Days == "every day" {
				days = "any"
			}
			head[e.Program] = fmt.Sprintf("  - {name: %q, days: %s, starts: [\"%s\"]", e.Program, days, strings.Join(e.Starts, `", "`))
			if e.Cycle > 0 {
				head[e.Program] += fmt.Sprintf(", cycle: %g min, soak: %g min", e.Cycle, e.Soak)
			}
		}
		entry := fmt.Sprintf("%s: %g", e.Zone, e.ProgramMinutes)
		if list := minutes[e.Program]; len(list) == 0 || list[len(list)-1] != entry {
			minutes[e.Program] = append(list, entry)
		}
	}
	text, list := "programs:\n", []string{}
	for _, name := range names {
		text += head[name] + ", minutes: {" + strings.Join(minutes[name], ", ") + "}}\n"
		list = append(list, fmt.Sprintf("%q", name))
	}
	months := strings.Trim(strings.ReplaceAll(fmt.Sprint(percent), " ", ", "), "[]")
	return text + "strategies:\n  - {name: entered, programs: [" + strings.Join(list, ", ") + "], monthly: [" + months + "]" + more + "}\n"
}

// TestEnteredSheetsApplyWhatTheySay: the settings of a sheet, entered as a scenario
// by its entries alone, apply the water that the sheet reports; that is the
// strategy's water if the sheet says that it is exact, and differs by the reported
// share if not.
func TestEnteredSheetsApplyWhatTheySay(t *testing.T) {
	const examples = "../../../scenarios/examples/"
	text, err := os.ReadFile(examples + "juniper-court.yaml")
	if err != nil {
		t.Fatal(err)
	}
	weather, err := filepath.Abs(examples + "juniper-court-weather.csv")
	if err != nil {
		t.Fatal(err)
	}
	court := strings.Replace(string(text), "juniper-court-weather.csv", weather, 1)
	head, _, _ := strings.Cut(court, "programs:\n")
	const season = ", season: {start: 04-15, end: 10-10}"
	court += "  - {name: season, programs: [lawns, beds], monthly: [0, 0, 30, 60, 90, 100, 100, 100, 70, 40, 0, 0]" + season + "}\n"
	exact, refused := 0, 0
	for _, c := range []struct{ timer, strategy, more string }{
		{"", "as found", ""}, {"timer: plain\n", "as found", ""}, {"timer: with cycle and soak\n", "seasonal percent", ""},
		{"", "season", season}, {"timer: plain\n", "season", season},
		{"timer: {percent_step: 25%}\n", "season", season},
		{"timer: plain\n", "cycle and soak", ""}, {"timer: {programs: 1, starts: 2}\n", "seasonal percent", ""},
		{"timer: {min_minutes: 30}\n", "as found", ""}, {"", "refill when due", ""}, {"timer: plain\n", "refill when due", ""},
		{"timer: {programs: 1, starts: 1, cycle: yes}\n", "refill when due", ""},
	} {
		t.Run(c.timer+c.strategy, func(t *testing.T) {
			dir := t.TempDir()
			write := func(name, text string) string {
				name = filepath.Join(dir, name)
				if err := os.WriteFile(name, []byte(text), 0o666); err != nil {
					t.Fatal(err)
				}
				return name
			}
			var s enteredSheet
			yard := write("yard.yaml", strings.Replace(court, "programs:\n", c.timer+"programs:\n", 1))
			if err := json.Unmarshal(runOut(t, "settings", yard, "--strategy", c.strategy, "--json", "--allow-outside"), &s); err != nil {
				t.Fatal(err)
			}
			var replayed struct {
				Strategies []struct {
					M3 float64 `json:"volume_m3_per_year"`
				}
			}
			entered := write("entered.yaml", head+s.yaml(t, c.more))
			if err := json.Unmarshal(runOut(t, "replay", entered, "--json", "--allow-outside"), &replayed); err != nil {
				t.Fatal(err)
			}
			got := replayed.Strategies[0].M3
			if math.Abs(got-s.Sheet.M3) > 1e-6*s.Sheet.M3 {
				t.Errorf("entered, the sheet applies %g m³ a year; it says %g", got, s.Sheet.M3)
			}
			want := s.AsAsked.M3
			if s.Effect.Exact {
				exact++
			} else {
				want *= 1 + s.Effect.Change
			}
			if math.Abs(got-want) > 1e-6*want {
				t.Errorf("the strategy applies %g m³ a year, the sheet %g; it says %+v", s.AsAsked.M3, got, s.Effect)
			}
			if refused += len(s.Refused); len(s.Refused) > 0 && c.timer == "" {
				t.Errorf("no timer refuses %v", s.Refused)
			}
			for _, r := range s.Refused {
				if r.Reason == "" || r.Nearest == "" {
					t.Errorf("refused without a reason or what fits: %+v", r)
				}
			}
		})
	}
	if exact < 4 || refused < 6 {
		t.Errorf("%d sheets are exact and %d settings refused: the law met too few cases", exact, refused)
	}
}
