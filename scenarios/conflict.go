package scenarios

import (
	"loamledger/sim/strategy"
	"loamledger/weather/diag"
)

// claims holds the zones that the parts of a strategy have taken so far, by key
// of their kind: a zone is watered by programs or by one refill, and has one
// soil sensor. What conflicts with what, the kinds say.
type claims struct {
	group
	by map[string][]bool // by key of the kind, then by zone
}

// claim refuses a part that takes a zone which another has already, and one
// whose parameters contradict each other or do nothing.
func (c *claims) claim(blank *strategy.Blank, n *Node) {
	found, err := blank.Conflicts()
	if err != nil {
		c.unsaid(err, n.Pos)
		return
	}
	if found.Claim != nil {
		c.take(blank.Key, found.Claim, n.Pos)
	}
	for _, f := range found.Faults {
		c.fault(f.Code, n.Pos, f.Fix, "%s: %s", c.where, f.Text)
	}
}

// take books the zones of a part and refuses those that are taken.
func (c *claims) take(key string, claim *strategy.Claim, pos diag.Pos) {
	if claim.Twice != nil {
		c.collide(claim.Zones, c.by[key], claim.Twice, pos)
	}
	for i := range claim.Against {
		c.collide(claim.Zones, c.by[claim.Against[i].Key], &claim.Against[i], pos)
	}
	taken := make([]bool, len(c.zones))
	copy(taken, c.by[key])
	for z, is := range claim.Zones {
		taken[z] = taken[z] || is
	}
	c.by[key] = taken
}

// collide refuses the first zone that two parts take.
func (c *claims) collide(zones, taken []bool, of *strategy.Collision, pos diag.Pos) {
	for z, is := range zones {
		if is && z < len(taken) && taken[z] {
			c.fault(diag.Conflict, pos, of.Fix, "%s: %s zone %s", c.where, of.Text, quoted(c.zones[z]))
			return
		}
	}
}

// unsaid refuses a part of a kind that leaves something unsaid.
func (g group) unsaid(err error, pos diag.Pos) {
	g.fault(diag.Unsaid, pos, "take the part out and report this error", "%s: %s", g.where, err.Error())
}
