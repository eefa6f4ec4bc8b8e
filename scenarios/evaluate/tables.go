package evaluate

import (
	"fmt"
	"math"
	"slices"

	"loamledger/plots"
	"loamledger/sim/portfolio"
	"loamledger/sim/program"
	"loamledger/weather/quantity"
)

func (e *Evaluation) system() quantity.System {
	if e.Plan.Units == plots.SI {
		return quantity.SI
	}
	return quantity.US
}

func (e *Evaluation) volume(m3 float64) string {
	return plots.Rounded(quantity.Convert(m3, quantity.Volume, e.system()))
}

// depth writes a saving over the area of an account: gal/ft², or mm.
func (e *Evaluation) depth(mm float64) string {
	if e.Plan.Units == plots.SI {
		return plots.Fixed(mm, 0)
	}
	return plots.Fixed(mm/1000/volumeOf("gal")*0.09290304, 1) // m³/m² in gal/ft²
}

func (e *Evaluation) units() (volume, depth string) {
	if e.Plan.Units == plots.SI {
		return "m³/yr", "mm/yr"
	}
	return "gal/yr", "gal/ft²/yr"
}

// savingsTable has the distribution of savings, a row for each measure.
func (e *Evaluation) savingsTable() plots.Table {
	volume, depth := e.units()
	t := plots.Table{
		Caption: fmt.Sprintf("Saving of an account, %d accounts. An account saves or rises if its use changes by more than %s; below 0 "+
			"it uses more.", len(e.Input.Table.Accounts), percent(e.Plan.Threshold)),
		First: "Measure",
		Head: []string{"mean (" + volume + ")", "P10", "median", "P90", "mean (" + depth + ")", "saves", "stays", "rises", "change of use",
			"stress days/yr", fmt.Sprintf("over %g more stress days", portfolio.MoreStress)},
	}
	for i := range e.Measures {
		j := &e.Measures[i]
		t.Rows = append(t.Rows, plots.TableRow{Name: j.name, Cells: e.statCells(&j.stats)})
	}
	return t
}

func (e *Evaluation) statCells(s *portfolio.Stats) []string {
	return []string{e.volume(s.MeanM3), e.volume(s.P10M3), e.volume(s.MedianM3), e.volume(s.P90M3), e.depth(s.MeanMM), percent(s.Saves),
		percent(s.Stays), percent(s.Rises), signed(100*s.Change, 0) + "%", signed(s.StressDays, 1), percent(s.Stressed)}
}

// signed writes a change with its sign.
func signed(v float64, decimals int) string {
	text := plots.Fixed(v, decimals)
	if v > 0 && text != plots.Fixed(0, decimals) {
		return "+" + text
	}
	return text
}

