package cli

import (
	"loamledger/sim/strategy"
	"loamledger/sim/tune"
)

type tunedZoneJSON struct {
	Zone         string  `json:"zone"`
	StressDays   int     `json:"stress_days_worst_year"`
	RunoffEvents float64 `json:"runoff_events_per_year"`
	GrossMM      float64 `json:"gross_mm_per_year"`
	LeastMM      float64 `json:"least_water_mm_per_year"`
	Binds        string  `json:"binds,omitempty"`
}

type tunedOutcomeJSON struct {
	M3PerYear      float64         `json:"volume_m3_per_year"`
	LeastM3PerYear float64         `json:"least_water_m3_per_year"`
	Gap            float64         `json:"gap"`
	Years          int             `json:"years"`
	Dry            int             `json:"dry_year"`
	Met            bool            `json:"within_limits"`
	Zones          []tunedZoneJSON `json:"zones"`
}

type tunedKindJSON struct {
	Kind        string            `json:"kind"`
	Setting     []string          `json:"setting"`
	Misfits     []misfitJSON      `json:"misfits"`
	Outcome     tunedOutcomeJSON  `json:"outcome"`
	HoldTuned   *tunedOutcomeJSON `json:"tuned_on_odd_years,omitempty"`
	HoldChecked *tunedOutcomeJSON `json:"checked_on_even_years,omitempty"`
	Tried       int               `json:"zone_replays"`
}

func (l *loaded) outcomeJSON(o *tune.Outcome) *tunedOutcomeJSON {
	j := &tunedOutcomeJSON{M3PerYear: o.M3PerYear, LeastM3PerYear: o.LeastM3PerYear, Gap: o.Gap(), Years: o.Years, Dry: o.Dry, Met: o.Met}
	for z, zone := range o.Zones {
		j.Zones = append(j.Zones, tunedZoneJSON{l.Job.Zones[z].Name, zone.StressDays, zone.RunoffEvents, zone.GrossMM, zone.LeastMM, zone.Binds})
	}
	return j
}

// tunedJSON is what a script gets of the tuning.
func (l *loaded) tunedJSON(now *tune.Outcome, all []tuned, goal tune.Goal, margin float64) (any, error) {
	var kinds []tunedKindJSON
	for _, t := range all {
		r := t.result
		k := tunedKindJSON{Kind: r.Kind.String(), Setting: []string{}, Misfits: []misfitJSON{}, Outcome: *l.outcomeJSON(&r.Outcome), Tried: r.Tried}
		for _, part := range r.Strategy.Parts {
			lines, err := strategy.Lines(part, l.zoneNames(), l.Scenario.Units)
			if err != nil {
				return nil, err
			}
			k.Setting = append(k.Setting, lines...)
		}
		if r.Sheet != nil {
			for _, m := range r.Sheet.Misfits {
				k.Misfits = append(k.Misfits, misfitJSON{l.Job.Zones[m.Zone].Name, m.Program, m.AskedMin, m.FitMin, m.Rule})
			}
		}
		if t.hold != nil {
			k.HoldTuned, k.HoldChecked = l.outcomeJSON(&t.hold.Tuned.Outcome), l.outcomeJSON(t.hold.Checked)
		}
		kinds = append(kinds, k)
	}
	var asSet *tunedOutcomeJSON // of the first strategy; null where the scenario has none
	if now != nil {
		asSet = l.outcomeJSON(now)
	}
	return map[string]any{"as_set_now": asSet, "stress_days": goal.StressDays, "runoff_events": goal.RunoffEvents, "margin_percent": margin, "kinds": kinds, "warnings": l.warnings(nil)}, nil
}
