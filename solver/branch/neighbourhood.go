package branch

import (
	"context"
	"math"
	"math/rand/v2"
	"sort"
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
	share  float64 // of the columns in use that is set free
	tries  int
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
	return h
}

// partOf returns the part in which only the integer columns that free wants
// keep their bounds; the others stay at the values of x.
func (h *neighbourhood) partOf(x []float64, free func(j int) bool) *part {
	lower := append([]float64(nil), h.s.lower...)
	upper := append([]float64(nil), h.s.upper...)
	for _, j := range h.s.integers {
		if free(j) {
			continue
		}
		v := math.Round(x[j])
		v = math.Min(math.Max(v, lower[j]), upper[j])
		lower[j], upper[j] = v, v
	}
	return h.s.restrict(lower, upper)
}

// tackle searches a part for a point better than cutoff.
func (h *neighbourhood) tackle(ctx context.Context, q *part, cutoff, slack float64, nodes int) (*point, bool) {
	g := newProgram(q.problem)
	sub := &space{program: g}
	sub.findLocks()
	r, err := newRelax(sub, nil, nil)
	if err != nil {
		return nil, false
	}
	w := &worker{r: r, pseudo: newPseudocosts(g.n), gap: gapRule{relative: 1e-4, denom: 1e-9}, plunge: 1}
	w.begin(nil)
	w.cutoff = cutoff - q.problem.Offset - slack
	w.open.add(&node{bound: math.Inf(-1), column: -1})
	for len(w.open) > 0 && w.nodes < nodes && ctx.Err() == nil {
		w.exploreOne(ctx, math.MaxInt64, nodes)
	}
	h.work += r.work
	h.effort += r.effort + 20*int64(r.entries)
	complete := len(w.open) == 0
	if w.best == nil {
		return nil, complete
	}
	return h.s.accept(q.whole(w.best.x)), complete
}

// first looks for a first point: only the columns that the relaxation uses, or
// nearly, are free.
func (h *neighbourhood) first(ctx context.Context, best *point) *point {
	cutoff := math.Inf(1)
	if best != nil {
		cutoff = best.value
	}
	order := h.byReducedCost()
	keep := make([]bool, h.s.n)
	for _, j := range order[:min(len(order), 60)] {
		keep[j] = true
	}
	q := h.partOf(h.guide.x, func(j int) bool { return keep[j] || h.guide.x[j] > h.s.lower[j]+intTol })
	if q == nil {
		return nil
	}
	p, _ := h.tackle(ctx, q, cutoff, 0, 60)
	return p
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

// next tries one neighbourhood of the best point and returns a better point,
// or nil.
func (h *neighbourhood) next(ctx context.Context, best *point, bound float64) *point {
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
		p := 0.5
		if inUse[g] {
			p = h.share
		}
		if h.rng.Float64() < p {
			free[g] = true
		}
	}
	q := h.partOf(best.x, func(j int) bool {
		return free[h.group[j]] && (math.Abs(h.guide.reduced[j]) < room || best.x[j] > h.s.lower[j])
	})
	if q == nil {
		return nil
	}
	p, complete := h.tackle(ctx, q, best.value, room*0.02, 25)
	if complete {
		h.share = math.Min(0.9, h.share*1.1)
	} else if p == nil {
		h.share = math.Max(0.08, h.share*0.9)
	}
	return p
}

// improve searches neighbourhoods of the best point for one round.
func (w *worker) improve(ctx context.Context, bound float64) {
	h := w.near
	until := h.effort + roundEffort
	for h.effort < until && ctx.Err() == nil {
		if w.best == nil {
			w.offer(h.first(ctx, nil))
			return
		}
		w.offer(h.next(ctx, w.best, bound))
		h.effort += nearOverhead * int64(h.s.n+h.s.m)
	}
}

// nearOverhead is the effort of building a part, per row and column.
const nearOverhead = 20
