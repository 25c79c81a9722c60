package branch

import (
	"context"
	"math"
	"math/rand/v2"
	"sort"

	"rationwright/solver/simplex"
)

// guide is what the searches know of the root: the point, the reduced costs
// and the bound of its relaxation, and the box they were taken over.
type guide struct {
	x, reduced   []float64
	lower, upper []float64
	bound        float64
	after        int // reductions logged by then
}

// newGuide keeps an optimal outcome of the root.
func (s *space) newGuide(out outcome) guide {
	return guide{
		x:       append([]float64(nil), out.x...),
		reduced: append([]float64(nil), out.reduced...),
		lower:   append([]float64(nil), s.lower...),
		upper:   append([]float64(nil), s.upper...),
		bound:   out.bound,
		after:   len(s.log),
	}
}

// neighbourhood searches for better points in small parts of the program: most
// integer columns are fixed, the rest is searched to a small depth.
// (Danna, Rothberg and Le Pape, Exploring relaxation induced neighborhoods to
// improve MIP solutions, Math. Programming 102 (2005), for the idea.)
type neighbourhood struct {
	s      *space
	rng    *rand.Rand
	guide  guide
	group  []int // per integer column: the row it shares with its like
	groups []int
	order  []int   // groups, least reduced cost first
	share  float64 // of the columns in use that is set free
	tries  int
	task   *worker // searching the part in hand, nil between parts
	part   *part
	nodes  int          // that the task is given
	r      *relax       // see use
	pseudo *pseudocosts // of the worker that owns it
	work   int64
	effort int64
}

// newNeighbourhood prepares a search with its own random numbers.
func newNeighbourhood(s *space, g guide, seed uint64) *neighbourhood {
	h := &neighbourhood{s: s, rng: rand.New(rand.NewPCG(seed, 20)), guide: g, share: 0.3}
	seen := map[int]bool{}
	h.group = make([]int, s.n)
	for _, j := range s.integers {
		h.group[j] = -1 - j
		if len(s.cols[j]) > 0 {
			h.group[j] = s.cols[j][0].Row
		}
		if !seen[h.group[j]] {
			seen[h.group[j]] = true
			h.groups = append(h.groups, h.group[j])
		}
	}
	sort.Ints(h.groups)
	// Groups by the least reduced cost of their members.
	taken := map[int]bool{}
	for _, j := range h.byReducedCost() {
		if g := h.group[j]; !taken[g] {
			taken[g] = true
			h.order = append(h.order, g)
		}
	}
	return h
}

// boxOf returns the box in which only the integer columns that free wants keep
// their bounds; the others stay at the values of x.
func (h *neighbourhood) boxOf(x []float64, free func(j int) bool) (lower, upper []float64) {
	lower = append([]float64(nil), h.s.lower...)
	upper = append([]float64(nil), h.s.upper...)
	for _, j := range h.s.integers {
		if free(j) {
			continue
		}
		v := math.Round(x[j])
		v = math.Min(math.Max(v, lower[j]), upper[j])
		lower[j], upper[j] = v, v
	}
	return lower, upper
}

// use gives the neighbourhood search a relaxation of its own. Its root bounds
// are the box of the part in hand, so that the relaxation of the next part
// starts from the basis of the last.
func (h *neighbourhood) use(r *relax) {
	g := *r.program
	g.lower = append([]float64(nil), g.lower...)
	g.upper = append([]float64(nil), g.upper...)
	g.log = nil
	r.reset()
	r.space = &space{program: &g, cuts: r.cuts}
	h.r = r
}

