package settings

import (
	"math"
	"slices"

	"loamledger/sim/clock"
)

// takes returns the duration of one start of a program at the highest
// percentage, in whole minutes, or the time between starts that replace cycles if
// that is longer.
func (b *maker) takes(program int) float64 {
	var t clock.Timetable
	one := b.starts(program, b.top())
	one[0].AtMin = 0
	if b.site.Limits != nil {
		t.CapacityLMin = b.site.Limits.CapacityLMin
	}
	t.Lay(one[:1])
	return max(math.Ceil(t.Finish()-1e-9), b.gap[b.sheet.Programs[program].Name])
}

// oneAfter moves the starts of programs that share a day so that they run one
// after another, if every program has a single start and no rule is broken.
func (b *maker) oneAfter() {
	s := b.sheet
	var was []int
	begin := clock.Day
	for i := range s.Programs {
		if len(s.Programs[i].Starts) != 1 {
			return
		}
		was = append(was, s.Programs[i].Starts[0])
		if begin > was[i] {
			begin = was[i]
		}
	}
	from, took := make([]float64, len(was)), make([]float64, len(was))
	for i := range s.Programs {
		p := &s.Programs[i]
		took[i] = b.takes(i)
		var busy []clock.Window
		for j := range i {
			if b.shareDay(&p.Days, &s.Programs[j].Days) {
				busy = append(busy, clock.Window{FromMin: from[j], ToMin: from[j] + took[j]})
			}
		}
		from[i] = firstFree(busy, took[i])
		if from[i] >= clock.Day {
			from[i] = 0 // longer than a day: it must queue
		}
		p.Starts = []int{(begin + int(from[i])) % clock.Day}
	}
	over := b.site.Limits != nil && len(b.outside()) > 0
	// A start past midnight would wrap to the early morning of the same day.
	if over || slices.ContainsFunc(from, func(at float64) bool { return begin+int(at) >= clock.Day }) {
		for i := range s.Programs {
			s.Programs[i].Starts[0] = was[i]
		}
	}
}
