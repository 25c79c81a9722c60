package branch

import (
	"container/heap"
	"context"
	"math"
	"time"
)

// search is one run of [Solve]. Between rounds it alone owns everything; in a
// round its workers own what was dealt to them and read the rest.
type search struct {
	*space
	opt     Options
	gap     gapRule
	ctx     context.Context
	start   time.Time
	workers []*worker
	open    queue
	stuck   []*node
	leaves  []leaf  // with Options.Audit only
	closed  float64 // least bound of the closed leaves
	floor   float64 // a bound on the optimum from the root
	best    *point
	earlier []*point // the best before it, latest last, see keepEarlier
	nodes   int
	byClock bool

	rootBasis *Basis
	rootPlain struct { // the root before cuts
		rows     []int
		duals, x []float64
		bound    float64
	}
	guide      guide        // the root after cuts
	rootProof  *certificate // of guide, for reduced-cost fixing under an audit
	spentEarly int64        // iterations of relaxations no longer held
	stalled    int          // rounds since the best point last improved
	round      int
}

// merge takes what a worker found in a round.
func (s *search) merge(w *worker) {
	s.open = append(s.open, w.open...)
	heap.Init(&s.open)
	s.stuck = append(s.stuck, w.stuck...)
	s.leaves = append(s.leaves, w.leaves...)
	s.closed = math.Min(s.closed, w.leafBound)
	s.nodes += w.nodes
	for _, p := range w.found {
		if s.best == nil || p.value < s.best.value {
			s.better(p)
			s.stalled = -1
		}
	}
	for _, o := range w.seen {
		for _, other := range s.workers {
			if other != w {
				other.pseudo.learn(o)
			}
		}
	}
}

// better makes p the best point.
func (s *search) better(p *point) {
	if s.best != nil {
		s.earlier = append(s.earlier, s.best)
		s.earlier = s.earlier[max(0, len(s.earlier)-keepEarlier):]
	}
	s.best = p
}

// trim closes the open nodes that the best point has overtaken.
func (s *search) trim() {
	if s.best == nil {
		return
	}
	cutoff := s.gap.cutoff(s.program, s.best.value)
	kept := s.open[:0]
	for _, n := range s.open {
		if n.bound < cutoff {
			kept = append(kept, n)
			continue
		}
		s.closed = math.Min(s.closed, n.bound)
		if s.opt.Audit {
			s.leaves = append(s.leaves, leaf{n.box, n.proof, n.bound})
		}
	}
	clear(s.open[len(kept):])
	s.open = kept
	heap.Init(&s.open)
}

// bound returns the bound on the optimum proven so far, in the search's sense.
func (s *search) bound() float64 {
	b := s.closed
	if s.workers == nil {
		b = s.floor // the tree has not begun
	}
	if len(s.open) > 0 {
		b = math.Min(b, s.open[0].bound)
	}
	for _, n := range s.stuck {
		b = math.Min(b, n.bound)
	}
	if b = math.Max(b, s.floor); s.best != nil {
		b = math.Min(b, s.best.value) // a point within the tolerances may cost less than the bound
	}
	return b
}

// spent returns the simplex iterations of all workers.
func (s *search) spent() int64 {
	t := s.spentEarly
	for _, w := range s.workers {
		t += w.r.work + w.near.work
	}
	return t
}

// fixRoot tightens the root bounds of integer columns by the reduced costs of
// the root against the best point.
func (s *search) fixRoot() {
	if s.best == nil || s.guide.reduced == nil {
		return
	}
	cutoff := s.gap.exact(s.program, s.best.value)
	room := cutoff - s.guide.bound
	if room < 0 {
		return
	}
	for _, j := range s.integers {
		lo, up := s.lower[j], s.upper[j]
		if lo >= up {
			continue
		}
		// The range counts from the bounds the reduced costs were taken at.
		newLo, newUp, ok := costRange(s.guide.lower[j], s.guide.upper[j], s.guide.reduced[j], room)
		newLo, newUp = math.Max(newLo, lo), math.Min(newUp, up)
		if !ok || newLo == lo && newUp == up || newLo > newUp {
			continue
		}
		s.log = append(s.log, reduction{kind: costFixed, col: j, lower: newLo, upper: newUp,
			proof: s.rootProof, cutoff: cutoff})
		s.lower[j], s.upper[j] = newLo, newUp
		s.impliedLower[j], s.impliedUpper[j] = newLo, newUp
		for _, w := range s.workers {
			w.r.rootMoved(j)
		}
	}
}

// report tells the caller where the search stands.
func (s *search) report() {
	if s.opt.Progress == nil {
		return
	}
	b := s.bound()
	p := Progress{Bound: s.outside(b), Gap: math.Inf(1), Nodes: s.nodes, Work: s.spent(), Elapsed: time.Since(s.start)}
	if s.best != nil {
		p.Value, p.HasValue = s.outside(s.best.value), true
		p.Gap = s.gap.of(s.program, s.best.value, b)
	}
	s.opt.Progress(p)
}
