package solver

import (
	"context"
	"fmt"
	"math"

	"rationwright/solver/branch"
	"rationwright/solver/linear"
	"rationwright/solver/ration"
	"rationwright/solver/simplex"
	"rationwright/solver/verify"
)

// Limits of the search behind one way out.
const (
	wayOutWork = 4000  // simplex iterations
	raiseWork  = 16000 // of the search for how much more of a limit is enough
	wayOutGap  = 0.01  // of how little more of a limit is enough
	replanGap  = 0.05  // of what a changed request costs
)

// named returns the limit behind a row, by the row's name.
func named(l *ration.Limits, row string) **float64 {
	switch row {
	case "budget":
		return &l.Budget
	case "max-weight":
		return &l.WeightKg
	case "max-litres":
		return &l.VolumeL
	case "max-water":
		return &l.WaterL
	default:
		return &l.HeatMJ
	}
}

// aimAtLimit makes the objective what a limit limits.
func (r *Ration) aimAtLimit(info rowInfo) {
	if info.total != "" {
		r.aim(info.total)
		return
	}
	col := r.water
	if info.unit == "MJ" {
		col = r.heat
	}
	for j := range r.Problem.Cols {
		r.Problem.Cols[j].Cost = 0
	}
	r.Problem.Cols[col].Cost = 1
}

// searchOnce searches the program as it stands within a fixed amount of work.
func (r *Ration) searchOnce(ctx context.Context, gap float64, work int64, start []float64) branch.Result {
	opt := branch.Options{Gap: gap, MinDenom: ration.SmallestStep(r.Request.Least), Work: work, Time: r.Request.Time, Start: start}
	if start == nil {
		opt.Start = r.underLimits(ctx, false)
	}
	found := r.quickly(ctx, r.Problem, opt)
	if found.X == nil && found.Status != branch.Infeasible {
		found = branch.Solve(ctx, r.Problem, opt)
	}
	return found
}

// canFit reports whether the relaxation of req has a point, vitamins that the
// body stores apart.
func canFit(ctx context.Context, req *ration.Request) bool {
	r, err := Build(req)
	if err != nil {
		return false
	}
	r.freeStoredVitamins()
	ok, err := r.feasible(ctx, r.Problem)
	return err == nil && ok
}

// freeStoredVitamins frees the floors that a plan gives up by itself.
func (r *Ration) freeStoredVitamins() {
	for i, info := range r.rows {
		if info.stored() {
			r.Problem.Rows[i].Lower = math.Inf(-1)
		}
	}
}

// feasible decides the relaxation of p, a program of r with its columns first.
// Foods come in as they are needed.
func (r *Ration) feasible(ctx context.Context, p *linear.Problem) (bool, error) {
	q := p.Clone()
	for j := range q.Cols {
		q.Cols[j].Cost = 0
	}
	x, err := r.newPriced(q, make([]bool, len(r.larder)))
	if err != nil {
		return false, err
	}
	switch result := x.solve(ctx); result.Status {
	case simplex.Optimal, simplex.Unbounded:
		return true, nil
	case simplex.Infeasible:
		return false, nil
	case simplex.Limit:
		return false, fmt.Errorf("%w: %s", ration.ErrNoPlan, result.Why)
	default:
		return false, fmt.Errorf("%w: %s", ration.ErrNumerical, result.Why)
	}
}

// replan plans req anew within a fixed amount of work; ok is false when no plan
// was found that passes the independent check.
func replan(ctx context.Context, req *ration.Request, start []float64) (plan *ration.Plan, ok bool) {
	r, err := Build(req)
	if err != nil || len(r.eaters) == 0 {
		return nil, false
	}
	result := r.searchOnce(ctx, replanGap, wayOutWork, start)
	var shortfalls []ration.Shortfall
	if result.Status == branch.Infeasible {
		if shortfalls, start, ok = r.relaxStoredVitamins(ctx); ok {
			result = r.searchOnce(ctx, replanGap, wayOutWork, start)
		}
	}
	if result.X == nil {
		return nil, false
	}
	plan = r.answer(result.X)
	plan.Shortfalls = gets(plan, shortfalls)
	return plan, len(verify.Check(r.Request, plan)) == 0
}
