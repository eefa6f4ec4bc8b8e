package evaluate

import (
	"math"
	"strconv"

	"loamledger/sim/portfolio"
	"loamledger/sim/program"
)

// A Sheet is a table for a CSV file: SI units, full precision, an empty cell for an unknown
// or withheld number.
type Sheet struct {
	Name string // of the file, without its ending
	Rows [][]string
}

func num(v float64) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return ""
	}
	return strconv.FormatFloat(v, 'g', -1, 64)
}

func nums(values ...float64) []string {
	out := make([]string, len(values))
	for i, v := range values {
		out[i] = num(v)
	}
	return out
}

var statColumns = []string{
	"accounts",
	"reference_m3",
	"mean_saving_m3",
	"p10_saving_m3",
	"median_saving_m3",
	"p90_saving_m3",
	"mean_saving_mm",
	"p10_saving_mm",
	"median_saving_mm",
	"p90_saving_mm",
	"sum_saving_m3",
	"change_of_use",
	"saves",
	"stays",
	"rises",
	"threshold",
	"application_ratio",
	"stress_days_change",
	"browning_days_change",
	"share_over_5_more_stress_days",
}

func statRow(s *portfolio.Stats) []string {
	return nums(
		float64(s.N),
		s.ReferenceM3,
		s.MeanM3,
		s.P10M3,
		s.MedianM3,
		s.P90M3,
		s.MeanMM,
		s.P10MM,
		s.MedianMM,
		s.P90MM,
		s.SumM3,
		s.Change,
		s.Saves,
		s.Stays,
		s.Rises,
		s.Threshold,
		s.Ratio,
		s.StressDays,
		s.BrownDays,
		s.Stressed,
	)
}

// groupKeys names the groupings, for files.
func groupKeys() []string {
	return []string{"application_ratio", "climate", "station", "size", "class", "district"}
}

