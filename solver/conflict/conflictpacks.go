package conflict

import (
	"context"
	"math"
	"slices"

	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/search"
	"rationwright/solver/simplex"
)

// conflictVerdict is the answer of one test with whole packs.
type conflictVerdict int

const (
	undecided conflictVerdict = iota
	stillConflicts
	fits
)

// filter makes set irreducible with whole packs: members of it are left out while
// the rest still conflicts, in halves. A test that ends without an answer leaves its
// member in and the set unproven.
func (f *Finder) filter(ctx context.Context, set *conflictSet, members [][]conflictLimit) {
	var try func(part [][]conflictLimit)
	try = func(part [][]conflictLimit) {
		out := slices.Concat(part...)
		rest := slices.DeleteFunc(slices.Clone(set.limits), func(l conflictLimit) bool { return slices.Contains(out, l) })
		verdict := f.verdict(ctx, rest)
		switch {
		case verdict == stillConflicts:
			set.limits = rest
		case len(part) == 1:
			set.proven = set.proven && verdict == fits
		default:
			half := len(part) / 2
			try(part[:half])
			try(part[half:])
		}
	}
	if len(members) > 0 {
		try(members)
	}
}

// packTest decides whether limits conflict, with whole packs. They can only
// break a limit on a sum of packs: without one, the packs of any point of the
// relaxation may be rounded up. With one, the least sum that the other limits
// allow is looked for: a plan that keeps the limit is a point, a proven bound
// beyond it a conflict.
type packTest struct {
	model   *model.Model
	problem *linear.Problem // with the first limit on packs as its objective
	lp      *search.Relaxation
	limits  []int   // rows that whole packs can break; the first is the objective
	most    float64 // its limit
	rows    map[string]int
}

// newPackTest makes the test of the kept limits.
func (f *Finder) newPackTest(kept []conflictLimit) (*packTest, error) {
	m, p, err := f.program(kept)
	if err != nil {
		return nil, err
	}
	t := &packTest{model: m, problem: p, limits: m.PackLimits(p), most: math.Inf(1), rows: map[string]int{}}
	if len(t.limits) > 0 {
		t.most = p.Rows[t.limits[0]].Upper
		p.Rows[t.limits[0]].Upper = math.Inf(1)
		model.AimAtRow(p, t.limits[0])
	}
	for i, row := range p.Rows {
		t.rows[row.Name] = i
	}
	t.lp, err = search.Relax(p)
	return t, err
}

// beyond is the sum from which the limit is broken for certain.
func (t *packTest) beyond() float64 { return t.most + search.LimitTolerance*math.Max(1, t.most) }

// quick decides by the relaxation, and by rounding it up.
func (t *packTest) quick(ctx context.Context) (verdict conflictVerdict, start []float64) {
	result := t.lp.Solve(ctx)
	switch {
	case result.Status == simplex.Infeasible:
		return stillConflicts, nil
	case result.Status != simplex.Optimal && result.Status != simplex.Unbounded:
		return undecided, nil
	case len(t.limits) == 0:
		return fits, nil
	case result.HasBound && result.Bound > t.beyond():
		return stillConflicts, nil
	case len(t.limits) > 1:
		return undecided, t.model.PacksUp(result.X)
	}
	start = t.lp.DiveUp(ctx)
	if start != nil && t.problem.CostAt(start) <= t.most {
		return fits, start
	}
	return undecided, start
}

// verdict decides whether the kept limits conflict.
func (f *Finder) verdict(ctx context.Context, kept []conflictLimit) conflictVerdict {
	if ctx.Err() != nil {
		return undecided
	}
	t, err := f.newPackTest(kept)
	if err != nil {
		return undecided
	}
	verdict, start := t.quick(ctx)
	if verdict != undecided {
		return verdict
	}
	return t.search(ctx, start)
}

// filterRows leaves out single rows of a set that the relaxation cannot do
// without, by one relaxation for all.
func (f *Finder) filterRows(ctx context.Context, set *conflictSet, rows []conflictLimit) {
	t, err := f.newPackTest(set.limits)
	if err != nil {
		set.proven = false
		return
	}
	for _, l := range rows {
		row := t.rows[f.base.Problem.Rows[l.row].Name]
		if len(t.limits) == 0 || row == t.limits[0] || t.lp.At[row] < 0 {
			f.filter(ctx, set, singly([]conflictLimit{l}))
			continue
		}
		own := conflictLimit{row: row, lower: l.lower, upper: l.upper, exclusion: -1}
		setSides(t.lp, own, t.problem.Rows[row], false)
		switch verdict, _ := t.quick(ctx); verdict {
		case fits:
			setSides(t.lp, own, t.problem.Rows[row], true)
		case stillConflicts:
			set.limits = slices.DeleteFunc(set.limits, func(other conflictLimit) bool { return other == l })
		default:
			before := len(set.limits)
			if set.proven { // once it is not, a long search would not make it so
				f.filter(ctx, set, singly([]conflictLimit{l}))
			}
			if len(set.limits) == before {
				setSides(t.lp, own, t.problem.Rows[row], true)
			}
		}
	}
}

// search looks for a point of the limit by branch and cut, and ends as soon as
// there is one, or the bound lies beyond the limit.
func (t *packTest) search(ctx context.Context, start []float64) conflictVerdict {
	beyond := t.beyond()
	result := search.Run(ctx, t.problem, search.Options{
		MinDenom: 1, Work: search.PackTestWork, Start: start, Until: search.WithinOrBeyond(t.most, beyond),
	})
	switch {
	case result.X != nil && result.Value <= beyond:
		return fits
	case result.Status == search.Infeasible, result.Bound > beyond:
		return stillConflicts
	default:
		return undecided
	}
}
