package study

import (
	"slices"

	"loamledger/sim/settings"
	"loamledger/sim/timer"
)

// A TimerRecord is what the timer can be set to.
type TimerRecord struct {
	Name        string  `json:"name,omitempty"` // of a ready profile
	Programs    int     `json:"programs"`
	Starts      int     `json:"starts"`
	PercentStep float64 `json:"percent_step"` // share
	MinMinutes  float64 `json:"min_minutes"`
	Cycle       bool    `json:"cycle"`
}

// A RefusalRecord is one thing that does not fit the timer. Reason is one of
// [timer.Reasons]; Asked and Has are in its unit.
type RefusalRecord struct {
	Reason  string  `json:"reason"`
	Program string  `json:"program,omitempty"`
	Zone    string  `json:"zone,omitempty"`
	Month   int     `json:"month,omitempty"`
	Asked   float64 `json:"asked"`
	Has     float64 `json:"has"`
	Nearest string  `json:"nearest"`
	Text    string  `json:"text"`
}

// A DryRecord is a zone without water. Reason is one of [settings.DryReasons].
type DryRecord struct {
	Zone   string `json:"zone"`
	Reason string `json:"reason"`
	Text   string `json:"text"`
}

// A TimeRecord is the longest day of a month, in minutes after its midnight.
type TimeRecord struct {
	Month     int     `json:"month"`
	StartMin  float64 `json:"start_min"`
	FinishMin float64 `json:"finish_min"`
}

// A ShiftRecord is how much earlier to start to finish in the morning. A start
// below 0 is on the day before.
type ShiftRecord struct {
	Month      int     `json:"month"`
	EarlierMin float64 `json:"earlier_min"`
	StartMin   float64 `json:"start_min"`
	FinishMin  float64 `json:"finish_min"`
}

// An EffectRecord compares the sheet's water with the strategy's.
type EffectRecord struct {
	Exact  bool          `json:"exact"`
	Change *float64      `json:"change"` // share; nil if the strategy applies none
	Zones  []ZoneChanged `json:"zones"`
}

// A ZoneChanged is the change of a zone's water.
type ZoneChanged struct {
	Zone   string   `json:"zone"`
	Change *float64 `json:"change"`
}

// A FollowRecord is what to enter on a timer that can follow the weather.
type FollowRecord struct {
	PeakMonth int            `json:"peak_month"`
	PeakEToMM *float64       `json:"peak_eto_mm_d"`
	EToMM     []*float64     `json:"eto_mm_d"` // by calendar month
	Zones     []FollowedZone `json:"zones"`
}

// A FollowedZone has the entries of a zone.
type FollowedZone struct {
	Zone           string      `json:"zone"`
	MinutesPerDay  float64     `json:"peak_minutes_per_day"`
	MinutesPerWeek float64     `json:"peak_minutes_per_week"`
	K              [12]float64 `json:"k"`
	AWCMMPerM      *float64    `json:"awc_mm_m"`
	RootDepthM     *float64    `json:"root_depth_m"`
	Depletion      *float64    `json:"allowed_depletion"`
	RateMMH        *float64    `json:"precipitation_rate_mm_h"`
	Efficiency     *float64    `json:"efficiency"`
}

// timerRecord returns the record of a timer, nil for none.
func timerRecord(t *timer.Profile) *TimerRecord {
	if t == nil {
		return nil
	}
	return &TimerRecord{t.Name, t.Programs, t.Starts, t.PercentStep, t.MinMinutes, t.Cycle}
}

// timerRecords fills in the parts of a sheet's record that are about the timer.
func (l *Study) timerRecords(j *SheetRecord, p *Sheet) {
	names := l.ZoneNames()
	j.Unwatered = []DryRecord{}
	j.Timer, j.Refused, j.Times, j.Earlier = timerRecord(p.timer), refusalRecords(p.Refused, names), timeRecords(p.Sheet), shiftRecord(p.Sheet)
	for _, d := range p.Dry {
		j.Unwatered = append(j.Unwatered, DryRecord{names[d.Zone], string(d.Reason), d.Text(p.Sheet)})
	}
	j.Effect = EffectRecord{Exact: p.effect.exact, Change: Number(p.effect.change)}
	for z, c := range p.effect.zones {
		j.Effect.Zones = append(j.Effect.Zones, ZoneChanged{names[z], Number(c)})
	}
	if p.Following != nil {
		j.Following = followRecord(p.Following, names)
	}
}

func refusalRecords(refused []timer.Refusal, zones []string) []RefusalRecord {
	out := []RefusalRecord{}
	for i := range refused {
		r := &refused[i]
		row := RefusalRecord{Reason: string(r.Reason), Program: r.Program, Month: r.Month, Asked: r.Asked, Has: r.Has, Nearest: r.Nearest,
			Text: r.Text(zones)}
		if r.Zone >= 0 {
			row.Zone = zones[r.Zone]
		}
		out = append(out, row)
	}
	return out
}

func timeRecords(s *settings.Sheet) []TimeRecord {
	out := []TimeRecord{}
	for m, t := range s.Times {
		if t.Waters {
			out = append(out, TimeRecord{m + 1, t.StartMin, t.FinishMin})
		}
	}
	return out
}

// shiftRecord returns how much earlier to start, nil for no need.
func shiftRecord(s *settings.Sheet) *ShiftRecord {
	if s.Shift == nil {
		return nil
	}
	return &ShiftRecord{s.Shift.Month, s.Shift.EarlierMin, s.Shift.NewFromMin, s.Shift.ByMin}
}

func followRecord(f *settings.Following, names []string) *FollowRecord {
	out := &FollowRecord{PeakMonth: f.PeakMonth, PeakEToMM: Number(f.EToMM[f.PeakMonth-1])}
	for _, mm := range f.EToMM {
		out.EToMM = append(out.EToMM, Number(mm))
	}
	for i := range f.Zones {
		z := &f.Zones[i]
		out.Zones = append(out.Zones, FollowedZone{names[z.Zone], tenth(z.MinutesPerDay), tenth(z.MinutesPerWeek), z.K, Number(z.AWCMMPerM),
			Number(z.RootDepthM), Number(z.Depletion), Number(z.RateMMH), Number(z.Efficiency)})
	}
	return out
}

// timerRefusals lists, for each strategy with run times, what of its settings does
// not fit the scenario's timers; the lists of others are empty.
func (l *Study) timerRefusals() [][]timer.Refusal {
	out := make([][]timer.Refusal, len(l.Job.Strategies))
	for i := range l.Job.Strategies {
		if sheet, err := l.made(&l.Job.Strategies[i], &SheetOptions{}, false); err == nil {
			out[i] = slices.Concat(l.refusals(sheet)...)
		}
	}
	return out
}
