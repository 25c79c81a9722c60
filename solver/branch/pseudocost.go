package branch

import "math"

// observation is one measured branching: the bound rose by gain when the
// column was moved by distance.
type observation struct {
	col    int
	raised bool
	gain   float64 // per unit of distance
}

// pseudocosts remembers how much the bound rises per unit when a column is
// branched down (index 0) and up (index 1).
// Achterberg, Koch and Martin, Branching rules revisited, Operations Research
// Letters 33 (2005) 42–54.
type pseudocosts struct {
	sum   [2][]float64
	count [2][]int
	total [2]float64
	seen  [2]int
}

func newPseudocosts(n int) *pseudocosts {
	p := &pseudocosts{}
	for d := range 2 {
		p.sum[d] = make([]float64, n)
		p.count[d] = make([]int, n)
	}
	return p
}

func direction(raised bool) int {
	if raised {
		return 1
	}
	return 0
}

// risen is by how much a bound is above another, none where there was no other to rise from.
func risen(bound, from float64) float64 {
	if math.IsInf(from, -1) {
		return 0
	}
	return math.Max(0, bound-from)
}

// learn adds one observation. A rise without end, as from a bound to an infeasible branch,
// says nothing of the next.
func (p *pseudocosts) learn(o observation) {
	if math.IsInf(o.gain, 0) || math.IsNaN(o.gain) {
		return
	}
	d := direction(o.raised)
	p.sum[d][o.col] += o.gain
	p.count[d][o.col]++
	p.total[d] += o.gain
	p.seen[d]++
}

// unit returns the expected gain per unit of column j, the average over all
// columns where nothing was seen.
func (p *pseudocosts) unit(j int, raised bool) float64 {
	d := direction(raised)
	if p.count[d][j] > 0 {
		return p.sum[d][j] / float64(p.count[d][j])
	}
	if p.seen[d] > 0 {
		return p.total[d] / float64(p.seen[d])
	}
	return 1
}

func (p *pseudocosts) isReliable(j int) bool {
	return p.count[0][j] >= reliable && p.count[1][j] >= reliable
}

// score joins the gains of both branches: the product rule of Achterberg,
// Koch and Martin, with a floor so that one zero does not hide the other.
func score(down, up float64) float64 {
	const floor = 1e-6
	return math.Max(down, floor) * math.Max(up, floor)
}
