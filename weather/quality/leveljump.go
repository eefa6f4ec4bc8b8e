package quality

import (
	"fmt"
	"math"
	"strings"

	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/portable"
)

const (
	jumpDays  = 365 // days on either side of a jump: whole years, so that seasons cancel
	jumpLeast = 250 // values needed on either side
	jumpKinds = 3
	jumpFar   = 1.6 // times the limit of both temperatures that is enough alone
)

// jumpLimits are changes of a year's mean that weather rarely makes, by the
// kind of instrument: own thresholds, beyond those of the stations of the tests.
var jumpLimits = [...]struct {
	column weather.Column
	kind   int
	most   float64 // difference, or for wind ratio
}{{weather.Tmax, 0, 4.5}, {weather.Tmin, 0, 4.5}, {weather.Tdew, 1, 3.5}, {weather.RHmax, 1, 10}, {weather.RHmin, 1, 10},
	{weather.RHmean, 1, 9}, {weather.Wind, 2, 1.5}}

// levelJumps reports a month at which several columns change their level at
// once, as where two stations are joined.
func (k *checker) levelJumps() {
	type prefix struct {
		sum []float64
		n   []int32
	}
	var of [len(jumpLimits)]prefix
	columns := 0
	for j, l := range jumpLimits {
		v := k.s.Data[l.column]
		if v == nil || k.s.Days < 2*jumpDays {
			continue
		}
		columns++
		p := prefix{make([]float64, len(v)+1), make([]int32, len(v)+1)}
		for i, x := range v {
			p.sum[i+1], p.n[i+1] = p.sum[i], p.n[i]
			if known(x) {
				p.sum[i+1] += x
				p.n[i+1]++
			}
		}
		of[j] = p
	}
	if columns < 2 {
		return
	}
	t := tally{rule: rule{code: weather.CodeLevelJump, whole: true, action: kept, source: ownThreshold,
		what: "the means of the years before and after a month differ in two or more kinds of measurement, or in both temperatures, " +
			"more than weather does: two stations may be joined"}}
	for i := jumpDays; i+jumpDays <= k.s.Days; i++ {
		if _, _, d := k.s.Date(i).YMD(); d != 1 {
			i += cal.DaysIn(int(k.days.year[i]), int(k.days.month[i])) - d
			continue
		}
		var words []string
		badness, far := 0.0, 0
		var kinds [jumpKinds]float64
		for j, l := range jumpLimits {
			p := of[j]
			if p.sum == nil {
				continue
			}
			from, to := max(0, i-jumpDays), min(k.s.Days, i+jumpDays)
			n1, n2 := p.n[i]-p.n[from], p.n[to]-p.n[i]
			if n1 < jumpLeast || n2 < jumpLeast {
				continue
			}
			a, b := (p.sum[i]-p.sum[from])/float64(n1), (p.sum[to]-p.sum[i])/float64(n2)
			size := math.Abs(b-a) / l.most
			if l.column == weather.Wind {
				size = portable.Log(max(a/b, b/a)) / portable.Log(l.most)
			}
			if size > 1 {
				badness += size
				kinds[l.kind] = 1
				if l.kind == 0 && size > jumpFar {
					far++
				}
				words = append(words, fmt.Sprintf("%s %.1f before, %.1f %s after", l.column.Label(), a, b, l.column.Unit()))
			}
		}
		if (kinds[0]+kinds[1]+kinds[2] >= 2 || far == 2) && t.hit(i, badness) {
			t.detail = strings.Join(words, "; ")
		}
	}
	if t.n > 0 {
		t.n = 1 // One jump shows in the months around it.
	}
	k.tell(&t)
}
