package cli

import (
	"math"

	"loamledger/sim/settingsfile"
	"loamledger/sim/strategy"
	"loamledger/sim/tally"
	"loamledger/weather/cal"
)

// entryJSON is what one program does for one zone in one month.
type entryJSON struct {
	Zone           string   `json:"zone"`
	Month          int      `json:"month"`
	Program        string   `json:"program"`
	Days           string   `json:"days"`
	Starts         []string `json:"starts"`
	ProgramMinutes float64  `json:"program_minutes"`
	Percent        float64  `json:"percent"`
	Minutes        float64  `json:"minutes"`
	Cycles         int      `json:"cycles"`
	CycleMinutes   float64  `json:"cycle_minutes"`
	SoakMinutes    float64  `json:"soak_minutes"`
}

type misfitJSON struct {
	Zone         string  `json:"zone"`
	Program      string  `json:"program"`
	AskedMinutes float64 `json:"asked_minutes"`
	FitMinutes   float64 `json:"fit_minutes"`
	Rule         string  `json:"rule"`
}

type heldJSON struct {
	Zone    string  `json:"zone"`
	Rule    string  `json:"rule"`
	Days    int     `json:"days"`
	Minutes float64 `json:"minutes"`
	First   string  `json:"first"`
}

type changeJSON struct {
	Month   int     `json:"month"`
	Day     int     `json:"day"`
	Percent float64 `json:"percent"`
}

type outcomeJSON struct {
	M3PerYear    *float64 `json:"volume_m3_per_year"`
	StressMedian *float64 `json:"stress_days_median_year"`
	StressDry    *float64 `json:"stress_days_dry_year"`
	RunoffEvents *float64 `json:"runoff_events_per_year"`
	Excess       *float64 `json:"excess"`
}

type settingsJSON struct {
	Site       string        `json:"site"`
	Strategy   string        `json:"strategy"`
	Misfits    []misfitJSON  `json:"misfits"`
	Entries    []entryJSON   `json:"entries"`
	Changes    []changeJSON  `json:"changes"`
	NextChange string        `json:"next_change,omitempty"`
	Controller []string      `json:"controller"`
	Lead       []string      `json:"lead,omitempty"`
	Notes      []string      `json:"notes"`
	Held       []heldJSON    `json:"held"`
	AsAsked    outcomeJSON   `json:"as_asked"`
	Sheet      outcomeJSON   `json:"sheet"`
	Warnings   []warningJSON `json:"warnings"`
}

func sheetJSON(p *settingsfile.Page, t *tally.Table) (*settingsJSON, error) {
	s := p.Sheet
	j := &settingsJSON{Site: p.Site, Strategy: s.Name, Lead: p.Lead, Notes: orEmpty(s.Notes), Misfits: []misfitJSON{}, Changes: []changeJSON{}, Held: []heldJSON{}}
	for _, e := range s.Entries() {
		row := entryJSON{Zone: s.Zones[e.Zone].Name, Month: e.Month, Program: e.Program.Name, Days: strategy.DaysText(e.Program.Days), ProgramMinutes: e.Program.Minutes[e.Zone],
			Percent: tenth(100 * e.Percent), Minutes: tenth(e.Minutes), Cycles: e.Cycles, CycleMinutes: e.Program.Cycle, SoakMinutes: e.Program.Soak}
		for _, at := range e.Program.Starts {
			row.Starts = append(row.Starts, strategy.ClockText(float64(at)))
		}
		j.Entries = append(j.Entries, row)
	}
	for _, m := range s.Misfits {
		j.Misfits = append(j.Misfits, misfitJSON{s.Zones[m.Zone].Name, m.Program, tenth(m.AskedMin), tenth(m.FitMin), m.Rule})
	}
	for _, h := range s.Held {
		j.Held = append(j.Held, heldJSON{s.Zones[h.Zone].Name, h.Rule, h.Days, tenth(h.Minutes), h.First.String()})
	}
	for _, c := range s.Changes() {
		j.Changes = append(j.Changes, changeJSON{c.Month, c.Day, tenth(100 * c.Percent)})
	}
	controls, err := s.Controls(p.Units)
	if err != nil {
		return nil, err
	}
	j.Controller = orEmpty(controls)
	if p.From != 0 {
		if at, _, ok := s.Next(p.From); ok {
			j.NextChange = cal.Date(at).String()
		}
	}
	rows := t.Compare()
	j.AsAsked, j.Sheet = outcomeOf(&rows[0]), outcomeOf(&rows[1])
	return j, nil
}

func outcomeOf(r *tally.Row) outcomeJSON {
	return outcomeJSON{number(r.M3PerYear), number(r.StressMedian), number(r.StressDry), number(r.RunoffEvents), number(r.Excess)}
}

// tenth rounds to a tenth, as nobody enters more.
func tenth(v float64) float64 { return math.Round(10*v) / 10 }

// orEmpty makes a list that is nil an empty one, as scripts expect.
func orEmpty(list []string) []string {
	if list == nil {
		return []string{}
	}
	return list
}
