package cli

import (
	"loamledger/plots"
	"loamledger/sim/replay"
	"loamledger/weather/cal"
)

// seasonDays is the length of the season that depletion charts show.
const seasonDays = 153

// A season collects the days that depletion charts show: those of the dry year
// with the greatest ETo less rain.
type season struct {
	from, to int // days of the record, to not included
	traces   []plots.DepletionTrace
}

// newSeason chooses the days. Without a whole year, year is 0 and the season
// is looked for in the whole record.
func newSeason(job *replay.Job, year int) *season {
	from, to := 0, job.Weather.Days()
	if year != 0 {
		from = max(from, int(cal.Of(year, 1, 1)-job.Weather.Start))
		to = min(to, int(cal.Of(year+1, 1, 1)-job.Weather.Start))
	}
	s := &season{from, min(to, from+seasonDays), make([]plots.DepletionTrace, len(job.Zones))}
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
	for z := range job.Zones {
		zone := &job.Zones[z]
		s.traces[z] = plots.DepletionTrace{Zone: zone.Name, Start: job.Weather.Start + cal.Date(s.from), RainMM: job.Weather.RainMM[s.from:s.to], TAWMM: zone.TAWMM}
	}
	return s
}

// take keeps the season's days of a sheet.
func (s *season) take(sheet *replay.Sheet) error {
	for z := range s.traces {
		t := &s.traces[z]
		if t.Zone != sheet.Zone.Name {
			continue
		}
		if t.RAWMM == nil {
			for _, d := range sheet.Forcing[s.from:s.to] {
				t.RAWMM = append(t.RAWMM, d.RAWMM)
			}
		}
		t.Strategies = append(t.Strategies, sheet.Strategy)
		t.LowQuarterMM = append(t.LowQuarterMM, append([]float64(nil), sheet.Trace.LowQuarterMM[s.from:s.to]...))
	}
	return nil
}
