package generate

import (
	"errors"
	"math"
)

// A matrix has a value for each pair of Tmax, Tmin and radiation, in this
// order, by row and column.
type matrix [3][3]float64

// publishedM0 returns the same-day correlations of the residuals.
//
// Source: [Richardson], from memory.
func publishedM0() matrix {
	return matrix{{1, 0.633, 0.186}, {0.633, 1, -0.193}, {0.186, -0.193, 1}}
}

// publishedM1 returns the correlations of the residuals with those of the
// previous day: rows are today, columns yesterday.
//
// Source: [Richardson], from memory.
func publishedM1() matrix {
	return matrix{{0.621, 0.445, 0.087}, {0.563, 0.674, -0.100}, {0.015, -0.091, 0.251}}
}

var (
	errSingular   = errors.New("invalid correlations: their matrix is singular")
	errIndefinite = errors.New("invalid correlations: the remainder after day-to-day correlation is not positive definite")
)

// leastPivot is the smallest determinant and, squared, the smallest diagonal of
// a root that is not treated as a rounding error.
const leastPivot = 1e-9

// carry returns the matrices A and B for the residuals x of Tmax, Tmin and
// radiation, where ε are independent standard normal variables:
//
//	x(t) = A x(t-1) + B ε(t)
//	A = m1 m0⁻¹
//	B Bᵀ = m0 - m1 m0⁻¹ m1ᵀ
//
// B is lower triangular. Source: [Richardson], after Matalas (1967). Matrices
// that are not correlations are an error.
func carry(m0, m1 matrix) (a, b matrix, err error) {
	inverse, ok := m0.inverse()
	if !ok {
		return a, b, errSingular
	}
	a = m1.times(inverse)
	rest := a.times(m1.transposed())
	for i := range 3 {
		for j := range 3 {
			rest[i][j] = m0[i][j] - rest[i][j]
		}
	}
	b, err = rest.root()
	return a, b, err
}

// inverse returns the adjugate over the determinant; ok is false if that is no more than a rounding error.
func (a matrix) inverse() (b matrix, ok bool) {
	for i := range 3 {
		for j := range 3 {
			r, s, u, v := (j+1)%3, (j+2)%3, (i+1)%3, (i+2)%3
			b[i][j] = float64(a[r][u]*a[s][v]) - float64(a[r][v]*a[s][u])
		}
	}
	det := float64(a[0][0]*b[0][0]) + float64(a[0][1]*b[1][0]) + float64(a[0][2]*b[2][0])
	if !(math.Abs(det) > leastPivot) {
		return b, false
	}
	for i := range 3 {
		for j := range 3 {
			b[i][j] /= det
		}
	}
	return b, true
}

func (a matrix) times(b matrix) (c matrix) {
	for i := range 3 {
		for j := range 3 {
			c[i][j] = float64(a[i][0]*b[0][j]) + float64(a[i][1]*b[1][j]) + float64(a[i][2]*b[2][j])
		}
	}
	return c
}

func (a matrix) transposed() (b matrix) {
	for i := range 3 {
		for j := range 3 {
			b[i][j] = a[j][i]
		}
	}
	return b
}

// root returns the lower triangular B with B Bᵀ = a (Cholesky), of which the lower half is read.
func (a matrix) root() (b matrix, err error) {
	for i := range 3 {
		for j := range i + 1 {
			rest := a[i][j]
			for k := range j {
				rest -= float64(b[i][k] * b[j][k])
			}
			if i != j {
				b[i][j] = rest / b[j][j]
				continue
			}
			if !(rest > leastPivot) {
				return b, errIndefinite
			}
			b[i][i] = math.Sqrt(rest)
		}
	}
	return b, nil
}

// apply is unrolled, since it runs every day on three numbers.
func (a matrix) apply(x [3]float64) (y [3]float64) {
	for i := range 3 {
		y[i] = float64(a[i][0]*x[0]) + float64(a[i][1]*x[1]) + float64(a[i][2]*x[2])
	}
	return y
}
