// Package explain writes one day of one zone as arithmetic that a person can
// check with a pocket calculator, with the equation for each step.
//
// Equation numbers are those of FAO Irrigation and Drainage Paper 56 (Allen,
// Pereira, Raes and Smith, 1998).
package explain

import (
	"fmt"
	"strings"

	"loamledger/sim"
	"loamledger/sim/replay"
	"loamledger/weather/quantity"
)

// A Ground is the soil and root data behind a zone's total available water. The
// zero Ground is unknown.
type Ground struct {
	AWCMMPerM  float64 // available water capacity [mm/m]
	RootDepthM float64 // [m]
}

// Text returns the day of m in words and numbers, in the units of system sys.
func Text(m *replay.Moment, g Ground, sys quantity.System) string {
	w := &writer{m: m, ground: g, sys: sys}
	if sys == quantity.US {
		w.m = inInches(m)
	}
	w.head()
	w.demand()
	w.decision()
	w.watering()
	w.rain()
	w.soil()
	w.week()
	w.close()
	return w.b.String()
}

type writer struct {
	b   strings.Builder
	m   *replay.Moment
	sys quantity.System
	n   int // number of the last step

	ground   Ground
	askedMin float64 // minutes that the strategy requested
}

func (w *writer) line(format string, args ...any) {
	fmt.Fprintf(&w.b, w.say(format), args...)
	w.b.WriteByte('\n')
}

func (w *writer) step(title string) {
	w.n++
	w.line("\n%d. %s", w.n, title)
}

func (w *writer) head() {
	r := &w.m.Row
	w.line("%v, zone %q, strategy %q", r.Date, r.Zone, r.Strategy)
	if w.m.SpinUpDays > 0 {
		w.line("The replay began %d days before the record with a full root zone (spin-up).", w.m.SpinUpDays)
	}
	if w.m.FullStart {
		w.line("The record is shorter than %d days: the replay began on its first day with a full root zone (no spin-up).",
			replay.SpinUpDays)
	}
}

func (w *writer) demand() {
	r, z, d := &w.m.Row, &w.m.Zone, &w.m.Day
	w.step("Plant water use, and depletion at which stress begins")
	if z.WorkingStorage {
		w.line("   the zone is a plain store of %.2f mm; plants fall short when it is empty", z.TAWMM)
		w.season()
		w.line("   ETc = K x ETo = %s x %.2f = %.2f mm  [eq. 58]", kText(r.K), r.EToMM, d.ETcMM)
		return
	}
	w.available()
	w.season()
	w.line("   ETc = K x ETo = %s x %.2f = %.2f mm  [eq. 58]", kText(r.K), r.EToMM, d.ETcMM)
	p := d.RAWMM / z.TAWMM
	if z.PConstant {
		w.line("   p = %.3f, constant", p)
	} else {
		if w.sys == quantity.US {
			w.line("   p = %.2f + 0.04 x (5 - 25.4 x %.2f) = %.3f, limited to 0.1..0.8  [chapter 8, below eq. 83]", w.m.Planted.P, d.ETcMM, p)
		} else {
			w.line("   p = %.2f + 0.04 x (5 - %.2f) = %.3f, limited to 0.1..0.8  [chapter 8, below eq. 83]", w.m.Planted.P, d.ETcMM, p)
		}
	}
	w.line("   RAW = p x TAW = %.3f x %.2f = %.2f mm  [eq. 83]", p, z.TAWMM, d.RAWMM)
}

// available shows how the total available water was calculated.
func (w *writer) available() {
	taw, g := w.m.Zone.TAWMM, w.ground
	if !(g.AWCMMPerM > 0 && g.RootDepthM > 0) {
		w.line("   TAW = %.2f mm, available water times root depth  [eq. 82]", taw)
		return
	}
	if w.sys == quantity.US {
		w.line("   TAW = AWC x root depth = %.4g in/ft x %.4g in / 12 = %.2f in  [eq. 82]", quantity.Convert(g.AWCMMPerM, quantity.Capacity, w.sys),
			1000*g.RootDepthM/quantity.InchMM, taw)
		return
	}
	w.line("   TAW = AWC x root depth = %.5g mm/m x %.5g m = %.2f mm  [eq. 82]", g.AWCMMPerM, g.RootDepthM, taw)
}

