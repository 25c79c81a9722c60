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

// filter makes set irreducible with whole packs: members of it are left out while
// the rest still conflicts, in halves. A test that ends without an answer leaves its
// member in and the set unproven.
func (f *conflictFinder) filter(ctx context.Context, set *conflictSet, members [][]conflictLimit) {
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

// Limits of one test with whole packs, and the room for its last digits.
const (
	packTestWork   = 15000 // simplex iterations
	limitTolerance = 1e-7  // relative: the tolerance of the simplex method
)

// packTest decides whether limits conflict, with whole packs. They can only
// break a limit on a sum of packs: without one, the packs of any point of the
// relaxation may be rounded up. With one, the least sum that the other limits
// allow is looked for: a plan that keeps the limit is a point, a proven bound
// beyond it a conflict.
type packTest struct {
	ration  *Ration
	problem *linear.Problem // with the first limit on packs as its objective
	lp      *relaxed
	limits  []int   // rows that whole packs can break; the first is the objective
	most    float64 // its limit
	rows    map[string]int
}

// newPackTest makes the test of the kept limits.
func (f *conflictFinder) newPackTest(kept []conflictLimit) (*packTest, error) {
	r, p, err := f.program(kept)
	if err != nil {
		return nil, err
	}
	t := &packTest{ration: r, problem: p, limits: r.packLimits(p), most: math.Inf(1), rows: map[string]int{}}
	if len(t.limits) > 0 {
		t.most = p.Rows[t.limits[0]].Upper
		p.Rows[t.limits[0]].Upper = math.Inf(1)
		aimAtRow(p, t.limits[0])
	}
	for i, row := range p.Rows {
		t.rows[row.Name] = i
	}
	t.lp, err = relax(p)
	return t, err
}

// beyond is the sum from which the limit is broken for certain.
func (t *packTest) beyond() float64 { return t.most + limitTolerance*math.Max(1, t.most) }

// quick decides by the relaxation, and by rounding it up.
func (t *packTest) quick(ctx context.Context) (verdict conflictVerdict, start []float64) {
	result := t.lp.solve(ctx)
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
		return undecided, t.ration.packsUp(result.X)
	}
	start = t.lp.diveUp(ctx)
	if start != nil && t.sum(start) <= t.most {
		return fits, start
	}
	return undecided, start
}

// sum is the objective at a point.
func (t *packTest) sum(x []float64) float64 {
	total := 0.0
	for j, c := range t.problem.Cols {
		total += c.Cost * x[j]
	}
	return total
}

// verdict decides whether the kept limits conflict.
func (f *conflictFinder) verdict(ctx context.Context, kept []conflictLimit) conflictVerdict {
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
func (f *conflictFinder) filterRows(ctx context.Context, set *conflictSet, rows []conflictLimit) {
	t, err := f.newPackTest(set.limits)
	if err != nil {
		set.proven = false
		return
	}
	for _, l := range rows {
		row := t.rows[f.base.Problem.Rows[l.row].Name]
		if len(t.limits) == 0 || row == t.limits[0] || t.lp.at[row] < 0 {
			f.filter(ctx, set, singly([]conflictLimit{l}))
			continue
		}
		own := conflictLimit{row: row, lower: l.lower, upper: l.upper, exclusion: -1}
		t.lp.setSides(own, t.problem.Rows[row], false)
		switch verdict, _ := t.quick(ctx); verdict {
		case fits:
			t.lp.setSides(own, t.problem.Rows[row], true)
		case stillConflicts:
			set.limits = slices.DeleteFunc(set.limits, func(other conflictLimit) bool { return other == l })
		default:
			before := len(set.limits)
			if set.proven { // once it is not, a long search would not make it so
				f.filter(ctx, set, singly([]conflictLimit{l}))
			}
			if len(set.limits) == before {
				t.lp.setSides(own, t.problem.Rows[row], true)
			}
		}
	}
}

// packLimits lists the rows in force of p that whole packs can break: those that
// bound a sum of packs or containers from above. Totals of the household's own
// come first.
func (r *Ration) packLimits(p *linear.Problem) []int {
	bounded := make([]bool, len(r.rows))
	most := make([]float64, len(r.rows)) // of the row, by the bounds of its columns
	for j := range p.Cols {
		c := &p.Cols[j]
		for _, e := range c.Entries {
			if e.Row >= len(r.rows) {
				continue
			}
			most[e.Row] += math.Max(e.Value*c.Lower, e.Value*c.Upper)
			if c.Integer && e.Value > 0 && c.Upper > c.Lower && p.Rows[e.Row].Upper < inf && r.rows[e.Row].kind != rowKeep {
				bounded[e.Row] = true
			}
		}
	}
	for i := range bounded {
		bounded[i] = bounded[i] && most[i] > p.Rows[i].Upper
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

// packDust is the part of a pack that counts as none when packs are rounded up:
// of the largest pack, 9 kg, it is less than what the independent check lets pass.
const packDust = 1e-10

// packsUp rounds the packs of a point up.
func (r *Ration) packsUp(x []float64) []float64 {
	up := slices.Clone(x)
	for j := range r.cols {
		if r.Problem.Cols[j].Integer {
			up[j] = math.Ceil(x[j] - packDust)
		}
	}
	return up
}

// search looks for a point of the limit by branch and cut, and ends as soon as
// there is one, or the bound lies beyond the limit.
func (t *packTest) search(ctx context.Context, start []float64) conflictVerdict {
	beyond := t.beyond()
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	result := branch.Solve(ctx, t.problem, branch.Options{
		Gap: branch.DefaultGap, MinDenom: 1, Work: packTestWork, Start: start,
		Progress: func(now branch.Progress) {
			if now.HasValue && now.Value <= t.most || now.Bound > beyond {
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
