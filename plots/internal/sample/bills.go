package sample

import "loamledger/plots"

// Billed returns a study with bills and an allowance: invented parts that fall from
// strategy to strategy, outdoors and in whole cents.
func Billed(o Options) *plots.Study {
	s := Study(o)
	own := s.Table.NoWaterIndex()
	b := &plots.Bills{Currency: "USD", Note: "Prices of 2023-01-01 in all years. The rates are not checked with a real bill.",
		Parts: []plots.BillPart{{Name: "fixed", Role: plots.FixedPart}, {Name: "sewer", Role: plots.SewerPart},
			{Name: "water indoors", Role: plots.IndoorPart}, {Name: "water outdoors", Role: plots.OutdoorPart, Top: true},
			{Name: "surcharge", Role: plots.SurchargePart}}}
	years := len(s.Table.RankYears().Years)
	line := &plots.AllowanceLine{}
	for st := range own {
		one := plots.StrategyBills{Parts: []float64{220.8, 349.86, 180.56, 443.31 - float64(20*float64(st)), 12.5 + float64(st)}}
		total := 0.0
		for _, v := range one.Parts {
			var months [12]float64
			for m := range months {
				months[m] = v / 12
			}
			one.Months = append(one.Months, months)
			total += v
		}
		for y := range years {
			one.Years = append(one.Years, total+float64(10*float64(y)))
		}
		b.Strategies = append(b.Strategies, one)
		line.Kept = append(line.Kept, plots.Kept{Share: 1.2 - float64(0.3*float64(st)), Years: max(years, 1), Within: min(st, max(years, 1))})
	}
	for m := range line.MonthMM {
		line.MonthMM[m] = 20 + float64(10*float64(min(m, 11-m)))
	}
	s.Bills, s.Allowance = b, line
	return s
}
