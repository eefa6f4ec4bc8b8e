package soilwater

import "math"

// The rules of [Series.Uses]. Choices of ours.
const (
	useDays    = 3   // days in a window
	useDryDays = 2   // days without water before it
	lightShare = 0.2 // of ETo, up to which rain evaporates, as in the replay
	useETcMM   = 3.0 // ETc of the window from which its use means something
)

// A Use is the water that plants drew from the measured soil over a few dry days.
type Use struct {
	Date     int     // index of the first day
	Relative float64 // measured depletion as a share of TAW, mean of the days
	Share    float64 // measured use as a share of the replay's ETc
}

// Uses returns the use of every window of three days without rain and irrigation,
// after two more such days, in soil below field capacity; rain that evaporates does
// not count. Windows do not overlap.
// TAW is that of the measured soil.
func (s *Series) Uses(tawMM float64) []Use {
	var out []Use
	dry := 0 // days without water before day i, with it
	for i := range s.SimMM {
		if s.RainMM[i]+s.GrossMM[i] > lightShare*s.EToMM[i] {
			dry = 0
			continue
		}
		if dry++; dry < useDryDays+useDays || i < useDays {
			continue
		}
		first := i - useDays + 1
		use, depletion, etc, wet := s.SignedMM[i]-s.SignedMM[first-1], 0.0, 0.0, false
		for k := first; k <= i; k++ {
			depletion += s.SignedMM[k] / useDays
			etc += s.ETcMM[k]
			wet = wet || s.SignedMM[k] < 0
		}
		if math.IsNaN(use+depletion) || wet || s.SignedMM[first-1] < 0 || etc < useETcMM {
			continue
		}
		out = append(out, Use{Date: first, Relative: depletion / tawMM, Share: use / etc})
		dry = useDryDays // the next window begins after this one
	}
	return out
}

// A UseBin is the uses within a tenth of relative depletion.
type UseBin struct {
	From, To         float64 // relative depletion
	Windows          int
	Median, Q25, Q75 float64
}

// leastOfBin is the number of windows below which a bin has no figures.
const leastOfBin = 5

// UseBins sorts uses into tenths of relative depletion. Bins with few windows are
// omitted.
func UseBins(uses []Use) []UseBin {
	var out []UseBin
	for b := range 12 {
		from, to := float64(b)/10, float64(b+1)/10
		var shares []float64
		for _, u := range uses {
			if u.Relative >= from && u.Relative < to {
				shares = append(shares, u.Share)
			}
		}
		if len(shares) >= leastOfBin {
			out = append(out, UseBin{from, to, len(shares), Quantile(shares, 0.5), Quantile(shares, 0.25), Quantile(shares, 0.75)})
		}
	}
	return out
}