func (w *writer) rain() {
	r, z := &w.m.Row, &w.m.Zone
	w.step("Rain")
	switch {
	case r.RainMM == 0:
		w.line("   none")
	case r.RainEvapMM > 0:
		w.line("   %.2f mm is below 0.2 x ETo = %.2f mm and evaporates  [chapter 8]", r.RainMM, 0.2*r.EToMM)
	case z.Rain.Method == sim.FixedShare:
		w.line("   %.0f%% of %.2f mm enters the soil: %.2f mm; the rest, %.2f mm, runs off",
			100*z.Rain.EffectiveShare, r.RainMM, w.m.Day.RainInMM, r.RainRunoffMM)
	default:
		a, b := 25400.0, 254.0
		if w.sys == quantity.US {
			a, b = 1000, 10
		}
		s := a/z.Rain.CN - b
		w.line("   S = %.0f/CN - %.0f = %.0f/%.0f - %.0f = %.1f mm; 0.2 S = %.1f mm  [NRCS TR-55 eq. 2-2, 2-4]", a, b, a, z.Rain.CN, b, s, 0.2*s)
		if r.RainRunoffMM > 0 {
			w.line("   runoff = (P - 0.2 S)^2/(P + 0.8 S) = (%.2f - %.2f)^2/(%.2f + %.2f) = %.2f mm  [TR-55 eq. 2-3]", r.RainMM, 0.2*s, r.RainMM,
				0.8*s, r.RainRunoffMM)
		} else {
			w.line("   P = %.2f mm does not exceed 0.2 S: no runoff", r.RainMM)
		}
		w.line("   enters the soil: %.2f mm", w.m.Day.RainInMM)
	}
}

// soil follows the water in the soil.
func (w *writer) soil() {
	if w.m.Zone.WorkingStorage {
		w.store()
		return
	}
	w.strips()
}

func (w *writer) store() {
	m, r := w.m, &w.m.Row
	before, in, rain := m.MorningMM[0], m.InfiltMM[0], m.Day.RainInMM
	w.step(w.say("The store, in mm: the day's water and plant use are netted before limits apply"))
	w.line("   depletion + ETc - watering - rain = %.3f + %.3f - %.3f - %.3f = %.3f", before, r.ETcMM, in, rain, before+r.ETcMM-in-rain)
	w.line("   anything below 0 percolates, watering before rain: %.3f + %.3f; shortage, anything above %.2f: %.3f", r.PercIrrMM, r.PercRainMM,
		m.Zone.TAWMM, r.ETcMM-r.ETaMM)
	w.line("   ETa = ETc - shortage = %.3f;  depletion at night %.3f", r.ETaMM, r.DepletionMM)
}

func stripWords(n int) string {
	return quantity.Count(n, "strip: the zone is watered evenly", "strips of equal area, least watered first")
}

func (w *writer) strips() {
	m := w.m
	w.step(fmt.Sprintf(w.say("The soil, strip by strip (%s), all in mm"), stripWords(m.Zone.Strips)))
	w.line("   Dr - watering, then - rain; anything below 0 percolates  [eq. 85, 88, early order of example 38]")
	w.line("   Ks = (TAW - Dr)/((1 - p) TAW) if Dr > RAW, else 1  [eq. 84];  ETa = Ks x ETc, at most TAW - Dr  [eq. 81]")
	w.line("   %5s %6s %8s %8s %8s %8s %6s %8s %8s", "strip", "share", "Dr dawn", "watering", "percol.", "Dr day", "Ks", "ETa", "Dr night")
	for i, before := range m.MorningMM {
		after, f := sim.Step(before, m.Zone.TAWMM, &m.Day, m.InfiltMM[i])
		w.line("   %5d %6.3f %8.3f %8.3f %8.3f %8.3f %6.3f %8.3f %8.3f", i+1, m.Shares[i], before, m.InfiltMM[i], f.PercIrrMM+f.PercRainMM,
			f.OpenMM, f.Ks, f.ETaMM, after)
	}
}

func (w *writer) close() {
	m, r := w.m, &w.m.Row
	before := 0.0
	for _, d := range m.MorningMM {
		before += d / float64(len(m.MorningMM))
	}
	w.step("The day's ledger, means over the zone")
	stress := "not past RAW"
	if r.PastRAW {
		stress = "a day past RAW"
	}
	if m.Zone.WorkingStorage {
		w.line("   depletion before limits apply = %.3f mm; the store = %.3f mm: %s", r.LowQuarterMM, r.TAWMM, stress)
	} else {
		w.line("   low-quarter depletion after watering and rain = %.3f mm; RAW = %.3f mm: %s", r.LowQuarterMM, r.RAWMM, stress)
	}
	w.line("   in:  watering %.3f + rain %.3f = %.3f mm", r.GrossMM, r.RainMM, r.GrossMM+r.RainMM)
	losses := r.SprayLossMM + r.OversprayMM + r.BrokenMM + r.FillDrainMM + r.LeakMM
	out := losses + r.IrrRunoffMM + r.RainRunoffMM + r.RainEvapMM + r.PercIrrMM + r.PercRainMM + r.ETaMM
	w.line("   out: spray and other losses %.3f + irrigation runoff %.3f + rain runoff %.3f + evaporated %.3f + "+
		"percolation %.3f + ETa %.3f = %.3f mm",
		losses, r.IrrRunoffMM, r.RainRunoffMM, r.RainEvapMM, r.PercIrrMM+r.PercRainMM, r.ETaMM, out)
	w.line("   into the soil: depletion %.3f - %.3f = %.3f mm", before, r.DepletionMM, before-r.DepletionMM)
	w.line("   in - out - into the soil = %.1e mm", r.GrossMM+r.RainMM-out-(before-r.DepletionMM))
}
