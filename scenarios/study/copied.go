package study

import (
	"context"
	"errors"
	"fmt"
	"math"

	"loamledger/sim/settings"
	"loamledger/sim/strategy"
	"loamledger/sim/tune"
)

// copied draws the sheet of a strategy with a balance of its own, and says what
// it is and where it falls short.
func (l *Study) copied(ctx context.Context, st *strategy.Strategy, o *SheetOptions) (*settings.Sheet, []string, error) {
	job := l.Job
	job.Step = nil
	c, err := tune.Copy(ctx, &job, st, tune.CopyOptions{PercentStep: o.PercentStep, AsOf: o.AsOf, Progress: o.Progress})
	if errors.Is(err, settings.ErrNothing) {
		return nil, nil, ErrNoWater
	}
	if err != nil {
		return nil, nil, l.tuneFault(err)
	}
	return c.Sheet, l.copyLead(c), nil
}

// copyLead says what a drawn sheet is, and in which zones it does not do as well
// as the strategy, or the strategy itself not well.
func (l *Study) copyLead(c *tune.Copied) []string {
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
