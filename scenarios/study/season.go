package study

import (
	"cmp"
	"slices"

	"loamledger/plots"
	"loamledger/sim"
	"loamledger/sim/replay"
	"loamledger/sim/tally"
	"loamledger/weather/cal"
)

// mostTraces is the maximum number of zones with a depletion chart, largest
// first: nobody reads hundreds of charts.
const mostTraces = 10

// seasonDays is the length of the period in depletion charts [days].
const seasonDays = 153

// A Season collects the days for depletion charts: the period of the dry year
// with the highest ETo minus rain.
type Season struct {
	from, to int // days of the record, excluding to
	traces   []plots.DepletionTrace
}

// NewSeason chooses the days. If year is 0, since no year is whole,
// it searches the whole record.
func NewSeason(job *replay.Job, year int) *Season {
	from, to := 0, job.Weather.Days()
	if year != 0 {
		first, after := tally.YearSpan(year, job.South)
		from, to = max(from, int(first-job.Weather.Start)), min(to, int(after-job.Weather.Start))
	}
	s := &Season{from: from, to: min(to, from+seasonDays)}
	best, sum := 0.0, 0.0
	for i := from; i < to; i++ {
		sum += job.Weather.EToMM[i] - job.Weather.RainMM[i]
		if i >= from+seasonDays {
			k := i - seasonDays
			sum -= job.Weather.EToMM[k] - job.Weather.RainMM[k]
		}
		if i == s.to-1 && s.from == from || i >= from+seasonDays && sum > best {
			best, s.from, s.to = sum, max(from, i+1-seasonDays), i+1
		}
	}
	for _, z := range largest(job.Zones, mostTraces) {
		s.traces = append(s.traces, plots.DepletionTrace{Zone: job.Zones[z].Name, Start: job.Weather.Start + cal.Date(s.from),
			RainMM: job.Weather.RainMM[s.from:s.to]})
	}
	return s
}

// largest returns the indices of the n largest zones, in the order of the site.
func largest(zones []sim.Zone, n int) []int {
	order := make([]int, len(zones))
	for z := range order {
		order[z] = z
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(zones[b].AreaM2, zones[a].AreaM2) })
	order = order[:min(n, len(order))]
	slices.Sort(order)
	return order
}

// Take copies the season's days from a sheet.
func (s *Season) Take(sheet *replay.Sheet) error {
	for z := range s.traces {
		t := &s.traces[z]
		if t.Zone != sheet.Zone.Name {
			continue
		}
		raw, taw := make([]float64, s.to-s.from), make([]float64, s.to-s.from)
		for i := range raw {
			p := sheet.On(s.from + i)
			raw[i], taw[i] = p.Forcing[s.from+i].RAWMM, p.Zone.TAWMM
		}
		t.RAWMM, t.TAWMM = append(t.RAWMM, raw), append(t.TAWMM, taw)
		t.Strategies = append(t.Strategies, sheet.Strategy)
		t.LowQuarterMM = append(t.LowQuarterMM, append([]float64(nil), sheet.Trace.LowQuarterMM[s.from:s.to]...))
		stress, browning := make([]bool, s.to-s.from), make([]bool, s.to-s.from)
		for i := range stress {
			day := sheet.Grade(s.from + i)
			stress[i], browning[i] = day.StressZone, day.BrownQuarter
		}
		t.Stress, t.Browning = append(t.Stress, stress), append(t.Browning, browning)
	}
	return nil
}
