package branch

import (
	"context"
	"math"
	"slices"

	"rationwright/solver/simplex"
)

// root works on the root relaxation r, solved to out: one worker adds cuts
// while another looks for a first point.
func (s *search) root(r *relaxation, out outcome) {
	s.guide = s.newGuide(out)
	plain := &space{program: s.program} // no cuts: those are being made
	early := newLNS(plain, s.guide, 0)
	early.pseudo = newPseudocosts(s.n)
	if master := plain.restrictedMaster(r.basis(), out); master != nil {
		early.use(master)
	} else {
		early.use(r.clone())
	}
	// The simplest point of all: one more of everything that is fractional.
	w := &worker{r: r, gap: s.gap}
	w.begin(s.best)
	w.frac = s.fractional(s.guide.x, nil)
	if w.offer(w.simpleRounding(outcome{value: out.value, x: s.guide.x})) {
		s.best = w.best
	}
	s.report()
	look := func() { w.early(s, early) }
	if s.opt.Workers == 1 {
		look()
		r, out = s.cutRoot(r, out)
	} else {
		var beside Team
		beside.Do(look)
		r, out = s.cutRoot(r, out)
		beside.Wait()
	}
	if len(w.found) > 0 {
		s.best = w.best
	}
	s.spentEarly += early.work
	if out.bound > s.guide.bound && out.status == simplex.Optimal {
		s.guide = s.newGuide(out)
	}
	if s.opt.Audit {
		s.rootProof = newCertificate(out.rows, out.duals, false)
	}
	s.floor = math.Max(s.floor, s.roundUp(s.guide.bound))
	s.spentEarly += r.work
	r.work = 0
	s.open.add(&node{bound: s.floor, column: -1, basis: r.basis(), proof: s.rootProof})
	for id := range s.opt.Workers {
		w := &worker{id: id, r: r, pseudo: newPseudocosts(s.n), audit: s.opt.Audit, gap: s.gap, plunge: plungeShare, strong: strongCandidates}
		if id > 0 {
			w.r = r.clone()
		}
		w.near = newLNS(s.space, s.guide, uint64(id+1))
		w.near.pseudo = w.pseudo
		// Until the tree has points of its own, the best point is compared with the
		// root's (relaxation induced neighbourhoods).
		w.near.nodes = [][]float64{s.guide.x, s.rootPlain.x}
		w.near.use(w.r.clone())
		s.workers = append(s.workers, w)
	}
}

// early looks for a first point, and for better ones near it: where the dive has one,
// between it and the root's (relaxation induced neighbourhoods), else among the columns
// that the root uses or nearly uses. Searches with little work end with what it finds; of
// those with half a second it makes no difference.
func (w *worker) early(s *search, h *lns) {
	on := func() bool { return s.ctx.Err() == nil && (s.opt.Work <= 0 || h.work < s.opt.Work) }
	through := func() {
		for h.task != nil && on() {
			w.offer(h.proceed(s.ctx, h.effort+roundEffort))
		}
	}
	if len(s.integers) >= lnsIntegers && (s.startIsNear(w.best) || w.offer(h.dive(s.ctx))) {
		h.nodes = [][]float64{s.guide.x}
		if h.next(s.ctx, w.best, s.guide.bound) {
			through()
		}
	} else if h.first(s.ctx, w.cutoff) {
		through()
	}
}

// farStart is from where on a point to start from is no better than none, over the
// bound: the point of a program with another objective can have every pack there is.
// Common practice, no source.
const farStart = 0.5

// startIsNear reports whether better points are looked for near the one that the search
// was started from.
func (s *search) startIsNear(best *point) bool {
	return len(s.opt.Start) > 0 && best != nil && best.value-s.guide.bound <= farStart*math.Abs(s.guide.bound)
}

// rounds runs the workers side by side until the gap is closed or a limit is
// reached. What each does depends on earlier rounds only, never on time.
func (s *search) rounds() (Status, string) {
	for {
		s.trim()
		s.fixRoot()
		s.report()
		if status, why, done := s.over(); done {
			return status, why
		}
		bound := s.bound()
		length := int64(roundEffort)
		if s.round < 10 {
			length = min(length, firstEffort<<s.round)
		}
		tree := s.treeWorkers()
		points := s.visited()
		for _, w := range s.workers {
			w.begin(s.best)
			w.near.earlier = s.earlier
			if len(points) > 0 {
				w.near.nodes = slices.Clone(points)
			}
		}
		for k := 0; len(s.open) > 0 && k < dealt*len(tree); k++ {
			w := tree[k%len(tree)]
			w.open = append(w.open, s.open.take()) // ascending: a heap already
		}
		var team Team
		for _, w := range s.workers {
			team.Do(func() { w.round(s.ctx, bound, length) })
		}
		team.Wait()
		s.byClock = s.ctx.Err() != nil
		for _, w := range s.workers {
			s.merge(w)
		}
		s.round++
		s.stalled++
	}
}

// visited takes the points of the nodes that the workers branched on.
func (s *search) visited() [][]float64 {
	var points [][]float64
	for _, w := range s.workers {
		points = append(points, w.visited...)
		w.visited = nil
	}
	return points
}

// round searches the nodes that were dealt to the worker, or neighbourhoods if
// there are none, for the length given. What a worker overspends, because a
// relaxation takes as long as it takes, it saves in the rounds that follow.
func (w *worker) round(ctx context.Context, bound float64, length int64) {
	budget := length - w.debt
	before := w.r.effort + w.near.effort
	switch {
	case budget <= 0:
	case len(w.open) > 0:
		w.explore(ctx, w.r.effort+budget)
	default:
		w.improve(ctx, bound, budget)
	}
	w.debt = max(0, w.r.effort+w.near.effort-before-budget)
}

// treeWorkers chooses the workers that search the tree this round: always the
// first; the second looks for better points while that pays.
func (s *search) treeWorkers() []*worker {
	switch {
	case len(s.integers) < lnsIntegers:
		return s.workers
	case len(s.workers) == 1:
		if s.round%2 == 1 && (s.stalled < stallRounds || s.round%4 == 1) {
			return nil // the only worker looks for a better point
		}
		return s.workers
	}
	tree := append([]*worker{s.workers[0]}, s.workers[2:]...)
	help := s.stalled >= stallRounds && s.round%2 == 0
	if help || s.best == nil && s.round%2 == 1 {
		tree = append(tree, s.workers[1])
	}
	return tree
}

// over says whether and why the search ends.
func (s *search) over() (status Status, why string, done bool) {
	closed := len(s.open) == 0
	if s.best != nil {
		gap := s.gap.of(s.program, s.best.value, s.bound())
		switch {
		case gap <= s.gap.relative:
			return Optimal, "", true
		case closed && len(s.stuck) == 0 && s.best.value-s.bound() <= closedGap*math.Max(1, math.Abs(s.best.value)):
			return Optimal, "", true
		}
	}
	switch {
	case closed && len(s.stuck) > 0:
		return Numerical, "parts of the tree could be neither solved nor split", true
	case closed && s.best == nil:
		return Infeasible, "every part of the tree is infeasible", true
	case closed:
		return Numerical, "the tree is closed but its bounds stay short of the value", true
	case s.ctx.Err() != nil:
		s.byClock = true
		return Limit, "stopped by the clock or cancelled", true
	case s.opt.Work > 0 && s.spent() >= s.opt.Work:
		return Limit, "the work limit was reached", true
	}
	return 0, "", false
}
