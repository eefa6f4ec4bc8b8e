package cli

import (
	"context"
	"fmt"
	"io"
	"math"
	"os"
	"runtime"
	"slices"
	"strings"

	"loamledger/scenarios"
	"loamledger/scenarios/catalog"
	"loamledger/scenarios/demo"
	"loamledger/scenarios/study"
	"loamledger/sim/replay"
	"loamledger/sim/tally"
)

// A replayedMeasure is a measure and what a replay of it gives on the sample site.
type replayedMeasure struct {
	catalog.Measure
	Found         []foundRecord `json:"field_findings"`
	Change        float64       `json:"change_of_water_on_sample_site"`
	StressDays    float64       `json:"stress_days_zone_per_year_on_sample_site"`
	AsFoundStress float64       `json:"stress_days_zone_per_year_as_found"`
	// Working is the share that works in the first and the tenth year by the stated life, 1
	// for a measure without one. The change above is that of a measure that works.
	// SavedMM is the depth saved a year in the zones that it changes; 0 for a measure that
	// changes no zones.
	SavedMM   float64 `json:"saved_mm_per_year_in_changed_zones,omitempty"`
	FirstYear float64 `json:"working_share_in_year_1"`
	TenthYear float64 `json:"working_share_in_year_10"`
}

// A foundRecord is a finding for scripts.
type foundRecord struct {
	What   string `json:"what"`
	Source string `json:"source"`
	Seen   string `json:"seen"`
}

// sampleZones are what the placeholders of measures are on the sample site.
var sampleZones = strings.NewReplacer("<lawns>", "[front lawn, backyard lawn, slope lawn]", "<spray lawns>", "[front lawn]",
	"<beds>", "[shrub bed]", "<zone>", "front lawn")

// measuresOnSample replays every measure on the sample site.
func measuresOnSample(ctx context.Context) ([]replayedMeasure, error) {
	head, _, _ := strings.Cut(demo.Scenario, "\nstrategies:")
	var b strings.Builder
	b.WriteString(head + "\nstrategies:\n  - name: as found\n    programs: [lawns, beds, forgotten]\n    season: {start: 03-01, end: 11-15}\n")
	list := catalog.Measures()
	for i := range list {
		like := asFoundName
		if list[i].Before != "" {
			like = list[i].Name + ", before"
			fmt.Fprintf(&b, "  - name: %q\n    like: %s\n    %s\n", like, asFoundName, sampleZones.Replace(list[i].Before))
		}
		fmt.Fprintf(&b, "  - name: %q\n", list[i].Name)
		if list[i].Alone {
			b.WriteString("    season: {start: 03-01, end: 11-15}\n")
		} else {
			fmt.Fprintf(&b, "    like: %q\n", like)
		}
		for _, line := range list[i].YAML {
			b.WriteString("    " + sampleZones.Replace(line) + "\n")
		}
	}
	temp, err := os.MkdirTemp("", "loamledger-measures-*")
	if err != nil {
		return nil, fmt.Errorf("creating a folder for the sample site: %w", err)
	}
	defer os.RemoveAll(temp)
	scenario, _, err := writeDemo(temp, b.String())
	if err != nil {
		return nil, err
	}
	l, err := load(scenario, scenarioFlags{})
	if err != nil {
		return nil, err
	}
	l.Job.Workers, l.Job.Brief = runtime.GOMAXPROCS(0), true
	t, err := replay.Run(ctx, &l.Job, nil)
	if err != nil {
		return nil, err
	}
	return measuredOf(list, t, l.Scenario), nil
}

const asFoundName = "as found"

