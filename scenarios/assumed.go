package scenarios

import (
	"slices"
	"strings"

	"loamledger/scenarios/catalog"
	"loamledger/weather/diag"
)

// readAssumed reads which of the values written are assumptions, so that they are
// listed and counted with the defaults. An entry applies as long as its value is the
// one written: who replaces the value has no more to do. All other values are read.
func (b *builder) readAssumed(top group) {
	n := top.has("assumed")
	if n == nil {
		return
	}
	keys := make([]string, len(b.sc.Inputs))
	for i := range keys {
		keys[i] = b.sc.Inputs[i].Key
	}
	for _, item := range top.items(n) {
		g := b.open(item, "assumed", "assumed", "key", "value", "source")
		if g.node == nil {
			continue
		}
		texts := map[string]string{}
		for _, key := range []string{"key", "value", "source"} {
			w, ok := g.word(key)
			if !ok {
				g.missing(key, "write entries such as {key: site.elevation, value: 500 ft, source: our choice}")
				continue
			}
			texts[key] = strings.TrimSpace(w.Text)
		}
		if len(texts) < 3 {
			continue
		}
		i := slices.Index(keys, texts["key"])
		if i < 0 {
			fix := "remove the entry, or correct its key"
			if near := diag.Nearest(texts["key"], keys); near != "" {
				fix = "did you mean " + near + "?"
			}
			b.fault(diag.UnknownName, g.node.Get("key").Pos, fix, "assumed: no value has the key %s", quoted(texts["key"]))
			continue
		}
		if in := &b.sc.Inputs[i]; !in.Defaulted && strings.TrimSpace(in.Text) == texts["value"] {
			in.Defaulted, in.Source, in.Grade = true, texts["source"], catalog.Guess
		}
	}
}