// Sheets returns every table as rows for files. All are means of an account and a year
// unless the name of the column says otherwise; money is in the currency of the costs file.
func (e *Evaluation) Sheets() []Sheet {
	savings := Sheet{"savings", [][]string{append([]string{"measure", "group", "cell", "withheld"}, statColumns...)}}
	tests := Sheet{"tests", [][]string{{"measure", "state", "test", "benefit", "cost", "ratio"}}}
	costs := Sheet{
		"costs",
		[][]string{{"measure", "share", "accounts", "scored_on", "first_year_m3_per_participant", "levelized_per_m3", "levelized_low_per_m3",
			"levelized_high_per_m3", "levelized_low_accounts_only_per_m3", "levelized_high_accounts_only_per_m3",
			"whole_cost_per_m3", "avoided_per_m3",
			"total_resource_ratio", "total_resource_low", "total_resource_high", "mean_saving_low_m3", "mean_saving_high_m3",
			"chance", "rule_holds", "ranked_on"}},
	}
	targets := Sheet{
		"targets",
		[][]string{{"measure", "share", "accounts", "withheld", "late_saving_m3", "apparent_saving_m3", "share_of_saving",
			"share_rising", "mean_rise_m3", "share_over_5_more_stress_days", "ranked_on"}},
	}
	rebates := Sheet{
		"rebates",
		[][]string{{"measure", "rebate", "uptake", "participants", "program_pays", "first_year_m3", "levelized_per_m3",
			"utility_net", "utility_ratio", "total_resource_ratio"}},
	}
	swings := Sheet{"swings", [][]string{{"measure", "number", "end", "value", "total_resource_ratio", "levelized_per_m3"}}}
	peaks := Sheet{"peaks", [][]string{{"measure", "weather", "year", "month", "found_m3", "measure_m3", "own_month", "own_m3"}}}
	together := Sheet{"interactions", [][]string{{"measure", "sum_of_parts_m3", "together_m3", "counted_twice_m3"}}}
	bills := Sheet{"bills", [][]string{{"measure", "accounts", "reference_money", "mean_saving", "p10_saving", "median_saving",
		"p90_saving", "falls", "stays",
		"rises", "threshold"}}}
	names, testNames := program.KnobNames(), program.TestNames()
	for i := range e.Measures {
		j := &e.Measures[i]
		savings.Rows = append(savings.Rows, append([]string{j.name, "all", "", "no"}, statRow(&j.stats)...))
		for k := range j.groups {
			savings.Rows = append(savings.Rows, e.groupRow(j.name, &j.groups[k]))
		}
		for _, p := range j.peaks {
			peaks.Rows = append(peaks.Rows, []string{j.name, p.Weather, yearText(p.Year), strconv.Itoa(p.Month), num(p.FoundM3), num(p.MeasureM3),
				strconv.Itoa(p.OwnMonth), num(p.OwnM3)})
		}
		peaks.Rows = append(peaks.Rows, []string{j.name, "peak day, upper bound", "", "", num(j.peakDayM3[0]), num(j.peakDayM3[1]), "", ""})
		if b := &j.bills; e.Input.Table.HasMoney {
			bills.Rows = append(bills.Rows, append([]string{j.name}, nums(float64(j.stats.N), b.Reference, b.Mean, b.P10, b.Median, b.P90,
				b.Falls, b.Stays,
				b.Rises, e.Plan.Threshold)...))
		}
		if x := j.interaction; x != nil {
			together.Rows = append(together.Rows, append([]string{j.name}, nums(x.Sum, x.Both, x.Overlap)...))
		}
		for k := range j.offers {
			o := &j.offers[k]
			row := []string{j.name, num(o.Share), strconv.Itoa(o.N), "no"}
			row = append(row, nums(o.LateM3, o.SeenM3, o.Of, o.Rise, o.RiseM3, o.Stressed)...)
			if e.metered != nil {
				row[5] = "" // it is of simulated bills
			}
			if !j.shown[k] {
				row = []string{j.name, num(o.Share), "", "yes", "", "", "", "", "", ""}
			}
			targets.Rows = append(targets.Rows, append(row, e.rankedOn()))
		}
		if j.costs == nil {
			continue
		}
		for _, one := range []struct {
			state string
			r     *program.Result
		}{{"middle", &j.all.Mid}, {"worst", &j.worst}, {"best", &j.best}} {
			for k, b := range one.r.Tests {
				if b.Known {
					tests.Rows = append(tests.Rows, append([]string{j.name, one.state, testNames[k]}, nums(b.Benefit, b.Cost, b.Ratio())...))
				}
			}
		}
		costs.Rows = append(costs.Rows, append(costRow(j.name, "all years", &j.all), ""))
		for k := range j.ranked {
			if g := &j.ranked[k]; j.shown[k] {
				costs.Rows = append(costs.Rows, append(costRow(j.name, "years of the score", g), e.rankedOn()))
			}
		}
		for k := range j.levels {
			l := &j.levels[k]
			row := append([]string{j.name}, nums(l.Rebate, l.Share, l.Participants, l.Budget, l.FirstYearM3)...)
			if l.Participants > 0 {
				row = append(row, nums(l.Result.Levelized(), l.Net, l.Result.Tests[program.Utility].Ratio(),
					l.Result.Tests[program.TotalResource].Ratio())...)
			} else {
				row = append(row, "", "", "", "")
			}
			rebates.Rows = append(rebates.Rows, row)
		}
		for k := range j.swings {
			s := &j.swings[k]
			v := j.costs.Values[s.Knob]
			swings.Rows = append(swings.Rows,
				append([]string{j.name, names[s.Knob], "low"}, nums(v.Low, s.Low.Tests[program.TotalResource].Ratio(), s.Low.Levelized())...),
				append([]string{j.name, names[s.Knob], "high"}, nums(v.High, s.High.Tests[program.TotalResource].Ratio(), s.High.Levelized())...))
		}
	}
	return []Sheet{savings, tests, costs, targets, rebates, swings, peaks, together, bills}
}

func yearText(y int) string {
	if y == 0 {
		return ""
	}
	return strconv.Itoa(y)
}

func (e *Evaluation) groupRow(measure string, g *groupStats) []string {
	name := g.cell.Name
	switch g.kind {
	case portfolio.ByClass:
		name = g.cell.RatioName()
	case portfolio.BySize:
		name = num(g.cell.Low) + " to " + num(g.cell.High) + " m2"
	}
	row := []string{measure, groupKeys()[g.kind], name, "no"}
	if g.stats == nil {
		row[3] = "yes"
		return append(row, make([]string, len(statColumns))...)
	}
	return append(row, statRow(g.stats)...)
}

func costRow(measure, scored string, g *program.Group) []string {
	row := append([]string{measure}, nums(g.Share, float64(g.Means.Accounts))...)
	row = append(append(row, scored), nums(g.Mid.FirstYearM3, g.Mid.Levelized(), g.LevelizedAll.Low, g.LevelizedAll.High, g.Levelized.Low,
		g.Levelized.High, g.Mid.LevelizedTotal(), g.Mid.AvoidedPerM3, g.Mid.Tests[program.TotalResource].Ratio(), g.TRCAll.Low, g.TRCAll.High,
		g.SavingM3.Low, g.SavingM3.High, g.Chance)...)
	if g.Holds() {
		return append(row, "yes")
	}
	return append(row, "no")
}
