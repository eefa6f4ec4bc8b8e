package study

import (
	"fmt"
	"slices"

	"loamledger/sim/strategy"
	"loamledger/sim/tune"
)

// A TunedZone is the outcome of a setting in a zone.
type TunedZone struct {
	Zone         string       `json:"zone"`
	Watered      bool         `json:"watered"`
	ReserveDays  int          `json:"days_below_raised_mark_worst_year"`
	StressDays   int          `json:"stress_days_worst_year"`
	BrowningDays int          `json:"browning_days_worst_year"`
	OffStress    int          `json:"stress_days_other_months_worst_year"`
	OffBrown     int          `json:"browning_days_other_months_worst_year"`
	RunoffEvents float64      `json:"runoff_events_per_year"`
	GrossMM      float64      `json:"gross_mm_per_year"`
	LeastMM      float64      `json:"least_water_mm_per_year"`
	Binds        string       `json:"binds,omitempty"`
	Every        float64      `json:"interval_days"` // between waterings; 0 without water
	Outside      bool         `json:"interval_outside_plants_range"`
	RunTime      TunedRunTime `json:"run_time"`
}

// A TunedRunTime compares the run time in the peak month with the trade's rule. The
// shares are of the plants' need between waterings.
type TunedRunTime struct {
	Month      int     `json:"month"`
	Days       float64 `json:"days_between_waterings"`
	Minutes    float64 `json:"minutes"`
	Rule       float64 `json:"minutes_by_run_time_rule"`
	Multiplier float64 `json:"run_time_multiplier"`
	Rain       float64 `json:"share_met_by_rain"`
	Soil       float64 `json:"share_from_stored_water"`
	Short      float64 `json:"share_not_met"`
	Lost       float64 `json:"share_lost"`
}

// A TunedOutcome is the outcome of a setting.
type TunedOutcome struct {
	M3PerYear      float64     `json:"volume_m3_per_year"`
	LeastM3PerYear float64     `json:"least_water_m3_per_year"`
	TimesLeast     float64     `json:"times_least_water"`        // 0 if the bound is 0
	Uneven         float64     `json:"uneven_times_least_water"` // what uneven coverage and losses account for
	Years          int         `json:"years"`
	Dry            int         `json:"dry_year"`
	DryIs          string      `json:"dry_year_is"`
	Met            bool        `json:"within_goal"`
	Breaches       int         `json:"forbidden_runs"`
	Zones          []TunedZone `json:"zones"`
}

// A TunedKind is the best setting of a kind.
type TunedKind struct {
	Kind     string         `json:"kind"`
	Strategy string         `json:"strategy"`
	Proposed bool           `json:"proposed"`
	Against  []TuneReason   `json:"against"`
	NoSaving bool           `json:"saving_implausible"`
	Stopped  bool           `json:"interrupted"`
	Season   TunedSeason    `json:"season"`
	Setting  []string       `json:"setting"`
	Misfits  []MisfitRecord `json:"misfits"`
	Outcome  TunedOutcome   `json:"outcome"`       // over all whole years, without the reserve
	Tuned    TunedOutcome   `json:"outcome_tuned"` // over the years tuned on, with the reserve
	Scores   []ScoreRecord  `json:"scores"`
	Tried    int            `json:"zone_replays"`
}

// A TunedSeason is the dates within which a setting waters; empty for no date.
type TunedSeason struct {
	Of    string `json:"stated_by,omitempty"`
	Start string `json:"start"`
	End   string `json:"end"`
	Cold  bool   `json:"cut_for_cold"`
}

// A ScoreRecord is a setting in other years or with other inputs.
type ScoreRecord struct {
	Key     string       `json:"case"`
	Outcome TunedOutcome `json:"outcome"`
}

