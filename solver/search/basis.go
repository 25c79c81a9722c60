package search

import (
	"math"

	"rationwright/solver/simplex"
)

// startFrom makes the next solve start from a basis of the whole program; nil leaves it
// as it is.
func (x *Relaxation) startFrom(b *Basis) {
	if b == nil {
		return
	}
	for i, at := range x.At {
		if at < 0 && i < len(b.Rows) && b.Rows[i] != simplex.Basic {
			x.addLate(i)
		}
	}
	places := make(simplex.Basis, x.Solver.Cols()+x.Solver.Rows())
	for k := range places {
		places[k] = simplex.Basic
	}
	for j, at := range x.colAt {
		if at >= 0 && j < len(b.Cols) {
			places[at] = b.Cols[j]
		}
	}
	for i, at := range x.At {
		if at >= 0 && i < len(b.Rows) {
			places[x.Solver.Cols()+at] = b.Rows[i]
		}
	}
	x.SetBasis(places)
}

// StartAt makes the next solve start from a point: a basis of what is between its
// bounds there. Rows without room there are taken in.
func (x *Relaxation) StartAt(point []float64) {
	var places simplex.Basis
	activity := make([]float64, len(x.At))
	for j, at := range x.colAt {
		for _, e := range x.problem.Cols[j].Entries {
			if at >= 0 {
				activity[e.Row] += e.Value * point[j]
			}
		}
	}
	for i := range x.At {
		if row := x.problem.Rows[i]; x.At[i] < 0 && !free(row) && placeOf(activity[i], row.Lower, row.Upper) != simplex.Basic {
			x.addLate(i)
		}
	}
	places = make(simplex.Basis, x.Solver.Cols()+x.Solver.Rows())
	for k := range places {
		places[k] = simplex.Basic
	}
	for j, at := range x.colAt {
		if at >= 0 {
			lower, upper := x.Solver.Bounds(at)
			places[at] = placeOf(point[j], lower, upper)
		}
	}
	for i, at := range x.At {
		if at >= 0 {
			places[x.Solver.Cols()+at] = placeOf(activity[i], x.problem.Rows[i].Lower, x.problem.Rows[i].Upper)
		}
	}
	x.SetBasis(places)
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
