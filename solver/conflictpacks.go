package solver

import (
	"context"
	"math"
	"slices"

	"rationwright/solver/branch"
	"rationwright/solver/linear"
	"rationwright/solver/simplex"
)

// conflictVerdict is the answer of one test with whole packs.
type conflictVerdict int

const (
	undecided conflictVerdict = iota
	stillConflicts
	fits
)

// filter makes set irreducible with whole packs: the limits of part are left out
// while the rest still conflicts, in halves. A test that ends without an answer
// leaves its limit in and the set unproven.
func (f *conflictFinder) filter(ctx context.Context, set *conflictSet, part []conflictLimit) {
	kept := set.limits
	var try func(part []conflictLimit)
	try = func(part []conflictLimit) {
		rest := slices.DeleteFunc(slices.Clone(kept), func(l conflictLimit) bool { return slices.Contains(part, l) })
		verdict := f.verdict(ctx, rest)
		if verdict == stillConflicts {
			kept = rest
			return
		}
		if len(part) == 1 {
			if verdict == undecided {
				set.proven = false
			}
			return
		}
		half := len(part) / 2
		try(part[:half])
		try(part[half:])
	}
	if len(part) > 0 {
		try(part)
	}
	set.limits = kept
}

// Limits of one test with whole packs, and the room for its last digits.
const (
	packTestWork   = 15000 // simplex iterations
	limitTolerance = 1e-7  // relative: the tolerance of the simplex method
)

// verdict decides whether the kept limits conflict.
//
// Whole packs can only break a limit on a sum of packs: without one, the packs
// of any point of the relaxation may be rounded up. With one, the least sum that
// the other limits allow is looked for, and the search ends as soon as a plan
// keeps the limit or the proven bound lies beyond it.
func (f *conflictFinder) verdict(ctx context.Context, kept []conflictLimit) conflictVerdict {
	if ctx.Err() != nil {
		return undecided
	}
	r, p, err := f.program(kept)
	if err != nil {
		return undecided
	}
	limits := r.packLimits(p)
	most := math.Inf(1)
	if len(limits) > 0 {
		most = p.Rows[limits[0]].Upper
		p.Rows[limits[0]].Upper = math.Inf(1)
		aimAtRow(p, limits[0])
	}
	x, err := relax(p)
	if err != nil {
		return undecided
	}
	result := x.solve(ctx)
	switch {
	case result.Status == simplex.Infeasible:
		return stillConflicts
	case result.Status != simplex.Optimal && result.Status != simplex.Unbounded:
		return undecided
	case len(limits) == 0:
		return fits
	case result.HasBound && result.Bound > most+limitTolerance*math.Max(1, most):
		return stillConflicts
	}
	return r.searchTotal(ctx, p, r.packsUp(result.X), most)
}

// packLimits lists the rows in force of p that whole packs can break: those that
// bound a sum of packs or containers from above. Totals of the household's own
// come first.
func (r *Ration) packLimits(p *linear.Problem) []int {
	bounded := make([]bool, len(r.rows))
	for j := range r.cols {
		if !p.Cols[j].Integer {
			continue
		}
		for _, e := range p.Cols[j].Entries {
			if e.Row < len(r.rows) && e.Value > 0 && p.Rows[e.Row].Upper < inf && r.rows[e.Row].kind != rowKeep {
				bounded[e.Row] = true
			}
		}
	}
	var totals, others []int
	for i, is := range bounded {
		switch {
		case is && r.rows[i].total != "":
			totals = append(totals, i)
		case is:
			others = append(others, i)
		}
	}
	return append(totals, others...)
}

// aimAtRow makes the objective of p the activity of one of its rows.
func aimAtRow(p *linear.Problem, row int) {
	for j := range p.Cols {
		p.Cols[j].Cost = 0
		for _, e := range p.Cols[j].Entries {
			if e.Row == row {
				p.Cols[j].Cost = e.Value
			}
		}
	}
}

// packsUp rounds the packs of a point up.
func (r *Ration) packsUp(x []float64) []float64 {
	up := slices.Clone(x)
	for j := range r.cols {
		if r.Problem.Cols[j].Integer {
			up[j] = math.Ceil(x[j] - limitTolerance)
		}
	}
	return up
}

// searchTotal looks for a point of p whose objective is at most most.
func (r *Ration) searchTotal(ctx context.Context, p *linear.Problem, start []float64, most float64) conflictVerdict {
	beyond := most + limitTolerance*math.Max(1, most)
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	result := branch.Solve(ctx, p, branch.Options{
		Gap: branch.DefaultGap, MinDenom: 1, Work: packTestWork, Start: start,
		Progress: func(now branch.Progress) {
			if now.HasValue && now.Value <= most || now.Bound > beyond {
				stop()
			}
		},
	})
	switch {
	case result.X != nil && result.Value <= beyond:
		return fits
	case result.Status == branch.Infeasible, result.Bound > beyond:
		return stillConflicts
	default:
		return undecided
	}
}
