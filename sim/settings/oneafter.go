package settings

import (
	"math"

	"loamledger/sim/clock"
)

// pass returns the duration of one start of a program at the highest percentage, in
// whole minutes.
func (b *maker) pass(program int) float64 {
	t := clock.Timetable{Wiring: b.site.Wiring}
	one := b.starts(program, b.top())
	one[0].AtMin = 0
	t.Lay(one[:1])
	return math.Ceil(t.Finish() - 1e-9)
}

// takes returns the time from one start of a program to the next: the duration of a
// start, or the time between starts that replace cycles if that is longer.
func (b *maker) takes(program int) float64 {
	return max(b.pass(program), b.gap[b.sheet.Programs[program].Name])
}

// oneAfter moves the starts of programs that share a day so that none begins while
// another runs, if every program has a single start, or starts that replace cycles,
// and no rule is broken.
func (b *maker) oneAfter() {
	s := b.sheet
	var was [][]int
	begin := clock.Day
	for i := range s.Programs {
		p := &s.Programs[i]
		if len(p.Starts) != 1 && b.gap[p.Name] == 0 {
			return
		}
		was = append(was, p.Starts)
		begin = min(begin, p.Starts[0])
	}
	runs := make([][]clock.Window, len(was)) // of each program, after begin
	late := false
	for i := range s.Programs {
		p := &s.Programs[i]
		var busy []clock.Window
		for j := range i {
			if b.shareDay(&p.Days, &s.Programs[j].Days) {
				busy = append(busy, runs[j]...)
			}
		}
		each := b.pass(i)
		at := 0
		for ; at < clock.Day; at++ {
			if runs[i] = seriesFrom(was[i], at, each); !overlaps(runs[i], busy) {
				break
			}
		}
		if at == clock.Day {
			at = 0 // longer than a day: it must queue
			runs[i] = seriesFrom(was[i], at, each)
		}
		p.Starts = nil
		for _, w := range runs[i] {
			late = late || begin+int(w.FromMin) >= clock.Day
			p.Starts = append(p.Starts, (begin+int(w.FromMin))%clock.Day)
		}
	}
	over := b.site.Limits != nil && len(b.outside()) > 0
	// A start past midnight would wrap to the early morning of the same day.
	if over || late {
		for i := range s.Programs {
			s.Programs[i].Starts = was[i]
		}
	}
}

// seriesFrom returns the runs of a program whose first start is moved to minute at and
// whose others keep their distance from it.
func seriesFrom(starts []int, at int, each float64) (out []clock.Window) {
	for _, t := range starts {
		from := float64(at + t - starts[0])
		out = append(out, clock.Window{FromMin: from, ToMin: from + each})
	}
	return out
}

// overlaps reports whether any run overlaps a busy stretch.
func overlaps(runs, busy []clock.Window) bool {
	for _, r := range runs {
		for _, w := range busy {
			if w.FromMin < r.ToMin && w.ToMin > r.FromMin {
				return true
			}
		}
	}
	return false
}
