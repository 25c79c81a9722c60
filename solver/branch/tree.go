package branch

import (
	"context"
	"math"
	"slices"

	"rationwright/solver/simplex"
)

// worker is one of the fixed number of searchers. In a round it owns its
// relaxation, its pseudo-costs and the nodes dealt to it; what it found is
// merged by the search when all workers are done.
type worker struct {
	id     int
	r      *relaxation
	pseudo *pseudocosts
	audit  bool
	gap    gapRule
	cutoff float64 // nodes whose bound reaches it are closed
	best   *point

	// Of the round.
	open      queue
	stuck     []*node // neither solved nor branched on: their bounds stand
	leaves    []leaf  // with audit only
	leafBound float64 // least bound of the leaves closed
	found     []*point
	seen      []observation
	nodes     int
	made      int64

	debt int64 // effort overspent in earlier rounds

	roundUpFrom float64     // heuristic only: fractions above it are raised first
	resume      *node       // heuristic only: where a plunge was interrupted
	heuristic   bool        // its leaves prove nothing: cut as deep as the cutoff
	plunge      float64     // see plungeShare
	strong      int         // most columns measured by strong branching at a node
	visited     [][]float64 // points of the last nodes branched on, see keepPoints
	frac        []candidate
	saved       simplex.Snapshot
	near        *lns // what it searches when it is not in the tree
}

// begin makes the worker ready for a round.
func (w *worker) begin(best *point) {
	w.open, w.stuck, w.leaves, w.found, w.seen = w.open[:0], nil, nil, nil, nil
	w.leafBound, w.nodes = math.Inf(1), 0
	w.best, w.cutoff = best, math.Inf(1)
	if best != nil {
		w.cutoff = w.gap.cutoff(w.r.program, best.value)
	}
}

// offer takes a point that may be better than the best known.
func (w *worker) offer(p *point) bool {
	if p == nil || w.best != nil && p.value >= w.best.value {
		return false
	}
	w.best = p
	w.cutoff = math.Min(w.cutoff, w.gap.cutoff(w.r.program, p.value))
	w.found = append(w.found, p)
	return true
}

// observe learns from a branching and remembers it for the other workers.
func (w *worker) observe(o observation) {
	w.pseudo.learn(o)
	w.seen = append(w.seen, o)
}

// keep returns the certificate of an outcome if an audit will want it.
func (w *worker) keep(out outcome) *certificate {
	if !w.audit || out.duals == nil {
		return nil
	}
	return newCertificate(out.rows, out.duals, math.IsInf(out.bound, 1))
}

// close ends a part of the search for good.
func (w *worker) close(box *boundChange, proof *certificate, bound float64) {
	w.leafBound = math.Min(w.leafBound, bound)
	if w.audit {
		w.leaves = append(w.leaves, leaf{box, proof, bound})
	}
}

// explore works on the open nodes until the worker has spent the work given.
func (w *worker) explore(ctx context.Context, until int64) {
	for len(w.open) > 0 && w.r.effort < until && ctx.Err() == nil {
		w.exploreOne(ctx, until, math.MaxInt)
	}
}

// exploreOne (best bound first with plunging: Achterberg 2007, as simple rounding)
// takes the best open node and follows its children as long as
// plunging is worth it. A heuristic worker that has to stop on the way goes on
// from there the next time.
func (w *worker) exploreOne(ctx context.Context, until int64, nodes int) {
	n, warm := w.resume, true
	w.resume = nil
	if n == nil {
		n, warm = w.open.take(), false
	}
	least := n.bound
	for ; ; warm = true {
		child := w.expand(ctx, n, warm)
		if child == nil {
			return
		}
		if w.heuristic && w.r.effort >= until && w.nodes < nodes && ctx.Err() == nil {
			w.resume = child
			return
		}
		if len(w.open) > 0 {
			least = math.Min(least, w.open[0].bound)
		}
		far := !math.IsInf(w.cutoff, 1) && child.bound > least+w.plunge*(w.cutoff-least)
		if far || w.r.effort >= until || w.nodes >= nodes || ctx.Err() != nil {
			w.open.add(child)
			return
		}
		n = child
	}
}

