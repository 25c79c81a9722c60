package referee

import (
	"context"
	"errors"
	"fmt"
	"math"

	"rationwright/solver/linear"
)

// The largest standard form that is tried. gonum works on dense matrices and
// factorises three of them in every iteration, so time grows with more than the
// cube of the rows. Measured on one core of a shared server: 60 rows and 170
// columns about a second, 260 rows ten.
const (
	MaxRows = 400
	MaxCols = 4000
)

// Solve returns the referee's opinion of p without its integrality. It takes
// time as MaxRows says, and stops with no opinion when ctx ends; nothing is left
// running then. The error is that of p.Validate: anything that goes wrong in
// solving is an opinion.
func Solve(ctx context.Context, p *linear.Problem) (Opinion, error) {
	if err := p.Validate(); err != nil {
		return Opinion{}, fmt.Errorf("referee: %w", err)
	}
	s, op, settled := standardise(p)
	if settled {
		return op, nil
	}
	runaway := op.Why
	if len(s.rows) == 0 {
		op = s.free()
	} else {
		op = s.solve(ctx)
	}
	if runaway != "" && op.Verdict == Optimal {
		op = Opinion{Verdict: Unbounded, Rows: op.Rows, Cols: op.Cols, Why: runaway}
	}
	return op, nil
}

// solve solves with caps added where they are violated, until none is.
func (s *standard) solve(ctx context.Context) Opinion {
	inForce := make([]bool, len(s.cols))
	var capped []int // the columns whose caps are in force, in the order they came
	for k, c := range s.cols {
		// Nothing but its cap may hold back a column that pays for itself.
		if c.cost < 0 && !math.IsInf(c.cap, 0) {
			inForce[k] = true
			capped = append(capped, k)
		}
	}
	var before []int // the optimal basis before the last caps were added
	for {
		op := Opinion{Rows: len(s.rows) + len(capped), Cols: len(s.cols) + len(capped)}
		if op.Rows > MaxRows || op.Cols > MaxCols {
			op.Why = fmt.Sprintf("%d rows and %d columns are more than the %d and %d that are tried", op.Rows, op.Cols, MaxRows, MaxCols)
			return op
		}
		d := s.scale(capped)
		starts := []start{d.cold()}
		if before != nil {
			starts = []start{d.warm(before), d.cold()}
		}
		out := d.solve(ctx, starts, func(o outcome) bool {
			switch o.verdict {
			case Optimal:
				return o.dual
			case Infeasible:
				return s.contradiction(d, o).Proven
			}
			return true
		})
		switch out.verdict {
		case Optimal:
			z := d.columns(out.z)
			exceeded := s.exceeded(inForce, z)
			if len(exceeded) == 0 {
				return s.judge(op, d, z, out)
			}
			capped, before = append(capped, exceeded...), out.basis
		case Unbounded:
			rest := s.exceeded(inForce, nil)
			if len(rest) == 0 {
				op.Verdict = Unbounded
				return op
			}
			capped, before = append(capped, rest...), nil
		case Infeasible:
			found := s.contradiction(d, out)
			found.Rows, found.Cols = op.Rows, op.Cols
			return found
		default:
			op.Why = out.err.Error()
			if errors.Is(out.err, ctx.Err()) {
				op.Why = "stopped: " + ctx.Err().Error()
			}
			return op
		}
	}
}

// contradiction is the opinion that there is no point, from the end of phase 1.
func (s *standard) contradiction(d *scaled, out outcome) Opinion {
	if out.y == nil {
		return Opinion{Verdict: Infeasible}
	}
	return s.infeasible(s.multipliers(d, out.y, 1), "")
}

// exceeded puts the caps that z exceeds by more than rounding into force, all
// if z is nil, and returns those that were not before.
func (s *standard) exceeded(inForce []bool, z []float64) []int {
	var found []int
	for k, c := range s.cols {
		if inForce[k] || math.IsInf(c.cap, 0) {
			continue
		}
		if z == nil || z[k]-c.cap > 1e-9*math.Max(1, c.cap) {
			inForce[k] = true
			found = append(found, k)
		}
	}
	return found
}

// judge measures a claimed optimum against the original figures.
func (s *standard) judge(op Opinion, d *scaled, z []float64, out outcome) Opinion {
	x := s.point(z)
	pt, err := s.p.Evaluate(x)
	if err != nil {
		op.Why = err.Error()
		return op
	}
	op.Residual = s.residual(x, pt)
	if op.Residual > Tolerance {
		op.Why = fmt.Sprintf("gonum's point misses a row or bound by %.3g", op.Residual)
		return op
	}
	op.Verdict, op.X, op.Value = Optimal, x, pt.Value
	if !out.dual {
		op.Why = "the multipliers of gonum's last basis do not prove it"
		return op
	}
	s.addDual(&op, s.multipliers(d, out.y, s.sense/d.gamma))
	return op
}

// addDual adds multipliers and what they prove.
func (s *standard) addDual(op *Opinion, y []float64) {
	dp, err := s.p.Dual(y)
	if err != nil {
		op.Why = err.Error()
		return
	}
	op.HasDual, op.Dual, op.Reduced, op.Bound = true, y, dp.Reduced, dp.Bound
	// What a reduced cost without a bound to lean on leaves open.
	open := 0.0
	if dp.WorstCol >= 0 {
		open = dp.Residual * math.Max(1, math.Abs(op.X[dp.WorstCol]))
	}
	op.Proven = math.Abs(op.Value-op.Bound)+open <= Tolerance*math.Max(1, math.Abs(op.Value))
	if !op.Proven {
		op.Why = fmt.Sprintf("its multipliers prove only %.10g", op.Bound)
	}
}

// residual returns the most by which x misses a row or a bound, relative as in
// linear.Problem.Check.
func (s *standard) residual(x []float64, pt linear.Point) float64 {
	worst := 0.0
	for j, v := range x {
		c := &s.p.Cols[j]
		worst = math.Max(worst, beyond(v, c.Lower, c.Upper, 1))
	}
	for i, r := range s.p.Rows {
		worst = math.Max(worst, beyond(pt.Activity[i], r.Lower, r.Upper, pt.Size[i]))
	}
	return worst
}

func beyond(v, lower, upper, size float64) float64 {
	size = math.Max(1, size)
	switch {
	case v < lower:
		return (lower - v) / math.Max(size, math.Abs(lower))
	case v > upper:
		return (v - upper) / math.Max(size, math.Abs(upper))
	}
	return 0
}

// free solves a program that no row binds: every column goes to its best bound.
func (s *standard) free() Opinion {
	z := make([]float64, len(s.cols))
	for k, c := range s.cols {
		if c.cost >= 0 {
			continue
		}
		if math.IsInf(c.cap, 0) {
			return Opinion{Verdict: Unbounded}
		}
		z[k] = c.cap
	}
	x := s.point(z)
	pt, err := s.p.Evaluate(x)
	if err != nil {
		return Opinion{Why: err.Error()}
	}
	op := Opinion{Verdict: Optimal, X: x, Value: pt.Value, Residual: s.residual(x, pt)}
	s.addDual(&op, make([]float64, len(s.p.Rows)))
	return op
}
