package readsfile

import (
	"loamledger/sim/meter"
	"loamledger/sim/money"
	"loamledger/weather/diag"
)

const (
	volumeFix    = "write the use since the read before in digits, with a decimal point and no other marks, such as 1234.5"
	registerFix  = "write what the register shows, in digits"
	correctedFix = "correct the sign; or give the estimates it corrects in the rows before, with read_type estimated and no gap; " +
		"or give all of them as one row with read_type corrected"
)

// register reads what the register shows; nil if the cell is empty.
func (r *reader) register() *money.Num { return r.optional("register") }

func (r *reader) optional(key string) *money.Num {
	text, pos := r.cell(key)
	if text == "" {
		return nil
	}
	v := r.amount(text, key, pos, registerFix, true)
	return &v
}

// use works out the use of a row. was is the read before, nil for none.
func (r *reader) use(out *Row, was, now *last) {
	before := r.faults.Len()
	text, pos := r.cell("volume")
	byRegister, ok := r.difference(out, was, now)
	switch {
	case r.faults.Len() > before:
		return
	case text != "":
		out.Volume = r.amount(text, "volume", pos, volumeFix, false)
		if d := out.Volume.Sub(byRegister); r.faults.Len() == before && ok && (d.Cmp(money.Int(1)) > 0 || d.Cmp(money.Int(-1)) < 0) {
			r.faults.Add(diag.Conflict, pos, "correct one of them, or leave the volume empty; if the meter was replaced, write yes under replaced",
				"volume %s differs from the %s by which the register rose", text, byRegister.String())
		}
	case ok:
		out.Volume = byRegister
		if text, at := r.cell("register"); text != "" {
			pos = at
		}
	case out.Replaced:
		out.Unknown = true
	default:
		r.faults.Add(diag.NotANumber, pos, volumeFix+"; or give the register here and at the read before", "volume: nothing is given")
	}
	r.correct(out, was, now, pos)
}

// difference returns by how much the registers rose; ok is false if that is not
// known.
func (r *reader) difference(out *Row, was, now *last) (v money.Num, ok bool) {
	end, start := r.optional("old_end"), r.optional("new_start")
	if was == nil || was.register == nil || now.register == nil || out.GapDays > 0 || was.unit != out.Unit {
		return v, false
	}
	if !out.Replaced {
		return now.register.Sub(*was.register), true
	}
	if end == nil || start == nil {
		return v, false
	}
	old, fresh := end.Sub(*was.register), now.register.Sub(*start)
	for _, rise := range []struct {
		by  money.Num
		key string
	}{{old, "old_end"}, {fresh, "new_start"}} {
		if rise.by.Sign() < 0 {
			_, pos := r.cell(rise.key)
			r.faults.Add(diag.Conflict, pos, "check it against the register of this read and of the read before", "%s makes the use negative: %s",
				rise.key, rise.by.String())
		}
	}
	return old.Add(fresh), true
}

// correct follows runs of estimates, and refuses a use below 0 that corrects none.
func (r *reader) correct(out *Row, was, now *last, pos diag.Pos) {
	run := was
	if run == nil || run.run == nil || out.GapDays > 0 {
		run = nil
	}
	switch {
	case out.Volume.Sign() >= 0:
	case out.Type == meter.Estimated:
		r.faults.Add(diag.OutOfRange, pos, volumeFix, "volume %s: an estimate is not below 0", out.Volume.String())
	case run == nil && was != nil && was.register != nil && now.register != nil:
		_, at := r.cell("register")
		r.faults.Add(diag.OutOfRange, at, "correct it; or write yes under replaced if the meter was replaced, reset or turned over, "+
			"with old_end and new_start", "the register fell from %s to %s", was.register.String(), now.register.String())
	case run != nil && was.unit != out.Unit:
		r.faults.Add(diag.Conflict, pos, "write both in one unit", "volume %s is in %s, and the estimates it corrects in %s", out.Volume.String(),
			out.Unit, was.unit)
	case run == nil:
		r.faults.Add(diag.OutOfRange, pos, correctedFix, "volume %s is below 0 and corrects no estimate", out.Volume.String())
	case out.Volume.Add(*run.run).Sign() < 0:
		r.faults.Add(diag.OutOfRange, pos, "check the read and the estimates before it",
			"volume %s takes off more than the %s that were estimated before", out.Volume.String(), run.run.String())
	}
	if now.unit = out.Unit; out.Type == meter.Estimated {
		sum := out.Volume
		if run != nil && was.unit == out.Unit {
			sum = sum.Add(*run.run)
		}
		now.run = &sum
	}
}
