package generate

import (
	"errors"
	"math"
)

// A Matrix holds a value for each pair of Tmax, Tmin and radiation, in this
// order, by row and column.
type Matrix [3][3]float64

// PublishedM0 returns the same-day correlations of the residuals.
//
// Source: [Richardson], from memory.
func PublishedM0() Matrix {
	return Matrix{{1, 0.633, 0.186}, {0.633, 1, -0.193}, {0.186, -0.193, 1}}
}

// PublishedM1 returns the correlations of the residuals with those of the day
// before: rows are today, columns yesterday.
//
// Source: [Richardson], from memory.
func PublishedM1() Matrix {
	return Matrix{{0.621, 0.445, 0.087}, {0.563, 0.674, -0.100}, {0.015, -0.091, 0.251}}
}

func (a Matrix) times(b Matrix) (c Matrix) {
	for i := range 3 {
		for j := range 3 {
			for k := range 3 {
				c[i][j] += a[i][k] * b[k][j]
			}
		}
	}
	return c
}

func (a Matrix) transposed() (t Matrix) {
	for i := range 3 {
		for j := range 3 {
			t[j][i] = a[i][j]
		}
	}
	return t
}

var errSingular = errors.New("the correlations do not belong to any three quantities: their matrix is singular")

// inverse returns a⁻¹ by cofactors.
func (a Matrix) inverse() (inv Matrix, err error) {
	co := func(i, j int) float64 {
		i1, i2, j1, j2 := (i+1)%3, (i+2)%3, (j+1)%3, (j+2)%3
		return a[i1][j1]*a[i2][j2] - a[i1][j2]*a[i2][j1]
	}
	det := a[0][0]*co(0, 0) + a[0][1]*co(0, 1) + a[0][2]*co(0, 2)
	if !(math.Abs(det) > 1e-9) {
		return inv, errSingular
	}
	for i := range 3 {
		for j := range 3 {
			inv[j][i] = co(i, j) / det
		}
	}
	return inv, nil
}

var errIndefinite = errors.New("the correlations do not belong to any three quantities: what is left after the carry-over is not positive definite")

// root returns the lower triangular B with B Bᵀ = a (Cholesky).
func (a Matrix) root() (b Matrix, err error) {
	for i := range 3 {
		for j := range i + 1 {
			sum := a[i][j]
			for k := range j {
				sum -= b[i][k] * b[j][k]
			}
			if i != j {
				b[i][j] = sum / b[j][j]
				continue
			}
			if !(sum > 1e-9) {
				return b, errIndefinite
			}
			b[i][i] = math.Sqrt(sum)
		}
	}
	return b, nil
}

// Carry returns the matrices A and B of the residuals x of Tmax, Tmin and
// radiation, where ε are independent standard normal numbers:
//
//	x(t) = A x(t-1) + B ε(t)
//	A = M1 M0⁻¹
//	B Bᵀ = M0 - M1 M0⁻¹ M1ᵀ
//
// B is lower triangular. Source: [Richardson], after Matalas (1967). Matrices
// that are no correlations give an error.
func Carry(m0, m1 Matrix) (a, b Matrix, err error) {
	inv, err := m0.inverse()
	if err != nil {
		return a, b, err
	}
	a = m1.times(inv)
	back := a.times(m1.transposed())
	var rest Matrix
	for i := range 3 {
		for j := range 3 {
			rest[i][j] = m0[i][j] - back[i][j]
		}
	}
	b, err = rest.root()
	return a, b, err
}

func (a Matrix) apply(x [3]float64) (y [3]float64) {
	for i := range 3 {
		y[i] = a[i][0]*x[0] + a[i][1]*x[1] + a[i][2]*x[2]
	}
	return y
}
