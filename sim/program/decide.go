package program

// A Verdict is what the rule says of a measure.
type Verdict uint8

// The verdicts.
const (
	Renew    Verdict = iota // the program pays for all accounts
	Retarget                // it does not, but it pays for the first accounts of the ranking
	Stop                    // it pays for no group
	Untested                // it does not pay for all accounts, and there is no ranking to find a group
)

// VerdictNames returns the code of each verdict, for files and scripts.
func VerdictNames() []string { return []string{"renew", "retarget", "stop", "no-ranking"} }

// Holds reports whether the rule holds for a group: even the high bound of the net
// levelized cost, that of the low bound of the saving, is below the avoided cost, and the
// total resource ratio is 1 or more with every number in the middle.
func (g *Group) Holds() bool {
	return g.LevelizedAll.High < g.Mid.AvoidedPerM3 && g.Mid.Tests[TotalResource].Ratio() >= 1
}

// holdsLoosely is the same with the low bound of the levelized cost.
func (g *Group) holdsLoosely() bool {
	return g.LevelizedAll.Low < g.Mid.AvoidedPerM3 && g.Mid.Tests[TotalResource].Ratio() >= 1
}

// A Decision is a verdict with the groups it names.
type Decision struct {
	Verdict  Verdict
	Smallest *Group // of Retarget: the smallest group for which the rule holds
	Largest  *Group // of Retarget: the largest
	// Loose is the verdict by the low bound of the levelized cost; it differs if the
	// savings are too uncertain to tell.
	Loose Verdict
}

// Decide applies the rule. all is the program as it is; ranked are the first accounts of
// the ranking, by share, ascending; none without a ranking.
func Decide(all *Group, ranked []Group) Decision {
	pick := func(holds func(*Group) bool) (v Verdict, smallest, largest *Group) {
		if holds(all) {
			return Renew, nil, nil
		}
		if len(ranked) == 0 {
			return Untested, nil, nil
		}
		for i := range ranked {
			if g := &ranked[i]; g.Share < 1 && holds(g) {
				if smallest == nil {
					smallest = g
				}
				largest = g
			}
		}
		if smallest == nil {
			return Stop, nil, nil
		}
		return Retarget, smallest, largest
	}
	var d Decision
	d.Verdict, d.Smallest, d.Largest = pick((*Group).Holds)
	d.Loose, _, _ = pick((*Group).holdsLoosely)
	return d
}

// A Level is what one rebate brings, in totals of the program.
type Level struct {
	Rebate       float64
	Share        float64 // of the accounts that take part
	Participants float64
	Budget       float64 // present value of what the program pays
	FirstYearM3  float64 // net saving of the first year at the meter
	Net          float64 // of the utility test, present value
	Result       Result  // per participant
}

// Levels returns a level for each point of the curve of uptake; none without a curve.
func (c *Costs) Levels(m *Measure, of Means) (out []Level) {
	s := m.mid()
	for _, p := range m.Uptake {
		of.ParticipatingShare = p.Share
		l := Level{Rebate: p.Rebate, Share: p.Share, Participants: p.Share * float64(of.Accounts)}
		if l.Participants > 0 {
			l.Result = c.evaluate(m, p.Rebate, &s, of)
			l.Budget, l.FirstYearM3 = l.Participants*l.Result.utilityCost, l.Participants*l.Result.FirstYearM3
			l.Net = l.Participants * l.Result.Tests[Utility].net()
		}
		out = append(out, l)
	}
	return out
}
