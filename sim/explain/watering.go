package explain

import (
	"fmt"

	"loamledger/sim"
	"loamledger/weather/quantity"
)

// watering shows the day's dose, run by run and strip by strip.
func (w *writer) watering() {
	d, z := &w.m.Dose, &w.m.Zone
	w.step("Watering")
	if d.Minutes == 0 && d.GrossMM == 0 {
		w.line("   none")
		w.leak()
		return
	}
	if w.m.Reference {
		w.line("   the need itself, %s, applied evenly and without loss: all of it enters the soil", w.fineDepth(d.GrossMM))
		return
	}
	if d.Minutes < w.askedMin-0.005 {
		w.line("   site limits allow %s of the %s min requested", w.minutes(d.Minutes), w.minutes(w.askedMin))
	}
	for i, r := range w.m.Runs {
		w.line("   start %d: %s", i+1, w.runWords(r))
	}
	w.line("   gross = minutes x PR / 60 = %s x %s / 60 = %s, in %s", w.minutes(d.Minutes), w.rateNumber(z.PRMMH), w.fineDepth(d.GrossMM),
		quantity.Count(d.Cycles, "cycle", "cycles"))
	w.line("   spray loss = %.1f%% of gross = %s", 100*z.LossShare, w.fineDepth(d.SprayLossMM))
	if extra := d.OversprayMM + d.BrokenMM + d.FillDrainMM; extra > 0 {
		w.line("   overspray %.1f%% = %s, broken heads %.1f%% = %s, filling and draining pipes %s a cycle = %s",
			100*z.OversprayShare, w.fineNumber(d.OversprayMM), 100*z.BrokenShare, w.fineNumber(d.BrokenMM), w.fineNumber(z.FillDrainMM),
			w.fineDepth(d.FillDrainMM))
	}
	w.leak()
	for i, r := range w.m.Runs {
		if i > 0 && r == w.m.Runs[i-1] {
			w.line("   start %d: as start %d", i+1, i)
			continue
		}
		w.surface(i, r)
	}
	w.line("   runoff from the surface, zone average = %s", w.fineDepth(d.RunoffMM))
}

func (w *writer) leak() {
	if leak := w.m.Zone.LeakMMDay; leak > 0 && !w.m.Reference {
		w.line("   leak = %s, whether or not the zone runs; it is metered but reaches no roots", w.fineDepth(leak))
	}
}

// runWords describes the run of a start.
func (w *writer) runWords(r sim.Run) string {
	n := r.Cycles()
	if n <= 1 {
		return fmt.Sprintf("%s min in one cycle", w.minutes(r.Minutes))
	}
	text := fmt.Sprintf("%s min in %d cycles: %d of %s min", w.minutes(r.Minutes), n, n-1, w.minutes(r.CycleMin))
	return fmt.Sprintf("%s and one of %s min, with %.0f min soaks between them", text, w.minutes(lastCycle(r)), r.SoakMin)
}

func lastCycle(r sim.Run) float64 {
	return r.Minutes - float64(float64(max(r.Cycles()-1, 0))*r.CycleMin)
}

// surface follows one start on every strip.
func (w *writer) surface(i int, r sim.Run) {
	z := &w.m.Zone
	in := make([]float64, z.Strips)
	d := z.Dose([]sim.Run{r}, w.m.Shares, in)
	if d.Minutes == 0 {
		return
	}
	net := (d.GrossMM - d.SprayLossMM - d.OversprayMM - d.BrokenMM - d.FillDrainMM) * 60 / d.Minutes
	w.line("   start %d: mean rate at the ground = (gross - losses) x 60 / minutes = %s; rate of a strip = share x mean rate", i+1,
		w.fineRate(net))
	if net*w.m.Shares[len(w.m.Shares)-1] <= z.IntakeMMH {
		w.line("   no strip is watered faster than the intake rate: infiltrated = rate x minutes / 60")
		w.line("   %5s %6s %8s %9s", "strip", "share", "rate", "infiltr.")
		for k, share := range w.m.Shares {
			w.line("   %5d %6s %8s %9s", k+1, w.factor(share, 3), w.fineRateNumber(net*share), w.fineNumber(in[k]))
		}
		return
	}
	cycle, last, head := r.Minutes, "", ""
	if r.Cycles() > 1 {
		cycle, head = r.CycleMin, fmt.Sprintf(" %9s", "last")
		last = fmt.Sprintf("; in the last cycle (rate - IR) x %s / 60", w.minutes(lastCycle(r)))
	}
	w.line("   in a cycle the water on the surface grows by (rate - IR) x %s / 60, IR = %s%s", w.minutes(cycle), w.rate(z.IntakeMMH), last)
	w.line("   anything above ASA = %s runs off%s", w.depth(z.SurfaceStorageMM), w.soak(r))
	w.line("   %5s %6s %8s %9s%s %8s %9s", "strip", "share", "rate", "growth", head, "runoff", "infiltr.")
	for k, share := range w.m.Shares {
		rate := float64(net * share)
		grow := max(rate-z.IntakeMMH, 0) / 60
		cell := ""
		if head != "" {
			cell = fmt.Sprintf(" %9s", w.fineNumber(grow*lastCycle(r)))
		}
		w.line("   %5d %6s %8s %9s%s %8s %9s", k+1, w.factor(share, 3), w.fineRateNumber(rate), w.fineNumber(grow*cycle), cell,
			w.fineNumber(max(rate*r.Minutes/60-in[k], 0)), w.fineNumber(in[k]))
	}
}

// soak describes the effect of a soak.
func (w *writer) soak(r sim.Run) string {
	if r.Cycles() <= 1 {
		return "; the rest soaks in"
	}
	return fmt.Sprintf("; a soak takes in IR x %.0f / 60 = %s, at most what is there; the rest soaks in after the last cycle", r.SoakMin,
		w.fineDepth(w.m.Zone.IntakeMMH*r.SoakMin/60))
}
