package meter

import (
	"slices"

	"loamledger/weather/cal"
)

// A Read is one read of a meter, as the supplier gave it.
type Read struct {
	Meter    string
	From, To cal.Date // as in [Period]
	M3       float64  // use since the read before [m³]; below 0 if it corrects estimates
	Kind     Kind     // never Corrected, unless the supplier gave a run as one
	Replaced bool     // the meter was replaced or its register reset since the read before
	Unknown  bool     // and the use is not known
	GapDays  int      // days between the read before and From
}

// A History is the reads of one meter, and the periods that were made of them.
type History struct {
	Reads []Read
	// SpreadM3 is the use of each read after correction [m³]: a run of estimates and
	// the read after it share their sum by days. It equals the use as given if
	// nothing was corrected.
	SpreadM3 []float64
	Of       []int // the period of each read
	Periods  []Period
	Gaps     int     // stretches that no read covers
	GapDays  int     // and their days
	UnitM3   float64 // the reads are whole multiples of this [m³]; 0 if not known
	Cycle    Cycle
}

// A Cycle is how often a meter is read.
type Cycle struct {
	MedianDays   int // between reads
	least, most  int // days of a period that counts
	LowestWinter int // how many periods of a winter the mean of the lowest ones takes
}

// cycleOf returns the cycle of reads. Its limits are those of CalTRACK 2.0,
// 2.2.3.1, 2.2.3.4 and 2.2.3.5, for monthly bills. The limits of other cycles are ours.
func cycleOf(reads []Read) Cycle {
	var days []int
	for i := range reads {
		days = append(days, int(reads[i].To-reads[i].From))
	}
	if len(days) == 0 {
		return Cycle{}
	}
	slices.Sort(days)
	switch m := days[len(days)/2]; {
	case m < 20: // a log of one's own
		return Cycle{m, 1, 70, 12}
	case m <= 45:
		return Cycle{m, 25, 70, 3}
	case m <= 75:
		return Cycle{m, 50, 125, 2}
	default:
		return Cycle{m, m * 4 / 5, 2 * m, 1}
	}
}

// Clean makes periods of the reads of one meter, which are in the order of their
// dates. A run of estimates is known only together with the read after it: they
// become one period of the kind Corrected. An estimate without such a read, a read
// of unknown use, and a period too short or too long for the cycle keep their
// place, left out with the reason.
func Clean(reads []Read, unitM3 float64) *History {
	h := &History{Reads: reads, SpreadM3: make([]float64, len(reads)), Of: make([]int, len(reads)), UnitM3: unitM3, Cycle: cycleOf(reads)}
	for from := 0; from < len(reads); {
		to := from + 1
		for reads[to-1].Kind == Estimated && to < len(reads) && reads[to].GapDays == 0 {
			to++
		}
		h.add(from, to)
		from = to
	}
	for i := range reads {
		if reads[i].GapDays > 0 {
			h.Gaps, h.GapDays = h.Gaps+1, h.GapDays+reads[i].GapDays
		}
	}
	return h
}

// add makes one period of the reads from..to-1, or one of each if they end in an
// estimate that nothing corrects.
func (h *History) add(from, to int) {
	run := h.Reads[from:to]
	last := run[len(run)-1]
	if last.Kind == Estimated {
		for i := from; i < to; i++ {
			r := &h.Reads[i]
			h.SpreadM3[i], h.Of[i] = r.M3, len(h.Periods)
			h.Periods = append(h.Periods, Period{r.Meter, r.From, r.To, r.M3, Estimated, true, NotRead})
		}
		return
	}
	p := Period{Meter: last.Meter, From: run[0].From, To: last.To, Kind: last.Kind}
	for i := range run {
		p.M3 += run[i].M3
		if run[i].Unknown {
			p.Left, p.Why = true, Reset
		}
	}
	if len(run) > 1 {
		p.Kind = Corrected
	}
	for i := from; i < to; i++ {
		h.Of[i] = len(h.Periods)
		h.SpreadM3[i] = p.M3
		if len(run) > 1 {
			h.SpreadM3[i] = p.PerDay() * float64(h.Reads[i].To-h.Reads[i].From)
		}
	}
	switch days := p.Days(); {
	case p.Left:
	case days < h.Cycle.least:
		p.Left, p.Why = true, TooShort
	case days > h.Cycle.most:
		p.Left, p.Why = true, TooLong
	}
	h.Periods = append(h.Periods, p)
}

// Counted returns the indices of the periods that count.
func Counted(periods []Period) (at []int) {
	for i := range periods {
		if !periods[i].Left {
			at = append(at, i)
		}
	}
	return at
}

// Bounds leaves out the periods that do not lie within the days from <= d < to, and
// those within which the change lies; 0 is no change.
func Bounds(periods []Period, from, to, changed cal.Date) {
	for i := range periods {
		switch p := &periods[i]; {
		case p.Left:
		case p.From < from || p.To > to:
			p.Left, p.Why = true, OutOfRecord
		case changed != 0 && p.From < changed && p.To > changed:
			p.Left, p.Why = true, Straddles
		}
	}
}
