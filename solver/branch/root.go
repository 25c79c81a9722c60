package branch

import (
	"math"

	"rationwright/solver/simplex"
)

// cutRoot adds rounds of cuts to the relaxation r, solved to out, while they
// raise the bound, and returns the relaxation with the cuts that bind, solved.
func (s *search) cutRoot(r *relaxation, out outcome) (*relaxation, outcome) {
	w := newWorkspace(s.n)
	first := out.bound
	idle := 0
	rounds, patience := cutRounds, cutIdle
	if s.n >= masterColumns {
		rounds, patience = cutRoundsLarge, cutIdleLarge
		if s.opt.Work > 0 && s.opt.Work <= shortWork {
			rounds = cutRoundsShort
		}
	}
	for range rounds {
		if out.status != simplex.Optimal || s.ctx.Err() != nil || len(s.fractional(out.x, nil)) == 0 {
			break
		}
		x := append([]float64(nil), out.x...)
		found := r.gomory(w, x, 2*cutsPerRound)
		found = append(found, r.aggregate(w, x, out.duals, 200)...)
		chosen := s.proven(selectCuts(found, cutsPerRound))
		if len(chosen) == 0 {
			break
		}
		for _, c := range chosen {
			s.cuts = append(s.cuts, c)
			r.appendRow(s.m + len(s.cuts) - 1)
		}
		before := out.bound
		out = r.solve(s.ctx, math.Inf(1), 0)
		if out.bound-before < cutGain*(out.bound-first) {
			if idle++; idle == patience {
				break
			}
		} else {
			idle = 0
		}
	}
	return s.restrictedMaster(r, out)
}

// proven repeats the rounding of each cut with outward rounding and loosens the
// side to what that proves. Cuts that lose too much are dropped. Cuts that it
// says nothing about (columns without bounds) stay as they are; an audit counts
// them as trusted.
func (s *search) proven(cuts []*cut) []*cut {
	a := &auditor{space: s.space, g: s.program, wideLower: s.impliedLower, wideUpper: s.impliedUpper}
	a.atCut[0], a.atCut[1] = s.lower, s.upper
	kept := cuts[:0]
	for _, c := range cuts {
		if side, ok := a.rounding(c); ok && !math.IsInf(side, 1) {
			side += provenMargin * math.Max(1, math.Abs(side))
			if side > c.upper+provenLoss*math.Max(1, math.Abs(c.upper)) {
				continue
			}
			c.upper = math.Max(c.upper, side)
		}
		kept = append(kept, c)
	}
	return kept
}

// restrictedMaster returns the relaxation that the tree works on: without the cuts that do
// not bind at the optimum out, the rows that are loose and the columns that are
// dear. All of them come in when they are needed (see [relaxation]). r is the
// relaxation that out comes from; it returns that it can do no better.
func (s *search) restrictedMaster(r *relaxation, out outcome) (*relaxation, outcome) {
	if out.status != simplex.Optimal {
		return r, out
	}
	fresh := s.space.restrictedMaster(r.basis(), out)
	if fresh == nil {
		return r, out
	}
	again := fresh.solve(s.ctx, math.Inf(1), 0)
	s.spentEarly += fresh.work
	if again.status != simplex.Optimal {
		return r, r.solve(s.ctx, math.Inf(1), 0)
	}
	s.spentEarly += r.work
	fresh.work = 0
	return fresh, again
}
