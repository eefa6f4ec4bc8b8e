package plots

import (
	"fmt"
	"math"

	"loamledger/sim"
)

// typicalReason says, from the replay, why the typical year can look worse than the dry
// one: the month that makes most of the difference under the option that differs most.
// It is empty if no option looks worse.
func (s *Study) typicalReason() string {
	t, r := s.Table, s.Table.RankYears()
	if r.Median == r.Dry || r.Median == 0 {
		return ""
	}
	worst, most := 0, 0
	for st := range s.own() {
		for z := range t.Zones {
			a, b := t.Year(st, z, r.Median), t.Year(st, z, r.Dry)
			if d := hardDays(&a) - hardDays(&b); d > most {
				worst, most = st, d
			}
		}
	}
	if most == 0 {
		return ""
	}
	in, dry := s.monthsOf(worst, r.Median), s.monthsOf(worst, r.Dry)
	at := 0
	for m := range in {
		if in[m].hard-dry[m].hard > in[at].hard-dry[at].hard {
			at = m
		}
	}
	if math.Round(in[at].hard-dry[at].hard) < 1 {
		return ""
	}
	u := s.Units
	text := fmt.Sprintf("The typical year can look worse, since years are ranked as a whole and plants suffer in dry weeks: under %s, %s of "+
		"%s is harder on them than that of %s", quote(t.Strategies[worst]), monthNames[at], r.Name(r.Median), r.Name(r.Dry))
	lack := func(m *monthOf) string { return u.depthWords(m.lackMM) }
	switch {
	case u.shownDepth(in[at].lackMM) > u.shownDepth(dry[at].lackMM):
		against := "the other was not short"
		if u.shownDepth(dry[at].lackMM) > 0 {
			against = "the other " + lack(&dry[at])
		}
		return text + fmt.Sprintf("; it was %s short of rain, %s.", lack(&in[at]), against)
	case u.shownDepth(in[at].grossMM) < u.shownDepth(dry[at].grossMM):
		return text + fmt.Sprintf("; it got %s of water from the sprinklers, the other %s.",
			u.depthWords(in[at].grossMM), u.depthWords(dry[at].grossMM))
	}
	return text + ", although it lacked no more rain: what rain and watering left in the soil before, and when it came, made the difference."
}

// hardDays are the thirsty days of a zone and the browning days of its driest quarter.
func hardDays(x *sim.Sums) int { return x.StressZoneDays + x.BrownDays }

// A monthOf is one calendar month of one year, over the site by area.
type monthOf struct {
	hard, grossMM float64
	lackMM        float64 // 0.8 ETo less effective rain
}

// monthsOf returns the calendar months of a year under strategy st.
func (s *Study) monthsOf(st, year int) (out [12]monthOf) {
	t, area := s.Table, 0.0
	for z := range t.Zones {
		area += t.Zones[z].AreaM2
	}
	for i := range t.Spans {
		if t.YearOf(&t.Spans[i]) != year {
			continue
		}
		m := &out[t.Spans[i].Month-1]
		if i < len(t.DrynessMM) {
			m.lackMM += t.DrynessMM[i]
		}
		for z := range t.Zones {
			x := t.Month(st, z, i)
			m.hard += float64(float64(x.StressDays+x.BrownDays) * t.Zones[z].AreaM2 / area)
			m.grossMM += float64(x.GrossMM * t.Zones[z].AreaM2 / area)
		}
	}
	return out
}
