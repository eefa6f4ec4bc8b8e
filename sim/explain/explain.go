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
	// Notes are sentences about the state of the zone on the day, such as new plants.
	Notes []string
}

// Text returns the day of m in words and numbers, in the units of system sys.
func Text(m *replay.Moment, g Ground, sys quantity.System) string {
	w := &writer{m: m, ground: g, sys: sys}
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
	fmt.Fprintf(&w.b, format, args...)
	w.b.WriteByte('\n')
}

func (w *writer) step(title string) {
	w.n++
	w.line("\n%d. %s", w.n, title)
}

func (w *writer) head() {
	r := &w.m.Row
	w.line("%v, zone %q, strategy %q", r.Date, r.Zone, r.Strategy)
	if w.m.Changed {
		w.line("A change of the zone begins on this day: the irrigated area is %s, the rate %s.",
			quantity.Format(r.AreaM2, quantity.Area, w.sys), quantity.Format(r.RateMMH, quantity.Rate, w.sys))
		w.line("It changes depletion by %s: deeper roots reach soil at field capacity, shorter ones leave their share behind, and soil that "+
			"holds more or less keeps its water.", w.fineDepth(r.SoilChangeMM))
	}
	for _, text := range w.ground.Notes {
		w.line("%s", text)
	}
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
		w.line("   the zone is a plain store of %s; plants fall short when it is empty", w.depth(z.TAWMM))
		w.season()
		w.line("   ETc = K x ETo = %s x %s = %s  [eq. 58]", kText(r.K), w.depthNumber(r.EToMM), w.depth(d.ETcMM))
		return
	}
	w.available()
	w.season()
	w.line("   ETc = K x ETo = %s x %s = %s  [eq. 58]", kText(r.K), w.depthNumber(r.EToMM), w.depth(d.ETcMM))
	p := d.RAWMM / z.TAWMM
	if z.PConstant {
		w.line("   p = %s, constant", w.factor(p, 3))
	} else {
		w.line("   p = %s + 0.04 x (5 - %s) = %s, limited to 0.1..0.8  [chapter 8, below eq. 83]", w.factor(w.m.Planted.P, 2),
			w.inMillimeters(d.ETcMM), w.factor(p, 3))
	}
	w.line("   RAW = p x TAW = %s x %s = %s  [eq. 83]", w.factor(p, 3), w.depthNumber(z.TAWMM), w.depth(d.RAWMM))
}

// available shows how the total available water was calculated.
func (w *writer) available() {
	taw, g := w.m.Zone.TAWMM, w.ground
	if !(g.AWCMMPerM > 0 && g.RootDepthM > 0) {
		w.line("   TAW = %s, available water times root depth  [eq. 82]", w.depth(taw))
		return
	}
	if w.sys == quantity.US {
		w.line("   TAW = AWC x root depth = %.4g in/ft x %.4g in / 12 = %s  [eq. 82]", quantity.Convert(g.AWCMMPerM, quantity.Capacity, w.sys),
			1000*g.RootDepthM/quantity.InchMM, w.depth(taw))
		return
	}
	w.line("   TAW = AWC x root depth = %.5g mm/m x %.5g m = %s  [eq. 82]", g.AWCMMPerM, g.RootDepthM, w.depth(taw))
}

func (w *writer) rain() {
	r, z := &w.m.Row, &w.m.Zone
	w.step("Rain")
	switch {
	case r.RainMM == 0:
		w.line("   none")
	case r.RainEvapMM > 0:
		w.line("   %s is below 0.2 x ETo = %s and evaporates  [chapter 8]", w.depth(r.RainMM), w.depth(0.2*r.EToMM))
	case z.Rain.Method == sim.FixedShare:
		w.line("   %.0f%% of %s enters the soil: %s; the rest, %s, runs off",
			100*z.Rain.EffectiveShare, w.depth(r.RainMM), w.depth(w.m.Day.RainInMM), w.depth(r.RainRunoffMM))
	default:
		w.curveNumber()
		w.line("   enters the soil: %s", w.depth(w.m.Day.RainInMM))
	}
}

