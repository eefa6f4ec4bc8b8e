package bill

import "loamledger/sim/money"

// A Project is what a change costs.
type Project struct {
	CostLow, CostHigh     money.Num // once, at the start
	UpkeepLow, UpkeepHigh money.Num // a year
	Years                 int       // life of the change, 1 to 100
	Discount              money.Num // real rate a year, such as 0.03
}

// A Worth is what a project is worth at one escalation of water prices. Paybacks
// are in years; nil means that the saving never pays the cost back within 100
// years.
type Worth struct {
	Escalation            money.Num
	PaybackLow            *money.Num // lowest cost, highest saving
	PaybackHigh           *money.Num // highest cost, lowest saving
	NPVLow, NPV, NPVHigh  money.Num  // NPV is of the mean saving and the mean cost
	SavingLow, SavingHigh money.Num  // in the first year
}

// longestPayback bounds the years in which a cost may be paid back.
const longestPayback = 100

// two halves a sum.
var two = money.Int(2)

// Worth returns what the project is worth if the saving in the first year is from
// low to high, with the given mean, and water prices rise by the escalation every
// year. Upkeep does not rise: all is in real money except for water prices.
//
//	NPV = Σ (saving·(1 + e)^(t−1) − upkeep)/(1 + r)^t − cost,  t = 1..life
func (p *Project) Worth(low, mean, high, escalation money.Num) Worth {
	w := Worth{Escalation: escalation, SavingLow: low, SavingHigh: high}
	w.PaybackLow = payback(p.CostLow, high, p.UpkeepLow, escalation)
	w.PaybackHigh = payback(p.CostHigh, low, p.UpkeepHigh, escalation)
	mid := func(a, b money.Num) money.Num { return a.Add(b).Div(two) }
	w.NPVLow = p.npv(p.CostHigh, low, p.UpkeepHigh, escalation)
	w.NPV = p.npv(mid(p.CostLow, p.CostHigh), mean, mid(p.UpkeepLow, p.UpkeepHigh), escalation)
	w.NPVHigh = p.npv(p.CostLow, high, p.UpkeepLow, escalation)
	return w
}

// Levelized returns what a unit of saved water costs over the life of the project: the
// present value of its costs by that of its savings, which are the same in every
// year. ok is false if nothing is saved.
//
//	cost per unit = (cost + Σ upkeep/(1 + r)^t) / Σ saved/(1 + r)^t,  t = 1..life
func (p *Project) Levelized(saved money.Num) (low, high money.Num, ok bool) {
	if saved.Sign() <= 0 {
		return low, high, false
	}
	years, down := money.Num{}, money.Int(1)
	for range p.Years {
		down = down.Mul(money.Int(1).Add(p.Discount)).Round(30)
		years = years.Add(money.Int(1).Div(down))
	}
	per := func(cost, upkeep money.Num) money.Num { return cost.Add(upkeep.Mul(years)).Div(saved.Mul(years)) }
	return per(p.CostLow, p.UpkeepLow), per(p.CostHigh, p.UpkeepHigh), true
}

func (p *Project) npv(cost, saving, upkeep, escalation money.Num) money.Num {
	sum, rise, down := cost.Neg(), money.Int(1), money.Int(1)
	for range p.Years {
		down = down.Mul(money.Int(1).Add(p.Discount)).Round(30)
		sum = sum.Add(saving.Mul(rise).Sub(upkeep).Div(down))
		rise = rise.Mul(money.Int(1).Add(escalation)).Round(30)
	}
	return sum.Cents()
}

// payback returns the years until the saving less upkeep has added up to the cost,
// without discount, with the last year in parts. A year whose saving is below the
// upkeep adds to what is to be paid back.
func payback(cost, saving, upkeep, escalation money.Num) *money.Num {
	left, rise := cost, money.Int(1)
	for year := range longestPayback {
		net := saving.Mul(rise).Sub(upkeep)
		if left.Cmp(net) <= 0 && net.Sign() > 0 {
			years := money.Int(year).Add(left.Div(net)).Round(2)
			return &years
		}
		left = left.Sub(net)
		rise = rise.Mul(money.Int(1).Add(escalation)).Round(30)
	}
	return nil
}
