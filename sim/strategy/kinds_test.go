package strategy_test

import (
	"strings"
	"testing"

	"loamledger/sim/strategy"
	"loamledger/weather/quantity"
)

// TestKindsAreDescribed: every kind has a key of its own, a sentence and an
// example that begins with its key; every default lies in its range, names
// its source and says how sure it is.
func TestKindsAreDescribed(t *testing.T) {
	seen := map[string]bool{}
	for _, k := range strategy.Kinds() {
		if k.Key == "" || seen[k.Key] {
			t.Errorf("key %q is empty or taken", k.Key)
		}
		seen[k.Key] = true
		first, _, _ := strings.Cut(k.Key, ".")
		if k.Doc == "" || !strings.HasPrefix(k.Example, first+":") || k.Make == nil {
			t.Errorf("%s: doc %q, example %q", k.Key, k.Doc, k.Example)
		}
		params := map[string]bool{}
		for _, p := range k.Params {
			if params[p.Key] || p.Doc == "" || p.Key == "" && len(k.Params) > 1 {
				t.Errorf("%s: parameter %q is not described or stands twice", k.Key, p.Key)
			}
			params[p.Key] = true
			if p.Required {
				continue
			}
			if p.Source == "" || p.Grade == quantity.Given {
				t.Errorf("%s: the default of %q has source %q and grade %v", k.Key, p.Key, p.Source, p.Grade)
			}
			// Where a word describes the default, the number may lie outside.
			if (p.Type == strategy.Quantity || p.Type == strategy.Number) && p.Word == "" && (p.Default < p.Min || p.Default > p.Max) {
				t.Errorf("%s: the default %g of %q is outside %g to %g", k.Key, p.Default, p.Key, p.Min, p.Max)
			}
		}
	}
}
