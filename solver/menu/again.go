package menu

import (
	"context"

	"rationwright/solver/search"
	"rationwright/solver/simplex"
)

// plateMark is for what e has of a dish, nil for what is beside, at a position; of a day or
// of all days where t is −1 − day or allDays.
type plateMark struct {
	e *eater
	t int
	c *choice
}

// allDays is under every −1 − day.
const allDays = -1 << 16

// solveAgain solves s, the relaxation of p, from where the servings of the household stood.
func solveAgain(ctx context.Context, h *household, p *program, s *search.Relaxation) simplex.Result {
	seen := h.shared
	if !seen.start(&p.marks, s) {
		return s.SolveWithin(ctx, shareWork)
	}
	if r := s.SolveWithin(ctx, int(againPart*float64(len(p.Rows)))); r.Status == simplex.Optimal {
		return r
	}
	h.shared = nil
	s.Solver.SetSlackBasis()
	r := s.SolveWithin(ctx, coldPart*len(p.Rows))
	if r.Status == simplex.Limit || r.Status == simplex.Numerical {
		seen.start(&p.marks, s)
		r = s.SolveWithin(ctx, shareWork)
	}
	return r
}
