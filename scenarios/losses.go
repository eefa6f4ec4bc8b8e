package scenarios

import (
	"slices"
	"strings"

	"loamledger/scenarios/catalog"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// none is the default of a loss: zero, since few people know theirs.
func none(what string) catalog.Figure {
	return catalog.Figure{Value: 0, Grade: catalog.Guess, Source: what + "; our choice"}
}

// losses reads the declared numbers that no other parameter depends on: mostly
// water that passes the meter but never reaches the roots.
func (r *zoneReader) losses(z *Zone) {
	r.rest("plant")
	r.rest("soil")
	if s := r.groups["sprinkler"]; s.node != nil {
		r.rest("sprinkler")
		if sum := z.LossShare + z.OversprayShare + z.BrokenShare; sum >= 0.95 {
			s.fault(diag.OutOfRange, s.node.Pos, "check spray_loss, overspray and broken_heads",
				"%s: loss, overspray and broken heads add up to %s of the water", s.where, quantity.Format(sum, quantity.Fraction, r.sc.Units))
		}
	}
	r.rest("")
}

// plainStore reports whether the zone is a plain store, which has no root
// depth.
func (g group) plainStore() bool {
	n := g.node.Get("balance")
	return n != nil && n.Kind == Scalar && strings.EqualFold(strings.TrimSpace(n.Text), "working storage")
}

// store reads the balance of a zone that is a plain store with working storage,
// as in public test landscapes, instead of a root zone.
func (g *zoneReader) store(z *Zone) {
	word, ok := "", false
	if g.node.Get("balance") != nil {
		word, ok = g.choice("balance", balances())
	}
	n := g.has("storage")
	if !ok || word != "working storage" {
		if n != nil {
			g.fault(diag.NoEffect, n.Pos, "add balance: working storage, or remove storage", "%s: storage requires balance: working storage",
				g.where).SuggestAt(g.node.Pos, diag.Key, "balance: working storage")
		}
		return
	}
	if r := g.has("root_depth"); r != nil {
		g.fault(diag.NoEffect, r.Pos, "remove root_depth", "%s: root_depth has no effect with storage", g.where)
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

// unusedInStore removes defaults that have no effect in a plain store, and
// rejects given values that have none.
func (g group) unusedInStore() {
	unused := func(input string) (key string, is bool) {
		key, own := strings.CutPrefix(input, g.key+".")
		return key, own && slices.Contains([]string{"strips", "plant.p", "plant.p_adjust", "soil.awc", "sprinkler.uniformity"}, key)
	}
	g.sc.Doubts = slices.DeleteFunc(g.sc.Doubts, func(d Doubt) bool {
		_, is := unused(d.Input)
		return is
	})
	g.sc.Inputs = slices.DeleteFunc(g.sc.Inputs, func(in Input) bool {
		key, is := unused(in.Key)
		if !is {
			return false
		}
		if own := key != "strips" || g.node.Get("strips") != nil; own && !in.Defaulted {
			g.fault(
				diag.NoEffect,
				in.Pos,
				"remove it, or make it a root zone without balance",
				"%s: %s has no effect in a plain store",
				g.where,
				key,
			)
		}
		return true
	})
}
