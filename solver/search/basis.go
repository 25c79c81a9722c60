package search

import (
	"math"
	"slices"

	"rationwright/solver/simplex"
)

// startFrom makes the next solve start from a basis of the whole program; nil leaves it
// as it is.
func (x *Relaxation) startFrom(b *Basis) {
	if b == nil {
		return
	}
	of := func(places []simplex.Place, k int) simplex.Place {
		if k < len(places) {
			return places[k]
		}
		return simplex.Basic
	}
	x.startWith(func(j int) simplex.Place { return of(b.Cols, j) }, func(i int) simplex.Place { return of(b.Rows, i) })
}

// startWith makes the next solve start from a basis that is given by the places of columns
// and rows of the problem. Rows that are not basic are taken in.
func (x *Relaxation) startWith(col, row func(k int) simplex.Place) {
	for i, at := range x.At {
		if at < 0 && row(i) != simplex.Basic {
			x.addLate(i)
		}
	}
	places := slices.Repeat(simplex.Basis{simplex.Basic}, x.Solver.Cols()+x.Solver.Rows())
	for j, at := range x.colAt {
		if at >= 0 {
			places[at] = col(j)
		}
	}
	for i, at := range x.At {
		if at >= 0 {
			places[x.Solver.Cols()+at] = row(i)
		}
	}
	x.SetBasis(places)
}

// StartAt makes the next solve start from a point: a basis of what is between its
// bounds there. Rows without room there are taken in.
func (x *Relaxation) StartAt(point []float64) {
	activity := make([]float64, len(x.At))
	for j, at := range x.colAt {
		for _, e := range x.problem.Cols[j].Entries {
			if at >= 0 {
				activity[e.Row] += e.Value * point[j]
			}
		}
	}
	x.startWith(func(j int) simplex.Place {
		lower, upper := x.Bounds(j)
		return placeOf(point[j], lower, upper)
	}, func(i int) simplex.Place {
		return placeOf(activity[i], x.problem.Rows[i].Lower, x.problem.Rows[i].Upper)
	})
}

// Basis is that of the last solve.
func (x *Relaxation) Basis() simplex.Basis { return x.Solver.Basis() }

// SetBasis makes the next solve start from the basis of an earlier one; rows may have
// been taken in since.
func (x *Relaxation) SetBasis(b simplex.Basis) {
	if x.Solver.SetBasis(b) != nil {
		x.Solver.SetSlackBasis()
	}
}

// placeOf is the place in a basis of what stands at v between two bounds.
func placeOf(v, lower, upper float64) simplex.Place {
	tol := lazyTolerance * math.Max(1, math.Abs(v))
	switch {
	case v <= lower+tol:
		return simplex.AtLower
	case v >= upper-tol:
		return simplex.AtUpper
	}
	return simplex.Basic
}
