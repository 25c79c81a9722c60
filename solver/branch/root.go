package branch

import (
	"math"

	"rationwright/solver/simplex"
)

const (
	// cutRounds is the most rounds of cuts at the root. Ration models get three
	// quarters of what ten rounds give from three.
	cutRounds = 12
	// cutsPerRound bounds the cuts of one round.
	cutsPerRound = 40
	// cutGain is the share of the rise so far that a round must add, twice
	// running, to be followed by another.
	cutGain = 0.05
	// cutSlack is the slack, relative to its side, above which a cut is left
	// out of the relaxation again. It comes back when it is broken.
	cutSlack = 1e-6
)

// cutRoot adds rounds of cuts to the relaxation r, solved to out, while they
// raise the bound, and returns the relaxation with the cuts that bind, solved.
func (s *search) cutRoot(r *relax, out outcome) (*relax, outcome) {
	w := newWorkspace(s.n)
	first := out.bound
	idle := 0
	for range cutRounds {
		if out.status != simplex.Optimal || s.ctx.Err() != nil || len(s.fractional(out.x, nil)) == 0 {
			break
		}
		x := append([]float64(nil), out.x...)
		found := r.gomory(w, x, 2*cutsPerRound)
		found = append(found, r.aggregate(w, x, out.duals, 200)...)
		found = append(found, r.covers(w, x)...)
		found = append(found, r.links(w, x)...)
		chosen := selectCuts(found, cutsPerRound)
		if len(chosen) == 0 {
			break
		}
		for _, c := range chosen {
			s.cuts = append(s.cuts, c)
			r.appendRow(s.m + len(s.cuts) - 1)
		}
		before := out.bound
		out = r.solve(s.ctx, math.Inf(1), 0)
		if debugCuts != nil {
			debugCuts(len(found), len(chosen), before, out.bound)
		}
		if out.bound-before < cutGain*(out.bound-first) {
			if idle++; idle == 2 {
				break
			}
		} else {
			idle = 0
		}
	}
	return s.lean(r, out)
}

var debugCuts func(a, b int, c, d float64)

// lean returns the relaxation without the cuts that do not bind at the optimum
// out.
func (s *search) lean(r *relax, out outcome) (*relax, outcome) {
	if out.status != simplex.Optimal || len(s.cuts) == 0 {
		return r, out
	}
	b := r.basis()
	fresh, err := newRelax(s.space, nil, func(i int) bool { return i < s.m || b.rows[i] != simplex.Basic })
	if err != nil {
		return r, out
	}
	s.spentEarly += r.work
	fresh.load(b)
	again := fresh.solve(s.ctx, math.Inf(1), 0)
	if again.status != simplex.Optimal {
		s.spentEarly += fresh.work - r.work
		return r, r.solve(s.ctx, math.Inf(1), 0)
	}
	return fresh, again
}
