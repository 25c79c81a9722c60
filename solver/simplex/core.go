package simplex

// core is the scaled program with its basis: everything the two methods work
// on. Variables 0 … n−1 are the columns, n … n+m−1 the slacks.
type core struct {
	a    *matrix // scaled
	m, n int

	trueLower, trueUpper []float64 // scaled bounds
	lower, upper         []float64 // working bounds: the true ones or a little wider
	widened              bool      // they differ
	trueCost             []float64 // scaled costs, to be minimised
	cost                 []float64 // working costs: the true ones, perturbed or shifted
	shifted              bool      // they differ

	place []Place
	head  []int32 // variable basic in each position
	pos   []int32 // position of each basic variable, −1 for the others

	x, d   []float64 // value and reduced cost of every variable
	priced bool      // d belongs to basis and costs
	weight []float64 // dual steepest edge weight of each position
	infeas []float64 // square of the infeasibility of each position, 0 within tolerance

	factor factor
	stale  bool // the factor does not belong to head

	// Work space.
	rho, spike, tau, moved []float64 // by position
	alpha                  []float64 // pivot row by variable
	devex                  []float64 // weights of the primal method by variable
	side                   []float64 // costs of its first phase by position
	alphaList              []int32   // where alpha is not zero
	candidates             []int32
	groups                 []group
	points                 []breakpoint

	iterations int // exchanges and flips of an entering variable, ever
}

// newCore returns the core of p with the slack basis.
func newCore(p *program, s *scaling) *core {
	return (&core{stale: true}).grown(p, s)
}

// shape sets what follows from the program alone, and the work space.
func (c *core) shape(p *program, s *scaling) {
	c.a = p.a.scaled(s.row, s.col)
	c.m, c.n = p.a.rows, p.a.cols
	all := c.n + c.m
	c.trueLower, c.trueUpper = make([]float64, all), make([]float64, all)
	c.trueCost = make([]float64, all)
	for k := range all {
		f := s.of(k)
		c.trueLower[k], c.trueUpper[k] = p.lower[k]/f, p.upper[k]/f
		if k < c.n {
			c.trueCost[k] = p.sense * p.cost[k] * f * s.cost
		}
	}
	c.priced = false
	c.lower = append([]float64(nil), c.trueLower...)
	c.upper = append([]float64(nil), c.trueUpper...)
	c.cost = append([]float64(nil), c.trueCost...)
	c.x, c.d = make([]float64, all), make([]float64, all)
	c.workSpace()
	c.stale = true
}

// workSpace gives c work space of its own.
func (c *core) workSpace() {
	c.rho, c.spike = make([]float64, c.m), make([]float64, c.m)
	c.tau, c.moved = make([]float64, c.m), make([]float64, c.m)
	c.infeas = make([]float64, c.m)
	c.devex, c.side = make([]float64, c.n+c.m), make([]float64, c.m)
	c.alpha = make([]float64, c.n+c.m)
	c.alphaList, c.candidates, c.groups, c.points = nil, nil, nil, nil
}

// clone returns a deep copy that shares only the matrix; its factor is to be made anew.
func (c *core) clone() *core {
	t := &core{a: c.a, iterations: c.iterations, stale: true}
	t.copyState(c)
	t.workSpace()
	return t
}

// grown returns the core after rows or columns were appended to p: new slacks
// are basic, new columns are not. The old core is used up.
func (c *core) grown(p *program, s *scaling) *core {
	t := &core{iterations: c.iterations}
	t.shape(p, s)
	t.place = make([]Place, t.n+t.m)
	copy(t.place, c.place[:c.n])
	copy(t.place[t.n:], c.place[c.n:])
	for j := c.n; j < t.n; j++ {
		t.place[j] = AtLower
	}
	t.head = make([]int32, t.m)
	t.weight = make([]float64, t.m)
	for i, k := range c.head {
		if int(k) >= c.n {
			k += int32(t.n - c.n)
		}
		t.head[i], t.weight[i] = k, c.weight[i]
	}
	for i := c.m; i < t.m; i++ {
		t.head[i], t.weight[i] = int32(t.n+i), 1
		t.place[t.n+i] = Basic
	}
	t.index()
	if t.m == c.m { // columns alone leave the basis matrix as it was
		t.factor, t.stale = c.factor, c.stale
	}
	return t
}
