package search

import (
	"context"
	"math"
	"slices"

	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/simplex"
)

// Master is the relaxation of a ration program over some of its foods, with the
// others priced in as they are needed: most rations are made of forty foods out
// of a hundred and seventy.
//
// A food f stands outside with the price λ_f of a gram at which nobody wants it
// at the row prices π found,
//
//	λ_f = max(0, max_p (Σ_i π_i a_i,pf − c_pf) / (n_p spare_pf))
//
// and may stay there while no pack of it is worth what it costs:
//
//	c_k − Σ_i π_i a_ik − λ_f usable_k ≥ 0
//
// With −λ_f as the price of its balance row, π is feasible for the dual of the
// whole program, so that its value bounds the whole (column generation: G. B.
// Dantzig, P. Wolfe, "Decomposition principle for linear programs", Operations
// Research 8 (1960); here a food is the block that comes in).
type Master struct {
	Model   *model.Model
	problem *linear.Problem // the ration's columns first, in their order
	LP      *Relaxation
	in      []bool // by larder index
}

// NewMaster makes the relaxation of p over the foods that in picks, by larder
// index. Foods on hand, set aside or without packs are always in.
func NewMaster(m *model.Model, p *linear.Problem, in []bool) (*Master, error) {
	q := &Master{Model: m, problem: p, in: slices.Clone(in)}
	out := make([]bool, len(p.Cols))
	for li, lf := range m.Larder {
		if lf.Balance < 0 || len(lf.Stock) > 0 || len(lf.Reserve) > 0 {
			q.in[li] = true
		}
		if q.in[li] {
			continue
		}
		for _, j := range m.ColumnsOf(li) {
			out[j] = true
		}
	}
	var err error
	q.LP, err = RelaxWithout(p, out)
	return q, err
}

// Solve solves the relaxation of the whole program. Reduced holds the reduced
// costs of all packs, those of the foods left outside included.
func (q *Master) Solve(ctx context.Context) simplex.Result {
	for {
		result := q.LP.Solve(ctx)
		switch {
		case result.Status == simplex.Optimal && q.priceIn(result.Dual, true, result.Reduced):
		case result.Status == simplex.Infeasible && result.Ray != nil && q.priceIn(result.Ray, false, nil):
		default:
			return result
		}
	}
}

// priceIn takes in the foods that are worth it at the row prices, and reports
// whether there were any. withCosts is false where the prices are a ray, which
// knows no costs. The reduced costs of packs left outside go into reduced.
func (q *Master) priceIn(prices []float64, withCosts bool, reduced []float64) bool {
	m := q.Model
	var cols []int // of all foods together: rows and columns by turns cost a new matrix each
	for li := range m.Larder {
		if q.in[li] {
			continue
		}
		worth := false
		q.pricePacks(li, prices, withCosts, func(col int, d float64) {
			if reduced != nil {
				reduced[col] = d
			}
			worth = worth || d < -reducedTolerance && q.problem.Cols[col].Upper > 0
		})
		if worth {
			q.in[li] = true
			cols = append(cols, m.ColumnsOf(li)...)
		}
	}
	return len(cols) > 0 && q.LP.AddColumns(cols) == nil
}

// pricePacks gives the reduced costs of the packs of a food that stands outside.
func (q *Master) pricePacks(li int, prices []float64, withCosts bool, is func(col int, d float64)) {
	lf := q.Model.Larder[li]
	lambda := 0.0
	for _, e := range q.Model.Eaters {
		if y, ok := e.Eating(li); ok && q.problem.Cols[y.Col].Upper > 0 {
			lambda = math.Max(lambda, -q.reduced(y.Col, lf.Balance, prices, withCosts)/(e.Count*y.SpareFactor))
		}
	}
	for _, k := range lf.Buy {
		is(k.Col, q.reduced(k.Col, lf.Balance, prices, withCosts)-lambda*k.Usable)
	}
}

// ReducedAt returns the reduced costs of the packs of all foods left outside at row prices
// that a larger program of the same rows and more gave: its duals, or where it has no
// point, its ray, which knows no costs. Other columns have none.
func (q *Master) ReducedAt(result simplex.Result) []float64 {
	prices, withCosts := result.Dual, true
	if result.Status == simplex.Infeasible {
		prices, withCosts = result.Ray, false
	}
	reduced := make([]float64, len(q.Model.Cols))
	for li := range q.Model.Larder {
		if !q.in[li] {
			q.pricePacks(li, prices, withCosts, func(col int, d float64) { reduced[col] = d })
		}
	}
	return reduced
}

// reduced is the reduced cost of a column, one row left out.
func (q *Master) reduced(j, without int, prices []float64, withCosts bool) float64 {
	d := 0.0
	if withCosts {
		d = q.LP.costs[j]
	}
	for _, e := range q.problem.Cols[j].Entries {
		if e.Row != without && e.Row < len(prices) {
			d -= prices[e.Row] * e.Value
		}
	}
	return d
}

// Rest is the relaxation put aside, some kilobytes in the place of megabytes: the foods
// and rows that are in and the basis of the last solve.
type Rest struct {
	in    []bool
	rows  []int
	basis *Basis
}

// Rest puts the relaxation aside.
func (q *Master) Rest() *Rest {
	x, places := q.LP, q.LP.Basis()
	at := func(where []int, before int, none simplex.Place) []simplex.Place {
		out := make([]simplex.Place, len(where))
		for k, place := range where {
			out[k] = none
			if place >= 0 {
				out[k] = places[before+place]
			}
		}
		return out
	}
	var rows []int
	for i, place := range x.At {
		if place >= 0 {
			rows = append(rows, i)
		}
	}
	return &Rest{in: q.in, rows: rows, basis: &Basis{Cols: at(x.colAt, 0, simplex.AtLower), Rows: at(x.At, x.Solver.Cols(), simplex.Basic)}}
}

// RestAt is a relaxation of m that has not been solved yet, put aside at a basis: the
// foods that are basic there are in. Of nil it is nil.
func RestAt(m *model.Model, basis *Basis) *Rest {
	if basis == nil {
		return nil
	}
	r := &Rest{in: make([]bool, len(m.Larder)), basis: basis}
	for j, info := range m.Cols {
		if info.Larder >= 0 && basis.Cols[j] == simplex.Basic {
			r.in[info.Larder] = true
		}
	}
	return r
}

// Basis is that of the last solve, over all columns and rows of the program; nil of a
// relaxation that has none.
func (r *Rest) Basis() *Basis {
	if r == nil {
		return nil
	}
	return r.basis
}

// Wake makes the relaxation of p, a program of m, that was put aside; nil stands for one
// that has none of the foods yet.
func (r *Rest) Wake(m *model.Model, p *linear.Problem) (*Master, error) {
	if r == nil {
		return NewMaster(m, p, make([]bool, len(m.Larder)))
	}
	q, err := NewMaster(m, p, r.in)
	if err == nil {
		q.LP.TakeRows(r.rows)
		q.LP.startFrom(r.basis)
	}
	return q, err
}
