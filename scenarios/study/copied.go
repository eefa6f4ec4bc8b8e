package study

import (
	"context"
	"errors"
	"fmt"
	"math"

	"loamledger/sim/settings"
	"loamledger/sim/strategy"
	"loamledger/sim/timer"
	"loamledger/sim/tune"
)

// copied derives settings for a strategy with its own water balance, and says
// how they differ from it. fit is the timer that the settings must fit, nil for
// any; the scenario's timer sets the step of the percentages in any case.
func (l *Study) copied(ctx context.Context, st *strategy.Strategy, o *SheetOptions, fit *timer.Profile) (*settings.Sheet, []string, error) {
	job := l.Job
	job.Step = nil
	step := o.PercentStep
	if l.Scenario.Timer != nil {
		step = l.Scenario.Timer.PercentStep
	}
	c, err := tune.Copy(ctx, &job, st, tune.CopyOptions{PercentStep: step, AsOf: o.AsOf, Timer: fit, Progress: o.Progress,
		Units: l.Scenario.Units})
	if errors.Is(err, settings.ErrNothing) {
		return nil, nil, ErrNoWater
	}
	if err != nil {
		return nil, nil, l.tuneFault(err)
	}
	return c.Sheet, l.copyLead(c), l.noNeed(st, c.Sheet)
}

// noNeed corrects why zones of a copied sheet are without water: the strategy includes
// them and applied nothing.
func (l *Study) noNeed(st *strategy.Strategy, s *settings.Sheet) error {
	asks := make([]bool, len(l.Job.Zones))
	for _, p := range st.Parts {
		w, err := strategy.WarningsOf(p, l.ZoneNames())
		if err != nil {
			return err
		}
		for z, is := range w.Waters {
			asks[z] = asks[z] || is
		}
	}
	for _, one := range append([]*settings.Sheet{s}, s.Each...) {
		for i := range one.Dry {
			if d := &one.Dry[i]; d.Reason == settings.NotIncluded && asks[d.Zone] {
				d.Reason = settings.NoNeed
			}
		}
	}
	return nil
}

// copyLead says how the settings were derived, and in which zones they do worse
// than the strategy, or the strategy itself does badly.
func (l *Study) copyLead(c *tune.Copied) []string {
	lead := []string{"This strategy decides every morning with its own water balance, which a controller with fixed times cannot follow. " +
		"These settings follow its average over the record: the month with the most water gave each zone its minutes; " +
		"monthly means set the percentages."}
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
			runoff = append(runoff, fmt.Sprintf("%s (%.1f runoff events %s; strategy %.1f)", name, zone.Sheet.RunoffEvents,
				c.Basis.Words(), zone.Own.RunoffEvents))
		}
		if zone.Own.DryDays > stressedDays {
			stressed = append(stressed, fmt.Sprintf("%s (%d days)", name, zone.Own.DryDays))
		}
	}
	if most > 0 {
		lead = append(lead, fmt.Sprintf("Since fixed times cannot wait for the weather as a water balance does, "+
			"up to %.0f%% of these minutes were tried. The settings have %s of them.", 100*tune.CopyMost, between(least, most)))
	}
	years := "the " + checkedIn(&c.Ranked)
	if len(drier) == 0 {
		lead = append(lead, fmt.Sprintf("Replayed as rounded here, no zone has more stress days than under the strategy in %s.", years))
	} else {
		lead = append(lead, fmt.Sprintf("Replayed as rounded here, in %s, the settings cause MORE stress days than the strategy in %s.", years,
			someOf(drier)))
	}
	if len(runoff) > 0 {
		lead = append(lead, fmt.Sprintf("Water runs off more often than under the strategy in %s.", someOf(runoff)))
	}
	if len(stressed) > 0 {
		lead = append(lead, fmt.Sprintf("The strategy itself has more than %d stress days in the dry year in %s. "+
			"The settings copy that: fix the strategy first, with an earlier trigger or a larger uniformity allowance, or use tune.",
			stressedDays, someOf(stressed)))
	}
	return lead
}

// stressedDays is the number of stress days in the dry year above which a
// strategy is called short of water: an assumption by loamledger, as in tune.
const stressedDays = 10
