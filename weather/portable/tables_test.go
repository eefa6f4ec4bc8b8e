package portable

import (
	"bytes"
	"fmt"
	"go/format"
	"math"
	"math/big"
	"os"
	"strconv"
	"testing"
)

// cut returns x rounded toward 0 to n bits.
func cut(x *big.Float, n uint) float64 {
	v, _ := new(big.Float).SetPrec(n).SetMode(big.ToZero).Set(x).Float64()
	return v
}

func near(x *big.Float) float64 {
	v, _ := x.Float64()
	return v
}

func hex(v float64) string { return strconv.FormatFloat(v, 'x', -1, 64) }

func pairText(x *big.Float) string {
	hi := near(x)
	return fmt.Sprintf("{%s, %s}", hex(hi), hex(near(sub(x, number(hi)))))
}

// tables returns the text of tables.go.
func tables() []byte {
	c := newConstants()
	var b bytes.Buffer
	b.WriteString("package portable\n\n// The tests compute this file with 300 bits; UPDATE=1 renews it.\n\n")
	high := cut(c.ln2, 32)
	fmt.Fprintf(&b, "// ln 2; the first part has 32 bits.\nconst (\nln2High = %s\nln2Low = %s\n)\n\n", hex(high),
		hex(near(sub(c.ln2, number(high)))))
	b.WriteString("// π/2; the first three parts have 33 bits.\nconst (\n")
	rest := times2(c.pi, -1)
	for i := 1; i <= 3; i++ {
		part := cut(rest, 33)
		rest = sub(rest, number(part))
		fmt.Fprintf(&b, "halfPi%d = %s\n", i, hex(part))
	}
	fmt.Fprintf(&b, "halfPi4 = %s\n)\n\n", hex(near(rest)))
	fmt.Fprintf(&b, "var (\nhalfTurn = pair%s // π\n", pairText(c.pi))
	fmt.Fprintf(&b, "quarterTurn = pair%s // π/2\n", pairText(times2(c.pi, -1)))
	fmt.Fprintf(&b, "perLn10 = pair%s // 1/ln 10\n)\n\n", pairText(quo(number(1), c.log(number(10)))))
	b.WriteString("// powersOfTwo has 2^(j/32).\nvar powersOfTwo = [expSteps]pair{\n")
	for j := range expSteps {
		fmt.Fprintf(&b, "%s,\n", pairText(c.exp(mul(c.ln2, fraction(int64(j), expSteps)))))
	}
	b.WriteString("}\n\n// minusLogs has -ln(k/256) from k = logFirst on.\nvar minusLogs = [...]pair{\n")
	for k := logFirst; k <= int(math.Round(logCells*math.Sqrt2)); k++ {
		fmt.Fprintf(&b, "%s,\n", pairText(c.log(fraction(logCells, int64(k)))))
	}
	b.WriteString("}\n\n// arcs has atan(k/64).\nvar arcs = [arcCells + 1]pair{\n{0, 0},\n")
	for k := 1; k <= arcCells; k++ {
		fmt.Fprintf(&b, "%s,\n", pairText(c.atan2(number(float64(k)), number(arcCells))))
	}
	b.WriteString("}\n")
	text, err := format.Source(b.Bytes())
	if err != nil {
		panic(err)
	}
	return text
}

func TestTables(t *testing.T) {
	computed(t, "tables.go", tables())
	computed(t, "layers.go", layerTables())
}

// computed checks that a file has the text that was computed; with UPDATE=1 it writes it.
func computed(t *testing.T, name string, want []byte) {
	t.Helper()
	if os.Getenv("UPDATE") != "" {
		if err := os.WriteFile(name, want, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	got, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Errorf("%s is not what 300 bits give: run with UPDATE=1", name)
	}
}

// The multiples that the reductions take are exact.
func TestPartsHaveRoom(t *testing.T) {
	for _, c := range []struct {
		part, most float64
	}{{stepHigh, 1075 * expSteps}, {ln2High, 1075}, {halfPi1, mostAngle}, {halfPi2, mostAngle}, {halfPi3, mostAngle}} {
		for n := 1.0; n <= c.most; n = 2*n + 1 {
			if p := product(n, c.part); p.lo != 0 {
				t.Errorf("%g × %g is not exact", n, c.part)
			}
		}
	}
}
