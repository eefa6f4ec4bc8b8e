package scenarios

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"strconv"
	"strings"
	"testing"

	"loamledger/sim/strategy"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// drawnKeys are the keys outside of zones that take a number, or a range that is drawn.
var drawnKeys = []string{"cycle", "soak", "ramp_to", "every", "minutes", "discount", "life", "eto", "rain"}

// establishing are the keys of how new plants grow in, all of which are exact.
var establishing = map[string]bool{"days": true, "root_depth": true, "k": true, "minutes": true}

// TestEveryNumberIsDrawnOrRefused: every number that the package reads by a key of its own
// is either drawn, and listed here, or in the list of those that cannot be a range.
func TestEveryNumberIsDrawnOrRefused(t *testing.T) {
	listed := map[string]bool{}
	for _, key := range drawnKeys {
		listed[key] = true
	}
	whole := map[string]bool{} // groups of which every number is exact
	for _, k := range exactKeys() {
		if k.why == "" || k.fix == "" {
			t.Errorf("%s.%s has no reason or no fix", k.under, k.key)
		}
		if listed[k.key] = true; k.key == "" {
			whole[k.under+".go"] = true
		}
	}
	whole["verdictrule.go"] = whole["verdict.go"] // the one group whose file has another name
	files, err := os.ReadDir(".")
	if err != nil {
		t.Fatal(err)
	}
	found := 0
	for _, f := range files {
		if !strings.HasSuffix(f.Name(), ".go") || strings.HasSuffix(f.Name(), "_test.go") || whole[f.Name()] {
			continue
		}
		tree, err := parser.ParseFile(token.NewFileSet(), f.Name(), nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(tree, func(n ast.Node) bool {
			lit, is := n.(*ast.CompositeLit)
			if !is {
				return true
			}
			if name, named := lit.Type.(*ast.Ident); !named || name.Name != "want" {
				return true
			}
			if key := keyOf(lit); key != "" && !listed[key] && !(f.Name() == "change.go" && establishing[key]) {
				t.Errorf("%s: %s takes a number: list it in drawnKeys, or in ExactKeys with the reason", f.Name(), key)
			}
			found++
			return true
		})
	}
	if found < 30 {
		t.Errorf("only %d numbers found", found)
	}
}

// keyOf returns the key of a literal want, by its name in [exactKeys]; empty if it is not
// a text.
func keyOf(lit *ast.CompositeLit) (key string) {
	for _, e := range lit.Elts {
		kv, is := e.(*ast.KeyValueExpr)
		if !is {
			continue
		}
		if name, _ := kv.Key.(*ast.Ident); name != nil && name.Name == "exactAs" {
			return "" // a test of yamlfile has it
		}
		if text, is := kv.Value.(*ast.BasicLit); is && kv.Key.(*ast.Ident).Name == "key" {
			key, _ = strconv.Unquote(text.Value)
		}
	}
	return key
}

// rangeReader reads numbers of a strategy by themselves.
func rangeReader(pick func(*Doubt) float64) group {
	b := &builder{sc: &Scenario{}, exact: map[*Node]string{}, readAs: map[*Node]string{}, causes: map[diag.Pos]string{}, pick: pick}
	b.owning("strategies.x", "strategy “x”")
	return group{b, &Node{Kind: Map}, "strategy", "strategies.x"}
}

// TestEveryParameterIsDrawnOrRefused: every parameter of a strategy that is a number takes a
// range and is drawn, whole if it is whole, or is in the list of those that cannot.
func TestEveryParameterIsDrawnOrRefused(t *testing.T) {
	drawn, refused := 0, 0
	for _, k := range strategy.Kinds() {
		for _, p := range k.Params {
			if p.Type != strategy.Quantity && p.Type != strategy.Number {
				continue
			}
			s := paramShape(p)
			low, high := p.Min, min(p.Max, p.Min+100)
			n := &Node{Kind: Scalar, Text: exact(low, s) + to + exact(high, s), Pos: diag.Pos{Line: 3, Col: 5}}
			g := rangeReader(func(d *Doubt) float64 { return d.Range.At(0.3) })
			v := g.value(p, n, p.Key)
			if exactKey("strategies.x."+p.Key, p.Key) != nil {
				refused++
				if err := g.faults.Err(); err == nil || !strings.Contains(err.Error(), "cannot be a range: ") || !strings.Contains(err.Error(), "3:5") {
					t.Errorf("%s.%s: %v", k.Key, p.Key, err)
				}
				continue
			}
			drawn++
			if g.faults.Len() > 0 || len(g.sc.Doubts) != 1 {
				t.Errorf("%s.%s: %s: %v, %d doubts", k.Key, p.Key, n.Text, g.faults.Err(), len(g.sc.Doubts))
				continue
			}
			whole := p.Whole || p.Type == strategy.Quantity && p.Dim == quantity.Days
			if d := &g.sc.Doubts[0]; d.Range.Whole != whole || v.Number != d.Range.At(0.3) || whole && v.Number != float64(int(v.Number)) {
				t.Errorf("%s.%s: drew %v of %+v", k.Key, p.Key, v.Number, d.Range)
			}
		}
	}
	if drawn < 25 || refused < 4 {
		t.Errorf("%d drawn, %d refused", drawn, refused)
	}
}

// TestEveryZoneNumberTakesARange: every number of a zone takes a range, or is in the list of
// those that cannot.
func TestEveryZoneNumberTakesARange(t *testing.T) {
	for _, p := range ZoneParams() {
		if p.Set == nil || p.Words {
			continue
		}
		w := p.want(ZoneBasis{})
		w.max = min(w.max, w.min+1e6)
		g := rangeReader(nil)
		g.key = "zones.lawn"
		g.inZone = &zoneReader{group: g, z: &Zone{}, spans: map[string]string{}}
		n := &Node{Kind: Scalar, Text: exact(w.min, w.shape) + to + exact(w.max, w.shape), Pos: diag.Pos{Line: 3, Col: 5}}
		g.measured(n, w)
		if refused := exactKey("zones.lawn."+p.Key, w.key) != nil; refused == (len(g.sc.Doubts) == 1) || refused == (g.faults.Len() == 0) {
			t.Errorf("%s: %s: %v, %d doubts", p.Key, n.Text, g.faults.Err(), len(g.sc.Doubts))
		}
	}
}
