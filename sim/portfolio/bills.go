package portfolio

import (
	"cmp"
	"errors"
	"hash/fnv"
	"math"
	"slices"
	"strconv"

	"loamledger/weather/portable"
)

// A RankBy says by what accounts are ranked for an offer.
type RankBy uint8

// The ways.
const (
	ByBill   RankBy = iota // the volume billed
	ByExcess               // the volume billed beyond the requirement
	ByRatio                // the volume billed divided by the requirement
)

// RankNames returns the ways as a costs file writes them, in order.
func RankNames() []string { return []string{"bill", "beyond_need", "ratio"} }

// Bills say how a utility sees its accounts before it makes an offer: by the bills of
// early years, which differ from what the replay says of those years. Results are scored
// on later years.
type Bills struct {
	Early, Late Years
	// Error is the standard deviation of a year's bill as a share of it: use that
	// differs from the replay in that year only. It is drawn anew for each year.
	Error float64
	// AreaError is the standard deviation of the irrigated area that the utility
	// believes in, as a share; it is drawn once for each account.
	AreaError float64
	By        RankBy
	Seed      uint64
}

// The reasons why a ranking is refused: it would use what nobody can know.
var (
	// errCircular: without an error, the simulated bill is the simulated truth.
	errCircular = errors.New("ranking on simulated truth")
	// errSameYears: the years of the bills and of the score overlap.
	errSameYears = errors.New("the years of the bills overlap those of the score")
	// ErrIndoors: metered bills include the use indoors, and the ranking is by need.
	ErrIndoors = errors.New("the bills include the use indoors")
	// ErrNoYears: an account has no year of one of the two spans.
	ErrNoYears = errors.New("accounts without a year of the bills or of the score")
)

// Asked reports whether there is anything to rank by.
func (b *Bills) Asked() bool { return b.Early.From != 0 }

// check refuses a ranking that would use what nobody can know.
func (b *Bills) check() error {
	switch {
	case b.Early.Overlaps(b.Late):
		return errSameYears
	case !(b.Error > 0):
		return errCircular
	}
	return nil
}

// seen returns the volume of a year as billed [m³].
func (b *Bills) seen(account string, year int, m3 float64) float64 {
	return float64(m3 * max(0, 1+float64(b.Error*normal(b.Seed, "bill", account, strconv.Itoa(year)))))
}

// believed returns the requirement [m³] of an account whose area is believed to be
// another.
func (b *Bills) believed(account string, m3 float64) float64 {
	return float64(m3 * max(0.1, 1+float64(b.AreaError*normal(b.Seed, "area", account))))
}

// normal returns a standard normal number that depends on its arguments only: the method
// of Box and Muller (1958), A note on the generation of random normal deviates, Annals of
// Mathematical Statistics 29, 610-611.
func normal(seed uint64, parts ...string) float64 {
	h := fnv.New64a()
	h.Write([]byte(strconv.FormatUint(seed, 10)))
	for _, p := range parts {
		h.Write([]byte{0})
		h.Write([]byte(p))
	}
	u, v := unit(mixed(h.Sum64())), unit(mixed(h.Sum64()+0x9e3779b97f4a7c15))
	return math.Sqrt(-2*portable.Log(u)) * portable.Cos(2*math.Pi*v)
}

// mixed spreads the bits of a hash: the finalizer of splitmix64, Steele, Lea and Flood
// (2014), Fast splittable pseudorandom number generators (from memory).
func mixed(x uint64) uint64 {
	x ^= x >> 30
	x *= 0xbf58476d1ce4e5b9
	x ^= x >> 27
	x *= 0x94d049bb133111eb
	return x ^ x>>31
}

// unit returns a number above 0 and up to 1.
func unit(x uint64) float64 { return (float64(x>>11) + 1) / (1 << 53) }

// Ranking returns the accounts in the order in which they would get an offer, the first
// one first: by the bills of the early years, as the utility sees them.
func (t *Table) Ranking() ([]int, error) {
	if err := t.bills.check(); err != nil {
		return nil, err
	}
	score := make([]float64, len(t.Accounts))
	for a := range score {
		u := t.use(0, a)
		if u.early.years == 0 || u.late.years == 0 {
			return nil, ErrNoYears
		}
		years := float64(u.early.years)
		switch t.bills.By {
		case ByExcess:
			score[a] = (u.billM3 - u.believedNeedM3) / years
		case ByRatio:
			score[a] = math.Inf(1)
			if u.believedNeedM3 > 0 {
				score[a] = u.billM3 / u.believedNeedM3
			}
		default:
			score[a] = u.billM3 / years
		}
	}
	order := t.All()
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(score[b], score[a]) })
	return order, nil
}

// An Offer is what happens if only the first accounts of a ranking get the measure.
type Offer struct {
	Share    float64 // of the accounts that are ranked
	N        int
	LateM3   float64 // mean saving of an account a year, in the years of the score
	SeenM3   float64 // the same as the years of simulated bills seem to say; NaN without such years
	Of       float64 // share of the saving of all ranked accounts; NaN if that is not above 0
	Rise     float64 // share of these accounts that use more in the years of the score
	RiseM3   float64 // how much more a year those use, on average; 0 if there are none
	Stressed float64 // share of these accounts with more stress days than [MoreStress] a year more
}

// MoreStress is the number of stress days a year more from which an account counts as
// worse off [d]. No source: a choice, stated wherever it is used.
const MoreStress = 5.0

// Offers returns the curve of a ranking for measure m: an offer for each share of the accounts that are ranked, which
// must be above 0 and up to 1. threshold is as of [Table.Stats].
func (t *Table) Offers(m int, ranking []int, shares []float64, threshold float64) []Offer {
	late, seen := t.LateSavings(m), t.apparentSavings(m)
	total := 0.0 // of the ranked accounts alone: the others may be few
	for _, a := range ranking {
		total += late[a]
	}
	out := make([]Offer, len(shares))
	for i, share := range shares {
		n := min(max(int(math.Round(share*float64(len(ranking)))), 1), len(ranking))
		o := Offer{Share: share, N: n}
		sum, apparent, rises, more, stressed := 0.0, 0.0, 0, 0.0, 0
		for _, a := range ranking[:n] {
			sum += late[a]
			apparent += seen[a]
			ref, u := t.use(0, a), t.use(m, a)
			if late[a] < -threshold*ref.late.volumeM3/float64(ref.late.years) {
				rises++
				more -= late[a]
			}
			if (u.stressDays-ref.stressDays)/float64(u.years) > MoreStress {
				stressed++
			}
		}
		count := float64(n)
		o.LateM3, o.SeenM3, o.Rise, o.Stressed = sum/count, apparent/count, float64(rises)/count, float64(stressed)/count
		if rises > 0 {
			o.RiseM3 = more / float64(rises)
		}
		if o.Of = math.NaN(); total > 0 {
			o.Of = sum / total
		}
		out[i] = o
	}
	return out
}
