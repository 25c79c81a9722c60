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
	limitTolerance = 1e-7 // relative: the tolerance of the simplex method
)

// verdict decides whether the kept limits conflict.
//
// Whole packs can only break a limit on a total: without one, the packs of any
// point of the relaxation may be rounded up. With one, the least total that the
// other limits allow is looked for, and the search ends as soon as a plan keeps
// the limit or the proven bound lies beyond it.
func (f *conflictFinder) verdict(ctx context.Context, kept []conflictLimit) conflictVerdict {
	if ctx.Err() != nil {
		return undecided
	}
	r, p, err := f.program(kept)
	if err != nil {
		return undecided
	}
	total := r.firstTotal(p)
	most := math.Inf(1)
	if total >= 0 {
		most = p.Rows[total].Upper
		p.Rows[total].Upper = math.Inf(1)
		aimAtRow(p, total)
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
	case total < 0:
		return fits
	case result.HasBound && result.Bound > most+limitTolerance*math.Max(1, most):
		return stillConflicts
	}
	return r.searchTotal(ctx, p, r.packsUp(result.X), most)
}

// firstTotal is the first row of p that limits a total of packs, -1 when there
// is none in force.
func (r *Ration) firstTotal(p *linear.Problem) int {
	for i, info := range r.rows {
		if info.total != "" && p.Rows[i].Upper < inf {
			return i
		}
	}
	return -1
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
