package evaluate

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"loamledger/plots"
	"loamledger/sim/portfolio"
	"loamledger/sim/program"
	"loamledger/weather/cal"
	"loamledger/weather/quantity"
)

// name is the name of the program, as the costs file has it.
func (e *Evaluation) name() string {
	if e.Plan.Name != "" {
		return e.Plan.Name
	}
	return e.Plan.File
}

// stations says which weather stations were used.
func (e *Evaluation) stations() string {
	var names []string
	for _, a := range e.Input.About {
		if a.Station != "" && !slices.Contains(names, a.Station) {
			names = append(names, a.Station)
		}
	}
	slices.Sort(names)
	switch n := len(names); {
	case n == 0:
		return "stations not stated"
	case n > 3:
		return fmt.Sprintf("%d stations", n)
	}
	return strings.Join(names, ", ")
}

// Charts returns the charts as data.
func (e *Evaluation) Charts() []plots.Chart {
	t := e.Input.Table
	v := &plots.AccountsView{
		Program:  e.name(),
		Station:  e.stations(),
		From:     cal.Of(t.Years[0], 1, 1),
		To:       cal.Of(t.Years[len(t.Years)-1], 12, 31),
		Units:    e.Plan.Units,
		Currency: e.Plan.Currency,
		Smallest: e.Plan.Smallest,
		Notes:    []string{e.AssumedWords()},
	}
	if e.Plan.Bills.Asked() {
		v.RankedBy = "simulated bills"
		note := e.BillWords()
		if e.metered != nil {
			v.RankedBy = "metered bills"
			note = fmt.Sprintf("%s of %s are %s and scored on %v.", quantity.Thousands(fmt.Sprint(len(e.metered.Order))),
				quantity.Count(len(t.Accounts), "account", "accounts"), e.rankedOn(), e.Plan.Bills.Late)
		}
		v.Notes = append(v.Notes, note)
	}
	ratios := make([]float64, len(t.Accounts))
	for a := range ratios {
		ratios[a] = t.Ratio(a)
	}
	for i := range e.Measures {
		j := &e.Measures[i]
		m := plots.AccountsMeasure{Name: j.name, SavedM3: t.Savings(j.at), Ratio: ratios, Saves: j.stats.Saves, Stays: j.stats.Stays,
			Rises: j.stats.Rises, Late: j.late}
		if j.costs != nil {
			m.Avoided = j.all.Mid.AvoidedPerM3
			groups := j.ranked
			if groups == nil {
				groups = []program.Group{j.all}
			}
			for k := range groups {
				g := &groups[k]
				if j.ranked != nil && !j.shown[k] {
					continue
				}
				who := float64(g.Means.Accounts) * g.Means.ParticipatingShare
				m.Costs = append(m.Costs, plots.CostPoint{Share: g.Share, Accounts: g.Means.Accounts, M3PerYear: g.Mid.FirstYearM3 * who,
					PerM3: g.Mid.Levelized()})
			}
		}
		v.Measures = append(v.Measures, m)
	}
	return plots.AccountsCharts(v)
}

// best returns the measure that the page is about: a verdict to renew before one to
// retarget, one that harms few plants before others, then the higher total resource ratio; the first one without costs.
func (e *Evaluation) best() *Judged {
	best := &e.Measures[0]
	rank := func(j *Judged) float64 {
		if j.costs == nil {
			return math.Inf(-1)
		}
		first := map[program.Verdict]float64{program.Renew: 2e9, program.Retarget: 1e9}[j.decision.Verdict]
		if j.harmful() {
			first -= 5e8
		}
		return first + j.all.Mid.Tests[program.TotalResource].Ratio()
	}
	for i := range e.Measures {
		if rank(&e.Measures[i]) > rank(best) {
			best = &e.Measures[i]
		}
	}
	return best
}

