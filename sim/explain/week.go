package explain

import (
	"fmt"
	"math"
	"strings"

	"loamledger/sim"
	"loamledger/weather/quantity"
)

// season shows the coefficient of the day and whether the plant is active.
func (w *writer) season() {
	p, r := &w.m.Planted, &w.m.Row
	if p.Overseeded {
		o := w.m.Zone.Overseed
		w.line("   the overseeded plant grows from %s to %s", dayText(o.From), dayText(o.To))
	}
	s := p.Season
	switch {
	case s == nil:
		w.line("   K = %.3f does not follow temperature", r.K)
	case !w.m.TempsKnown:
		w.line("   K = %.3f: the record has no temperatures to follow", r.K)
	default:
		t30, t0, t1 := w.degrees(w.m.T30C), w.degrees(s.T0C), w.degrees(s.T1C)
		w.line("   T30 = mean of (Tmax + Tmin)/2 over the 30 days before = %s °%s", t30, quantity.UnitName(quantity.Temperature, w.sys))
		w.line("   activity a = (T30 - T0)/(T1 - T0) = (%s - %s)/(%s - %s) = %.3f, limited to 0..1", t30, t0, t1, t0, r.Activity)
		if s.ActivityOnly {
			w.line("   K = %.3f does not follow temperature", r.K)
		} else {
			w.line("   K = Kd + a (Ka - Kd) = %.3f + %.3f x (%.3f - %.3f) = %.3f", s.Kd, r.Activity, s.Ka, s.Kd, r.K)
		}
	}
	switch {
	case p.Active:
	case s == nil || !w.m.TempsKnown:
		w.line("   K is 0: the plant is not active, and no stress is counted")
	default:
		w.line("   the plant is dormant: seven days in a row had a below 0.1, and none since had a of 0.1 or more for as long")
	}
}

func dayText(d sim.DayOfYear) string { return fmt.Sprintf("%02d-%02d", d.Month, d.Day) }

// week shows the last seven days as the arithmetic of R7, and the verdict.
func (w *writer) week() {
	r, p, week := &w.m.Row, &w.m.Planted, w.m.Week
	w.step(fmt.Sprintf("Stress: what plants got of their need in the last %s", quantity.Count(len(week), "day", "days")))
	if len(week) < sim.R7Days {
		w.line("   the record has no more days yet")
	}
	w.line("   %10s %8s %9s %9s", "", "ETc", "ETa zone", "quarter")
	etc, zone, quarter := 0.0, 0.0, 0.0
	for i := range week {
		d := &week[i]
		etc, zone, quarter = etc+d.ETcMM, zone+d.ETcMM-d.ShortMM, quarter+d.ETcMM-d.LowShortMM
		w.line("   %10v %8s %9s %9s", d.Date, w.fineNumber(d.ETcMM), w.fineNumber(d.ETcMM-d.ShortMM), w.fineNumber(d.ETcMM-d.LowShortMM))
	}
	w.line("   %10s %8s %9s %9s", "sum", w.fineNumber(etc), w.fineNumber(zone), w.fineNumber(quarter))
	if !r.HasR7 {
		w.line("   the sum of ETc is below %s: no R7, and no stress", w.leastWeek())
		return
	}
	w.line("   R7 zone    = %s / %s = %.3f", w.fineNumber(zone), w.fineNumber(etc), r.R7Zone)
	w.line("   R7 quarter = %s / %s = %.3f, in the quarter of the zone that gets the least water", w.fineNumber(quarter), w.fineNumber(etc),
		r.R7Quarter)
	w.line("   stress below %.2f, the plant's tolerance; browning below %.2f", p.Tolerance, p.Browning)
	if !p.Active {
		w.line("   the plant is not active: neither is counted")
		return
	}
	w.line("   whole zone: %s; driest quarter: %s", verdict(r.StressZone, r.BrownZone), verdict(r.StressQuarter, r.BrownQuarter))
}

// leastWeek writes the water use of a week below which it is not graded, a whole
// number of millimeters.
func (w *writer) leastWeek() string {
	if w.sys == quantity.US {
		return w.depth(sim.LeastWeekMM)
	}
	return w.wholeNumber(sim.LeastWeekMM) + " " + w.depthUnit()
}

// verdict puts the two grades of stress in words.
func verdict(stress, brown bool) string {
	var words []string
	if stress {
		words = append(words, "a stress day")
	}
	if brown {
		words = append(words, "a browning day")
	}
	if len(words) == 0 {
		return "no stress"
	}
	return strings.Join(words, " and ")
}

// kText writes a coefficient with two decimals, or three if it has more.
func kText(k float64) string {
	if math.Abs(float64(100*k)-math.Round(100*k)) < 1e-9 {
		return fmt.Sprintf("%.2f", k)
	}
	return fmt.Sprintf("%.3f", k)
}
