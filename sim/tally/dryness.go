package tally

import (
	"loamledger/sim"
	"loamledger/weather/quantity"
)

// The constants of the ranking of years. The share of ETo is about that of a
// watered landscape. Rain counts as the balance lets it: below 0.2 of the day's
// ETo it evaporates (FAO-56, p. 171). Of heavy rain, the Texas daily rule credits
// all up to 1 inch a day, two thirds of the second inch and nothing above 2
// inches, which runs off or drains below the roots.
const (
	needShare   = 0.8
	lightShare  = 0.2
	fullRainMM  = quantity.InchMM
	mostRainMM  = 2 * quantity.InchMM
	creditShare = 2.0 / 3
)

// EffectiveRain returns the part of a day's rain that can serve plants [mm], as
// the ranking of years counts it. It depends on the weather alone, not on zones.
func EffectiveRain(rainMM, etoMM float64) float64 {
	if rainMM < lightShare*etoMM {
		return 0
	}
	return min(rainMM, fullRainMM) + float64(creditShare*min(max(rainMM-fullRainMM, 0), mostRainMM-fullRainMM))
}

// NetNeed returns 0.8·ETo less effective rain of one day [mm], as the ranking of years
// counts it; it is below 0 on a day with more rain than need.
func NetNeed(rainMM, etoMM float64) float64 {
	return float64(needShare*etoMM) - EffectiveRain(rainMM, etoMM)
}

// AppendDryness appends to dst, for each span, the sum of 0.8·ETo − effective rain
// over its days [mm], by which years are ranked.
func AppendDryness(dst []float64, spans []sim.Span, w *sim.Weather) []float64 {
	for _, span := range spans {
		sum := 0.0
		for i := span.From; i < span.To; i++ {
			sum += NetNeed(w.RainMM[i], w.EToMM[i])
		}
		dst = append(dst, sum)
	}
	return dst
}

// Dryness returns the sum of 0.8·ETo − effective rain over year y [mm].
func (t *Table) Dryness(y int) float64 {
	sum := 0.0
	for i := range t.DrynessMM {
		if t.YearOf(&t.Spans[i]) == y {
			sum += t.DrynessMM[i]
		}
	}
	return sum
}

// DriestMonths returns the highest sum of 0.8·ETo − effective rain over three
// months running within year y [mm].
func (t *Table) DriestMonths(y int) float64 {
	best, found := 0.0, false
	for i := range t.DrynessMM {
		if i < 2 || t.YearOf(&t.Spans[i-2]) != y || t.YearOf(&t.Spans[i]) != y {
			continue
		}
		if sum := t.DrynessMM[i-2] + t.DrynessMM[i-1] + t.DrynessMM[i]; !found || sum > best {
			best, found = sum, true
		}
	}
	return best
}
