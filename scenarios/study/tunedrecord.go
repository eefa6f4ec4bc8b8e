package study

import (
	"loamledger/sim/strategy"
	"loamledger/sim/tune"
)

// A TunedZone is the outcome of a setting in a zone.
type TunedZone struct {
	Zone         string  `json:"zone"`
	StressDays   int     `json:"stress_days_worst_year"`
	RunoffEvents float64 `json:"runoff_events_per_year"`
	GrossMM      float64 `json:"gross_mm_per_year"`
	LeastMM      float64 `json:"least_water_mm_per_year"`
	Binds        string  `json:"binds,omitempty"`
}

// A TunedOutcome is the outcome of a setting.
type TunedOutcome struct {
	M3PerYear      float64     `json:"volume_m3_per_year"`
	LeastM3PerYear float64     `json:"least_water_m3_per_year"`
	Gap            float64     `json:"gap"`
	Years          int         `json:"years"`
	Dry            int         `json:"dry_year"`
	DryIs          string      `json:"dry_year_is"`
	Met            bool        `json:"within_limits"`
	Zones          []TunedZone `json:"zones"`
}

// A TunedKind is the best setting of a kind.
type TunedKind struct {
	Kind        string         `json:"kind"`
	Setting     []string       `json:"setting"`
	Misfits     []MisfitRecord `json:"misfits"`
	Outcome     TunedOutcome   `json:"outcome"`
	HoldTuned   *TunedOutcome  `json:"tuned_on_odd_years,omitempty"`
	HoldChecked *TunedOutcome  `json:"checked_on_even_years,omitempty"`
	Tried       int            `json:"zone_replays"`
}

func (l *Study) outcomeOfSetting(o *tune.Outcome) *TunedOutcome {
	j := &TunedOutcome{M3PerYear: o.M3PerYear, LeastM3PerYear: o.LeastM3PerYear, Gap: o.Gap(), Years: o.Years, Dry: o.Dry,
		DryIs: dryIs(&o.Ranked), Met: o.Met}
	for z, zone := range o.Zones {
		j.Zones = append(j.Zones, TunedZone{l.Job.Zones[z].Name, zone.StressDays, zone.RunoffEvents, zone.GrossMM, zone.LeastMM, zone.Binds})
	}
	return j
}

// A TunedRecord is the result of a search for scripts.
type TunedRecord struct {
	Basis         BasisRecord     `json:"basis"`
	Now           *TunedOutcome   `json:"as_set_now"` // of the baseline; null if the scenario has none
	Kinds         []TunedKind     `json:"kinds"`
	MarginPercent float64         `json:"margin_percent"`
	RunoffEvents  float64         `json:"runoff_events"`
	StressDays    int             `json:"stress_days"`
	Warnings      []WarningRecord `json:"warnings"`
}

// TunedRecord returns the result of a search for scripts. The error is that of
// a part that cannot describe itself.
func (l *Study) TunedRecord(found *Tuning) (*TunedRecord, error) {
	basis := l.basis()
	out := &TunedRecord{Basis: basisRecord(&basis), MarginPercent: found.MarginPct, RunoffEvents: found.Goal.RunoffEvents,
		StressDays: found.Goal.StressDays, Warnings: l.Warnings(nil)}
	for _, t := range found.Kinds {
		r := t.Result
		k := TunedKind{Kind: r.Kind.String(), Setting: []string{}, Misfits: []MisfitRecord{}, Outcome: *l.outcomeOfSetting(&r.Outcome),
			Tried: r.Tried}
		for _, part := range r.Strategy.Parts {
			lines, err := strategy.Lines(part, l.ZoneNames(), l.Scenario.Units)
			if err != nil {
				return nil, err
			}
			k.Setting = append(k.Setting, lines...)
		}
		if r.Sheet != nil {
			for _, m := range r.Sheet.Misfits {
				k.Misfits = append(k.Misfits, MisfitRecord{l.Job.Zones[m.Zone].Name, m.Program, m.AskedMin, m.FitMin, m.Rule})
			}
		}
		if t.Hold != nil {
			k.HoldTuned, k.HoldChecked = l.outcomeOfSetting(&t.Hold.Tuned.Outcome), l.outcomeOfSetting(t.Hold.Checked)
		}
		out.Kinds = append(out.Kinds, k)
	}
	if found.Now != nil {
		out.Now = l.outcomeOfSetting(found.Now)
	}
	return out, nil
}