// verdictTable has the verdicts beside each other.
func (e *Evaluation) verdictTable() plots.Table {
	volume, _ := e.units()
	best := e.best()
	t := plots.Table{
		First: "Measure",
		Head: []string{
			"Verdict",
			"Mean saving of an account (" + volume + ")",
			"Accounts that use more",
			"Stress days/yr",
			"Levelized cost, 90% bounds",
			"Avoided cost",
			"Total resource ratio",
		},
		Words: []bool{true},
	}
	for i := range e.Measures {
		j := &e.Measures[i]
		row := plots.TableRow{Name: j.name, Named: j == best && j.costs != nil, Cells: []string{"no costs", e.volume(j.stats.MeanM3),
			percent(j.stats.Rises), signed(j.stats.StressDays, 1), "–", "–", "–"}}
		if j.costs != nil {
			row.Cells[0] = e.verdictCell(j)
			row.Cells[4] = e.perAF(j.all.Mid.Levelized())
			row.Spread = []string{4: e.bareAF(j.all.LevelizedAll.Low) + " to " + e.bareAF(j.all.LevelizedAll.High)}
			row.Cells[5], row.Cells[6] = e.perAF(j.all.Mid.AvoidedPerM3), ratioText(j.all.Mid.Tests[program.TotalResource].Ratio())
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

func (e *Evaluation) verdictCell(j *Judged) string {
	text := verdictWord(j.decision.Verdict)
	if j.decision.Verdict == program.Retarget {
		text += " to the first " + percent(j.decision.Smallest.Share)
	}
	if j.decision.Loose != j.decision.Verdict {
		text += ", close"
	}
	return text
}

// Facts are what a page shows and an evaluation does not know.
type Facts struct {
	Version string
	Date    cal.Date // 0 for none
	Files   []plots.InputFile
}

// Brief writes the page for the manager.
func (e *Evaluation) Brief(f *Facts) *plots.Brief {
	t, best := e.Input.Table, e.best()
	b := &plots.Brief{Kicker: "Evaluation of a program for many accounts, before any change", Title: e.name(), Label: plots.Estimated,
		Origin: fmt.Sprintf("%s over the weather of %d to %d. Weather: %s. Compared with: %s.", quantity.Count(len(t.Accounts), "account",
			"accounts"), t.Years[0], t.Years[len(t.Years)-1], e.stations(), t.Measures[0]),
		Answer: e.headline(best), Tables: []plots.Table{e.verdictTable()}, Version: f.Version, Files: f.Files, Defaults: e.Plan.Defaults,
		Run: fmt.Sprintf("Seed %d.", e.Plan.Seed), Cautions: []string{Caution, RuleWords}}
	if f.Date != 0 {
		b.Run = "Run of " + f.Date.String() + ". " + b.Run
	}
	s := &best.stats
	if text := e.DominanceWords(); text != "" {
		b.Answer = text + " " + b.Answer
	}
	b.Lead = []string{
		e.grounds(best),
		fmt.Sprintf("Under %s, %s of the accounts save water, %s stay within %s and %s use more; half of them save more than %s "+
			"%s. Stress days change by %s a year on average.", quoted(best.name), percent(s.Saves), percent(s.Stays), percent(e.Plan.Threshold),
			percent(s.Rises),
			e.volume(s.MedianM3), firstOf(e.units()), signed(s.StressDays, 1)),
		e.AssumedWords(),
	}
	if text := e.BillWords(); text != "" {
		b.Lead = append(b.Lead, text)
	}
	for i := range e.Measures { // the answer has what is said of the best
		if j := &e.Measures[i]; j != best && j.stats.Largest > mostOfOne {
			b.Lead = append(b.Lead, fmt.Sprintf("Under %s one account alone has %s of all changes in use: check its area and use before you read "+
				"that row of the table.", quoted(j.name), percent(j.stats.Largest)))
		}
	}
	b.Doubts, b.Steps, b.Facts = e.doubts(best), e.steps(best), e.facts(best)
	b.MoreBelow = e.parts()
	return b
}

func firstOf(a, _ string) string { return a }

// doubts lists what moves the verdict most.
func (e *Evaluation) doubts(j *Judged) (out []string) {
	if e.Assumed.drawn+e.Assumed.unknown > 0 {
		out = append(
			out,
			fmt.Sprintf("What accounts really apply: for %s of them the run times were not observed. Savings are a property of the "+
				"baseline.", percent(float64(e.Assumed.drawn+e.Assumed.unknown)/float64(e.Assumed.accounts))),
		)
	}
	swings := slices.Clone(j.swings)
	width := func(s *program.Swing) float64 {
		return math.Abs(s.High.Tests[program.TotalResource].Ratio() - s.Low.Tests[program.TotalResource].Ratio())
	}
	slices.SortStableFunc(swings, func(a, b program.Swing) int {
		switch x, y := width(&a), width(&b); {
		case x > y:
			return -1
		case x < y:
			return 1
		}
		return 0
	})
	names := program.KnobNames()
	for i := range swings {
		s := &swings[i]
		if len(out) < 3 {
			v := j.costs.Values[s.Knob]
			out = append(out, fmt.Sprintf("%s, %s to %s: it moves the total resource ratio from %s to %s.", quantity.Capital(plain(names[s.Knob])),
				knobText(s.Knob, v.Low), knobText(s.Knob, v.High), ratioText(s.Low.Tests[program.TotalResource].Ratio()),
				ratioText(s.High.Tests[program.TotalResource].Ratio())))
		}
	}
	return append(
		out,
		"The model itself: one error of plant coefficients or reference ET moves all accounts together and is in no bound here.",
	)
}

// plain writes a key in words.
func plain(key string) string { return strings.ReplaceAll(key, "_", " ") }

func (e *Evaluation) steps(j *Judged) (out []string) {
	if j.costs == nil {
		return []string{"Add the costs of the measures to the costs file."}
	}
	if j.harmful() {
		out = append(out, "First replay settings with as few stress days as today: the verdict may rest on water that plants need.")
	}
	switch j.decision.Verdict {
	case program.Renew:
		out = append(out, fmt.Sprintf("Renew %s for all accounts.", quoted(j.name)))
	case program.Retarget:
		out = append(out, fmt.Sprintf("Offer %s only to the first %s of the accounts %s.", quoted(j.name), percent(j.decision.Smallest.Share),
			e.rankedOn()))
	case program.Stop:
		out = append(out, "Stop, or find a cheaper measure: no group of the accounts "+e.rankedOn()+" pays.")
	default:
		out = append(out, "Add targets to the costs file: a smaller group may pay.")
	}
	if j.stats.Rises > 0 {
		out = append(out, fmt.Sprintf("Tell the %s who would use more: their plants get less than they need today, and their bills would rise.",
			percent(j.stats.Rises)))
	}
	return append(out, "Measure it: bills before and after, against a matched group, for two years (see loamledger samples for how many).")
}

func (e *Evaluation) facts(j *Judged) []plots.Item {
	items := []plots.Item{{Term: "Compared with", Text: e.Input.Table.Measures[0]}, {Term: "Prices of water", Text: e.priceWords()}}
	if text := e.climates(); text != "" {
		items = append(items, plots.Item{Term: "Climate", Text: text})
	}
	if j.costs != nil {
		who := float64(j.all.Means.Accounts) * j.all.Means.ParticipatingShare
		items = append(
			items,
			plots.Item{Term: "All together", Text: "net saving of the first year " + e.bulk(j.all.Mid.FirstYearM3*who) + "; the program pays " +
				plots.Rounded(j.all.Mid.ProgramCost()*who) + " " + e.Plan.Currency + " (present value)"},
			plots.Item{Term: "Bounds", Text: fmt.Sprintf("%d draws of accounts and costs, 90%% of them between the bounds", program.Replicates)},
			plots.Item{Term: "Passes", Text: "in " + percent(j.all.Chance) + " of the draws: cost below the avoided cost, ratio 1 or more"},
		)
	}
	for _, p := range j.peaks {
		if p.Weather == portfolio.DryYear {
			items = append(items, plots.Item{Term: "Peak month", Text: fmt.Sprintf("%s of a dry year: %s%%", monthNames[p.Month],
				signed(100*(p.MeasureM3/p.FoundM3-1), 0))})
		}
	}
	if n := len(e.Input.Table.Unpaired); n > 0 {
		items = append(
			items,
			plots.Item{Term: "Omitted", Text: quantity.Count(n, "account", "accounts") + " without the same years under every measure"},
		)
	}
	return items
}

// bulk writes the water of all accounts in acre-feet or, in SI, in m³.
func (e *Evaluation) bulk(m3 float64) string {
	if e.Plan.Units == plots.SI {
		return plots.Rounded(m3) + " m³"
	}
	return plots.Rounded(m3/volumeOf("AF")) + " AF"
}

// parts are all tables, after the first page.
func (e *Evaluation) parts() []plots.TextPart {
	var out []plots.TextPart
	add := func(lead string, tables ...plots.Table) {
		tables = slices.DeleteFunc(tables, func(t plots.Table) bool { return len(t.Rows) == 0 })
		if len(tables) > 0 {
			out = append(out, plots.TextPart{Lead: lead, Tables: tables})
		}
	}
	for i := range e.Measures { // a paragraph each
		out = append(out, plots.TextPart{Lead: e.VerdictWords(&e.Measures[i])})
	}
	add("", e.savingsTable(), e.costTable(), e.testTable(), e.billTable(), e.interactionTable(), e.peakTable())
	for i := range e.Measures {
		j := &e.Measures[i]
		tables := []plots.Table{e.groupTable(j)}
		if j.offers != nil {
			tables = append(tables, e.offerTable(j))
		}
		if j.costs != nil {
			tables = append(tables, e.levelTable(j), e.swingTable(j))
		}
		add("", tables...)
	}
	return out
}

// Tables returns what a terminal shows, in order.
func (e *Evaluation) Tables() (out []plots.Table) {
	for _, p := range e.parts() {
		out = append(out, p.Tables...)
	}
	return out
}
