package soilwater

import (
	"math"

	"loamledger/weather/cal"
)

// A Series is what a replay says about a zone, day by day from Start, next to what
// was measured. Columns have equal lengths.
type Series struct {
	Start      cal.Date
	South      bool // southern hemisphere
	TAWMM      float64
	SimMM      []float64 // depletion at the end of the day [mm]
	MeasuredMM []float64 // measured depletion, NaN where a day does not count
	SignedMM   []float64 // measured depletion, below 0 above field capacity
	BelowMM    []float64 // water missing below the root zone; nil if not measured
	RAWMM      []float64 // of the replay
	// MeasuredRAWMM is RAW for the measured depletion, if the soil of the
	// measurement differs from that of the replay; nil for RAWMM.
	MeasuredRAWMM []float64
	EToMM, ETcMM  []float64
	ETaMM         []float64
	RainMM        []float64
	GrossMM       []float64 // irrigation
}

// Days returns the number of days.
func (s *Series) Days() int { return len(s.SimMM) }

// Date returns the date of day i.
func (s *Series) Date(i int) cal.Date { return s.Start + cal.Date(i) }

// month returns the month of day i as in the northern hemisphere: 1 is the first
// month after midwinter.
func (s *Series) month(i int) int {
	m := s.Date(i).Month()
	if s.South {
		m = (m+5)%12 + 1
	}
	return m
}

// warmYear returns the warm half-year, April to October or October to April, of
// day i, named by the year of its first day; ok is false in the other months.
func (s *Series) warmYear(i int) (year int, ok bool) {
	y, m, _ := s.Date(i).YMD()
	if n := s.month(i); n < 4 || n > 10 {
		return 0, false
	}
	if s.South && m <= 4 {
		y--
	}
	return y, true
}

func (s *Series) measuredRAW(i int) float64 {
	if s.MeasuredRAWMM != nil {
		return s.MeasuredRAWMM[i]
	}
	return s.RAWMM[i]
}

// A Season is a part of the year.
type Season uint8

// The seasons. Spring begins with March, in the south with September.
const (
	WholeYear Season = iota
	Spring
	Summer
	Fall
	Winter
	Seasons // how many there are
)

func (s *Series) in(season Season, i int) bool {
	if season == WholeYear {
		return true
	}
	at := [13]Season{0, Winter, Winter, Spring, Spring, Spring, Summer, Summer, Summer, Fall, Fall, Fall, Winter}
	return at[s.month(i)] == season
}

// A Score says how well simulated depletion follows the measured one. Bias is
// simulated less measured: above 0, the model is too dry. It has NaN for fewer
// than two days.
type Score struct {
	Days           int
	R              float64 // correlation
	BiasMM, RMSEMM float64
}

// leastOfSeason is the number of days below which a season has no score.
const leastOfSeason = 10

// Scores returns the score of each season over the days for which keep is true;
// nil keeps all.
func (s *Series) Scores(keep func(i int) bool) [Seasons]Score {
	var out [Seasons]Score
	for season := range Seasons {
		var sim, measured []float64
		for i, m := range s.MeasuredMM {
			if !math.IsNaN(m) && s.in(season, i) && (keep == nil || keep(i)) {
				sim, measured = append(sim, s.SimMM[i]), append(measured, m)
			}
		}
		out[season] = scoreOf(sim, measured)
	}
	return out
}

func scoreOf(sim, measured []float64) Score {
	n := len(sim)
	sc := Score{Days: n, R: math.NaN(), BiasMM: math.NaN(), RMSEMM: math.NaN()}
	if n < leastOfSeason {
		return sc
	}
	var ms, mm, d2 float64
	for i := range sim {
		ms += sim[i] / float64(n)
		mm += measured[i] / float64(n)
		d2 += (sim[i] - measured[i]) * (sim[i] - measured[i]) / float64(n)
	}
	var ss, mx, sm float64
	for i := range sim {
		a, b := sim[i]-ms, measured[i]-mm
		ss, mx, sm = ss+float64(a*a), mx+float64(b*b), sm+float64(a*b)
	}
	sc.BiasMM, sc.RMSEMM = ms-mm, math.Sqrt(d2)
	if ss > 0 && mx > 0 {
		sc.R = sm / math.Sqrt(ss*mx)
	}
	return sc
}

// onsetDays is the number of days in a row past RAW that make an onset.
const onsetDays = 3

// A Warm is the warm half of one year: April to October, in the south October to
// April.
type Warm struct {
	Year         int // of its first day
	Days         int // measured days
	SimPast      int // days past RAW, of the measured days
	MeasuredPast int
	// SimOnset and MeasuredOnset are the first of three measured days in a row past
	// RAW; ok is false if there is none.
	SimOnset, MeasuredOnset     cal.Date
	SimOnsetOK, MeasuredOnsetOK bool
}

// leastOfWarm is the number of measured days below which a warm half-year does
// not count.
const leastOfWarm = 120

// Complete reports whether enough days were measured to compare counts.
func (w *Warm) Complete() bool { return w.Days >= leastOfWarm }

// Warms counts the days past RAW in each warm half-year with a measured day.
// Simulated days count only if they were measured too.
func (s *Series) Warms() []Warm {
	var out []Warm
	var simRun, measuredRun run
	for i, m := range s.MeasuredMM {
		y, ok := s.warmYear(i)
		if !ok {
			simRun, measuredRun = run{}, run{}
			continue
		}
		if math.IsNaN(m) {
			continue
		}
		if len(out) == 0 || out[len(out)-1].Year != y {
			out = append(out, Warm{Year: y})
			simRun, measuredRun = run{}, run{}
		}
		w := &out[len(out)-1]
		w.Days++
		simRun.next(s.Date(i), s.SimMM[i] > s.RAWMM[i], &w.SimPast, &w.SimOnset, &w.SimOnsetOK)
		measuredRun.next(s.Date(i), m > s.measuredRAW(i), &w.MeasuredPast, &w.MeasuredOnset, &w.MeasuredOnsetOK)
	}
	return out
}

// A run is measured days in a row past RAW.
type run struct {
	days  int
	first cal.Date
}

// next takes the next measured day; it adds to the days past RAW and notes the
// first onset.
func (r *run) next(d cal.Date, past bool, days *int, onset *cal.Date, found *bool) {
	if !past {
		r.days = 0
		return
	}
	*days++
	if r.days++; r.days == 1 {
		r.first = d
	}
	if r.days == onsetDays && !*found {
		*onset, *found = r.first, true
	}
}
