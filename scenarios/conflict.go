package scenarios

import (
	"loamledger/sim/strategy"
	"loamledger/weather/diag"
)

// claims records the zones taken so far by the parts of a strategy, by the key
// of their kind: a zone is watered by programs or by one refill, and has one
// soil sensor. The kinds declare which parts conflict.
type claims struct {
	group
	by map[string][]bool // by key of the kind, then by zone
}

// claim rejects a part that takes a zone already taken, or whose parameters
// conflict or have no effect.
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

// take records the zones of a part and rejects those already taken.
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

// collide reports the first zone that two parts take.
func (c *claims) collide(zones, taken []bool, of *strategy.Collision, pos diag.Pos) {
	for z, is := range zones {
		if is && z < len(taken) && taken[z] {
			c.fault(diag.Conflict, pos, of.Fix, "%s: %s zone %s", c.where, of.Text, quoted(c.zones[z]))
			return
		}
	}
}

// unsaid rejects a part whose kind is incomplete.
func (g group) unsaid(err error, pos diag.Pos) {
	g.fault(diag.Unsaid, pos, "remove the part and report this error", "%s: %s", g.where, err.Error())
}