// curveNumber shows the runoff of rain, which depends on the storage S of the soil.
func (w *writer) curveNumber() {
	r, cn := &w.m.Row, w.m.Zone.Rain.CN
	const a, b = 1000 * quantity.InchMM, 10 * quantity.InchMM // 1000 and 10 in in the source
	s := a/cn - b
	over, less := w.wholeNumber(a), w.wholeNumber(b)
	w.line("   S = %s/CN - %s = %s/%.0f - %s = %s; 0.2 S = %s  [NRCS TR-55 eq. 2-2, 2-4]", over, less, over, cn, less, w.storage(s),
		w.storage(0.2*s))
	if r.RainRunoffMM == 0 {
		w.line("   P = %s does not exceed 0.2 S: no runoff", w.depth(r.RainMM))
		return
	}
	w.line("   runoff = (P - 0.2 S)^2/(P + 0.8 S) = (%s - %s)^2/(%s + %s) = %s  [TR-55 eq. 2-3]", w.depthNumber(r.RainMM),
		w.depthNumber(0.2*s), w.depthNumber(r.RainMM), w.depthNumber(0.8*s), w.depth(r.RainRunoffMM))
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
	w.step("The store, in " + w.depthUnits() + ": the day's water and plant use are netted before limits apply")
	w.line("   depletion + ETc - watering - rain = %s + %s - %s - %s = %s", w.fineNumber(before), w.fineNumber(r.ETcMM), w.fineNumber(in),
		w.fineNumber(rain), w.fineNumber(before+r.ETcMM-in-rain))
	w.line("   anything below 0 percolates, watering before rain: %s + %s; shortage, anything above %s: %s", w.fineNumber(r.PercIrrMM),
		w.fineNumber(r.PercRainMM), w.depthNumber(m.Zone.TAWMM), w.fineNumber(r.ETcMM-r.ETaMM))
	w.line("   ETa = ETc - shortage = %s;  depletion at night %s", w.fineNumber(r.ETaMM), w.fineNumber(r.DepletionMM))
}

func stripWords(n int) string {
	return quantity.Count(n, "strip: the zone is watered evenly", "strips of equal area, least watered first")
}

func (w *writer) strips() {
	m := w.m
	w.step(fmt.Sprintf("The soil, strip by strip (%s), all in %s", stripWords(m.Zone.Strips), w.depthUnits()))
	w.line("   Dr - watering, then - rain; anything below 0 percolates  [eq. 85, 88, early order of example 38]")
	w.line("   Ks = (TAW - Dr)/((1 - p) TAW) if Dr > RAW, else 1  [eq. 84];  ETa = Ks x ETc, at most TAW - Dr  [eq. 81]")
	w.line("   %5s %6s %8s %8s %8s %8s %6s %8s %8s", "strip", "share", "Dr dawn", "watering", "percol.", "Dr day", "Ks", "ETa", "Dr night")
	for i, before := range m.MorningMM {
		after, f := sim.Step(before, m.Zone.TAWMM, &m.Day, m.InfiltMM[i])
		w.line("   %5d %6s %8s %8s %8s %8s %6s %8s %8s", i+1, w.factor(m.Shares[i], 3), w.fineNumber(before), w.fineNumber(m.InfiltMM[i]),
			w.fineNumber(f.PercIrrMM+f.PercRainMM), w.fineNumber(f.OpenMM), w.factor(f.Ks, 3), w.fineNumber(f.ETaMM), w.fineNumber(after))
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
		w.line("   depletion before limits apply = %s; the store = %s: %s", w.fineDepth(r.LowQuarterMM), w.fineDepth(r.TAWMM), stress)
	} else {
		w.line("   low-quarter depletion after watering and rain = %s; RAW = %s: %s", w.fineDepth(r.LowQuarterMM), w.fineDepth(r.RAWMM), stress)
	}
	w.line("   in:  watering %s + rain %s = %s", w.fineNumber(r.GrossMM), w.fineNumber(r.RainMM), w.fineDepth(r.GrossMM+r.RainMM))
	losses := r.SprayLossMM + r.OversprayMM + r.BrokenMM + r.FillDrainMM + r.LeakMM
	out := losses + r.IrrRunoffMM + r.RainRunoffMM + r.RainEvapMM + r.PercIrrMM + r.PercRainMM + r.ETaMM
	w.line("   out: spray and other losses %s + irrigation runoff %s + rain runoff %s + evaporated %s + percolation %s + ETa %s = %s",
		w.fineNumber(losses), w.fineNumber(r.IrrRunoffMM), w.fineNumber(r.RainRunoffMM), w.fineNumber(r.RainEvapMM),
		w.fineNumber(r.PercIrrMM+r.PercRainMM), w.fineNumber(r.ETaMM), w.fineDepth(out))
	w.line("   into the soil: depletion %s - %s = %s", w.fineNumber(before), w.fineNumber(r.DepletionMM), w.fineDepth(before-r.DepletionMM))
	rest := r.GrossMM + r.RainMM - out - (before - r.DepletionMM)
	w.line("   in - out - into the soil = %.1e %s", quantity.Convert(rest, quantity.Depth, w.sys), w.depthUnit())
}
