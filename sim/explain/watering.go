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
		w.line("   the need itself, %.3f mm, applied evenly and without loss: all of it enters the soil", d.GrossMM)
		return
	}
	if d.Minutes < w.askedMin-0.005 {
		w.line("   site limits allow %.2f of the %.2f min requested", d.Minutes, w.askedMin)
	}
	for i, r := range w.m.Runs {
		w.line("   start %d: %s", i+1, runWords(r))
	}
	w.line("   gross = minutes x PR / 60 = %.2f x %.2f / 60 = %.3f mm, in %s", d.Minutes, z.PRMMH, d.GrossMM,
		quantity.Count(d.Cycles, "cycle", "cycles"))
	w.line("   spray loss = %.1f%% of gross = %.3f mm", 100*z.LossShare, d.SprayLossMM)
	if extra := d.OversprayMM + d.BrokenMM + d.FillDrainMM; extra > 0 {
		w.line("   overspray %.1f%% = %.3f, broken heads %.1f%% = %.3f, filling and draining pipes %.3f a cycle = %.3f mm",
			100*z.OversprayShare, d.OversprayMM, 100*z.BrokenShare, d.BrokenMM, z.FillDrainMM, d.FillDrainMM)
	}
	w.leak()
	for i, r := range w.m.Runs {
		if i > 0 && r == w.m.Runs[i-1] {
			w.line("   start %d: as start %d", i+1, i)
			continue
		}
		w.surface(i, r)
	}
	w.line("   runoff from the surface, zone average = %.3f mm", d.RunoffMM)
}

func (w *writer) leak() {
	if leak := w.m.Zone.LeakMMDay; leak > 0 && !w.m.Reference {
		w.line("   leak = %.3f mm, whether or not the zone runs; it is metered but reaches no roots", leak)
	}
}

// runWords describes the run of a start.
func runWords(r sim.Run) string {
	n := r.Cycles()
	if n <= 1 {
		return fmt.Sprintf("%.2f min in one cycle", r.Minutes)
	}
	text := fmt.Sprintf("%.2f min in %d cycles: %d of %.2f min", r.Minutes, n, n-1, r.CycleMin)
	return fmt.Sprintf("%s and one of %.2f min, with %.0f min soaks between them", text, lastCycle(r), r.SoakMin)
}

func lastCycle(r sim.Run) float64 { return r.Minutes - float64(max(r.Cycles()-1, 0))*r.CycleMin }

// surface follows one start on every strip.
func (w *writer) surface(i int, r sim.Run) {
	z := &w.m.Zone
	in := make([]float64, z.Strips)
	d := z.Dose([]sim.Run{r}, w.m.Shares, in)
	if d.Minutes == 0 {
		return
	}
	net := (d.GrossMM - d.SprayLossMM - d.OversprayMM - d.BrokenMM - d.FillDrainMM) * 60 / d.Minutes
	w.line("   start %d: mean rate at the ground = (gross - losses) x 60 / minutes = %.3f mm/h; rate of a strip = share x mean rate", i+1, net)
	if net*w.m.Shares[len(w.m.Shares)-1] <= z.IntakeMMH {
		w.line("   no strip is watered faster than the intake rate: infiltrated = rate x minutes / 60")
		w.line("   %5s %6s %8s %9s", "strip", "share", "rate", "infiltr.")
		for k, share := range w.m.Shares {
			w.line("   %5d %6.3f %8.3f %9.3f", k+1, share, net*share, in[k])
		}
		return
	}
	cycle, last, head := r.Minutes, "", ""
	if r.Cycles() > 1 {
		cycle, head = r.CycleMin, fmt.Sprintf(" %9s", "last")
		last = fmt.Sprintf("; in the last cycle (rate - IR) x %.2f / 60", lastCycle(r))
	}
	w.line("   in a cycle the water on the surface grows by (rate - IR) x %.2f / 60, IR = %.2f mm/h%s", cycle, z.IntakeMMH, last)
	w.line("   anything above ASA = %.2f mm runs off%s", z.SurfaceStorageMM, w.soak(r))
	w.line("   %5s %6s %8s %9s%s %8s %9s", "strip", "share", "rate", "growth", head, "runoff", "infiltr.")
	for k, share := range w.m.Shares {
		rate := net * share
		grow := max(rate-z.IntakeMMH, 0) / 60
		cell := ""
		if head != "" {
			cell = fmt.Sprintf(" %9.3f", grow*lastCycle(r))
		}
		w.line("   %5d %6.3f %8.3f %9.3f%s %8.3f %9.3f", k+1, share, rate, grow*cycle, cell, max(rate*r.Minutes/60-in[k], 0), in[k])
	}
}

// soak describes the effect of a soak.
func (w *writer) soak(r sim.Run) string {
	if r.Cycles() <= 1 {
		return "; the rest soaks in"
	}
	return fmt.Sprintf(w.say("; a soak takes in IR x %.0f / 60 = %.3f mm, at most what is there; the rest soaks in after the last cycle"), r.SoakMin,
		w.m.Zone.IntakeMMH*r.SoakMin/60)
}
