package study

import (
	"fmt"
	"slices"
	"strings"

	"loamledger/sim/strategy"
	"loamledger/sim/tune"
	"loamledger/weather/quantity"
)

// TunedHead describes the goal, where it may water, and how it searched.
func (l *Study) TunedHead(t *Tuning) (lines []string) {
	if t.Stopped {
		lines = append(lines, "INTERRUPTED: the best found so far. Kinds that were not reached are missing.", "")
	}
	ranked := &t.Kinds[0].Outcome.Ranked
	years := fmt.Sprintf("in the median year, the %s (%s) and all years between", ranked.DryName(), ranked.Name(ranked.Dry))
	if len(ranked.Years) == 1 {
		years = "in the only whole year tuned on, " + ranked.Name(ranked.Dry)
	}
	lines = append(lines, fmt.Sprintf("Least water found with, in every zone, %s:", years),
		fmt.Sprintf("  at most %s on which the plants are active and the whole zone got less than their tolerance mark + %g of its",
			quantity.Count(t.goal.StressDays, "day", "days"), t.goal.MarkReserve),
		fmt.Sprintf("  seven days' need (R7; the raised mark is at most %g), at most %s of its driest", tune.MostMark,
			quantity.Count(t.goal.BrowningDays, "browning day", "browning days")),
		fmt.Sprintf("  quarter, and %g runoff events a year. The limits of the site apply.", t.goal.RunoffEvents),
		"With a season, stress counts in the months that the system is on throughout, and half a month before.")
	if t.marginPct > 0 {
		lines = append(lines, fmt.Sprintf("The search assumes that plants need %g%% more water than they do.", t.marginPct))
	}
	if t.heldOut {
		lines = append(lines, "Tuned on the odd years only; the even years are held out for the score.")
	} else {
		lines = append(lines, "Tuned on all whole years; none is held out for the score.")
	}
	return append(append(lines, l.seasonLines(t)...), "")
}

// seasonLines says when settings found may water: each season once and, if they differ,
// of which kinds.
func (l *Study) seasonLines(t *Tuning) []string {
	var texts []string
	kinds := map[string][]string{}
	for i := range t.Kinds {
		text := l.seasonText(&t.Kinds[i].season)
		if kinds[text] == nil {
			texts = append(texts, text)
		}
		kinds[text] = append(kinds[text], t.Kinds[i].Kind.Words())
	}
	if len(texts) > 1 {
		for i, text := range texts {
			texts[i] = text + " So for: " + strings.Join(kinds[text], ", ") + "."
		}
	}
	return texts
}

// seasonText says when a kind may water.
func (l *Study) seasonText(s *tuneSeason) string {
	dates := func(s *strategy.Season) string {
		lines, err := strategy.Lines(*s, nil, l.Scenario.Units)
		if err != nil || len(lines) == 0 {
			return ""
		}
		return strings.TrimPrefix(lines[0], "Season: ")
	}
	text := ""
	switch {
	case s.used == nil:
		text = "Season: the whole year. No strategy of the scenario states a season."
	case s.stated != nil && s.cold:
		text = fmt.Sprintf("Season of %q (%s), cut to %s: else water would fall on freezing days or on dormant plants.", s.of, dates(s.stated),
			dates(s.used))
	case s.cold:
		text = fmt.Sprintf("Season: %s. No strategy states one; outside these dates, water would fall on freezing days or on dormant plants.",
			dates(s.used))
	default:
		text = fmt.Sprintf("Season of %q: %s.", s.of, dates(s.used))
	}
	if s.frost != nil {
		text += fmt.Sprintf(" Frost hold as in %q.", s.frostOf)
	}
	return text
}

// TunedGrid compares the settings found with the current ones, over all whole
// years.
func (l *Study) TunedGrid(t *Tuning) *Grid {
	volume := quantity.Label(quantity.Volume, l.Scenario.Units)
	g := &Grid{Columns: toTheRight(0, 8)}
	g.Head = []string{"", volume + "/yr", "vs.\nnow", "times\nthe bound", "stress days,\nworst year", "browning days,\nworst year",
		"runoff\nevents/yr", "within\nthe goal"}
	now := t.now
	row := func(name string, o *tune.Outcome, change string, met bool) {
		w := worst(o)
		g.add(name, l.volume(o.M3PerYear), change, fmt.Sprintf("%.2f", o.Ratio()), w.stress, w.brown, fmt.Sprintf("%.1f", w.runoff), yesNo(met))
	}
	if now != nil {
		row("current", now, "-", now.Met)
		g.Rule = 1
	}
	for i := range t.Kinds {
		k := &t.Kinds[i]
		change := "-"
		if now != nil && now.M3PerYear > 0 {
			change = moreOrLess(k.All.M3PerYear/now.M3PerYear - 1)
		}
		if k.noSaving {
			change = "implausible"
		}
		row(k.Kind.Words(), k.All, change, k.All.Met && k.Outcome.Met)
	}
	return g
}