// relaxed solves the relaxation of the whole space inside a box.
func (h *neighbourhood) relaxed(ctx context.Context, lower, upper []float64, cutoff float64) outcome {
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
func (h *neighbourhood) begin(ctx context.Context, lower, upper []float64, cutoff float64, nodes int) bool {
	q := h.s.restrict(lower, upper)
	if q == nil {
		return false
	}
	h.effort += 4 * int64(len(h.s.rows)+h.s.n) // building the part
	out := h.relaxed(ctx, lower, upper, cutoff)
	if out.status != simplex.Optimal {
		return false
	}
	loose := make([]bool, h.s.m)
	for i := range loose {
		loose[i] = !h.s.eager(i)
	}
	h.s.looseRows(out.x, loose)
	basis := h.r.basis()
	r, err := newRelax(q.space, nil, func(k int) bool {
		i := q.rows[k]
		return i < h.s.m && !loose[i] || basis.rows[i] != simplex.Basic
	})
	if err != nil {
		return false
	}
	r.load(basis.part(q))
	w := &worker{r: r, pseudo: h.pseudo.part(q.cols), gap: gapRule{relative: 1e-4, denom: 1e-9}, plunge: 1, heuristic: true,
		roundUpFrom: 0.2 + 0.3*h.rng.Float64(), largestFirst: h.rng.Float64() < 0.4}
	w.begin(nil)
	w.cutoff = q.inside(cutoff)
	w.open.add(&node{bound: math.Inf(-1), column: -1})
	h.task, h.part, h.nodes = w, q, nodes
	return true
}

// proceed goes on with the part in hand for one plunge, or until the effort
// given, and returns a better point if it found one. When the part is done with
// there is no task any more.
func (h *neighbourhood) proceed(ctx context.Context, until int64) *point {
	w, r := h.task, h.task.r
	work, effort := r.work, r.effort
	before := w.best
	w.exploreOne(ctx, r.effort+until-h.effort, h.nodes)
	h.work += r.work - work
	h.effort += r.effort - effort
	var p *point
	if w.best != before {
		p = h.s.accept(h.part.whole(w.best.x))
	}
	if len(w.open) == 0 && w.resume == nil || w.nodes >= h.nodes {
		h.task = nil
		h.settle(w)
	}
	return p
}

// settle learns from a part that is done with: parts that are searched to the
// end may be larger, those that end without a point should be smaller.
func (h *neighbourhood) settle(w *worker) {
	if debugNear != nil {
		debugNear(h, w)
	}
	if len(w.open) == 0 {
		h.share = math.Min(0.9, h.share*1.1)
	} else if w.best == nil {
		h.share = math.Max(0.08, h.share*0.9)
	}
}

// first begins to look for a first point: only the columns that the relaxation
// uses, or nearly, are free.
func (h *neighbourhood) first(ctx context.Context, cutoff float64) bool {
	order := h.byReducedCost()
	keep := make([]bool, h.s.n)
	for _, j := range order[:min(len(order), firstFree)] {
		keep[j] = true
	}
	lower, upper := h.boxOf(h.guide.x, func(j int) bool { return keep[j] || h.guide.x[j] > h.s.lower[j]+intTol })
	return h.begin(ctx, lower, upper, cutoff, firstNodes)
}

// byReducedCost lists the integer columns, least reduced cost first.
func (h *neighbourhood) byReducedCost() []int {
	order := append([]int(nil), h.s.integers...)
	sort.SliceStable(order, func(a, b int) bool {
		da, db := math.Abs(h.guide.reduced[order[a]]), math.Abs(h.guide.reduced[order[b]])
		if da != db {
			return da < db
		}
		return order[a] < order[b]
	})
	return order
}

// next begins with a neighbourhood of the best point, chosen at random.
func (h *neighbourhood) next(ctx context.Context, best *point, bound float64) bool {
	h.tries++
	room := best.value - bound
	inUse := map[int]bool{}
	for _, j := range h.s.integers {
		if best.x[j] > h.s.lower[j] {
			inUse[h.group[j]] = true
		}
	}
	free := map[int]bool{}
	for _, g := range h.groups {
		if inUse[g] && h.rng.Float64() < h.share {
			free[g] = true
		}
	}
	// Of the others, those that the root nearly uses, the nearest first.
	idle := 0
	for _, g := range h.order {
		if inUse[g] {
			continue
		}
		if h.rng.Float64() < float64(nearIdle)/float64(nearIdle+idle) {
			free[g] = true
		}
		idle++
	}
	lower, upper := h.boxOf(best.x, func(j int) bool {
		return free[h.group[j]] && (math.Abs(h.guide.reduced[j]) < room || best.x[j] > h.s.lower[j])
	})
	return h.begin(ctx, lower, upper, best.value-room*nearGain, nearNodes)
}

const (
	// firstFree is the number of integer columns of least reduced cost that are
	// free in the first part, firstNodes the nodes it is given.
	firstFree, firstNodes = 60, 60
	nearNodes             = 30
	nearGain              = 0.02
	nearIdle              = 10
	// nearNodes is the number of nodes that a neighbourhood is given: a dive
	// and a little more. nearGain is the share of the gap that a new point must
	// gain to be looked for.
	// nearIdle steers how many groups that the best point does not use are set
	// free: half of the first so many by reduced cost, fewer further down.
	// nearOverhead is the effort of choosing a part, per row and column.
	nearOverhead = 20
)

// improve searches neighbourhoods of the best point for one round of the length
// given.
func (w *worker) improve(ctx context.Context, bound float64, length int64) {
	h := w.near
	until := h.effort + length
	for h.effort < until && ctx.Err() == nil {
		if h.task == nil {
			h.effort += nearOverhead * int64(h.s.n+h.s.m)
			if w.best == nil && !h.first(ctx, math.Inf(1)) || w.best != nil && !h.next(ctx, w.best, bound) {
				continue
			}
		} else if w.best != nil {
			h.task.cutoff = math.Min(h.task.cutoff, h.part.inside(w.best.value))
		}
		w.offer(h.proceed(ctx, until))
	}
}

var debugNear func(h *neighbourhood, w *worker)
