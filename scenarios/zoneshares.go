package scenarios

import (
	"fmt"
	"slices"

	"loamledger/sim/strategy"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// zoneShares reads percentages by zone, with or without %, as shares; NaN for
// zones not named.
func (g group) zoneShares(p strategy.Param, n *Node, key string) []float64 {
	out := slices.Repeat([]float64{nan}, len(g.zones))
	if n.Kind != Map || len(n.Entries) == 0 {
		g.fault(diag.WrongShape, n.Pos, "write zones with their percentages, as in "+g.anyZone("80%"),
			"%s: %s is %s, not zones with their percentages", g.where, key, n.what()).Suggest(diag.Value, g.anyZone("80%"))
		return out
	}
	seen := map[int]diag.Pos{}
	for _, e := range n.Entries {
		z := g.zone(e.Key, e.Pos)
		w := want{key: key + " of " + e.Key, shape: shape{dim: quantity.Fraction}, min: p.Min, max: p.Max,
			fix: fmt.Sprintf("write a percentage from %g%% to %g%%", 100*p.Min, 100*p.Max)}
		if z < 0 || !g.once(seen, z, e) {
			if !isRange(e.Value) {
				g.parse(e.Value, w) // for its errors
			}
			continue
		}
		w.input = g.path(key + "." + g.zones[z])
		if v, ok := g.measured(e.Value, w); ok {
			out[z] = v
		}
	}
	return out
}