// TunedNotes explains the settings found, and says why they are no better than
// the current ones if so.
func (l *Study) TunedNotes(t *Tuning) (lines []string) {
	now := t.now
	if now != nil {
		lines = append(lines, fmt.Sprintf("Current is the baseline of the scenario, %q.", l.Job.Strategies[l.Scenario.Baseline].Name))
	}
	basis := l.basis()
	lines = append(lines, basis.Sentence(), "Days are those at the marks of the plants, without the reserve, in the worst zone.")
	lines = append(lines, fmt.Sprintf("The bound is the water needed with perfect foresight, full supply, no losses and a DU of "+
		"100%%: %s %s a year.", l.volume(t.Kinds[0].All.LeastM3PerYear), quantity.Label(quantity.Volume, l.Scenario.Units)),
		fmt.Sprintf("Uneven coverage and losses alone account for about %.2f times the bound, by the run-time rule. A setting that uses more "+
			"cannot follow the weather or the soil as well.", t.Kinds[0].All.Uneven()))
	for i := range t.Kinds {
		k := &t.Kinds[i]
		name := k.Kind.Words()
		if k.noSaving {
			lines = append(lines, fmt.Sprintf("The saving of the %s is implausible and not stated: check the run times and rates of the baseline.",
				name))
		}
		verb := "comes closest to the goal"
		if !k.Proposed() {
			verb = "is NOT PROPOSED"
		}
		if len(k.against) > 0 {
			lines = append(lines, fmt.Sprintf("The %s %s: %s.", name, verb, texts(k.against)))
		}
		if k.Stopped {
			lines = append(lines, fmt.Sprintf("The search for a %s was interrupted.", name))
		}
		lines = append(lines, l.offSeason(k)...)
	}
	if now != nil && !slices.ContainsFunc(t.Kinds, func(k Tuned) bool { return k.All.M3PerYear <= now.M3PerYear }) {
		lines = append(lines, "", l.whyMore(now, t.goal))
	}
	for _, k := range t.Kinds {
		lines = append(lines, l.notFound(k.Result)...)
	}
	return append(lines, "", "How it searched: "+tune.Method, "Not proven to be the least of all settings.")
}

// offSeason names the zones with stress in months outside the season.
func (l *Study) offSeason(k *Tuned) []string {
	var zones []string
	for z := range k.All.Zones {
		if o := &k.All.Zones[z]; o.OffSeasonDays+o.OffSeasonBrown > 0 {
			zones = append(zones, fmt.Sprintf("%s (%s, %d browning)", l.Job.Zones[z].Name,
				quantity.Count(o.OffSeasonDays, "stress day", "stress days"), o.OffSeasonBrown))
		}
	}
	if len(zones) == 0 {
		return nil
	}
	return []string{fmt.Sprintf("In the other months of the worst year, the %s leaves stress that the goal does not count: %s.",
		k.Kind.Words(), someOf(zones))}
}

// ScoreGrids return the score of each setting: in the years it was not tuned on, and
// at the ends of the ranges of coefficient, available water and marks.
func (l *Study) ScoreGrids(t *Tuning) (titles []string, grids []*Grid) {
	volume := quantity.Label(quantity.Volume, l.Scenario.Units)
	for i := range t.Kinds {
		k := &t.Kinds[i]
		if len(k.scores) == 0 {
			continue
		}
		g := &Grid{Columns: toTheRight(0, 6)}
		g.Head = []string{"", volume + "/yr", "stress days,\nworst year", "browning days,\nworst year", "runoff\nevents/yr",
			"within the goal,\nno reserve"}
		for _, sc := range k.scores {
			w := worst(sc.outcome)
			g.add(sc.name, l.volume(sc.outcome.M3PerYear), w.stress, w.brown, fmt.Sprintf("%.1f", w.runoff), yesNo(sc.outcome.Met))
		}
		titles, grids = append(titles, "Score, "+k.Kind.Words()), append(grids, g)
	}
	return titles, grids
}

// whyMore says why every setting found uses more water than the current ones.
func (l *Study) whyMore(now *tune.Outcome, goal tune.Goal) string {
	var over []string
	uneven := 0
	for z, zone := range now.Zones {
		if zone.Binds != "" {
			over = append(over, fmt.Sprintf("%s (%s, %d browning, %.1f runoff events)",
				l.Job.Zones[z].Name, quantity.Count(zone.StressDays, "stress day", "stress days"), zone.BrowningDays, zone.RunoffEvents))
		}
		if l.Job.Zones[z].DULQ < l.Job.Zones[uneven].DULQ {
			uneven = z
		}
	}
	text := "Every kind uses MORE water than the current settings: "
	if len(over) == 0 {
		return text + "these are within the goal, without the reserve of the search. Keep them, or search with --mark-reserve 0."
	}
	text += fmt.Sprintf("these exceed the goal (%s, %s, %g runoff events) in %s.",
		quantity.Count(goal.StressDays, "stress day", "stress days"), quantity.Count(goal.BrowningDays, "browning day", "browning days"),
		goal.RunoffEvents, someOf(over))
	if zone := &l.Job.Zones[uneven]; zone.Strips > 1 && zone.DULQ < 0.999 {
		text += fmt.Sprintf(" Stress is counted on the whole zone, with its driest quarter: the lower its DU, the more water it needs "+
			"(%s has a DU of %.0f%%).", zone.Name, 100*zone.DULQ)
	}
	return text + " If the plants look fine now, allow more days with --stress-days."
}

// notFound names the zones for which no setting of a kind is within the limits,
// one line for each binding limit.
func (l *Study) notFound(r *tune.Result) (lines []string) {
	var binds []string
	for _, zone := range r.Outcome.Zones {
		if zone.Binds != "" && !slices.Contains(binds, zone.Binds) {
			binds = append(binds, zone.Binds)
		}
	}
	for _, b := range binds {
		var zones []string
		for z, zone := range r.Outcome.Zones {
			if zone.Binds == b {
				zones = append(zones, fmt.Sprintf("%s (best: %s below the raised mark, %d browning, %.1f runoff events)",
					l.Job.Zones[z].Name, quantity.Count(zone.ReserveDays, "day", "days"), zone.BrowningDays, zone.RunoffEvents))
			}
		}
		lines = append(lines, fmt.Sprintf("No setting found (%s) is within the goal for %s; the binding limit is %s.",
			r.Kind.Words(), strings.ReplaceAll(someOf(zones), ";", ","), b))
	}
	return lines
}