func (l *Study) outcomeOfSetting(o *tune.Outcome) *TunedOutcome {
	j := &TunedOutcome{M3PerYear: o.M3PerYear, LeastM3PerYear: o.LeastM3PerYear, TimesLeast: o.Ratio(), Uneven: o.Uneven(), Years: o.Years,
		Dry:   o.Dry,
		DryIs: dryIs(&o.Ranked), Met: o.Met, Breaches: o.Breaches}
	for z := range o.Zones {
		zone := &o.Zones[z]
		j.Zones = append(j.Zones, TunedZone{Zone: l.Job.Zones[z].Name, Watered: zone.Watered(), ReserveDays: zone.ReserveDays,
			StressDays: zone.StressDays, BrowningDays: zone.BrowningDays, OffStress: zone.OffSeasonDays, OffBrown: zone.OffSeasonBrown,
			RunoffEvents: zone.RunoffEvents,
			GrossMM:      zone.GrossMM, LeastMM: zone.LeastMM, Binds: zone.Binds, Every: zone.Every, Outside: zone.Outside,
			RunTime: TunedRunTime(zone.Run)})
	}
	return j
}

// A TunedRecord is the result of a search for scripts.
type TunedRecord struct {
	Basis         BasisRecord     `json:"basis"`
	Now           *TunedOutcome   `json:"as_set_now"` // of the baseline; null if the scenario has none
	Kinds         []TunedKind     `json:"kinds"`
	HeldOut       bool            `json:"even_years_held_out"`
	Stopped       bool            `json:"interrupted"`
	Method        string          `json:"method"`
	MarkReserve   float64         `json:"mark_reserve"`
	BrowningDays  int             `json:"browning_days"`
	MarginPercent float64         `json:"margin_percent"`
	RunoffEvents  float64         `json:"runoff_events"`
	StressDays    int             `json:"stress_days"`
	Warnings      []WarningRecord `json:"warnings"`
}

// TunedRecord returns the result of a search for scripts. The error is that of
// a part that cannot describe itself.
func (l *Study) TunedRecord(found *Tuning) (*TunedRecord, error) {
	basis := l.basis()
	out := &TunedRecord{Basis: basisRecord(&basis), MarginPercent: found.marginPct, RunoffEvents: found.goal.RunoffEvents,
		HeldOut: found.heldOut, Stopped: found.Stopped, Method: tune.Method, MarkReserve: found.goal.MarkReserve,
		BrowningDays: found.goal.BrowningDays, StressDays: found.goal.StressDays, Warnings: l.Warnings(nil)}
	for i := range found.Kinds {
		t := &found.Kinds[i]
		r := t.Result
		k := TunedKind{Kind: r.Kind.String(), Strategy: r.Strategy.Name, Proposed: t.Proposed(),
			Against:  slices.Concat([]TuneReason{}, t.against),
			NoSaving: t.noSaving, Stopped: t.Stopped, Season: seasonRecord(&t.season), Setting: []string{}, Misfits: []MisfitRecord{},
			Outcome: *l.outcomeOfSetting(t.All), Tuned: *l.outcomeOfSetting(&r.Outcome), Scores: []ScoreRecord{}, Tried: r.Tried}
		lines, err := strategy.AllLines(r.Strategy.Parts, l.ZoneNames(), l.Scenario.Units)
		if err != nil {
			return nil, err
		}
		k.Setting = append(k.Setting, lines...)
		if r.Sheet != nil {
			for _, m := range r.Sheet.Misfits {
				k.Misfits = append(k.Misfits, MisfitRecord{l.Job.Zones[m.Zone].Name, m.Program, m.AskedMin, m.FitMin, m.Rule})
			}
		}
		for _, sc := range t.scores {
			k.Scores = append(k.Scores, ScoreRecord{sc.key, *l.outcomeOfSetting(sc.outcome)})
		}
		out.Kinds = append(out.Kinds, k)
	}
	if found.now != nil {
		out.Now = l.outcomeOfSetting(found.now)
	}
	return out, nil
}

// seasonRecord returns a season for scripts.
func seasonRecord(s *tuneSeason) TunedSeason {
	out := TunedSeason{Of: s.of, Cold: s.cold}
	date := func(day int) string {
		if day == 0 {
			return ""
		}
		return fmt.Sprintf("%02d-%02d", day/100, day%100)
	}
	if s.used != nil {
		out.Start, out.End = date(s.used.Start), date(s.used.End)
	}
	return out
}
