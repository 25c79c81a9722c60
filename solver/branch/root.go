package branch

import (
	"math"

	"rationwright/solver/simplex"
)

const (
	// cutRounds is the most rounds of cuts at the root of a small program, where
	// rounds are cheap and nodes are many (bell5 of MIPLIB 3: 12 rounds leave
	// 40,000 nodes, 60 rounds 1,500); cutRoundsLarge that of a program of
	// leanColumns or more: ration models get three quarters of what ten rounds
	// give from three.
	cutRounds, cutRoundsLarge = 60, 6
	// cutIdle is the number of rounds in a row with little gain after which no
	// more follow.
	cutIdle, cutIdleLarge = 12, 2
	// cutsPerRound bounds the cuts of one round.
	cutsPerRound = 40
	// cutGain is the share of the rise so far that a round must add not to count
	// as one with little gain.
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
	rounds, patience := cutRounds, cutIdle
	if s.n >= leanColumns {
		rounds, patience = cutRoundsLarge, cutIdleLarge
	}
	for range rounds {
		if out.status != simplex.Optimal || s.ctx.Err() != nil || len(s.fractional(out.x, nil)) == 0 {
			break
		}
		x := append([]float64(nil), out.x...)
		found := r.gomory(w, x, 2*cutsPerRound)
		found = append(found, r.aggregate(w, x, out.duals, 200)...)
		found = append(found, r.covers(w, x)...)
		found = append(found, r.links(w, x)...)
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
	return s.lean(r, out)
}

const (
	// leanColumns is the number of columns from which the relaxation of the
	// tree leaves columns out; below it is small enough.
	leanColumns = 300
	// leanShare is how dear a column must be to be left out: its reduced cost
	// as a share of the sum of the sizes that make it.
	leanShare = 0.12
	// leanSlack is how loose a row must be at the root to be left out, as a
	// share of its size there.
	leanSlack = 0.05
)

// provenMargin is added to the side that outward rounding proves for a cut,
// relative to it: an audit's box may be wider than ours in the last digit.
// provenLoss is the most that a side may have to be loosened.
const provenMargin, provenLoss = 1e-12, 1e-6

// proven repeats the rounding of each cut with outward rounding and loosens the
// side to what that proves. Cuts that lose too much are dropped. Cuts that it
// says nothing about (columns without bounds) stay as they are; an audit counts
// them as trusted.
func (s *search) proven(cuts []*cut) []*cut {
	a := &auditor{space: s.space, g: s.program, wideLower: s.impliedLower, wideUpper: s.impliedUpper}
	a.atCut[0], a.atCut[1] = s.lower, s.upper
	kept := cuts[:0]
	for _, c := range cuts {
		if c.origin.kind == rounding {
			side, ok := a.rounds(c)
			if ok && !math.IsInf(side, 1) {
				side += provenMargin * math.Max(1, math.Abs(side))
				if side > c.upper+provenLoss*math.Max(1, math.Abs(c.upper)) {
					continue
				}
				c.upper = math.Max(c.upper, side)
			}
		}
		kept = append(kept, c)
	}
	return kept
}

// lean returns the relaxation that the tree works on: without the cuts that do
// not bind at the optimum out, the rows that are loose and the columns that are
// dear. All of them come in when they are needed (see relax). r is the
// relaxation that out comes from; lean returns it where it can do no better.
func (s *search) lean(r *relax, out outcome) (*relax, outcome) {
	if out.status != simplex.Optimal {
		return r, out
	}
	fresh := s.space.lean(r.basis(), out)
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

// lean returns a lean relaxation that starts from the basis b of the optimum
// out, nil if it cannot be built. b is changed.
func (s *space) lean(b *warm, out outcome) *relax {
	var keepCol func(int) bool
	var blocks []int
	loose := make([]bool, s.m)
	for i := range loose {
		loose[i] = !s.eager(i)
	}
	if s.n >= leanColumns {
		dear := s.dearColumns(out)
		blocks = s.idleBlocks(out, b)
		for _, i := range blocks {
			b.rows[i], loose[i] = simplex.Basic, true
			for _, t := range s.rows[i] {
				b.cols[t.col], dear[t.col] = simplex.AtLower, true
			}
		}
		keepCol = func(j int) bool { return b.cols[j] != simplex.AtLower || !dear[j] }
		s.looseRows(out.x, loose)
	}
	keepRow := func(i int) bool {
		return i < len(b.rows) && b.rows[i] != simplex.Basic || i < s.m && !loose[i]
	}
	fresh, err := newRelax(s, keepCol, keepRow)
	if err != nil {
		return nil
	}
	fresh.leaveOut(blocks)
	fresh.load(b)
	return fresh
}

// dearColumns marks the columns that are unlikely to be used near the root's
// optimum out.
func (s *space) dearColumns(out outcome) []bool {
	size := make([]float64, s.n)
	for j, c := range s.cost {
		size[j] = math.Abs(c)
	}
	for k, y := range out.duals {
		if y == 0 {
			continue
		}
		terms, _, _ := s.rowTerms(out.rows[k])
		for _, t := range terms {
			size[t.col] += math.Abs(y * t.value)
		}
	}
	dear := make([]bool, s.n)
	for j := range dear {
		dear[j] = out.reduced[j] > leanShare*size[j] && s.lower[j] == 0
	}
	return dear
}

// looseRows marks the rows with room to spare at x as well.
func (s *space) looseRows(x []float64, loose []bool) {
	for i := range loose {
		if loose[i] {
			continue
		}
		loose[i] = !s.eager(i)
	}
	for i := range loose {
		sum, size := 0.0, 0.0
		for _, t := range s.rows[i] {
			sum += t.value * x[t.col]
			size = math.Max(size, math.Abs(t.value*x[t.col]))
		}
		room := math.Min(sum-s.rowLower[i], s.rowUpper[i]-sum)
		size = math.Max(size, math.Abs(sum))
		loose[i] = room > leanSlack*size || len(s.rows[i]) > 0 && size == 0 && room >= 0 && s.n >= leanColumns
	}
}
