package referee

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/mat"
)

var (
	errDependent = errors.New("the columns gonum ended with are not a basis")
	errSingular  = errors.New("the basis gonum ended with is too ill-conditioned to solve with")
)

// worstCondition is the condition number from which a basis is not solved
// with: fewer than five of sixteen digits would be left.
const worstCondition = 1e11

// basisOf returns the basis of the point z: the columns that are not zero,
// completed by others, later columns first because the slacks are there, where
// the point is degenerate. Columns from limit on are not used.
func (d *scaled) basisOf(z []float64, limit int) ([]int, error) {
	e := elimination{m: d.m, pivoted: make([]bool, d.m)}
	var basis []int
	for k := 0; k < limit; k++ {
		if z[k] != 0 {
			if !e.add(d.a[k]) {
				return nil, errDependent
			}
			basis = append(basis, k)
		}
	}
	for k := limit - 1; k >= 0 && len(basis) < d.m; k-- {
		if z[k] == 0 && e.add(d.a[k]) {
			basis = append(basis, k)
		}
	}
	if len(basis) < d.m {
		return nil, errDependent
	}
	return basis, nil
}

// elimination finds independent columns one at a time by Gaussian elimination
// with partial pivoting.
type elimination struct {
	m       int
	pivoted []bool // rows that have a pivot
	pivots  []int
	steps   [][]float64 // per pivot: the factor of each row that had none yet
}

// add takes column v in if it is independent of those before it.
func (e *elimination) add(v []float64) bool {
	w := append([]float64(nil), v...)
	for s, p := range e.pivots {
		if f := w[p]; f != 0 {
			for i, x := range e.steps[s] {
				w[i] -= f * x
			}
		}
	}
	at, largest, size := -1, 0.0, 0.0
	for i, x := range w {
		size = math.Max(size, math.Abs(v[i]))
		if !e.pivoted[i] && math.Abs(x) > largest {
			at, largest = i, math.Abs(x)
		}
	}
	if at < 0 || largest < rankTolerance*size {
		return false
	}
	step := make([]float64, e.m)
	for i, x := range w {
		if !e.pivoted[i] && i != at {
			step[i] = x / w[at]
		}
	}
	e.pivoted[at] = true
	e.pivots = append(e.pivots, at)
	e.steps = append(e.steps, step)
	return true
}

// vertex is a basis with what belongs to it for the right-hand side it was
// solved with.
type vertex struct {
	basis []int
	lu    mat.LU
}

func factorise(cols [][]float64, basis []int) (*vertex, error) {
	b := mat.NewDense(len(basis), len(basis), nil)
	for n, k := range basis {
		b.SetCol(n, cols[k])
	}
	v := &vertex{basis: basis}
	v.lu.Factorize(b)
	if !(v.lu.Cond() < worstCondition) {
		return nil, errSingular
	}
	return v, nil
}

// primal returns the values of the basic columns for the right-hand side b, in
// the order of the basis.
func (v *vertex) primal(b []float64) []float64 {
	var x mat.VecDense
	_ = v.lu.SolveVecTo(&x, false, mat.NewVecDense(len(b), b)) // the condition has been looked at
	return x.RawVector().Data
}

// dual returns the multipliers y of Bᵀy = c_B.
func (v *vertex) dual(c []float64) []float64 {
	cb := make([]float64, len(v.basis))
	for n, k := range v.basis {
		cb[n] = c[k]
	}
	var y mat.VecDense
	_ = v.lu.SolveVecTo(&y, true, mat.NewVecDense(len(cb), cb)) // likewise
	return y.RawVector().Data
}
