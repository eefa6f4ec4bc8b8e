package bill

import (
	"iter"

	"loamledger/sim/money"
	"loamledger/weather/cal"
)

// Allowed returns a budget of an account for the given days, in billing units:
//
//	indoor    = persons · volume per person and day · days
//	outdoor   = Σ ETo · factor · landscape area, with ETo by month or of each day
//	budget    = indoor + outdoor
//	allowance = Σ share of the month / days of the month · yearly allowance
//
// [Units] has no budget: it is 0.
func (r *Rates) Allowed(a *Account, of Of, on []cal.Date) money.Num {
	b := r.Budget
	if b == nil {
		return money.Num{}
	}
	var liters money.Num
	if of == Indoor || of == Whole {
		liters = a.Persons.Mul(b.IndoorL).Mul(money.Int(len(on)))
	}
	if of == Outdoor || of == Whole {
		var mm money.Num
		if b.daily != nil {
			mm = b.daily.sum(on)
		} else {
			for k, days := range perMonth(on) {
				mm = mm.Add(b.EToMM[k.month-1].Share(days, cal.DaysIn(k.year, k.month)))
			}
		}
		liters = liters.Add(mm.Mul(b.Factor).Mul(a.LandscapeM2))
	}
	if of == Annual {
		year := r.YearlyAllowanceL(a)
		for k, days := range perMonth(on) {
			liters = liters.Add(year.Mul(b.Shares[k.month-1]).Share(days, cal.DaysIn(k.year, k.month)))
		}
	}
	return liters.Div(r.UnitL)
}

// YearlyAllowanceL returns the allowance of a lot in a year [L]: each band of its
// area at the depth of the band.
func (r *Rates) YearlyAllowanceL(a *Account) (liters money.Num) {
	var below money.Num
	for _, band := range r.Budget.Bands {
		top := a.LotM2
		if band.ToM2.Sign() > 0 {
			top = money.Min(top, band.ToM2)
		}
		if area := top.Sub(below); area.Sign() > 0 {
			liters = liters.Add(area.Mul(band.MM))
			below = top
		}
	}
	return liters
}

type month struct{ year, month int }

// perMonth counts days, which are in order, by month.
func perMonth(on []cal.Date) iter.Seq2[month, int] {
	return func(yield func(month, int) bool) {
		for i := 0; i < len(on); {
			y, m, _ := on[i].YMD()
			k := i
			for ; k < len(on); k++ {
				if yy, mm, _ := on[k].YMD(); yy != y || mm != m {
					break
				}
			}
			if !yield(month{y, m}, k-i) {
				return
			}
			i = k
		}
	}
}
