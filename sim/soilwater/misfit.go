package soilwater

import (
	"math"

	"loamledger/weather/cal"
)

// A Reason is a likely reason of a misfit.
type Reason uint8

// The reasons that can be distinguished from one another.
const (
	NoReason     Reason = iota // none of the others explains half of the misfit
	RainMissed                 // the soil gained more water than rain and irrigation brought
	LessRunoff                 // more of the rain entered than the replay computed
	RainLost                   // recorded rain did not reach the soil
	SlowDrainage               // the soil drained for longer than a day
	KTooHigh                   // plants used less than the coefficient says
	KTooLow                    // plants used more than the coefficient says
	ScarceUse                  // plants short of water used more or less than Ks says
	DeeperRoots                // plants drew from below the root zone
	Reasons                    // how many there are
)

// Key returns the stable name of the reason.
func (r Reason) Key() string {
	return [Reasons]string{"unknown", "rain-missed", "less-runoff", "rain-lost", "slow-drainage", "k-too-high", "k-too-low", "scarce-use",
		"deeper-roots"}[r]
}

// Words describes the reason.
func (r Reason) Words() string {
	return [Reasons]string{
		"no single reason explains half of it",
		"rain or irrigation that is not in the record: the soil gained more water than was recorded",
		"less runoff than computed: more of the rain entered the soil",
		"recorded rain that did not reach this soil: more runoff than computed, or a local storm",
		"drainage slower than a day: the soil stayed above field capacity while the replay already dried",
		"the plant coefficient is too high for these days",
		"the plant coefficient is too low for these days",
		"water use past RAW differs from the Ks line",
		"roots deeper than the root zone: soil below it dried at the same time",
	}[r]
}

// A Misfit is the largest difference between simulated and measured depletion, as
// the mean of three days.
type Misfit struct {
	Date           cal.Date // the middle day
	Since          cal.Date // from which on it grew
	SimMM          float64
	MeasuredMM     float64
	Reason         Reason
	wetMM, drainMM float64 // growth by water on its days, and while the measured soil was above field capacity
	dryMM, pastMM  float64 // growth on dry days before RAW; and past RAW in soil or replay
}

// The rules of the reason. Choices of ours.
const (
	smallShare    = 0.25 // of the misfit, from which on its growth counts
	longestDays   = 120  // of growth that is looked at
	largestGap    = 10   // days without measurement that are bridged
	wetMM         = 1.0  // of rain and irrigation that make a wet day
	gainMM        = 3.0  // of gain that is not noise of sensors
	mainShare     = 0.5  // of the growth that makes a reason
	deeperShare   = 0.25 // of the growth found missing below the root zone
	leastRate     = 0.15 // of ETa by which use is off before RAW that speaks against the coefficient
	deeperLeastMM = 2.0
)

// Misfit finds the largest difference and its likely reason; ok is false if no
// three days in a row are measured.
func (s *Series) Misfit() (m Misfit, ok bool) {
	at, most := -1, 0.0
	for i := 1; i+1 < s.Days(); i++ {
		if d := (s.diff(i-1) + s.diff(i) + s.diff(i+1)) / 3; math.Abs(d) > most {
			at, most = i, math.Abs(d)
		}
	}
	if at < 0 {
		return m, false
	}
	m = Misfit{Date: s.Date(at), SimMM: s.SimMM[at], MeasuredMM: s.MeasuredMM[at]}
	sign := 1.0
	if s.diff(at) < 0 {
		sign = -1
	}
	days := s.growth(at, sign)
	m.Since = s.Date(days[0])
	m.judge(s, days, sign)
	return m, true
}

func (s *Series) diff(i int) float64 { return s.SimMM[i] - s.MeasuredMM[i] }

// growth lists the measured days over which the misfit of day at grew, in order.
func (s *Series) growth(at int, sign float64) []int {
	days := []int{at}
	last := at
	for i := at - 1; i >= 0 && at-i <= longestDays && last-i <= largestGap; i-- {
		d := s.diff(i)
		if math.IsNaN(d) {
			continue
		}
		days, last = append(days, i), i
		if sign*d <= smallShare*sign*s.diff(at) {
			break
		}
	}
	for i, k := 0, len(days)-1; i < k; i, k = i+1, k-1 {
		days[i], days[k] = days[k], days[i]
	}
	return days
}

// judge splits the growth by kind of day and names the reason.
func (m *Misfit) judge(s *Series, days []int, sign float64) {
	var gained, recorded, below float64 // on days with water: by the measured soil, and by the record; below the root zone on dry days
	var dryETa, wetETa [2]float64       // of the replay, before RAW and past it
	use := [2]*float64{&m.dryMM, &m.pastMM}
	for k := 1; k < len(days); k++ {
		before, i := days[k-1], days[k]
		grown := float64(sign * (s.diff(i) - s.diff(before)))
		water, etc := 0.0, 0.0
		for j := max(before, 0); j <= i; j++ { // a sensor shows the rain of an evening a day later
			water += s.RainMM[j] + s.GrossMM[j]
			if j > before {
				etc += s.ETaMM[j]
			}
		}
		past := 0
		if s.SimMM[before] > s.RAWMM[before] || s.MeasuredMM[before] > s.measuredRAW(before) {
			past = 1
		}
		rise := s.SignedMM[before] - s.SignedMM[i]
		switch {
		case sign > 0 && (s.SignedMM[i] < 0 || s.SignedMM[before] < 0) && rise < gainMM:
			m.drainMM += grown
		case water >= wetMM || rise >= gainMM:
			m.wetMM += grown
			gained += rise + etc
			wetETa[past] += etc
			for j := before + 1; j <= i; j++ {
				recorded += s.RainMM[j] + s.GrossMM[j]
			}
		default:
			*use[past] += grown
			dryETa[past] += etc
			if s.BelowMM != nil {
				if d := s.BelowMM[i] - s.BelowMM[before]; !math.IsNaN(d) {
					below += d
				}
			}
		}
	}
	// Use goes on when it rains: as far off as on the dry days of the same kind.
	for past := range use {
		if dryETa[past] > 0 {
			moved := float64(*use[past] / dryETa[past] * wetETa[past])
			*use[past] += moved
			m.wetMM -= moved
		}
	}
	rate := m.dryMM / (dryETa[0] + wetETa[0]) // NaN for none
	total := m.wetMM + m.drainMM + m.dryMM + m.pastMM
	main := func(mm float64) bool { return total > 0 && mm >= mainShare*total }
	switch {
	case main(m.drainMM):
		m.Reason = SlowDrainage
	case main(m.wetMM) && sign > 0 && gained > recorded+gainMM:
		m.Reason = RainMissed
	case main(m.wetMM) && sign > 0:
		m.Reason = LessRunoff
	case main(m.wetMM):
		m.Reason = RainLost
	case sign > 0 && main(m.dryMM+m.pastMM) && below >= max(deeperShare*total, deeperLeastMM):
		m.Reason = DeeperRoots
	case !main(m.dryMM + m.pastMM):
	case rate < leastRate || m.dryMM < smallShare*(m.dryMM+m.pastMM) || math.IsNaN(rate):
		m.Reason = ScarceUse
	case sign > 0:
		m.Reason = KTooHigh
	default:
		m.Reason = KTooLow
	}
}
