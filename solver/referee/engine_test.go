package referee_test

import (
	"context"
	"math"
	"testing"
	"time"

	"rationwright/solver/branch"
	"rationwright/solver/linear"
	"rationwright/solver/referee"
	"rationwright/solver/simplex"
)

// tight is the relative difference allowed between two computations of the same
// figure. Published optima are known to no more than ten digits, and the
// engines work to tolerances of 1e-9 on each row.
const tight = 1e-6

// patience is the longest that one program may take; a test that runs into it
// fails.
const patience = 60 * time.Second

func near(got, want float64) bool {
	return math.Abs(got-want) <= tight*math.Max(1, math.Abs(want))
}

// solveLP solves p by the simplex method and checks, on p's own figures and by
// code that the engine has no part in, that the answer is what it says it is.
func solveLP(t testing.TB, p *linear.Problem) simplex.Result {
	t.Helper()
	s, err := simplex.New(p)
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithTimeout(context.Background(), patience)
	defer cancel()
	r := s.Solve(ctx, simplex.Limits{})
	switch r.Status {
	case simplex.Optimal:
		checkPoint(t, p.Relaxation(), r.X, r.Value)
		dp, err := p.Dual(r.Dual)
		if err != nil {
			t.Errorf("duals: %v", err)
		} else if open := dp.Residual * scaleOf(r.X, dp.WorstCol); !near(dp.Bound, r.Value) || open > tight*math.Max(1, math.Abs(r.Value)) {
			t.Errorf("duals prove %.10g (residual %g) for a value of %.10g", dp.Bound, dp.Residual, r.Value)
		}
	case simplex.Infeasible:
		checkRay(t, p, r.Ray)
	case simplex.Unbounded:
		checkDirection(t, p, r.X, r.Ray)
	default:
		t.Errorf("simplex stopped with %v: %s", r.Status, r.Why)
	}
	return r
}

func scaleOf(x []float64, j int) float64 {
	if j < 0 {
		return 0
	}
	return math.Max(1, math.Abs(x[j]))
}

// checkPoint recomputes a claimed solution.
func checkPoint(t testing.TB, p *linear.Problem, x []float64, value float64) {
	t.Helper()
	missed, err := p.Check(x, tight)
	if err != nil {
		t.Errorf("point: %v", err)
		return
	}
	for _, v := range missed {
		t.Errorf("point misses %s", v)
	}
	pt, _ := p.Evaluate(x)
	if !near(value, pt.Value) {
		t.Errorf("value %.10g, but the point is worth %.10g", value, pt.Value)
	}
}

// checkRay recomputes a claimed proof that nothing is feasible.
func checkRay(t testing.TB, p *linear.Problem, ray []float64) {
	t.Helper()
	if crossed(p) {
		return // shown by one look at the bounds
	}
	margin, err := p.FarkasMargin(ray)
	if err != nil || !(margin > 1e-9) {
		t.Errorf("Farkas ray has margin %g (%v), want a positive one", margin, err)
	}
}

func crossed(p *linear.Problem) bool {
	for _, r := range p.Rows {
		if r.Lower > r.Upper {
			return true
		}
	}
	for j := range p.Cols {
		if p.Cols[j].Lower > p.Cols[j].Upper {
			return true
		}
	}
	return false
}

// checkDirection recomputes a claimed proof that the objective has no end: a
// feasible point, and a direction that keeps to all bounds and improves.
func checkDirection(t testing.TB, p *linear.Problem, x, ray []float64) {
	t.Helper()
	q := p.Relaxation()
	if missed, err := q.Check(x, tight); err != nil || len(missed) > 0 {
		t.Errorf("unbounded from a point that misses %v (%v)", missed, err)
	}
	q.Offset = 0
	for i, r := range q.Rows {
		q.Rows[i].Lower, q.Rows[i].Upper = recession(r.Lower, r.Upper)
	}
	for j := range q.Cols {
		q.Cols[j].Lower, q.Cols[j].Upper = recession(q.Cols[j].Lower, q.Cols[j].Upper)
	}
	if missed, err := q.Check(ray, tight); err != nil || len(missed) > 0 {
		t.Errorf("unbounded along a direction that misses %v (%v)", missed, err)
		return
	}
	if pt, _ := q.Evaluate(ray); (pt.Value < 0) == q.Maximize || pt.Value == 0 {
		t.Errorf("the direction changes the objective by %g", pt.Value)
	}
}

func recession(lower, upper float64) (float64, float64) {
	if !math.IsInf(lower, 0) {
		lower = 0
	}
	if !math.IsInf(upper, 0) {
		upper = 0
	}
	return lower, upper
}

// solveMIP solves p by branch and cut to a gap that tells integers of the size
// of the published optima apart, and checks the answer likewise.
func solveMIP(t testing.TB, p *linear.Problem) branch.Result {
	t.Helper()
	ctx, stop := context.WithTimeout(t.Context(), patience)
	defer stop()
	r := branch.Solve(ctx, p, branch.Options{Gap: 1e-9})
	switch r.Status {
	case branch.Optimal:
		checkPoint(t, p, r.X, r.Value)
		if !near(r.Bound, r.Value) {
			t.Errorf("optimal with bound %.10g and value %.10g", r.Bound, r.Value)
		}
	case branch.Infeasible:
		if r.Ray != nil {
			checkRay(t, p, r.Ray)
		}
	case branch.Unbounded:
		if missed, err := p.Check(r.X, tight); err != nil || len(missed) > 0 {
			t.Errorf("unbounded from a point that misses %v (%v)", missed, err)
		}
	default:
		t.Errorf("branch stopped with %v after %d nodes, value %.10g, bound %.10g: %s", r.Status, r.Nodes, r.Value, r.Bound, r.Why)
	}
	return r
}

// opinion asks the referee, within reason.
func opinion(t testing.TB, p *linear.Problem) referee.Opinion {
	t.Helper()
	ctx, cancel := context.WithTimeout(context.Background(), patience)
	defer cancel()
	op, err := referee.Solve(ctx, p)
	if err != nil {
		t.Fatal(err)
	}
	if op.Verdict == referee.Optimal {
		checkPoint(t, p.Relaxation(), op.X, op.Value)
	}
	return op
}