// groupTable has the savings of one measure by group.
func (e *Evaluation) groupTable(j *Judged) plots.Table {
	t := e.savingsTable()
	t.Caption = fmt.Sprintf(
		"%s by group. Nothing is said of fewer than %d accounts, nor of groups from which such a group could be worked out.",
		quantity.Capital(j.name),
		e.Plan.Smallest,
	)
	if slices.ContainsFunc(j.groups, func(g groupStats) bool { return g.kind == portfolio.ByClimate }) {
		t.Caption += " " + climateWords
	}
	t.First, t.Rows = "Group", nil
	t.Head = append([]string{"accounts", "ratio as found"}, t.Head...)
	for i := range j.groups {
		g := &j.groups[i]
		row := plots.TableRow{Name: e.groupName(g)}
		if g.stats == nil {
			row.Cells = make([]string, len(t.Head))
			for k := range row.Cells {
				row.Cells[k] = "·"
			}
			row.Cells[0] = "withheld"
		} else {
			row.Cells = append([]string{fmt.Sprint(g.stats.N), plots.Fixed(g.stats.Ratio, 2)}, e.statCells(g.stats)...)
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// groupName names a group.
func (e *Evaluation) groupName(g *groupStats) string {
	named := func(what string) string {
		if g.cell.Name == "" {
			return what + " not stated"
		}
		return what + " " + g.cell.Name
	}
	switch g.kind {
	case portfolio.ByClass:
		return "application ratio: " + g.cell.RatioName()
	case portfolio.BySize:
		area := func(m2 float64) string {
			return plots.Rounded(quantity.Convert(m2, quantity.Area, e.system())) + " " + quantity.Label(quantity.Area, e.system())
		}
		switch {
		case g.cell.Low == 0:
			return "size: up to " + area(g.cell.High)
		case math.IsInf(g.cell.High, 1):
			return "size: above " + area(g.cell.Low)
		}
		return "size: " + area(g.cell.Low) + " to " + area(g.cell.High)
	case portfolio.ByClimate:
		low, high, known := portfolio.AridityBounds(g.cell.Name)
		switch {
		case !known:
			return "climate not known"
		case high == 0:
			return fmt.Sprintf("climate: %s, rain over %s of ETo", g.cell.Name, percent(low))
		}
		return fmt.Sprintf("climate: %s, rain %s to %s of ETo", g.cell.Name, percent(low), percent(high))
	case portfolio.ByStation:
		return named("station")
	case portfolio.ByDistrict:
		return named("district")
	}
	return named("class")
}

// costTable has the levelized cost of every measure with costs.
func (e *Evaluation) costTable() plots.Table {
	t := plots.Table{
		Caption: "Levelized cost of the water that the supply need not deliver: present value of what the program pays divided by " +
			"that of the net water. Bounds hold 90% of the draws of accounts and of the ranges of the costs file.",
		First: "Measure",
		Head: []string{e.Plan.Currency + "/AF", "low bound", "high bound", e.Plan.Currency + "/HCF", e.Plan.Currency + "/kgal", "whole cost, " +
			e.Plan.Currency + "/AF", "avoided, " + e.Plan.Currency + "/AF"},
	}
	for i := range e.Measures {
		j := &e.Measures[i]
		if j.costs == nil {
			continue
		}
		r := &j.all.Mid
		t.Rows = append(t.Rows, plots.TableRow{Name: j.name, Cells: []string{per("AF", r.Levelized(), 0), per("AF", j.all.LevelizedAll.Low, 0),
			per("AF", j.all.LevelizedAll.High, 0), per("HCF", r.Levelized(), 2), per("kgal", r.Levelized(), 2), per("AF", r.LevelizedTotal(), 0),
			per("AF", r.AvoidedPerM3, 0)}})
	}
	return t
}

// per writes a price per m³ as one per another unit.
func per(unit string, perM3 float64, decimals int) string {
	if math.IsInf(perM3, 1) {
		return "no saving"
	}
	return plots.Fixed(perM3*volumeOf(unit), decimals)
}

// testTitles names the tests.
func testTitles() [program.Tests]string {
	return [program.Tests]string{"participant", "utility", "total resource", "rate impact", "societal"}
}

// testTable has benefit ÷ cost of every test: in the middle, and with every number at its worse
// and better end for the total resource test.
func (e *Evaluation) testTable() plots.Table {
	t := plots.Table{
		Caption: "Benefits divided by costs, present values. In parentheses: with every number of the costs file at its worse and at " +
			"its better end for the total resource test. A rebate is a transfer: the total resource test does not have it. " + e.priceWords(),
		First: "Measure",
	}
	titles := testTitles()
	t.Head = append(t.Head, titles[:]...)
	for i := range e.Measures {
		j := &e.Measures[i]
		if j.costs == nil {
			continue
		}
		row := plots.TableRow{Name: j.name}
		for k := range titles {
			cell := "not known"
			if b := j.all.Mid.Tests[k]; b.Known {
				cell = fmt.Sprintf("%s (%s to %s)", ratioText(b.Ratio()), ratioText(j.worst.Tests[k].Ratio()), ratioText(j.best.Tests[k].Ratio()))
			}
			row.Cells = append(row.Cells, cell)
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// swingTable has what each number in doubt does to one measure.
func (e *Evaluation) swingTable(j *Judged) plots.Table {
	t := plots.Table{
		Caption: quantity.Capital(j.name) + ": one number at its low and at its high end, all others in the middle.",
		First:   "Number",
		Head:    []string{"low", "high", "total resource ratio at low", "at high", "levelized cost at low", "at high"},
	}
	names := program.KnobNames()
	for i := range j.swings {
		s := &j.swings[i]
		v := j.costs.Values[s.Knob]
		t.Rows = append(t.Rows, plots.TableRow{Name: names[s.Knob], Cells: []string{knobText(s.Knob, v.Low), knobText(s.Knob, v.High),
			ratioText(s.Low.Tests[program.TotalResource].Ratio()), ratioText(s.High.Tests[program.TotalResource].Ratio()),
			e.perAF(s.Low.Levelized()), e.perAF(s.High.Levelized())}})
	}
	return t
}

// knobText writes a knob as the costs file does, prices of water per m³.
func knobText(k program.Knob, v float64) string {
	switch k {
	case program.Life:
		return plots.Fixed(v, 0) + " years"
	case program.Equipment, program.Upkeep, program.Admin, program.FixedCost:
		return plots.Fixed(v, 2)
	case program.Retail, program.Externality:
		return plots.Fixed(v, 3) + "/m³"
	}
	return percent(v)
}

// offerTable has the curve of targets of one measure.
func (e *Evaluation) offerTable(j *Judged) plots.Table {
	volume, _ := e.units()
	t := plots.Table{
		Caption: quantity.Capital(j.name) + " offered to the first accounts " + e.rankedOn() + ". " + e.BillWords(),
		First:   "Offered to",
		Head: []string{"accounts", "saving (" + volume + ")", "of the saving of all ranked", "use more", fmt.Sprintf("over %g more stress days",
			portfolio.MoreStress)},
	}
	seen := e.metered == nil
	if seen {
		t.Caption += " The years of the bills seem to show a saving that no later year repeats: do not use that column."
		t.Head = append(t.Head, "seen in the years of the bills ("+volume+")")
	}
	if slices.Contains(j.shown, false) {
		t.Caption += fmt.Sprintf(" Nothing is said of fewer than %d accounts, nor of groups whose difference they would be.", e.Plan.Smallest)
	}
	if j.ranked != nil {
		t.Head = append(t.Head, "levelized cost", "90% bounds", "total resource ratio", "rule holds")
	}
	for i := range j.offers {
		o := &j.offers[i]
		row := plots.TableRow{Name: percent(o.Share), Cells: []string{fmt.Sprint(o.N), e.volume(o.LateM3), percent(o.Of), percent(o.Rise),
			percent(o.Stressed)}}
		if seen {
			row.Cells = append(row.Cells, e.volume(o.SeenM3))
		}
		if j.ranked != nil {
			g := &j.ranked[i]
			row.Cells = append(row.Cells, e.perAF(g.Mid.Levelized()), e.perAF(g.LevelizedAll.Low)+" to "+e.perAF(g.LevelizedAll.High),
				ratioText(g.Mid.Tests[program.TotalResource].Ratio()), map[bool]string{true: "yes", false: "no"}[g.Holds()])
		}
		if !j.shown[i] {
			for k := range row.Cells {
				row.Cells[k] = "·"
			}
			row.Cells[0] = "withheld"
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// levelTable has what rebates bring.
func (e *Evaluation) levelTable(j *Judged) plots.Table {
	volume, _ := e.units()
	t := plots.Table{
		Caption: quantity.Capital(j.name) + ": rebates and the shares of accounts that take part, as stated. Participants are as all " +
			"accounts are: if those who already water little take part first, savings are lower.",
		First: "Rebate (" + e.Plan.Currency + ")",
		Head: []string{
			"take part",
			"participants",
			"program pays (" + e.Plan.Currency + ")",
			"first-year saving (" + volume + ")",
			"levelized cost",
			"utility test",
			"participant test",
		},
	}
	for i := range j.levels {
		l := &j.levels[i]
		row := plots.TableRow{
			Name: plots.Fixed(l.Rebate, 0),
			Cells: []string{percent(l.Share), plots.Fixed(l.Participants, 0), plots.Rounded(l.Budget),
				e.volume(l.FirstYearM3)},
		}
		participant := "not known"
		if b := l.Result.Tests[program.Participant]; b.Known {
			participant = ratioText(b.Ratio())
		}
		if l.Participants == 0 {
			row.Cells = append(row.Cells, "–", "–", "–")
		} else {
			row.Cells = append(row.Cells, e.perAF(l.Result.Levelized()), ratioText(l.Result.Tests[program.Utility].Ratio()), participant)
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

var monthNames = [...]string{
	"",
	"January",
	"February",
	"March",
	"April",
	"May",
	"June",
	"July",
	"August",
	"September",
	"October",
	"November",
	"December",
}

// peakTable has what measures do to the month and the day of highest demand.
func (e *Evaluation) peakTable() plots.Table {
	volume, _ := e.units()
	volume = volume[:len(volume)-len("/yr")]
	t := plots.Table{
		Caption: "Demand of all accounts in their highest month. Median and dry years differ between accounts. The peak day is the sum of " +
			"each account’s own highest day, which need not be the same day: an upper bound.",
		First: "Measure",
		Head:  []string{"weather", "month", "as found (" + volume + ")", "with the measure", "change", "own highest month"},
	}
	for i := range e.Measures {
		j := &e.Measures[i]
		for _, p := range j.peaks {
			month := monthNames[p.Month]
			if p.Year != 0 {
				month += fmt.Sprintf(" %d", p.Year)
			}
			weather := map[string]string{portfolio.MedianYear: "median year", portfolio.DryYear: "dry year",
				portfolio.AllYears: "all years"}[p.Weather]
			t.Rows = append(t.Rows, plots.TableRow{Name: j.name, Cells: []string{weather, month, e.volume(p.FoundM3), e.volume(p.MeasureM3),
				signed(100*(p.MeasureM3/p.FoundM3-1), 0) + "%", monthNames[p.OwnMonth] + ", " + e.volume(p.OwnM3)}})
		}
		t.Rows = append(t.Rows, plots.TableRow{Name: j.name, Cells: []string{"mean of years", "peak day", e.volume(j.peakDayM3[0]),
			e.volume(j.peakDayM3[1]), signed(100*(j.peakDayM3[1]/j.peakDayM3[0]-1), 0) + "%", "–"}})
	}
	t.Words = []bool{true, true, false, false, false, true}
	return t
}

// interactionTable compares combined measures with their parts; without rows if there are none.
func (e *Evaluation) interactionTable() plots.Table {
	volume, _ := e.units()
	t := plots.Table{
		Caption: "Measures together and the sum of what each saves alone. What is counted twice is no saving.",
		First:   "Combined",
		Head:    []string{"sum of the parts (" + volume + ")", "together", "counted twice"},
	}
	for i := range e.Measures {
		if x := e.Measures[i].interaction; x != nil {
			t.Rows = append(
				t.Rows,
				plots.TableRow{Name: e.Measures[i].name, Cells: []string{e.volume(x.Sum), e.volume(x.Both), e.volume(x.Overlap)}},
			)
		}
	}
	return t
}
