package simplex

import "math"

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
	rho, spike, tau, flip []float64 // by position
	alpha                 []float64 // pivot row by variable
	devex                 []float64 // weights of the primal method by variable
	alphaList             []int32   // where alpha is not zero
	candidates            []int32
	groups                []group
	points                []breakpoint

	iterations int // exchanges and flips of an entering variable, ever
}

// newCore returns the core of p with the slack basis.
func newCore(p *program, s *scaling) *core {
	c := &core{}
	c.shape(p, s)
	c.place = make([]Place, c.n+c.m)
	c.head = make([]int32, c.m)
	c.weight = make([]float64, c.m)
	for i := range c.m {
		c.head[i] = int32(c.n + i)
		c.place[c.n+i] = Basic
		c.weight[i] = 1
	}
	c.index()
	return c
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
	c.pos = make([]int32, all)
	c.workSpace()
	c.stale = true
}

func (c *core) workSpace() {
	c.rho, c.spike = make([]float64, c.m), make([]float64, c.m)
	c.tau, c.flip = make([]float64, c.m), make([]float64, c.m)
	c.infeas = make([]float64, c.m)
	c.devex = make([]float64, c.n+c.m)
	c.alpha = make([]float64, c.n+c.m)
	c.alphaList = nil
	c.candidates = nil
}

// index fills pos from head.
func (c *core) index() {
	for k := range c.pos {
		c.pos[k] = -1
	}
	for i, k := range c.head {
		c.pos[k] = int32(i)
	}
}

