package explain

import (
	"fmt"

	"loamledger/sim"
	"loamledger/sim/strategy"
	"loamledger/weather/quantity"
)

// because explains each reason.
var because = [sim.Reasons]string{
	sim.NotScheduled:   "no program runs on this day",
	sim.Watered:        "a program ran",
	sim.Refilled:       "the strategy's own water balance reached its trigger",
	sim.NotDue:         "the strategy's own water balance called for no water",
	sim.ScaledToZero:   "the day's percentage left no run time",
	sim.RainHold:       "watering was held after rain",
	sim.FrostHold:      "watering was held for frost: yesterday's low was below the threshold",
	sim.WindHold:       "watering was held for wind: yesterday's wind was above the threshold",
	sim.ForecastHold:   "watering was held for forecast rain",
	sim.SensorWet:      "the soil sensor read too wet and blocked the valve",
	sim.Suspended:      "watering is suspended or out of season",
	sim.NotAllowed:     "site limits forbid watering on this day",
	sim.NoRoom:         "the run did not fit the watering window",
	sim.ForesightDaily: "reference: just enough to keep depletion from exceeding RAW today, known in advance",
}

// decision shows what the strategy saw and requested.
func (w *writer) decision() {
	w.step("The decision, made before dawn from yesterday's data")
	m := w.m
	w.line("   %v: %s.", m.Row.Reason, because[m.Row.Reason])
	if m.Level > 0 {
		w.line("   a person who saw stress has raised run times %s", quantity.Count(m.Level, "time", "times"))
	}
	if m.Reference {
		w.reference()
		return
	}
	if own := m.Seen.Refill; own != nil {
		w.own(own)
	}
	for i := range m.Seen.Asked {
		w.asked(&m.Seen.Asked[i])
	}
	for _, r := range m.Readings {
		verdict := "dry enough, watering is permitted"
		if r.ReadingMM < r.PermitAtMM {
			verdict = "too wet, watering is not permitted"
		}
		w.line("   soil sensor in %q: Dr of its strips %s, today's error %s: reads %s; set point %s: %s", r.Zone,
			w.fineNumber(r.ReadingMM-r.ErrorMM), w.signed(r.ErrorMM), w.fineDepth(r.ReadingMM), w.fineDepth(r.PermitAtMM), verdict)
	}
}

// own shows the strategy's own water balance.
func (w *writer) own(o *strategy.Own) {
	f := &w.m.Seen
	w.line("   the strategy's own depletion at dawn = %s; it waters at %s or more", w.fineDepth(o.DepletionMM), w.fineDepth(o.TriggerMM))
	if w.m.Row.Reason != sim.Refilled {
		return
	}
	per := w.minutesFor(o.PerMM)
	w.line("   minutes for 1 %s = 60 x multiplier / (PR x (1 - loss)) = 60 x %.4f / (%s x (1 - %s)) = %.4f", w.depthUnit(), o.Multiplier,
		w.rateNumber(o.PRMMH), w.factor(w.m.Zone.LossShare, 3), per)
	minutes := o.DepletionMM * o.Share * o.PerMM * f.Factor
	w.line("   minutes = own depletion x share x minutes for 1 %s x percentages = %s x %s x %.4f x %s = %s%s", w.depthUnit(),
		w.fineNumber(o.DepletionMM), w.factor(o.Share, 2), per, w.factor(f.Factor, 3), w.minutes(minutes), w.rounded(minutes))
}

// asked shows one start of a program.
func (w *writer) asked(a *strategy.Asked) {
	name := fmt.Sprintf("program %q, start %02d:%02d", a.Program, a.StartMin/60, a.StartMin%60)
	if a.ByHand {
		w.line("   %s: %s min set by hand; percentages do not apply", name, w.minutes(a.Run.Minutes))
		w.askedMin += a.Run.Minutes
		return
	}
	factor := a.Factor * w.m.Seen.Factor
	w.line("   %s: set minutes x percentages = %s x %.4f = %s%s", name, w.minutes(a.Run.Minutes), factor,
		w.minutes(a.Run.Minutes*factor), w.rounded(a.Run.Minutes*factor))
}

// rounded adds minutes to those requested, and shows the strategy's rounding.
func (w *writer) rounded(minutes float64) string {
	step := w.m.Seen.RoundMin
	if step == 0 {
		w.askedMin += minutes
		return ""
	}
	minutes = sim.RoundHalfUp(minutes, step)
	w.askedMin += minutes
	return fmt.Sprintf(", to the nearest multiple of %g min = %s", step, w.minutes(minutes))
}

// reference shows the need of the least-water reference.
func (w *writer) reference() {
	m := w.m
	dr, rain, raw := m.MorningMM[0], m.Day.RainInMM, m.Day.RAWMM
	if m.Zone.WorkingStorage {
		w.line("   need = Dr at dawn + ETc - rain that enters - store = %s + %s - %s - %s = %s, if above 0", w.fineNumber(dr),
			w.fineNumber(m.Day.ETcMM), w.fineNumber(rain), w.fineNumber(raw), w.fineDepth(dr+m.Day.ETcMM-rain-raw))
		return
	}
	w.line("   need = Dr at dawn - rain that enters - RAW = %s - %s - %s = %s, if above 0", w.fineNumber(dr), w.fineNumber(rain),
		w.fineNumber(raw), w.fineDepth(dr-rain-raw))
}
