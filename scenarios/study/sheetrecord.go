package study

import (
	"math"

	"loamledger/sim/settings"
	"loamledger/sim/strategy"
	"loamledger/sim/tally"
	"loamledger/weather/cal"
)

// An EntryRecord is what one program does in one zone in one month.
type EntryRecord struct {
	Zone           string   `json:"zone"`
	Month          int      `json:"month"`
	Controller     string   `json:"controller,omitempty"` // of a site with several
	Program        string   `json:"program"`
	Days           string   `json:"days"`
	Starts         []string `json:"starts"`
	ProgramMinutes float64  `json:"program_minutes"`
	Percent        float64  `json:"percent"`
	Minutes        float64  `json:"minutes"`
	WholeMinutes   float64  `json:"whole_minutes"` // for a timer without percentages
	Cycles         int      `json:"cycles"`
	CycleMinutes   float64  `json:"cycle_minutes"`
	SoakMinutes    float64  `json:"soak_minutes"`
}

// A MisfitRecord is a zone whose run time does not fit.
type MisfitRecord struct {
	Zone         string  `json:"zone"`
	Program      string  `json:"program"`
	AskedMinutes float64 `json:"asked_minutes"`
	FitMinutes   float64 `json:"fit_minutes"`
	Rule         string  `json:"rule"`
}

// A HeldRecord is the watering of a zone that a rule blocked.
type HeldRecord struct {
	Zone    string  `json:"zone"`
	Rule    string  `json:"rule"`
	Days    int     `json:"days"`
	Minutes float64 `json:"minutes"`
	First   string  `json:"first"`
}

// A ChangeRecord is a day on which to set a new percentage.
type ChangeRecord struct {
	Month   int     `json:"month"`
	Day     int     `json:"day"`
	Percent float64 `json:"percent"`
}

// An OutcomeRecord is the outcome of a replay; unknown values are nil.
type OutcomeRecord struct {
	M3PerYear    *float64 `json:"volume_m3_per_year"`
	StressMedian *float64 `json:"stress_days_median_year"`
	StressDry    *float64 `json:"stress_days_dry_year"`
	StressYear   *float64 `json:"stress_days_per_year"`
	RunoffEvents *float64 `json:"runoff_events_per_year"`
	ShareLost    *float64 `json:"share_lost"`
}

// A SheetRecord is a sheet for scripts, in SI.
type SheetRecord struct {
	Site       string          `json:"site"`
	Strategy   string          `json:"strategy"`
	Timer      *TimerRecord    `json:"timer"` // nil if the scenario does not state it
	Refused    []RefusalRecord `json:"refused"`
	Misfits    []MisfitRecord  `json:"misfits"`
	Unwatered  []DryRecord     `json:"unwatered"`
	Entries    []EntryRecord   `json:"entries"`
	Changes    []ChangeRecord  `json:"changes"`
	NextChange string          `json:"next_change,omitempty"`
	Times      []TimeRecord    `json:"times"`
	Earlier    *ShiftRecord    `json:"earlier,omitempty"`
	Controller []string        `json:"controller"`
	Lead       []string        `json:"lead,omitempty"`
	Advice     []string        `json:"advice,omitempty"`
	Notes      []string        `json:"notes"`
	Queued     [][2]string     `json:"queued,omitempty"` // programs that overlap
	Held       []HeldRecord    `json:"held"`
	Basis      BasisRecord     `json:"basis"`
	DryIs      string          `json:"dry_year_is,omitempty"`
	AsAsked    OutcomeRecord   `json:"as_asked"`
	Sheet      OutcomeRecord   `json:"sheet"`
	Without    *OutcomeRecord  `json:"without_timer,omitempty"`
	Effect     EffectRecord    `json:"effect"`
	Beaten     *Beaten         `json:"beaten,omitempty"`
	Following  *FollowRecord   `json:"following,omitempty"`
	Warnings   []WarningRecord `json:"warnings"`
	// Controllers has what differs between the controllers of a site with several.
	Controllers []DeviceRecord `json:"controllers,omitempty"`
}

// A DeviceRecord is the sheet of one controller of several, for scripts.
type DeviceRecord struct {
	Controller string          `json:"controller"`
	Timer      *TimerRecord    `json:"timer"`
	Refused    []RefusalRecord `json:"refused"`
	Changes    []ChangeRecord  `json:"changes"`
	NextChange string          `json:"next_change,omitempty"`
	Times      []TimeRecord    `json:"times"`
	Earlier    *ShiftRecord    `json:"earlier,omitempty"`
}

