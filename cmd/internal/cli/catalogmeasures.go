package cli

import (
	"context"
	"fmt"
	"io"
	"math"
	"os"
	"runtime"
	"strings"

	"loamledger/scenarios/catalog"
	"loamledger/scenarios/demo"
	"loamledger/scenarios/study"
	"loamledger/sim/replay"
	"loamledger/sim/tally"
)

// A replayedMeasure is a measure and what a replay of it gives on the sample site.
type replayedMeasure struct {
	catalog.Measure
	Change        float64 `json:"change_of_water_on_sample_site"`
	StressDays    float64 `json:"stress_days_zone_per_year_on_sample_site"`
	AsFoundStress float64 `json:"stress_days_zone_per_year_as_found"`
}

// sampleZones are what the placeholders of measures are on the sample site.
var sampleZones = strings.NewReplacer("<lawns>", "[front lawn, slope lawn]", "<beds>", "[shrub bed]", "<zone>", "front lawn")

// measuresOnSample replays every measure on the sample site.
func measuresOnSample(ctx context.Context) ([]replayedMeasure, error) {
	head, _, _ := strings.Cut(demo.Scenario, "\nstrategies:")
	var b strings.Builder
	b.WriteString(head + "\nstrategies:\n  - name: as found\n    programs: [lawns, beds, forgotten]\n    season: {start: 03-01, end: 11-15}\n")
	list := catalog.Measures()
	for i := range list {
		fmt.Fprintf(&b, "  - name: %q\n", list[i].Name)
		if list[i].Alone {
			b.WriteString("    season: {start: 03-01, end: 11-15}\n")
		} else {
			b.WriteString("    like: as found\n")
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
	return measuredOf(list, t), nil
}

func measuredOf(list []catalog.Measure, t *tally.Table) (out []replayedMeasure) {
	rows := t.Compare()
	for i := range list {
		out = append(out, replayedMeasure{list[i], rows[i+1].Change, rows[i+1].StressPerYear, rows[0].StressPerYear})
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
		for _, s := range m.Settings {
			for k, line := range study.Wrap(fmt.Sprintf("%s %s: %v: %s", s.Key, s.Value, s.Grade, s.Source), 88) {
				fmt.Fprintf(w, "    %s%s\n", []string{"- ", "  "}[min(k, 1)], line)
			}
		}
		for _, line := range study.Wrap("Field studies: "+m.Found+" ("+m.FoundBy+")", 92) {
			fmt.Fprintf(w, "    %s\n", line)
		}
		change := "no difference"
		if v := math.Round(100 * m.Change); v < 0 {
			change = fmt.Sprintf("%.0f%% less water", -v)
		} else if v > 0 {
			change = fmt.Sprintf("%.0f%% more water", v)
		}
		fmt.Fprintf(w, "    Replay on the sample site, against as found: %s, %.0f stress days a year instead of %.0f\n", change, m.StressDays,
			m.AsFoundStress)
	}
	fmt.Fprintln(w, "\nField figures are quoted from reviews, abstracts and copies, as named; none was recomputed.")
	fmt.Fprintln(w, "Savings depend on what ran before, more than on the measure: replay them on your own site.")
}