// clone returns a deep copy that shares only the matrix.
func (c *core) clone() *core {
	t := *c
	floats := func(v []float64) []float64 { return append([]float64(nil), v...) }
	ints := func(v []int32) []int32 { return append([]int32(nil), v...) }
	t.trueLower, t.trueUpper, t.trueCost = floats(c.trueLower), floats(c.trueUpper), floats(c.trueCost)
	t.lower, t.upper, t.cost = floats(c.lower), floats(c.upper), floats(c.cost)
	t.place = append([]Place(nil), c.place...)
	t.head, t.pos = ints(c.head), ints(c.pos)
	t.x, t.d, t.weight = floats(c.x), floats(c.d), floats(c.weight)
	t.factor = factor{}
	t.stale = true
	t.workSpace()
	return &t
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

// shrunk returns the core after the rows not kept, all with basic slacks, were
// removed from p. The old core is used up.
func (c *core) shrunk(p *program, s *scaling, kept []bool) *core {
	t := &core{iterations: c.iterations}
	t.shape(p, s)
	t.place = append([]Place(nil), c.place[:c.n]...)
	to := make([]int32, c.m)
	rows := 0
	for i := range c.m {
		to[i] = int32(t.n + rows)
		if kept[i] {
			t.place = append(t.place, c.place[c.n+i])
			rows++
		}
	}
	for i, k := range c.head {
		if int(k) >= c.n {
			if !kept[int(k)-c.n] {
				continue
			}
			k = to[int(k)-c.n]
		}
		t.head = append(t.head, k)
		t.weight = append(t.weight, c.weight[i])
	}
	t.index()
	return t
}

// setPlaces makes b, possibly of fewer rows, the basis. Weights and factor are
// kept if the same variables are basic.
func (c *core) setPlaces(b Basis) {
	same := true
	basics := 0
	for k := range c.place {
		v := Basic
		if k < len(b) {
			v = b[k]
		}
		if (v == Basic) != (c.place[k] == Basic) {
			same = false
		}
		if v == Basic {
			basics++
		}
		c.place[k] = v
	}
	if same {
		return
	}
	c.head = c.head[:0]
	for k, v := range c.place {
		if v != Basic {
			continue
		}
		if len(c.head) == c.m { // too many: the last go to a bound
			c.place[k] = AtLower
			continue
		}
		c.head = append(c.head, int32(k))
	}
	for i := 0; len(c.head) < c.m; i++ { // too few: slacks fill up
		if c.place[c.n+i] != Basic {
			c.place[c.n+i] = Basic
			c.head = append(c.head, int32(c.n+i))
		}
	}
	for i := range c.weight {
		c.weight[i] = 1
	}
	c.index()
	c.stale, c.priced = true, false
}

// setSlacks makes the slacks the basis.
func (c *core) setSlacks() {
	c.setPlaces(make(Basis, c.n))
	for i := range c.m {
		c.weight[i] = 1
	}
}

// needFactor makes the factor belong to the basis, repairing it if singular.
func (c *core) needFactor() {
	if c.stale {
		c.factorise()
	}
}

// factorise factorises the basis. A singular basis is repaired: columns without
// a pivot leave for the slacks of the rows without one. Positions are
// renumbered, weights follow their variable.
func (c *core) factorise() {
	for i, k := range c.head {
		c.d[k] = c.weight[i] // d of a basic variable is zero and free to carry the weight
	}
	for k := range c.factor.build(c.a, c.head) {
		out, row := c.factor.lost[k], c.factor.without[k]
		c.head[row] = int32(c.n) + row
		c.place[c.n+int(row)] = Basic
		c.place[out] = AtLower
		c.d[out] = 0
		c.d[c.n+int(row)] = 1
		c.priced = false
	}
	c.index()
	for i, k := range c.head {
		c.weight[i] = max(c.d[k], minWeight)
		c.d[k] = 0
	}
	c.stale = false
}

// settle puts every non-basic variable on a bound that exists, at zero if it is
// free.
func (c *core) settle() {
	for k, v := range c.place {
		if v == Basic {
			continue
		}
		c.place[k] = c.restingPlace(k, v)
		c.x[k] = c.atPlace(k)
	}
}

func (c *core) restingPlace(k int, v Place) Place {
	hasLower, hasUpper := c.lower[k] > math.Inf(-1), c.upper[k] < math.Inf(1)
	switch {
	case hasLower && (v != AtUpper || !hasUpper):
		return AtLower
	case hasUpper:
		return AtUpper
	}
	return AtZero
}

// atPlace returns the value of a non-basic variable.
func (c *core) atPlace(k int) float64 {
	switch c.place[k] {
	case AtLower:
		return c.lower[k]
	case AtUpper:
		return c.upper[k]
	}
	return 0
}

// computeX sets the basic values from the non-basic ones: B·x_B = −N·x_N.
func (c *core) computeX() {
	w := c.flip
	clear(w)
	for k, p := range c.pos {
		if p < 0 && c.x[k] != 0 {
			c.addColumn(k, -c.x[k], w)
		}
	}
	c.factor.ftran(w, false)
	for i, k := range c.head {
		c.x[k] = w[i]
		c.measure(i)
	}
	clear(w)
}

// measure notes the infeasibility of the variable in position i.
func (c *core) measure(i int) {
	k := c.head[i]
	v := max(c.lower[k]-c.x[k], c.x[k]-c.upper[k])
	if v <= primalTol {
		v = 0
	}
	c.infeas[i] = v * v
}

// duals writes the solution of Bᵀ·y = cost_B into y.
func (c *core) duals(y []float64) {
	for i, k := range c.head {
		y[i] = c.cost[k]
	}
	c.factor.btran(y, false)
}

// computeD sets all reduced costs from the working costs.
func (c *core) computeD() {
	c.duals(c.tau)
	copy(c.d, c.cost)
	c.subtractDuals(c.tau)
	c.priced = true
}

// subtractDuals turns costs in d into reduced costs for the duals y.
func (c *core) subtractDuals(y []float64) {
	d, pos := c.d, c.pos
	for j, s := range d[:c.n] {
		if pos[j] >= 0 {
			d[j] = 0
			continue
		}
		index, value := c.a.column(j)
		value = value[:len(index)]
		for t, i := range index {
			s -= y[i] * value[t]
		}
		d[j] = s
	}
	d, pos = d[c.n:], pos[c.n:]
	for i, v := range y {
		if pos[i] >= 0 {
			d[i] = 0
		} else {
			d[i] += v
		}
	}
}

// priceRow computes the pivot row alpha = rhoᵀ·[A, −I] over the non-basic
// variables, listed in alphaList. Here and in the other inner loops slices are
// copied into locals: a field is loaded again after every store.
func (c *core) priceRow() {
	alpha, list, pos := c.alpha, c.alphaList, c.pos
	for _, k := range list {
		alpha[k] = 0
	}
	list = list[:0]
	start, cols, vals := c.a.rowStart, c.a.rowCol, c.a.rowVal
	for i, v := range c.rho {
		if v == 0 {
			continue
		}
		index := cols[start[i]:start[i+1]]
		value := vals[start[i]:start[i+1]]
		value = value[:len(index)]
		for t, j := range index {
			alpha[j] += v * value[t]
		}
	}
	for j, p := range pos[:c.n] {
		if alpha[j] == 0 {
			continue
		}
		if p >= 0 {
			alpha[j] = 0
			continue
		}
		list = append(list, int32(j))
	}
	slack, slackPos := alpha[c.n:], pos[c.n:]
	for i, v := range c.rho {
		if v != 0 && slackPos[i] < 0 {
			slack[i] = -v
			list = append(list, int32(c.n+i))
		}
	}
	c.alphaList = list
}

// column writes the column of variable k of [A, −I] into w, which is zero.
func (c *core) column(k int, w []float64) {
	if k >= c.n {
		w[k-c.n] = -1
		return
	}
	index, value := c.a.column(k)
	for t, i := range index {
		w[i] = value[t]
	}
}

// addColumn adds by times the column of variable k of [A, −I] to w.
func (c *core) addColumn(k int, by float64, w []float64) {
	if k >= c.n {
		w[k-c.n] -= by
		return
	}
	index, value := c.a.column(k)
	value = value[:len(index)]
	for t, i := range index {
		w[i] += by * value[t]
	}
}

// refresh recomputes all values, after a fresh factorisation if asked or
// needed.
func (c *core) refresh(again bool) {
	if again {
		c.factorise()
		c.settle()
	}
	c.computeX()
	c.computeD()
}

// exchange puts variable q into position r in place of the one there, which
// goes to place p.
func (c *core) exchange(q, r int, p Place) {
	out := c.head[r]
	c.place[out], c.pos[out] = p, -1
	c.place[q], c.pos[q] = Basic, int32(r)
	c.head[r] = int32(q)
	c.d[q] = 0
	c.iterations++
}