// expand solves a node and branches on it. It returns the child to go on with,
// nil if the node is closed; other children are opened. With warm the basis in
// hand is the one the node starts from.
func (w *worker) expand(ctx context.Context, n *node, warm bool) *node {
	if n.bound >= w.cutoff {
		w.close(n.box, n.proof, n.bound)
		return nil
	}
	r := w.r
	if !r.enter(n) {
		w.close(n.box, nil, math.Inf(1))
		return nil
	}
	w.nodes++
	if n.column >= 0 {
		box, ok := r.propagate(n.box, n.column)
		n.box = box
		if !ok {
			w.close(n.box, nil, math.Inf(1))
			return nil
		}
	}
	if !warm && n.basis != nil {
		r.load(n.basis)
	}
	out := w.solveNode(ctx)
	if out.bound > n.bound {
		if n.column >= 0 && !math.IsInf(out.bound, 1) && out.status == simplex.Optimal {
			w.observeNode(n, out.bound)
		}
		n.bound, n.proof = r.roundUp(out.bound), w.keep(out)
	}
	if n.bound >= w.cutoff {
		w.close(n.box, n.proof, n.bound)
		return nil
	}
	if ctx.Err() != nil {
		w.open.add(n)
		return nil
	}
	if out.status != simplex.Optimal {
		return w.split(n, w.middle())
	}
	return w.branchOn(ctx, n, out)
}

// observeNode updates the pseudo-cost of the branching that led to n.
func (w *worker) observeNode(n *node, bound float64) {
	if dist := distance(n.from, n.raised); dist > intTol {
		w.observe(observation{n.column, n.raised, risen(bound, n.bound) / dist})
	}
}

// solveNode solves the node in hand; where the method stops without an answer
// it tries again without a cutoff and then from the slack basis.
func (w *worker) solveNode(ctx context.Context) outcome {
	r := w.r
	out := r.solve(ctx, w.cutoff, 0)
	for try := 0; try < 2 && ctx.Err() == nil; try++ {
		if out.status == simplex.Optimal || out.status == simplex.Infeasible || out.bound >= w.cutoff {
			break
		}
		if out.status == simplex.Numerical || try == 1 {
			r.lp.SetSlackBasis()
		}
		out = r.solve(ctx, math.Inf(1), 0)
	}
	return out
}

// branchOn takes an optimal relaxation further: a new incumbent, tighter boxes,
// two children.
func (w *worker) branchOn(ctx context.Context, n *node, out outcome) *node {
	r := w.r
	w.frac = r.fractional(out.x, w.frac)
	if len(w.frac) == 0 {
		return w.integral(ctx, n, out)
	}
	if p := w.simpleRounding(out); w.offer(p) && n.bound >= w.cutoff {
		w.close(n.box, n.proof, n.bound)
		return nil
	}
	n.box = w.fixByCost(n, out)
	n.basis = r.basis()
	w.visit(out.x)
	d := w.decide(ctx, w.frac, out.bound)
	if ctx.Err() != nil {
		w.open.add(n)
		return nil
	}
	if d.closed[0] || d.closed[1] {
		return w.halve(n, d)
	}
	return w.split(n, d)
}

// visit keeps the point of a node of the tree for the neighbourhood searches.
func (w *worker) visit(x []float64) {
	if w.heuristic {
		return
	}
	if len(w.visited) == keepPoints {
		w.visited = w.visited[1:]
	}
	w.visited = append(w.visited, slices.Clone(x))
}

