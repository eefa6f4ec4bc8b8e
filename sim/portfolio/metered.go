package portfolio

import (
	"cmp"
	"math"
	"slices"

	"loamledger/sim/draw"
	"loamledger/weather/cal"
)

// A MeteredRead is the use of one account between two reads of its meter.
type MeteredRead struct {
	Account   string
	From, To  cal.Date // To is the day of the read, the first day after the period
	M3        float64  // below 0 for one that corrects estimates before it
	Estimated bool     // the meter was not read
}

// Metered are bills of many accounts, of which those of some calendar years count. A read
// that is only partly in them counts by its days.
type Metered struct {
	Span    Years
	Outdoor bool // the use indoors is taken off
	sums    map[string]*metered
	// Outside counts reads of other days, and After those of them that begin when the
	// measures begin to save, or later.
	Outside, After int
	first, last    cal.Date // of the reads that count
	begins         cal.Date // the first day on which measures save
}

// A metered is the sum of one account.
type metered struct {
	m3              float64
	days, estimated int
}

// LeastCovered is the share of the days of the bills of which an account must have reads, so
// that a ranking does not compare summers with winters. No source: a choice.
const LeastCovered = 0.9

// NewMetered returns bills of the given years for measures that begin to save in firstYear.
func NewMetered(span Years, firstYear int) *Metered {
	return &Metered{Span: span, sums: map[string]*metered{}, begins: cal.Of(firstYear, 1, 1)}
}

// Add takes one read. Reads of an account must not overlap.
func (b *Metered) Add(r MeteredRead) {
	from, to := max(r.From, cal.Of(b.Span.From, 1, 1)), min(r.To, cal.Of(b.Span.To+1, 1, 1))
	s := b.sums[r.Account]
	if s == nil {
		s = &metered{}
		b.sums[r.Account] = s
	}
	if from >= to {
		if b.Outside++; r.From >= b.begins {
			b.After++
		}
		return
	}
	days := int(to - from)
	s.m3 += float64(r.M3 * float64(days) / float64(r.To-r.From))
	if s.days += days; r.Estimated {
		s.estimated += days
	}
	if b.first == 0 || from < b.first {
		b.first = from
	}
	b.last = max(b.last, to-1)
}

// Days returns the first and the last day of the reads that count; ok is false if there are none.
func (b *Metered) Days() (first, last cal.Date, ok bool) { return b.first, b.last, b.last > 0 }

// A MeteredRanking is an order of accounts by metered bills, and what it leaves out.
type MeteredRanking struct {
	Order       []int // of the accounts that can be ranked, the first one first
	First, Last cal.Date
	Outdoor     bool
	Bills       int // accounts in the bills
	Unknown     int // of them, without results
	Without     int // accounts of the results without a read that counts
	Short       int // and those with reads of fewer days than [LeastCovered]
	Estimated   int // ranked accounts with estimated reads
	// EstimatedDays is the share of the days of ranked accounts that are estimated.
	EstimatedDays  float64
	Outside, After int
	// Times is the median over ranked accounts of the metered use of a year divided by what the replay as found uses in a year of
	// the score. Wrong units of bills show here. NaN if no ranked account uses water.
	Times float64
}

// RankMetered ranks the accounts by metered bills. What counts as the use of a year is their mean by day. To rank by
// what is beyond the requirement, or by the ratio, needs bills of the use outdoors, and weather of the years of the bills.
func (t *Table) RankMetered(b *Metered) (*MeteredRanking, error) {
	if b.Span.Overlaps(t.bills.Late) {
		return nil, errSameYears
	}
	if t.bills.By != ByBill && !b.Outdoor {
		return nil, ErrIndoors
	}
	out := &MeteredRanking{First: b.first, Last: b.last, Outdoor: b.Outdoor, Bills: len(b.sums), Unknown: len(b.sums), Outside: b.Outside,
		After: b.After}
	all, days, estimated := int(b.last-b.first)+1, 0, 0
	score := make([]float64, len(t.Accounts))
	var times []float64
	for a, id := range t.Accounts {
		u := t.use(0, a)
		if u.late.years == 0 {
			return nil, ErrNoYears
		}
		s := b.sums[id]
		if s != nil {
			out.Unknown--
		}
		switch {
		case s == nil || s.days == 0:
			out.Without++
			continue
		case float64(s.days) < LeastCovered*float64(all):
			out.Short++
			continue
		}
		if days += s.days; s.estimated > 0 {
			out.Estimated++
			estimated += s.estimated
		}
		use := float64(s.m3 / float64(s.days) * 365.25)
		if replayed := u.late.volumeM3 / float64(u.late.years); replayed > 0 {
			times = append(times, use/replayed)
		}
		if score[a] = use; t.bills.By != ByBill {
			if u.early.years == 0 {
				return nil, ErrNoYears
			}
			need := u.believedNeedM3 / float64(u.early.years)
			if score[a] = use - need; t.bills.By == ByRatio {
				score[a] = math.Inf(1)
				if need > 0 {
					score[a] = use / need
				}
			}
		}
		out.Order = append(out.Order, a)
	}
	if days > 0 {
		out.EstimatedDays = float64(estimated) / float64(days)
	}
	if out.Times = math.NaN(); len(times) > 0 {
		slices.Sort(times)
		out.Times = draw.Quantile(times, 0.5)
	}
	slices.SortStableFunc(out.Order, func(a, b int) int { return cmp.Compare(score[b], score[a]) })
	return out, nil
}
