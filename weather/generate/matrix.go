package generate

import (
	"errors"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// A Matrix has a value for each pair of Tmax, Tmin and radiation, in this
// order, by row and column.
type Matrix [3][3]float64

// PublishedM0 returns the same-day correlations of the residuals.
//
// Source: [Richardson], from memory.
func PublishedM0() Matrix {
	return Matrix{{1, 0.633, 0.186}, {0.633, 1, -0.193}, {0.186, -0.193, 1}}
}

// PublishedM1 returns the correlations of the residuals with those of the
// previous day: rows are today, columns yesterday.
//
// Source: [Richardson], from memory.
func PublishedM1() Matrix {
	return Matrix{{0.621, 0.445, 0.087}, {0.563, 0.674, -0.100}, {0.015, -0.091, 0.251}}
}

var (
	errSingular   = errors.New("invalid correlations: their matrix is singular")
	errIndefinite = errors.New("invalid correlations: the remainder after day-to-day correlation is not positive definite")
)

// leastPivot is the smallest determinant and, squared, the smallest diagonal of
// a root that is not treated as a rounding error.
const leastPivot = 1e-9

// Carry returns the matrices A and B for the residuals x of Tmax, Tmin and
// radiation, where ε are independent standard normal variables:
//
//	x(t) = A x(t-1) + B ε(t)
//	A = M1 M0⁻¹
//	B Bᵀ = M0 - M1 M0⁻¹ M1ᵀ
//
// B is lower triangular. Source: [Richardson], after Matalas (1967). Matrices
// that are not correlations are an error.
func Carry(m0, m1 Matrix) (a, b Matrix, err error) {
	same, before := m0.dense(), m1.dense()
	if !(math.Abs(mat.Det(same)) > leastPivot) {
		return a, b, errSingular
	}
	var inverse, carry, rest mat.Dense
	if err := inverse.Inverse(same); err != nil {
		return a, b, errSingular
	}
	carry.Mul(before, &inverse)
	rest.Mul(&carry, before.T())
	rest.Sub(same, &rest)
	b, err = fromDense(&rest).root()
	return fromDense(&carry), b, err
}

// root returns the lower triangular B with B Bᵀ = a (Cholesky).
func (a Matrix) root() (b Matrix, err error) {
	square := mat.NewSymDense(3, nil)
	for i := range 3 {
		for j := range i + 1 {
			square.SetSym(i, j, a[i][j])
		}
	}
	var parts mat.Cholesky
	if !parts.Factorize(square) {
		return b, errIndefinite
	}
	var lower mat.TriDense
	parts.LTo(&lower)
	b = fromDense(&lower)
	for i := range 3 {
		if !(b[i][i]*b[i][i] > leastPivot) {
			return b, errIndefinite
		}
	}
	return b, nil
}

func (a Matrix) dense() *mat.Dense {
	return mat.NewDense(3, 3, slices.Concat(a[0][:], a[1][:], a[2][:]))
}

func fromDense(m mat.Matrix) (a Matrix) {
	for i := range 3 {
		for j := range 3 {
			a[i][j] = m.At(i, j)
		}
	}
	return a
}

// apply is unrolled, since it runs every day on three numbers.
func (a Matrix) apply(x [3]float64) (y [3]float64) {
	for i := range 3 {
		y[i] = float64(a[i][0]*x[0]) + float64(a[i][1]*x[1]) + float64(a[i][2]*x[2])
	}
	return y
}
