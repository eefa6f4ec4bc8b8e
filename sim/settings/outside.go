package settings

import (
	"math"
	"slices"

	"loamledger/sim/clock"
	"loamledger/sim/strategy"
)

// An over is a zone of a program that runs outside a window.
type over struct {
	program, zone int
	fitMin        float64 // minutes at 100% that fit on the worst day
	rule          string
}

// outside lays out the record and returns the runs outside the windows in force.
func (b *maker) outside() []over {
	var out []over
	rules := b.rules()
	b.walk(func(d *day) {
		for _, r := range rules {
			if len(r.Windows) > 0 {
				out = b.outsideOf(out, d, r)
			}
		}
	})
	return out
}

// outsideOf adds the runs of one day outside the windows of one rule.
func (b *maker) outsideOf(out []over, d *day, r *strategy.Rule) []over {
	type run struct{ start, zone int }
	left := map[run]float64{}
	var order []run
	for _, o := range d.table.Openings {
		if b.exempt(o.Zone, r) {
			continue
		}
		k := run{o.Start, o.Zone}
		if _, ok := left[k]; !ok {
			order = append(order, k)
		}
		left[k] += o.ToMin - o.FromMin - clock.Inside(o, r.Windows)
	}
	for _, k := range order {
		if left[k] <= 1e-9 {
			continue
		}
		program := d.owner[k.start]
		fit := b.sheet.Programs[program].Minutes[k.zone] - left[k]/d.share
		i := slices.IndexFunc(out, func(v over) bool { return v.program == program && v.zone == k.zone })
		if i < 0 {
			out = append(out, over{program, k.zone, fit, ruleName(r) + ": outside the watering window"})
		} else {
			out[i].fitMin = min(out[i].fitMin, fit)
		}
	}
	return out
}

// cut shortens run times until everything fits. It first treats every day by
// itself: a day that is far too long delays the next one, whose first zones would
// then be cut because of the last zones of the day before.
func (b *maker) cut() {
	for _, alone := range []bool{true, false} {
		b.alone = alone
		for range 1000 { // each round takes at least a minute from some zone
			list := b.outside()
			if len(list) == 0 {
				break
			}
			for _, o := range list {
				b.shorten(o.program, o.zone, math.Floor(o.fitMin+1e-9), o.rule)
			}
		}
	}
}
