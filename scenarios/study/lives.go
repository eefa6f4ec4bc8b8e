package study

import (
	"context"
	"fmt"
	"strings"

	"loamledger/plots"
	"loamledger/scenarios"
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
			trial := plots.LifeTrial{Strategy: s, Part: st.Parts[i].Kind().Key, DrawnAge: life.Drawn()}
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
		}
	}
	if len(out[0].With) == 0 {
		return nil, nil // no whole year to meet
	}
	return out, nil
}

// LifeGrids show how long parts keep working; none without a stated life.
func (l *Study) LifeGrids(t *tally.Table) (grids []*Grid) {
	if l.Checks == nil {
		return nil
	}
	data := l.verdictData(t)
	for i := range l.Checks.Lives {
		c := &l.Checks.Lives[i]
		grids = append(grids, namedRows("part of “"+t.Strategies[c.Strategy]+"”", data.LifeHead(), data.LifeRows(c), 16))
	}
	return grids
}

// TermLines say which parts are in force on some days only.
func (l *Study) TermLines() (lines []string) {
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
	Strategy string           `json:"strategy"`
	Part     string           `json:"part"`
	DrawnAge *float64         `json:"drawn_age_at_failure_years"` // nil for never
	Years    []LifeYearRecord `json:"years_since_installation"`
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
}

func (l *Study) lifeRecords(t *tally.Table) (out []LifeRecord) {
	for i := range l.Checks.Lives {
		c := &l.Checks.Lives[i]
		r := LifeRecord{Strategy: t.Strategies[c.Strategy], Part: c.Part, DrawnAge: Number(c.DrawnAge)}
		for y := range c.Working {
			e := c.Effect(y + 1)
			r.Years = append(r.Years, LifeYearRecord{y + 1, e.Working, e.M3, e.Low, e.High, e.Stress})
		}
		out = append(out, r)
	}
	return out
}