func measuredOf(list []catalog.Measure, t *tally.Table, sc *scenarios.Scenario) (out []replayedMeasure) {
	rows := t.Compare()
	of := func(name string) int { return slices.Index(t.Strategies, name) }
	for i := range list {
		m := &list[i]
		at, before := of(m.Name), of(asFoundName)
		if m.Before != "" {
			before = at - 1
		}
		r := replayedMeasure{Measure: *m, Change: rows[at].M3PerYear/rows[before].M3PerYear - 1, StressDays: rows[at].StressPerYear,
			AsFoundStress: rows[before].StressPerYear, FirstYear: 1, TenthYear: 1}
		if area := changedArea(sc, m.Name); area > 0 && m.Before == "" {
			r.SavedMM = (rows[before].M3PerYear - rows[at].M3PerYear) / area * 1000
		}
		for _, term := range sc.Strategies[at].Terms {
			if term.Lasts != nil {
				r.FirstYear, r.TenthYear = r.FirstYear*term.Lasts.Working(1), r.TenthYear*term.Lasts.Working(10)
			}
		}
		for _, f := range m.Found {
			r.Found = append(r.Found, foundRecord{f.What, f.Source, f.Seen.String()})
		}
		out = append(out, r)
	}
	return out
}

func printMeasures(w io.Writer, list []replayedMeasure) {
	fmt.Fprintln(w, "MEASURES  (each is a definition: paste its lines into a strategy and replace what is in <>)")
	for i := range list {
		m := &list[i]
		fmt.Fprintf(w, "\n  %s\n", m.Name)
		for _, line := range study.Wrap(m.What, 92) {
			fmt.Fprintf(w, "    %s\n", line)
		}
		for _, line := range m.YAML {
			fmt.Fprintf(w, "      %s\n", line)
		}
		fmt.Fprintln(w, "    Settings")
		for _, s := range m.Settings {
			bullet(w, fmt.Sprintf("%s %s: %v: %s", s.Key, s.Value, s.Grade, s.Source))
		}
		fmt.Fprintln(w, "    The replay gives")
		against := asFoundName
		if m.Against != "" {
			against = m.Against
		}
		text := fmt.Sprintf("%s on the sample site, against %s; %.0f stress days a year instead of %.0f", lessWater(m.Change), against,
			m.StressDays, m.AsFoundStress)
		if m.SavedMM > 0 {
			text += fmt.Sprintf(". It saves %.0f gal/ft² a year in the zones that it changes", m.SavedMM/mmPerGallonPerFt2)
		}
		if m.FirstYear < 1 {
			text += fmt.Sprintf(". That is of one that works; by the stated life %.0f%% do in their first year (%s on average) and %.0f%% in their "+
				"tenth (%s)", 100*m.FirstYear, lessWater(m.FirstYear*m.Change), 100*m.TenthYear, lessWater(m.TenthYear*m.Change))
		}
		bullet(w, text)
		fmt.Fprintln(w, "    Found elsewhere")
		for _, f := range m.Found {
			bullet(w, fmt.Sprintf("%s (%s; %s)", f.What, f.Source, f.Seen))
		}
	}
	fmt.Fprintln(w, "\nField figures are quoted as read, each with how much of its source was read; none was recomputed. They come from other")
	fmt.Fprintln(w, "sites, climates and baselines than the sample site, so they need not agree with the replay.")
	fmt.Fprintln(w, "Savings depend on what ran before, more than on the measure: replay them on your own site.")
}

// mmPerGallonPerFt2 is the depth of a gallon on a square foot: 231 in³ on 144 in², in mm.
const mmPerGallonPerFt2 = 231.0 / 144 * 25.4

// changedArea returns the area of the zones that the changes of a strategy name [m²].
func changedArea(sc *scenarios.Scenario, strategy string) (area float64) {
	for i := range sc.Stacks {
		if sc.Stacks[i].Name != strategy {
			continue
		}
		for z := range sc.Zones {
			if slices.ContainsFunc(sc.Stacks[i].Changes, func(c scenarios.Change) bool { return c.Zones[z] }) {
				area += sc.Zones[z].AreaM2
			}
		}
	}
	return area
}

// bullet prints one item of a list.
func bullet(w io.Writer, text string) {
	for k, line := range study.Wrap(text, 88) {
		fmt.Fprintf(w, "    %s%s\n", []string{"- ", "  "}[min(k, 1)], line)
	}
}

// lessWater writes a change of water use.
func lessWater(change float64) string {
	switch v := math.Round(100 * change); {
	case v < 0:
		return fmt.Sprintf("%.0f%% less water", -v)
	case v > 0:
		return fmt.Sprintf("%.0f%% more water", v)
	}
	return "no difference in water"
}
