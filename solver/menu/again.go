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

const allDays = -1 << 16

// againPart is in how many iterations, as a part of the rows, a program is solved from where
// others ended: where packs are opened for many, that takes longer than from nothing, and no
// more of the household's are begun so.
const againPart = 0.25

// coldPart is likewise of a program that is solved from nothing: one is usual, and what goes
// in circles is begun from where others ended after all.
const coldPart = 5

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
