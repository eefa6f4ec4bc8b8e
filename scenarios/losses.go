package scenarios

import (
	"slices"
	"strings"

	"loamledger/scenarios/catalogue"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// none is the default of a loss that few people know.
func none(what string) catalogue.Figure {
	return catalogue.Figure{Value: 0, Grade: catalogue.Guess, Source: what + "; our choice"}
}

// losses reads what is declared as a number and no other parameter needs:
// mostly water that passes the meter and never reaches the zone's roots.
func (r *zoneReader) losses(z *Zone) {
	r.rest("plant")
	r.rest("soil")
	if s := r.groups["sprinkler"]; s.node != nil {
		r.rest("sprinkler")
		if sum := z.LossShare + z.OversprayShare + z.BrokenShare; sum >= 0.95 {
			s.fault(diag.OutOfRange, s.node.Pos, "check spray_loss, overspray and broken_heads", "%s: spray loss, overspray and broken heads together take %s of the water", s.where, quantity.Format(sum, quantity.Fraction, r.sc.Units))
		}
	}
	r.rest("")
}

// plainStore reports whether the zone says that it is a plain store, to which
// no depth of roots belongs.
func (g group) plainStore() bool {
	n := g.node.Get("balance")
	return n != nil && n.Kind == Scalar && strings.EqualFold(strings.TrimSpace(n.Text), "working storage")
}

// store reads the balance of a zone that is a plain store of working storage,
// as in public test landscapes, instead of a root zone.
func (g *zoneReader) store(z *Zone) {
	word, ok := "", false
	if g.node.Get("balance") != nil {
		word, ok = g.choice("balance", balances())
	}
	n := g.has("storage")
	if !ok || word != "working storage" {
		if n != nil {
			g.fault(diag.NoEffect, n.Pos, "add balance: working storage, or take storage out", "%s: storage belongs to balance: working storage", g.where)
		}
		return
	}
	if r := g.has("root_depth"); r != nil {
		g.fault(diag.NoEffect, r.Pos, "take root_depth out", "%s: storage says what the roots can draw, so root_depth does nothing", g.where)
	}
	if n == nil {
		g.missing("storage", "add storage, the depth of water held between full and dry, such as 0.85 in")
		return
	}
	v, ok := g.number("storage")
	if !ok {
		return
	}
	g.unusedInStore()
	z.WorkingStorage, z.TAWMM, z.P, z.PConstant, z.Strips, z.DULQ = true, v, 0.5, true, 1, 1
	z.Rain.KeepLight = true
}

// unusedInStore takes back the defaults of what does not matter to a plain
// store, and refuses what was given of it.
func (g group) unusedInStore() {
	g.sc.Inputs = slices.DeleteFunc(g.sc.Inputs, func(in Input) bool {
		key, ok := strings.CutPrefix(in.Key, g.key+".")
		if !ok || !slices.Contains([]string{"strips", "plant.p", "plant.p_adjust", "soil.awc", "sprinkler.uniformity"}, key) {
			return false
		}
		if own := key != "strips" || g.node.Get("strips") != nil; own && !in.Defaulted {
			g.fault(diag.NoEffect, in.Pos, "take it out, or take balance: working storage out", "%s: %s does nothing in a plain store", g.where, key)
		}
		return true
	})
}
