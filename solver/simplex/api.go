package simplex

import (
	"context"

	"rationwright/solver/linear"
)

// Status says why a solve stopped.
type Status int

// What a solve may end in. A breakdown is Numerical, never Infeasible.
const (
	Numerical  Status = iota // no certificate could be made
	Optimal                  // X, Dual and Reduced satisfy the residuals stated
	Infeasible               // Ray is a verified Farkas ray of the rows
	Unbounded                // Ray is a verified direction, X a feasible point
	Limit                    // iterations, work or objective cutoff reached, or cancelled
)

// Place is where a column or a row's slack stands in a basis.
type Place int8

// The places. Free non-basic columns rest at zero.
const (
	AtLower Place = iota
	AtUpper
	Basic
	AtZero
)

// Basis is a warm start: the place of every column, then of every row's slack.
// It is a value: copy it freely, keep it with a node of a tree.
type Basis []Place

// Limits bound one solve. The zero value sets none.
type Limits struct {
	Iterations int     // most simplex iterations; 0 = no limit
	Cutoff     float64 // stop with Limit once the dual bound passes it; used only if HasCutoff
	HasCutoff  bool
}

// Result is what one solve found. X has one value per column, Dual and RowValue
// one per row, Reduced one per column; all are in the terms of the original,
// unscaled problem in its own sense. For a minimisation
// Reduced[j] = Cost[j] − Σ_i Dual[i]·a_ij. Bound is a valid dual bound on the
// optimum whenever HasBound, also on Limit.
type Result struct {
	Status                                        Status
	Value                                         float64
	Bound                                         float64
	HasBound                                      bool
	X                                             []float64
	RowValue                                      []float64
	Dual                                          []float64
	Reduced                                       []float64
	Ray                                           []float64 // per row (Infeasible) or per column (Unbounded)
	Iterations                                    int
	PrimalResidual, DualResidual, Complementarity float64
	Why                                           string // for Numerical and Limit: in plain words
}

// Solver holds one program and its last basis between solves. Bounds, costs
// and rows may be changed between solves; the basis is kept, so that the next
// solve is warm. A Solver is not safe for concurrent use; Clone one per worker.
type Solver struct{ impl }

type impl struct{}

// API of Solver, to be filled:
//
//	New(p *linear.Problem) (*Solver, error)      integrality is ignored
//	(s) Clone() *Solver                          shares nothing mutable
//	(s) SetBounds(col int, lower, upper float64)
//	(s) Bounds(col int) (lower, upper float64)
//	(s) SetRowBounds(row int, lower, upper float64)
//	(s) SetCost(col int, cost float64)
//	(s) AddRow(name string, lower, upper float64, cols []int, values []float64) int
//	(s) DropRows(keep func(row int) bool)        only rows whose slack is basic
//	(s) AddCol(col linear.Col) int               non-basic at a bound
//	(s) Basis() Basis / SetBasis(Basis)
//	(s) Solve(ctx context.Context, lim Limits) Result
//	(s) TableauRow(row int) (…)                  for Gomory cuts: row of B⁻¹A of the basic column
//	(s) BasicIn(row int) int                     which column or slack is basic there
var _ = context.Background
var _ = linear.Inf
