package branch

import (
	"context"
	"math"
	"math/rand/v2"
	"slices"

	"rationwright/solver/simplex"
)

// guide is what the searches know of the root: the point, the reduced costs,
// the multipliers of rows and the bound of its relaxation, and the box they
// were taken over.
type guide struct {
	x, reduced   []float64
	rows         []int
	duals        []float64 // parallel to rows
	lower, upper []float64
	bound        float64
}

// newGuide keeps an optimal outcome of the root.
func (s *space) newGuide(out outcome) guide {
	return guide{
		x:       append([]float64(nil), out.x...),
		reduced: append([]float64(nil), out.reduced...),
		rows:    append([]int(nil), out.rows...),
		duals:   append([]float64(nil), out.duals...),
		lower:   append([]float64(nil), s.lower...),
		upper:   append([]float64(nil), s.upper...),
		bound:   out.bound,
	}
}

// lns searches for better points in small parts of the program: most
// integer columns are fixed, the rest is searched to a small depth.
// (P. Shaw, Using constraint programming and local search methods to solve vehicle
// routing problems, CP98 (1998), for large-neighbourhood search; Danna, Rothberg and Le Pape, Exploring relaxation induced neighborhoods to
// improve MIP solutions, Math. Programming 102 (2005), for the idea.)
type lns struct {
	s        *space
	rng      *rand.Rand
	guide    guide
	group    []int       // per column: the group it belongs to, −1 none
	groups   int         // number of groups
	ofRow    []int       // per row: the group it makes, −1 none
	order    []int       // groups, least reduced cost first
	share    float64     // of the groups in use that is set free by blame
	failures int         // parts in a row without a better point
	nodes    [][]float64 // points of nodes of the tree, each used once
	earlier  []*point    // points that were the best once
	byPoint  bool        // the part in hand was not chosen by blame
	task     *worker     // searching the part in hand, nil between parts
	part     *part
	limit    int          // nodes that the task is given
	r        *relaxation  // see use
	pseudo   *pseudocosts // of the worker that owns it
	work     int64
	effort   int64
}

// newLNS prepares a search with its own random numbers. Integer
// columns whose first row is the same are a group (the packs of a food), and so
// are the continuous columns of that row (what is eaten of it).
func newLNS(s *space, g guide, seed uint64) *lns {
	h := &lns{s: s, rng: rand.New(rand.NewPCG(seed, 20)), guide: g, share: 0.15,
		group: slices.Repeat([]int{-1}, s.n), ofRow: slices.Repeat([]int{-1}, s.m)}
	for _, j := range s.integers {
		if len(s.cols[j]) == 0 {
			h.group[j] = h.groups
			h.groups++
			continue
		}
		i := s.cols[j][0].Row
		if h.ofRow[i] < 0 {
			h.ofRow[i] = h.groups
			h.groups++
		}
		h.group[j] = h.ofRow[i]
	}
	for j := range h.group {
		for _, e := range s.cols[j] {
			if h.group[j] < 0 {
				h.group[j] = h.ofRow[e.Row]
			}
		}
	}
	// Groups by the least reduced cost of their members.
	taken := make([]bool, h.groups)
	for _, j := range h.byReducedCost() {
		if g := h.group[j]; !taken[g] {
			taken[g] = true
			h.order = append(h.order, g)
		}
	}
	return h
}

// use gives the neighbourhood search a relaxation of its own. Its root bounds
// are the box of the part in hand, so that the relaxation of the next part
// starts from the basis of the last.
func (h *lns) use(r *relaxation) {
	g := *r.program
	g.lower = append([]float64(nil), g.lower...)
	g.upper = append([]float64(nil), g.upper...)
	g.log = nil
	r.reset()
	r.space = &space{program: &g, cuts: r.cuts}
	h.r = r
}

// solveBox solves the relaxation of the whole space inside a box.
func (h *lns) solveBox(ctx context.Context, lower, upper []float64, cutoff float64) outcome {
	r := h.r
	r.reset()
	for j := range lower {
		if lower[j] != r.space.lower[j] || upper[j] != r.space.upper[j] {
			r.space.lower[j], r.space.upper[j] = lower[j], upper[j]
			r.rootMoved(j)
		}
	}
	work, effort := r.work, r.effort
	out := r.solve(ctx, cutoff, 0)
	h.work += r.work - work
	h.effort += r.effort - effort
	return out
}

// begin starts on the part inside a box: a search for a point better than
// cutoff through at most so many nodes. It returns false if its relaxation
// already says that there is none.
func (h *lns) begin(ctx context.Context, lower, upper []float64, cutoff float64, nodes int) bool {
	q := h.s.restrict(lower, upper)
	if q == nil {
		return false
	}
	h.effort += 4 * int64(len(h.s.rows)+h.s.n) // building the part
	out := h.solveBox(ctx, lower, upper, cutoff)
	if out.status != simplex.Optimal {
		return false
	}
	loose := h.s.looseRows(out.x)
	basis := h.r.basis()
	r, err := newRelaxation(q.space, nil, func(k int) bool {
		i := q.rows[k]
		return i < h.s.m && !loose[i] || basis.Rows[i] != simplex.Basic
	})
	if err != nil {
		return false
	}
	r.load(basis.part(q))
	w := &worker{r: r, pseudo: h.pseudo.part(q.cols), gap: gapRule{relative: 1e-4, denom: 1e-9}, plunge: 1, heuristic: true,
		roundUpFrom: 0.2 + 0.3*h.rng.Float64()}
	w.begin(nil)
	w.cutoff = q.inside(cutoff)
	w.open.add(&node{bound: math.Inf(-1), column: -1})
	h.task, h.part, h.limit = w, q, nodes
	return true
}

// proceed goes on with the part in hand for one plunge, or until the effort
// given, and returns a better point if it found one. When the part is done with
// there is no task any more.
func (h *lns) proceed(ctx context.Context, until int64) *point {
	w, r := h.task, h.task.r
	work, effort := r.work, r.effort
	before := w.best
	w.exploreOne(ctx, r.effort+until-h.effort, h.limit)
	h.work += r.work - work
	h.effort += r.effort - effort
	var p *point
	if w.best != before {
		p = h.s.accept(h.part.whole(w.best.x))
	}
	if len(w.open) == 0 && w.resume == nil || w.nodes >= h.limit {
		h.task = nil
		h.settle(w)
	}
	return p
}

// settle learns from a part that is done with: where blame chose it, parts that
// are searched to the end may be larger, those that end without a point should
// be smaller. While nothing better is found, parts are searched deeper and
// deeper.
func (h *lns) settle(w *worker) {
	switch {
	case w.best != nil:
		h.failures = 0
	case h.byPoint:
		h.failures++
	case len(w.open) == 0:
		h.failures++
		h.share = math.Min(shareMost, h.share*1.1)
	default:
		h.failures++
		h.share = math.Max(shareLeast, h.share*0.9)
	}
}

// improve searches neighbourhoods of the best point for one round of the length
// given.
func (w *worker) improve(ctx context.Context, bound float64, length int64) {
	h := w.near
	until := h.effort + length
	for h.effort < until && ctx.Err() == nil {
		if h.task == nil {
			h.effort += lnsOverhead * int64(h.s.n+h.s.m)
			if w.best == nil && !h.first(ctx, math.Inf(1)) || w.best != nil && !h.next(ctx, w.best, bound) {
				continue
			}
		} else if w.best != nil {
			h.task.cutoff = math.Min(h.task.cutoff, h.part.inside(w.best.value))
		}
		w.offer(h.proceed(ctx, until))
	}
}
