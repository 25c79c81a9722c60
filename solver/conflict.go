package solver

import (
	"context"
	"math"
	"slices"
	"time"

	"rationwright/solver/branch"
	"rationwright/solver/linear"
	"rationwright/solver/simplex"
)

// Limits of one feasibility test with whole packs, and of all of them.
const (
	packTestWork = 4000 // simplex iterations
	conflictTime = 20 * time.Second
)

// conflictSet is a set of rows that cannot all be kept, with everything
// structural.
type conflictSet struct {
	rows   []int
	proven bool // irreducible: without any one of them there is a ration
}

// conflict looks for an irreducible set of limits that cannot all be kept, by a
// deletion filter: starting from the rows in a proof of infeasibility, each is
// left out in turn and stays out while the rest still conflicts. It works on
// the relaxation when that conflicts already, else with whole packs, where a
// test that ends without an answer leaves its row in and the set unproven.
// Structural rows (the arithmetic of packs, water and heat) are always kept.
func (r *Ration) conflict(ctx context.Context) (conflictSet, bool) {
	ctx, cancel := context.WithTimeout(ctx, conflictTime)
	defer cancel()
	if set, ok := r.relaxedConflict(ctx); ok {
		return set, true
	}
	return r.packedConflict(ctx)
}

// candidates are the rows that may stand in a conflict, in the order in which
// the filter tries to leave them out: needs first, then safety rows, then the
// user's own limits, so that what the user can change is what remains.
func (r *Ration) candidates() []int {
	var rows []int
	for _, c := range []class{requirement, safety, limit} {
		for i, info := range r.rows {
			if info.class == c {
				rows = append(rows, i)
			}
		}
	}
	return rows
}

// relaxedConflict filters on the relaxation; ok is false when the relaxation is
// feasible or could not be decided.
func (r *Ration) relaxedConflict(ctx context.Context) (conflictSet, bool) {
	s, err := simplex.New(r.Problem)
	if err != nil {
		return conflictSet{}, false
	}
	result := s.Solve(ctx, simplex.Limits{})
	if result.Status != simplex.Infeasible {
		return conflictSet{}, false
	}
	free := func(i int) { s.SetRowBounds(i, math.Inf(-1), math.Inf(1)) }
	restore := func(i int) { s.SetRowBounds(i, r.Problem.Rows[i].Lower, r.Problem.Rows[i].Upper) }
	var in []int
	for _, i := range r.candidates() {
		if result.Ray != nil && result.Ray[i] == 0 {
			free(i) // outside the proof: the rest conflicts without it
			continue
		}
		in = append(in, i)
	}
	set := conflictSet{proven: true}
	for len(in) > 0 {
		i := in[0]
		in = in[1:]
		free(i)
		switch result = s.Solve(ctx, simplex.Limits{}); result.Status {
		case simplex.Infeasible:
			in = slices.DeleteFunc(in, func(j int) bool {
				if result.Ray == nil || result.Ray[j] != 0 {
					return false
				}
				free(j)
				return true
			})
		case simplex.Optimal, simplex.Unbounded:
			restore(i)
			set.rows = append(set.rows, i)
		default:
			restore(i)
			set.rows = append(set.rows, i)
			set.proven = false
		}
		if ctx.Err() != nil {
			set.rows = append(set.rows, in...)
			set.proven = false
			break
		}
	}
	slices.Sort(set.rows)
	return set, true
}

// packedConflict filters with whole packs. Rows that cannot matter (those of
// needs that the relaxation keeps with room to spare) are tried together
// first, in halves.
func (r *Ration) packedConflict(ctx context.Context) (conflictSet, bool) {
	p := r.copyProblem()
	for j := range p.Cols {
		p.Cols[j].Cost = 0
	}
	set := conflictSet{proven: true}
	free := func(rows []int) {
		for _, i := range rows {
			p.Rows[i].Lower, p.Rows[i].Upper = math.Inf(-1), math.Inf(1)
		}
	}
	restore := func(rows []int) {
		for _, i := range rows {
			p.Rows[i] = r.Problem.Rows[i]
		}
	}
	if verdict(ctx, p) != stillConflicts {
		return conflictSet{}, false
	}
	var filter func(rows []int)
	filter = func(rows []int) {
		free(rows)
		switch verdict(ctx, p) {
		case stillConflicts:
			return
		case undecided:
			if len(rows) == 1 {
				set.proven = false
			}
		}
		restore(rows)
		if len(rows) == 1 {
			set.rows = append(set.rows, rows[0])
			return
		}
		half := len(rows) / 2
		filter(rows[:half])
		filter(rows[half:])
	}
	filter(r.candidates())
	if ctx.Err() != nil {
		set.proven = false
	}
	slices.Sort(set.rows)
	return set, true
}

// answers of one feasibility test.
type conflictVerdict int

const (
	undecided conflictVerdict = iota
	stillConflicts
	fits
)

func verdict(ctx context.Context, p *linear.Problem) conflictVerdict {
	if ctx.Err() != nil {
		return undecided
	}
	result := branch.Solve(ctx, p, branch.Options{Work: packTestWork, Gap: 1})
	switch {
	case result.X != nil:
		return fits
	case result.Status == branch.Infeasible:
		return stillConflicts
	default:
		return undecided
	}
}
