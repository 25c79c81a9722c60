package solver

import (
	"context"
	"math"
	"slices"

	"rationwright/solver/linear"
	"rationwright/solver/simplex"
)

// priced is the relaxation of a ration program over some of its foods, with the
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
type priced struct {
	ration  *Ration
	problem *linear.Problem // the ration's columns first, in their order
	relaxed *relaxed
	in      []bool // by larder index
}

// newPriced makes the relaxation of p over the foods that in picks, by larder
// index. Foods on hand, set aside or without packs are always in.
func (r *Ration) newPriced(p *linear.Problem, in []bool) (*priced, error) {
	q := &priced{ration: r, problem: p, in: slices.Clone(in)}
	out := make([]bool, len(p.Cols))
	for li, lf := range r.larder {
		if lf.balance < 0 || len(lf.stock) > 0 || len(lf.reserve) > 0 {
			q.in[li] = true
		}
		if q.in[li] {
			continue
		}
		for _, j := range r.columnsOf(li) {
			out[j] = true
		}
	}
	var err error
	q.relaxed, err = relaxWithout(p, out)
	return q, err
}

// columnsOf lists the columns of a food that is bought only: its packs and its
// eaters.
func (r *Ration) columnsOf(li int) []int {
	var list []int
	for _, k := range r.larder[li].buy {
		list = append(list, k.col)
	}
	for _, e := range r.eaters {
		if y, ok := e.eating(li); ok {
			list = append(list, y.col)
		}
	}
	return list
}

// pricedTolerance is the reduced cost of a pack above which its food stays out,
// in the unit of the objective: far under a cent, a gram or a hundredth of a
// change.
const pricedTolerance = 1e-7

// solve solves the relaxation of the whole program. Reduced holds the reduced
// costs of all packs, those of the foods left outside included.
func (q *priced) solve(ctx context.Context) simplex.Result {
	for {
		result := q.relaxed.solve(ctx)
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
func (q *priced) priceIn(prices []float64, withCosts bool, reduced []float64) bool {
	r, added := q.ration, false
	for li, lf := range r.larder {
		if q.in[li] {
			continue
		}
		lambda := 0.0
		for _, e := range r.eaters {
			if y, ok := e.eating(li); ok && q.problem.Cols[y.col].Upper > 0 {
				lambda = math.Max(lambda, -q.reduced(y.col, lf.balance, prices, withCosts)/(e.count*y.spare))
			}
		}
		worth := false
		for _, k := range lf.buy {
			d := q.reduced(k.col, lf.balance, prices, withCosts) - lambda*k.usable
			if reduced != nil {
				reduced[k.col] = d
			}
			worth = worth || d < -pricedTolerance && q.problem.Cols[k.col].Upper > 0
		}
		if worth {
			q.in[li] = true
			added = true
			if q.relaxed.addColumns(r.columnsOf(li)) != nil {
				return false
			}
		}
	}
	return added
}

// reduced is the reduced cost of a column, one row left out.
func (q *priced) reduced(j, without int, prices []float64, withCosts bool) float64 {
	d := 0.0
	if withCosts {
		d = q.relaxed.costs[j]
	}
	for _, e := range q.problem.Cols[j].Entries {
		if e.Row != without && e.Row < len(prices) {
			d -= prices[e.Row] * e.Value
		}
	}
	return d
}
