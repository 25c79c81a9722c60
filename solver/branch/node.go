package branch

import "container/heap"

// boundChange gives one column a new box. Changes form a list from a node up to the
// root, shared between relatives. Two branches of one node have the same up.
type boundChange struct {
	col          int
	lower, upper float64
	up           *boundChange
	why          changeKind
	row          int          // whyRow: the row of the space that implies it
	proof        *certificate // whyCost: duals that price any other value above cutoff
	cutoff       float64
}

// changeKind says by what right a box is smaller than its parent's.
type changeKind int8

const (
	whyBranch changeKind = iota // its sibling has the rest
	whyRow                      // a row implies it
	whyCost                     // reduced costs against the cutoff
)

// node is an open part of the search: a box, a bound that holds over it, and
// the basis of the relaxation it came from.
type node struct {
	bound  float64
	depth  int
	id     int64 // order of creation: the last tie-break
	box    *boundChange
	basis  *Basis
	proof  *certificate // what proves bound; kept only for an audit
	column int          // branched on to get here, −1 at the root
	raised bool         // upwards
	from   float64      // its value in the parent
}

// enter puts the relaxation into the node's box and says whether the box is
// non-empty.
func (r *relaxation) enter(n *node) bool {
	r.reset()
	// The list runs from the node to the root; the first mention of a column
	// is the tightest.
	for c := n.box; c != nil; c = c.up {
		if r.isMoved[c.col] {
			continue
		}
		lo, up := max(c.lower, r.space.lower[c.col]), min(c.upper, r.space.upper[c.col])
		if lo > up {
			return false
		}
		r.set(c.col, lo, up)
	}
	return true
}

// queue holds open nodes, least bound first.
type queue []*node

func (q queue) Len() int { return len(q) }
func (q queue) Less(i, j int) bool {
	if q[i].bound != q[j].bound {
		return q[i].bound < q[j].bound
	}
	if q[i].depth != q[j].depth {
		return q[i].depth > q[j].depth
	}
	return q[i].id < q[j].id
}
func (q queue) Swap(i, j int) { q[i], q[j] = q[j], q[i] }

// Push and Pop serve container/heap only.
func (q *queue) Push(x any) { *q = append(*q, x.(*node)) }

// Pop removes the last element.
func (q *queue) Pop() any {
	old := *q
	n := old[len(old)-1]
	old[len(old)-1] = nil
	*q = old[:len(old)-1]
	return n
}

func (q *queue) add(n *node) { heap.Push(q, n) }

func (q *queue) take() *node { return heap.Pop(q).(*node) }
