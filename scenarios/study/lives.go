package study

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"loamledger/plots"
	"loamledger/scenarios"
	"loamledger/sim"
	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/sim/tally"
)

// mostLifeYears is the number of years since installation that are followed.
const mostLifeYears = 20

// tryLives replays each strategy that has a part with a stated life with that part and
// without it, year by year.
func (l *Study) tryLives(ctx context.Context) ([]plots.LifeTrial, error) {
	var out []plots.LifeTrial
	job := l.Job
	job.Strategies, job.Step, job.MarkShifts, job.Brief = nil, nil, nil, true
	for s := range l.Job.Strategies {
		st := &l.Job.Strategies[s]
		for i := range st.Terms {
			life := st.Terms[i].Lasts
			if life == nil || st.Role == strategy.Cut {
				continue
			}
			trial := plots.LifeTrial{Strategy: s, Part: st.Parts[i].Kind().Key}
			if zones := st.Devices(i); zones != nil {
				for _, z := range zones {
					name := l.Job.Zones[z].Name
					trial.Devices = append(trial.Devices, plots.LifeDevice{Zone: name, Ending: life.Drawn(name)})
				}
			} else {
				trial.Devices = []plots.LifeDevice{{Ending: life.Drawn("")}}
			}
			for y := range mostLifeYears {
				trial.Working = append(trial.Working, life.Working(y+1))
			}
			out = append(out, trial)
			with, without := *st, st.Lacking(i)
			with.Role, without.Role = strategy.Option, strategy.Option
			job.Strategies = append(job.Strategies, with, without)
		}
	}
	if len(out) == 0 {
		return nil, nil
	}
	t, err := replay.Run(ctx, &job, nil)
	if err != nil {
		return nil, err
	}
	for k := range out {
		for _, y := range t.WholeYears() {
			out[k].With = append(out[k].With, plots.LifeYear{M3: t.VolumeInYear(2*k, y), Stress: t.StressDays(2*k, y)})
			out[k].Without = append(out[k].Without, plots.LifeYear{M3: t.VolumeInYear(2*k+1, y), Stress: t.StressDays(2*k+1, y)})
			for d := range out[k].Devices {
				device := &out[k].Devices[d]
				saved := t.VolumeInYear(2*k, y) - t.VolumeInYear(2*k+1, y)
				if device.Zone != "" {
					z := slices.IndexFunc(t.Zones, func(z sim.Zone) bool { return z.Name == device.Zone })
					saved = t.ZoneVolumeInYear(2*k, z, y) - t.ZoneVolumeInYear(2*k+1, z, y)
				}
				device.M3 = append(device.M3, saved)
			}
		}
	}
	if len(out[0].With) == 0 {
		return nil, nil // no whole year to meet
	}
	return out, nil
}

// LifeGrids show how long parts keep working; none without a stated life.
func (l *Study) LifeGrids(t *tally.Table) (grids []*Grid) {
	if l.checks == nil {
		return nil
	}
	data := l.verdictData(t)
	for i := range l.checks.lives {
		c := &l.checks.lives[i]
		grids = append(grids, namedRows("part of “"+t.Strategies[c.Strategy]+"”", data.LifeHead(), data.LifeRows(c), 16))
	}
	return grids
}

// lifeLine says which parts the figures take as working although their life is stated;
// empty for none.
func (l *Study) lifeLine(t *tally.Table) string {
	if l.checks == nil || len(l.checks.lives) == 0 {
		return ""
	}
	var parts []string
	for i := range l.checks.lives {
		c := &l.checks.lives[i]
		parts = append(parts, fmt.Sprintf("%s of “%s” (%.0f%% work in their first year)", c.Part, t.Strategies[c.Strategy], 100*c.Working[0]))
	}
	return "Figures take these as working: " + strings.Join(parts, ", ") + "; the report shows what fails with age."
}

// termLines say which parts are in force on some days only.
func (l *Study) termLines() (lines []string) {
	for s := range l.Job.Strategies {
		st := &l.Job.Strategies[s]
		var texts []string
		for i := range st.Terms {
			if text := scenarios.TermText(st.Parts[i].Kind().Key, &st.Terms[i]); text != "" {
				texts = append(texts, text)
			}
		}
		if len(texts) > 0 && st.Role != strategy.Cut {
			lines = append(lines, fmt.Sprintf("Parts of “%s” with dates: %s. Its yearly figures mix the time with and without them.", st.Name,
				strings.Join(texts, "; ")))
		}
	}
	return lines
}

// A LifeRecord is how long a part keeps working, for scripts.
type LifeRecord struct {
	Strategy string             `json:"strategy"`
	Part     string             `json:"part"`
	Devices  []LifeDeviceRecord `json:"devices_as_drawn"`
	Years    []LifeYearRecord   `json:"years_since_installation"`
}

// A LifeDeviceRecord is when one device stops working, as the seed draws it.
type LifeDeviceRecord struct {
	Zone  string       `json:"zone,omitempty"`    // empty if it serves all zones
	Age   *float64     `json:"stops_after_years"` // nil for never
	Cause sim.EndCause `json:"cause"`
}

// A LifeYearRecord is one year since installation, over the weather of all years:
// differences with the part less without it.
type LifeYearRecord struct {
	Year    int     `json:"year"`
	Working float64 `json:"working_share"`
	M3      float64 `json:"volume_m3_mean"`
	Low     float64 `json:"volume_m3_lowest"`
	High    float64 `json:"volume_m3_highest"`
	Stress  float64 `json:"stress_days_zone_mean"`
	// The devices that work in the middle of the year as drawn, and what they do.
	Devices int     `json:"devices_working_as_drawn"`
	DrawnM3 float64 `json:"volume_m3_mean_as_drawn"`
}

func (l *Study) lifeRecords(t *tally.Table) (out []LifeRecord) {
	for i := range l.checks.lives {
		c := &l.checks.lives[i]
		r := LifeRecord{Strategy: t.Strategies[c.Strategy], Part: c.Part}
		for _, d := range c.Devices {
			r.Devices = append(r.Devices, LifeDeviceRecord{d.Zone, Number(d.Age), d.Cause})
		}
		for y := range c.Working {
			e := c.Effect(y + 1)
			r.Years = append(r.Years, LifeYearRecord{y + 1, e.Working, e.M3, e.Low, e.High, e.Stress, e.Devices, e.DrawnM3})
		}
		out = append(out, r)
	}
	return out
}
