package branch

import (
	"container/heap"
	"context"
	"math"
	"sync"
	"time"

	"rationwright/solver/linear"
	"rationwright/solver/simplex"
)

// search is one run of Solve.
type search struct {
	*space
	opt     Options
	gap     gapRule
	start   time.Time
	ctx     context.Context
	stop    context.CancelFunc
	workers []*worker
	open    queue
	stuck   []*node
	leaves  []leaf
	closed  float64 // least bound of the closed leaves
	best    *point
	nodes   int
	work    int64 // iterations of relaxations no longer held
	near    *neighbourhood
	why     string
}

// Solve finds the best integer point of p within the options, and says how far
// from the optimum it can be. It never changes p. The same p, options and
// number of workers give the same result unless the clock or ctx stops the
// search (ByClock).
func Solve(ctx context.Context, p *linear.Problem, opt Options) Result {
	if opt.Workers <= 0 {
		opt.Workers = 2
	}
	s := &search{space: &space{program: newProgram(p)}, opt: opt, gap: newGapRule(opt), start: time.Now(),
		closed: math.Inf(1)}
	if opt.Time > 0 {
		s.ctx, s.stop = context.WithTimeout(ctx, opt.Time)
	} else {
		s.ctx, s.stop = context.WithCancel(ctx)
	}
	defer s.stop()
	return s.run()
}

// run is the whole search: presolve, root, rounds.
func (s *search) run() Result {
	if !s.presolve() {
		return s.finish(Infeasible, "presolve proves that no integer point exists")
	}
	s.findLocks()
	r, err := newRelax(s.space, nil, nil)
	if err != nil {
		return s.finish(Numerical, err.Error())
	}
	out := r.solve(s.ctx, math.Inf(1), 0)
	switch out.status {
	case simplex.Infeasible:
		return s.finish(Infeasible, "the relaxation is infeasible")
	case simplex.Unbounded:
		return s.finish(Unbounded, "the relaxation is unbounded")
	case simplex.Limit:
		s.work = r.work
		return s.finish(Limit, "stopped before the relaxation was solved")
	case simplex.Numerical:
		return s.finish(Numerical, "the relaxation could not be solved")
	}
	r, out = s.cutRoot(r, out)
	s.open.add(&node{bound: out.bound, column: -1, basis: r.basis()})
	for id := range s.opt.Workers {
		w := &worker{id: id, r: r, pseudo: newPseudocosts(s.n), audit: s.opt.Audit, gap: s.gap, plunge: plungeShare}
		if id > 0 {
			w.r = r.clone()
		}
		s.workers = append(s.workers, w)
	}
	g := guide{x: append([]float64(nil), out.x...), reduced: append([]float64(nil), out.reduced...), bound: out.bound}
	s.near = newNeighbourhood(s.space, g, 1)
	s.rounds()
	return s.finish(Optimal, "")
}

// roundWork is the work of one worker in one round, in simplex iterations.
const roundWork = 1000

// rounds runs the workers side by side until the gap is closed or a limit is
// reached.
func (s *search) rounds() {
	for {
		s.report()
		if s.done() {
			return
		}
		// Deal the best nodes in turn.
		for _, w := range s.workers {
			w.begin(s.best)
		}
		for k := 0; len(s.open) > 0 && k < dealt*len(s.workers); k++ {
			if len(s.integers) > 30 {
				s.workers[0].open.add(s.open.take())
				continue
			}
			s.workers[k%len(s.workers)].open.add(s.open.take())
		}
		var wg sync.WaitGroup
		for _, w := range s.workers {
			wg.Add(1)
			go func() {
				defer wg.Done()
				if w.id == 1 && len(s.integers) > 30 {
					s.improve(w)
					return
				}
				w.explore(s.ctx, w.r.work+roundWork)
			}()
		}
		wg.Wait()
		for _, w := range s.workers {
			s.merge(w)
		}
		s.trim()
	}
}

// dealt is the number of open nodes each worker gets in a round.
const dealt = 64

// merge takes what a worker found in a round.
func (s *search) merge(w *worker) {
	for _, n := range w.open {
		s.open = append(s.open, n)
	}
	heap.Init(&s.open)
	s.stuck = append(s.stuck, w.stuck...)
	s.leaves = append(s.leaves, w.leaves...)
	s.closed = math.Min(s.closed, w.leafBound)
	s.nodes += w.nodes
	for _, p := range w.found {
		if s.best == nil || p.value < s.best.value {
			s.best = p
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

// trim closes the open nodes that the incumbent has overtaken.
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
	for k := len(kept); k < len(s.open); k++ {
		s.open[k] = nil
	}
	s.open = kept
	heap.Init(&s.open)
}

// bound returns the bound on the optimum proven so far, in the search's sense.
func (s *search) bound() float64 {
	b := s.closed
	if len(s.open) > 0 {
		b = math.Min(b, s.open[0].bound)
	}
	for _, n := range s.stuck {
		b = math.Min(b, n.bound)
	}
	if s.best != nil {
		b = math.Min(b, s.best.value)
	}
	return b
}

// done says whether the search is over.
func (s *search) done() bool {
	if len(s.open) == 0 {
		return true
	}
	if s.best != nil && s.gap.of(s.program, s.best.value, s.bound()) <= s.gap.relative {
		return true
	}
	return s.ctx.Err() != nil || s.opt.Work > 0 && s.spent() >= s.opt.Work
}

// spent returns the simplex iterations of all workers.
func (s *search) spent() int64 {
	t := s.work
	for _, w := range s.workers {
		t += w.r.work
	}
	return t
}

// report tells the caller where the search stands.
func (s *search) report() {
	if s.opt.Progress == nil {
		return
	}
	p := Progress{Bound: s.outside(s.bound()), Gap: math.Inf(1), Nodes: s.nodes, Work: s.spent(), Elapsed: time.Since(s.start)}
	if s.best != nil {
		p.Value, p.HasValue = s.outside(s.best.value), true
		p.Gap = s.gap.of(s.program, s.best.value, s.bound())
	}
	s.opt.Progress(p)
}

// finish makes the result.
func (s *search) finish(status Status, why string) Result {
	r := Result{Status: status, Nodes: s.nodes, Work: s.spent(), Why: why, Bound: s.outside(s.bound()), Gap: math.Inf(1)}
	if s.best != nil {
		r.X, r.Value = s.best.x, s.outside(s.best.value)
		r.Gap = s.gap.of(s.program, s.best.value, s.bound())
	}
	return r
}

// findLocks notes which columns some row holds back in each direction.
func (s *space) findLocks() {
	s.upLocked, s.downLocked = make([]bool, s.n), make([]bool, s.n)
	for j := range s.upLocked {
		s.upLocked[j], s.downLocked[j] = s.locks(j)
	}
}

func (s *search) improve(w *worker) {
	h := s.near
	until := h.work + 3000
	if h.tries == 0 {
		w.offer(h.first(s.ctx, w.best))
		h.tries++
	}
	for h.work < until && s.ctx.Err() == nil && w.best != nil {
		h.work += 20
		if p := h.next(s.ctx, w.best, s.bound()); p != nil {
			w.offer(p)
		}
	}
}
