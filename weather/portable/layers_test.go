package portable

import (
	"bytes"
	"fmt"
	"go/format"
	"math/big"
	"strconv"
)

// layerTables returns the text of layers.go: the layers of equal area under the normal density, of Marsaglia and Tsang (2000).
func layerTables() []byte {
	const area = 9.91256303526217e-3
	c := newConstants()
	density := func(x *big.Float) *big.Float { return c.exp(times2(sub(number(0), mul(x, x)), -1)) }
	single := func(x *big.Float) string {
		v, _ := x.Float32()
		return strconv.FormatFloat(float64(v), 'x', -1, 32)
	}
	whole := func(x *big.Float) string {
		v, _ := times2(x, 31).Uint64()
		return fmt.Sprintf("%#x", v)
	}
	var inner, widths, heights [layers]string
	x, last := number(lastLayer), number(lastLayer)
	under := quo(number(area), density(x))
	inner[0], inner[1] = whole(quo(x, under)), "0"
	widths[0], widths[layers-1] = single(times2(under, -31)), single(times2(x, -31))
	heights[0], heights[layers-1] = "1", single(density(x))
	for i := layers - 2; i >= 1; i-- {
		x = sqrt(times2(sub(number(0), c.log(add(quo(number(area), x), density(x)))), 1))
		inner[i+1] = whole(quo(x, last))
		last = x
		heights[i], widths[i] = single(density(x)), single(times2(x, -31))
	}
	var b bytes.Buffer
	b.WriteString("package portable\n\n// The tests compute this file with 300 bits; UPDATE=1 renews it.\n\n")
	b.WriteString("// The layers of Normal: where a number is surely inside, the width for 2^31, and the height.\nvar (\n")
	for _, list := range []struct {
		name, kind string
		values     [layers]string
	}{{"layerInner", "uint32", inner}, {"layerWidths", "float32", widths}, {"layerHeights", "float32", heights}} {
		fmt.Fprintf(&b, "%s = [layers]%s{", list.name, list.kind)
		for i, v := range list.values {
			if i%8 == 0 {
				b.WriteString("\n")
			}
			b.WriteString(v + ", ")
		}
		b.WriteString("\n}\n")
	}
	b.WriteString(")\n")
	text, err := format.Source(b.Bytes())
	if err != nil {
		panic(err)
	}
	return text
}
