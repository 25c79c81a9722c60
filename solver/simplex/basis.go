package simplex

import "fmt"

// Basis returns the current basis.
func (s *Solver) Basis() Basis {
	s.build()
	return append(Basis(nil), s.core.place...)
}

// SetBasis makes b the basis of the next solve. A basis of the same program
// with fewer rows is completed with the slacks of the new rows; one with a
// wrong number of basic variables, or a singular one, is repaired with slacks.
// It returns ErrBasis if b is shorter than the columns or longer than columns
// and rows.
func (s *Solver) SetBasis(b Basis) error {
	s.build()
	if len(b) < s.a.cols || len(b) > s.a.cols+s.a.rows {
		return fmt.Errorf("%w: %d places for %d columns and %d rows", ErrBasis, len(b), s.a.cols, s.a.rows)
	}
	s.core.setPlaces(b)
	return nil
}

// SetSlackBasis forgets the basis and starts the next solve from the slacks.
func (s *Solver) SetSlackBasis() {
	s.build()
	s.core.setPlaces(make(Basis, s.a.cols))
}

// BasicIn returns which variable is basic in position row: a column, or
// Cols()+i for the slack of row i. The order of the positions changes whenever
// the basis is factorised; ask again after each solve.
func (s *Solver) BasicIn(row int) int {
	s.build()
	s.core.needFactor()
	return int(s.core.head[row])
}

// index fills pos from head.
func (c *core) index() {
	c.pos = filled(c.pos, c.n+c.m, -1)
	for i, k := range c.head {
		c.pos[k] = int32(i)
	}
}

// setPlaces makes b, possibly of fewer rows, the basis. The factor is kept if
// the same variables are basic; weights follow their variables.
func (c *core) setPlaces(b Basis) {
	same := true
	for k := range c.place {
		v := Basic
		if k < len(b) {
			v = b[k]
		}
		if (v == Basic) != (c.place[k] == Basic) {
			same = false
		}
		c.place[k] = v
	}
	if same {
		return
	}
	c.stashWeights()
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
	for i, k := range c.head {
		c.weight[i] = 1
		if c.pos[k] >= 0 { // basic before too: its weight is a better guess
			c.weight[i] = c.d[k]
		}
		c.d[k] = 0
	}
	c.index()
	c.stale, c.priced = true, false
}

// stashWeights puts the weights of the basic variables where their reduced
// costs are, which are zero, so that they can follow them to other positions.
func (c *core) stashWeights() {
	for i, k := range c.head {
		c.d[k] = c.weight[i]
	}
}

// setSlacks makes the slacks the basis.
func (c *core) setSlacks() {
	c.setPlaces(make(Basis, c.n))
	c.weight = filled(c.weight, c.m, 1)
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
	c.stashWeights()
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