// integral handles a relaxation whose integers are integral: its rounded point
// is a candidate. The node is closed if that point reaches the bound, or if no
// integer column is free any more; if not (rounding moved the rest), it is
// branched on further.
func (w *worker) integral(ctx context.Context, n *node, out outcome) *node {
	r := w.r
	x := slices.Clone(out.x)
	basis := r.basis()
	p := r.accept(x)
	reached := func() bool { return p != nil && p.value <= out.value+attained*math.Max(1, math.Abs(out.value)) }
	if !reached() {
		if q := r.polish(ctx, x, math.Inf(1)); q != nil && (p == nil || q.value < p.value) {
			p = q
		}
		if !r.enter(n) || ctx.Err() != nil {
			w.open.add(n)
			return nil
		}
	}
	w.offer(p)
	if n.bound >= w.cutoff || reached() {
		w.close(n.box, n.proof, n.bound)
		return nil
	}
	n.basis = basis
	d := decision{col: -1}
	for _, j := range r.integers { // any column still free, the least integral first
		if r.lower[j] < r.upper[j] {
			off := math.Abs(x[j] - math.Round(x[j]))
			if d.col < 0 || off > d.value {
				d.col, d.value = j, off
			}
		}
	}
	if d.col < 0 {
		if p != nil {
			w.close(n.box, n.proof, n.bound)
		} else {
			w.stuck = append(w.stuck, n)
		}
		return nil
	}
	// The rounded value stays in the branch below or above it.
	v := math.Round(x[d.col])
	d.value = v + 0.5
	if v >= r.upper[d.col] {
		d.value = v - 0.5
	}
	w.open.add(w.split(n, d)) // the basis in hand is not the node's
	return nil
}

// halve closes the branches that strong branching found empty or too dear and
// goes on with the other, if any.
func (w *worker) halve(n *node, d decision) *node {
	var rest *node
	for _, raised := range []bool{false, true} {
		c, k := w.child(n, d, raised), direction(raised)
		if d.closed[k] {
			w.close(c.box, d.proof[k], d.bound[k])
			continue
		}
		if d.bound[k] > c.bound {
			c.bound, c.proof = d.bound[k], d.proof[k]
		}
		c.id = w.newID()
		rest = c
	}
	return rest
}

// child is a branch of n, without its number.
func (w *worker) child(n *node, d decision, raised bool) *node {
	floor := math.Floor(d.value)
	box := &boundChange{col: d.col, lower: w.r.lower[d.col], upper: floor, up: n.box}
	if raised {
		box.lower, box.upper = floor+1, w.r.upper[d.col]
	}
	return &node{bound: n.bound, depth: n.depth + 1, box: box, basis: n.basis, proof: n.proof,
		column: d.col, raised: raised, from: d.value}
}

// middle decides, where the relaxation gave no point, for the middle of the first free
// integer column.
func (w *worker) middle() decision {
	for _, j := range w.r.integers {
		lo, up := w.r.lower[j], w.r.upper[j]
		if lo >= up {
			continue
		}
		value := 0.0
		switch {
		case !math.IsInf(lo, -1) && !math.IsInf(up, 1):
			value = lo + (up-lo)/2
		case !math.IsInf(lo, -1):
			value = lo
		case !math.IsInf(up, 1):
			value = up - 1
		}
		return decision{col: j, value: math.Floor(value) + 0.5}
	}
	return decision{col: -1}
}

// split makes two children of n. It returns the child that promises less rise of the
// bound, nil where there is nothing to branch on.
func (w *worker) split(n *node, d decision) *node {
	if d.col < 0 {
		w.stuck = append(w.stuck, n)
		return nil
	}
	first, second := w.child(n, d, false), w.child(n, d, true)
	first.id, second.id = w.newID(), w.newID()
	upFirst := d.rise[1] < d.rise[0]
	if w.heuristic {
		upFirst = distance(d.value, false) > w.roundUpFrom
	}
	if upFirst {
		first, second = second, first
	}
	w.open.add(second)
	return first
}

// newID numbers the nodes a worker makes; the order is the same in every run.
func (w *worker) newID() int64 {
	w.made++
	return w.made*16 + int64(w.id)
}
