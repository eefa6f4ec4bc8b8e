package cli

import (
	"context"
	"errors"
	"fmt"
	"math"
	"runtime"
	"strings"

	"loamledger/cmd/internal/progress"
	"loamledger/sim/settings"
	"loamledger/sim/strategy"
	"loamledger/sim/tune"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
)

// copied draws the sheet of a strategy with a balance of its own, and says what
// it is and where it falls short.
func (l *loaded) copied(ctx context.Context, s Streams, st *strategy.Strategy, o *settingsOptions, date cal.Date) (*settings.Sheet, []string, error) {
	job := l.Job
	job.Workers = runtime.GOMAXPROCS(0)
	meter := progress.New(s.Err, s.Terminal && !o.JSON, -1, "trying minutes")
	defer meter.Done()
	c, err := tune.Copy(ctx, &job, st, tune.CopyOptions{PercentStep: float64(o.Round) / 100, AsOf: date, Progress: func(int) { meter.Step() }})
	if errors.Is(err, settings.ErrNothing) {
		return nil, nil, &usageError{diag.NothingToEnter, fmt.Sprintf("strategy %q applied no water over the record: there is nothing to enter", st.Name), "name another strategy"}
	}
	if err != nil {
		return nil, nil, l.tuneFault(err)
	}
	return c.Sheet, l.copyLead(c), nil
}

// copyLead says what a drawn sheet is, and in which zones it does not do as well
// as the strategy, or the strategy itself not well.
func (l *loaded) copyLead(c *tune.Copied) []string {
	lead := []string{"This strategy decides every morning by a balance of its own, which a controller with days and minutes cannot be told. The sheet follows what it applied on average over the record: the month with most water gave each zone its minutes, the means by month the percentages."}
	var drier, runoff, stressed []string
	least, most := math.Inf(1), 0.0
	for z := range c.Zones {
		zone := &c.Zones[z]
		name := l.Job.Zones[z].Name
		if !math.IsNaN(zone.Raised) {
			least, most = min(least, zone.Raised), max(most, zone.Raised)
		}
		switch {
		case zone.Drier():
			drier = append(drier, drierText(name, zone.Sheet.MedianDays, zone.Own.MedianDays, zone.Sheet.DryDays, zone.Own.DryDays))
		case zone.Sheet.RunoffEvents > zone.Own.RunoffEvents+1e-9:
			runoff = append(runoff, fmt.Sprintf("%s (%.1f runoff events a year, the strategy %.1f)", name, zone.Sheet.RunoffEvents, zone.Own.RunoffEvents))
		}
		if zone.Own.DryDays > stressedDays {
			stressed = append(stressed, fmt.Sprintf("%s (%d days)", name, zone.Own.DryDays))
		}
	}
	if most > 0 {
		lead = append(lead, fmt.Sprintf("Since fixed minutes cannot wait for the weather as a balance does, up to %.0f %% of these minutes were tried. The sheet has %s of them.", 100*tune.CopyMost, between(least, most)))
	}
	years := fmt.Sprintf("the median year (%d) and the 1-in-10 dry year (%d)", c.Median, c.Dry)
	if len(drier) == 0 {
		lead = append(lead, fmt.Sprintf("Replayed as rounded here, no zone has more days short of water than under the strategy, in %s.", years))
	} else {
		lead = append(lead, fmt.Sprintf("Replayed as rounded here, in %s, it leaves MORE days short of water than the strategy in %s.", years, someOf(drier)))
	}
	if len(runoff) > 0 {
		lead = append(lead, fmt.Sprintf("It sheds more often than the strategy in %s.", someOf(runoff)))
	}
	if len(stressed) > 0 {
		lead = append(lead, fmt.Sprintf("The strategy itself leaves more than %d days short of water in the dry year in %s. The sheet copies that: mend the strategy first, with an earlier trigger or more for uneven coverage, or use tune.", stressedDays, someOf(stressed)))
	}
	return lead
}

// stressedDays are the stress days of a dry year above which a strategy is said
// to be short of water: an assumption of this program, as in tune.
const stressedDays = 10

// between writes two shares as percent, once where they are alike.
func between(a, b float64) string {
	from, to := fmt.Sprintf("%.0f", 100*a), fmt.Sprintf("%.0f", 100*b)
	if from == to {
		return from + " %"
	}
	return "between " + from + " and " + to + " %"
}

// someOf lists at most five items and counts the rest.
func someOf(items []string) string {
	const most = 5
	if n := len(items) - most; n > 0 {
		return strings.Join(items[:most], "; ") + fmt.Sprintf("; and %d more", n)
	}
	return strings.Join(items, "; ")
}
