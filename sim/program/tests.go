package program

import "math"

// Means are what a group of accounts saves in a year, per account: the water of those
// that save and, apart from it, that of those that use more, both from 0 up.
type Means struct {
	savedM3, risenM3   float64
	billCut, billRise  float64 // on bills, in currency; used if hasBills
	hasBills           bool
	Accounts           int     // how many such accounts there are
	ParticipatingShare float64 // of them that take part, 0 to 1
}

// meansOf sums up savings, by account: water [m³] and, unless nil, bills.
func meansOf(savedM3, bills []float64) Means {
	m := Means{Accounts: len(savedM3), ParticipatingShare: 1, hasBills: bills != nil}
	for a, v := range savedM3 {
		if v > 0 {
			m.savedM3 += v
		} else {
			m.risenM3 -= v
		}
		if bills != nil {
			m.billCut += max(bills[a], 0)
			m.billRise += max(-bills[a], 0)
		}
	}
	n := float64(m.Accounts)
	m.savedM3, m.risenM3, m.billCut, m.billRise = m.savedM3/n, m.risenM3/n, m.billCut/n, m.billRise/n
	return m
}

// A Test is one viewpoint.
type Test uint8

// The tests.
const (
	Participant   Test = iota // bill savings and rebate, against the participant's own cost and upkeep
	Utility                   // avoided supply cost, against administration and rebate
	TotalResource             // avoided supply cost, against administration and full equipment and upkeep, whoever pays
	RateImpact                // as Utility, with lost revenue
	Societal                  // as TotalResource, with what others gain from saved water
	Tests                     // how many tests there are
)

// TestNames returns the key of each test, for files.
func TestNames() [Tests]string {
	return [Tests]string{"participant", "utility", "total_resource", "rate_impact", "societal"}
}

// A Balance is present values of a participant: benefits and costs.
type Balance struct {
	Benefit, Cost float64
	Known         bool // false if a price is lacking
}

// net returns benefit − cost.
func (b Balance) net() float64 { return b.Benefit - b.Cost }

// Ratio returns benefit ÷ cost; NaN without cost.
func (b Balance) Ratio() float64 {
	if !(b.Cost > 0) {
		return math.NaN()
	}
	return b.Benefit / b.Cost
}

// add counts v as a benefit, or as a cost if it is below 0.
func (b *Balance) add(v float64) {
	if v >= 0 {
		b.Benefit += v
	} else {
		b.Cost -= v
	}
}

// A Result is what a measure is worth at one state: present values per participant.
type Result struct {
	Tests [Tests]Balance
	// waterM3 is the net volume that the supply need not deliver over the life, in
	// present value: savings less increases, times net-to-gross, with the losses of the
	// system.
	waterM3 float64
	// FirstYearM3 is the net saving of the first year at the meter.
	FirstYearM3 float64
	// utilityCost and totalCost are present values of what the program pays, and of
	// what everybody pays, without the supply of increases.
	utilityCost, totalCost float64
	// AvoidedPerM3 is the avoided cost that the levelized cost has to stay below:
	// present value of avoided cost ÷ present value of water.
	AvoidedPerM3 float64
}

// Levelized returns the present value of the program's costs divided by that of its
// water [currency/m³]; +Inf if it saves nothing.
func (r *Result) Levelized() float64 { return perM3(r.utilityCost, r.waterM3) }

// ProgramCost returns what the program pays for one participant: administration and
// rebate, in present value [currency].
func (r *Result) ProgramCost() float64 { return r.utilityCost }

// LevelizedTotal is as Levelized, for the costs of everybody.
func (r *Result) LevelizedTotal() float64 { return perM3(r.totalCost, r.waterM3) }

func perM3(cost, m3 float64) float64 {
	if !(m3 > 0) {
		return math.Inf(1)
	}
	return cost / m3
}

// evaluate works out what measure m with a rebate is worth at state s, for participants
// with the given means.
func (c *Costs) evaluate(m *Measure, rebate float64, s *state, of Means) Result {
	f := c.factorsOf(s)
	net := s[NetToGross] * s[Saving]
	admin := s[Admin]
	if who := float64(of.Accounts) * of.ParticipatingShare; s[FixedCost] > 0 {
		admin += s[FixedCost] / who // +Inf if nobody takes part
	}
	own := s[Equipment] + float64(s[Upkeep]*f.years)
	r := Result{utilityCost: admin + rebate, totalCost: admin + own, FirstYearM3: float64(net * (of.savedM3 - of.risenM3))}
	r.waterM3 = r.FirstYearM3 * f.water / (1 - s[Losses])
	r.AvoidedPerM3 = f.avoided / f.water * (1 - s[Losses])
	gain, loss := float64(net*of.savedM3*f.avoided), float64(net*of.risenM3*f.avoided)
	cut, rise, priced := c.bills(s, of)
	cut, rise = float64(cut*s[Saving]*f.water), float64(rise*s[Saving]*f.water)
	r.Tests[Participant] = Balance{cut + rebate, own + rise, priced}
	r.Tests[Utility] = Balance{gain, r.utilityCost + loss, true}
	r.Tests[TotalResource] = Balance{gain, r.totalCost + loss, true}
	r.Tests[RateImpact] = Balance{gain + float64(rise*s[NetToGross]), r.utilityCost + loss + float64(cut*s[NetToGross]), priced}
	r.Tests[Societal] = Balance{gain, r.totalCost + loss, c.HasExternality}
	r.Tests[Societal].add(float64(r.FirstYearM3 * f.water * s[Externality]))
	return r
}

// bills returns what the bills of an account fall and rise in the first year.
func (c *Costs) bills(s *state, of Means) (cut, rise float64, known bool) {
	if of.hasBills {
		return of.billCut, of.billRise, true
	}
	return of.savedM3 * s[Retail], of.risenM3 * s[Retail], c.HasRetail
}

// A Swing is what one number in doubt does: the results with it at its low and its high
// end, all others in the middle.
type Swing struct {
	Knob      Knob
	Low, High Result
}

// Swings returns a swing for each number of measure m that is in doubt.
func (c *Costs) Swings(m *Measure, of Means) (out []Swing) {
	for k := range Knobs {
		if m.Values[k].isSure() || k == Retail && of.hasBills {
			continue
		}
		low, high := m.mid(), m.mid()
		low[k], high[k] = m.Values[k].Low, m.Values[k].High
		out = append(out, Swing{k, c.evaluate(m, m.Rebate, &low, of), c.evaluate(m, m.Rebate, &high, of)})
	}
	return out
}

// Ends returns the results at which every number in doubt is at the end that is worse, or
// better, for the total resource test.
func (c *Costs) Ends(m *Measure, of Means) (worst, best Result) {
	low, high := m.mid(), m.mid()
	for _, s := range c.Swings(m, of) {
		bad, good := m.Values[s.Knob].Low, m.Values[s.Knob].High
		if s.Low.Tests[TotalResource].Ratio() > s.High.Tests[TotalResource].Ratio() {
			bad, good = good, bad
		}
		low[s.Knob], high[s.Knob] = bad, good
	}
	return c.evaluate(m, m.Rebate, &low, of), c.evaluate(m, m.Rebate, &high, of)
}
