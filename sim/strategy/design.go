package strategy

import (
	"fmt"
	"math"
	"slices"

	"loamledger/weather/quantity"
)

// designAuto is the word for a design ETo from the record.
const designAuto = "auto"

// leastDesignMM is the lowest design ETo of a record without evaporation [mm/d].
const leastDesignMM = 0.1

// MonthlyETo returns the record's mean ETo of each calendar month [mm/d], NaN for
// a month without days.
func MonthlyETo(site *Site) (mean [12]float64) {
	var days [12]float64
	for i, m := range site.Calendar.Month {
		mean[m-1] += site.Weather.EToMM[i]
		days[m-1]++
	}
	for m := range mean {
		if days[m] == 0 {
			mean[m] = math.NaN()
			continue
		}
		mean[m] /= days[m]
	}
	return mean
}

// PeakETo returns the record's mean ETo of the calendar month in which it is
// highest [mm/d], and that month, 1 to 12. It uses the whole record: hindsight,
// like that of a person who sets a controller by past climate.
func PeakETo(site *Site) (mm float64, month int) {
	for m, mean := range MonthlyETo(site) {
		if mean > mm {
			mm, month = mean, m+1
		}
	}
	return mm, month
}

// design returns the design ETo on a site [mm/d].
func (e *ETPercent) design(site *Site) float64 {
	mm := e.DesignEToMM
	if mm == 0 {
		mm, _ = PeakETo(site)
	}
	return max(mm*or(e.DesignFactor, 1), leastDesignMM)
}

// record reports a design ETo from the record.
func (e *ETPercent) record(site *Site) string {
	if e.DesignEToMM != 0 {
		return ""
	}
	_, month := PeakETo(site)
	return fmt.Sprintf("design ETo %s a day, the mean of %s, which has the record's highest: hindsight, since it uses the whole record",
		quantity.Format(e.design(site), quantity.Depth, site.Units), monthNames[max(month, 1)-1])
}

var monthNames = [12]string{"January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November",
	"December"}

// DesignETo returns the design ETo of the first part of the strategy that scales
// run times by it [mm/d]; false if none does.
func (st *Strategy) DesignETo(site *Site) (mm float64, auto, ok bool) {
	for _, p := range st.Parts {
		if e, is := p.(ETPercent); is {
			return e.design(site), e.DesignEToMM == 0 || e.peak, true
		}
	}
	return 0, false, false
}

// WithDesign returns the strategy with its design ETo, given or not, multiplied by
// factor; false if it has none.
func (st *Strategy) WithDesign(factor float64) (Strategy, bool) {
	out, found := *st, false
	out.Parts = slices.Clone(st.Parts)
	for i, p := range out.Parts {
		if e, is := p.(ETPercent); is {
			e.DesignFactor = factor * or(e.DesignFactor, 1)
			out.Parts[i], found = e, true
		}
	}
	return out, found
}