// SheetRecord returns a sheet for scripts. The error is that of a part that
// cannot describe itself.
func (l *Study) SheetRecord(p *Sheet) (*SheetRecord, error) {
	s := p.Sheet
	j := &SheetRecord{Warnings: l.Warnings(nil), Site: l.Scenario.Site.Name, Strategy: s.Name, Lead: p.Lead, Advice: p.Advice,
		Queued: s.Queued, Beaten: p.beaten, Notes: orEmpty(s.Notes),
		Misfits: []MisfitRecord{}, Changes: []ChangeRecord{}, Held: []HeldRecord{}}
	for _, e := range s.Entries() {
		row := EntryRecord{Zone: s.Zones[e.Zone].Name, Month: e.Month, Program: e.Program.Name, Days: strategy.DaysText(e.Program.Days),
			ProgramMinutes: e.Program.Minutes[e.Zone], Percent: tenth(100 * e.Percent), Minutes: tenth(e.Minutes),
			WholeMinutes: settings.WholeMinutes(e.Minutes), Cycles: e.Cycles, CycleMinutes: e.Program.Cycle, SoakMinutes: e.Program.Soak,
		}
		if s.Each != nil {
			row.Controller = l.Scenario.Zones[e.Zone].ControllerName
		}
		for _, at := range e.Program.Starts {
			row.Starts = append(row.Starts, strategy.ClockText(float64(at)))
		}
		j.Entries = append(j.Entries, row)
	}
	for _, m := range s.Misfits {
		j.Misfits = append(j.Misfits, MisfitRecord{s.Zones[m.Zone].Name, m.Program, tenth(m.AskedMin), tenth(m.FitMin), m.Rule})
	}
	for _, h := range s.Held {
		j.Held = append(j.Held, HeldRecord{s.Zones[h.Zone].Name, h.Rule, h.Days, tenth(h.Minutes), h.First.String()})
	}
	if s.Each == nil {
		j.Changes, j.NextChange = changeRecordsOf(s, p.asOf)
	}
	controls, err := s.Controls(l.Scenario.Units)
	if err != nil {
		return nil, err
	}
	j.Controller = orEmpty(controls)
	rows, basis, ranked := p.table.Compare(), p.table.Basis(), p.table.RankYears()
	j.Basis, j.DryIs = basisRecord(&basis), dryIs(&ranked)
	j.AsAsked, j.Sheet = outcomeOf(&rows[0]), outcomeOf(&rows[1])
	if len(p.Refused) > 0 {
		without := outcomeOf(&rows[2])
		j.Without = &without
	}
	l.timerRecords(j, p)
	for k, one := range s.Each {
		d := DeviceRecord{Controller: one.Controller, Timer: timerRecord(l.timerOf(l.controllerOf(one))), Times: timeRecords(one),
			Earlier: shiftRecord(one), Refused: []RefusalRecord{}}
		d.Changes, d.NextChange = changeRecordsOf(one, p.asOf)
		if p.RefusedOf != nil {
			d.Refused = refusalRecords(p.RefusedOf[k], l.ZoneNames())
		}
		j.Controllers = append(j.Controllers, d)
	}
	return j, nil
}

// changeRecordsOf lists the changes of the percentage, and the date of the next one after
// a day, 0 for none.
func changeRecordsOf(s *settings.Sheet, after cal.Date) (list []ChangeRecord, next string) {
	list = []ChangeRecord{}
	for _, c := range s.Changes() {
		list = append(list, ChangeRecord{c.Month, c.Day, tenth(100 * c.Percent)})
	}
	if at, _, ok := s.Next(after); ok && after != 0 {
		next = at.String()
	}
	return list, next
}

func outcomeOf(r *tally.Row) OutcomeRecord {
	return OutcomeRecord{Number(r.M3PerYear), Number(r.StressMedian), Number(r.StressDry), Number(r.StressPerYear),
		Number(r.RunoffEvents), Number(r.ShareLost)}
}

// tenth rounds to a tenth, since nobody enters more digits.
func tenth(v float64) float64 { return math.Round(10*v) / 10 }

// orEmpty replaces a nil list by an empty one, as scripts expect.
func orEmpty(list []string) []string {
	if list == nil {
		return []string{}
	}
	return list
}
