package portable

import (
	"crypto/sha256"
	"encoding/binary"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
)

// TestSameDigits checks the bits of 20,000 values of each function. The sum is golden, recorded on amd64, and the same on every
// processor; errors are what TestAccuracy is for.
func TestSameDigits(t *testing.T) {
	r, sum := rand.New(rand.NewPCG(3, 4)), sha256.New()
	var b []byte
	for range 20000 {
		u, v := r.Float64(), r.Float64()
		size := math.Ldexp(1+u, r.IntN(400)-200)
		b = b[:0]
		for _, f := range []float64{
			Exp(float64(1400*u) - 700), Log(size), Log10(size), Pow(size, float64(4*v)-2), Sin(float64(200*u) - 100), Cos(float64(200*u) - 100),
			Tan(float64(200*u) - 100),
			Asin(float64(2*u) - 1), Acos(float64(2*u) - 1), Atan2(float64(2*u)-1, float64(2*v)-1), Hypot(size, v),
		} {
			b = binary.LittleEndian.AppendUint64(b, math.Float64bits(f))
		}
		sum.Write(b)
	}
	const want = "425d310ab7259950a899c2d3a5de8901b19f1ed40bc9e7cdd6a66d95251bc578"
	if got := fmt.Sprintf("%x", sum.Sum(nil)); got != want {
		t.Errorf("sum %s, want %s", got, want)
	}
}

// TestSameDigitsOfChance does the same for shares, quantiles, draws and moments.
func TestSameDigitsOfChance(t *testing.T) {
	r, sum := rand.New(rand.NewPCG(5, 6)), sha256.New()
	var b []byte
	list := make([]float64, 37)
	for range 3000 {
		u, v := r.Float64(), r.Float64()
		shape, n := 0.5+float64(60*v*v), float64(1+r.IntN(2000))
		for i := range list {
			list[i] = Normal(r)
		}
		b = b[:0]
		for _, f := range []float64{
			NormalCDF(float64(16*u) - 8), NormalQuantile(u), GammaCDF(shape, float64(2*u*shape)), GammaTail(shape, float64(2*u*shape)),
			GammaQuantile(shape, u), BinomialCDF(math.Floor(n*u), n, v), StudentQuantile(1+float64(100*v), u), list[0],
			Mean(list), Variance(list), Correlation(list[1:], list[:len(list)-1]),
		} {
			b = binary.LittleEndian.AppendUint64(b, math.Float64bits(f))
		}
		sum.Write(b)
	}
	const want = "ca32b16f54a256b24be25e19fd48f2d9ae5318f46cd5befe1080d6b8e2649d60"
	if got := fmt.Sprintf("%x", sum.Sum(nil)); got != want {
		t.Errorf("sum %s, want %s", got, want)
	}
}
