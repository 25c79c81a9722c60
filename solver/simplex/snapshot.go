package simplex

// Snapshot is the state of a solver between solves: bounds, costs, basis,
// values, weights and factor. It holds for as long as no row or column is
// added or dropped. A Snapshot may be used for Save again, which re-uses its
// memory.
type Snapshot struct {
	lower, upper, cost []float64
	core               core
}

// Save writes the state of s into t, for Restore. It is meant for strong
// branching: save once, then for every candidate set bounds, Solve with a
// limit and a cutoff, and Restore.
func (s *Solver) Save(t *Snapshot) {
	s.build()
	s.core.needFactor()
	t.lower = append(t.lower[:0], s.lower...)
	t.upper = append(t.upper[:0], s.upper...)
	t.cost = append(t.cost[:0], s.cost...)
	t.core.copyState(s.core)
	t.core.copyFactor(s.core)
}

// Restore brings back the state that Save wrote, which may be repeated. It
// returns ErrBasis if rows or columns were added or dropped in between.
func (s *Solver) Restore(t *Snapshot) error {
	s.build()
	if t.core.m != s.core.m || t.core.n != s.core.n {
		return ErrBasis
	}
	copy(s.lower, t.lower)
	copy(s.upper, t.upper)
	copy(s.cost, t.cost)
	s.core.copyState(&t.core)
	s.core.copyFactor(&t.core)
	return nil
}

// copyState copies everything of o but the matrix, the factor and the work space.
func (c *core) copyState(o *core) {
	c.m, c.n = o.m, o.n
	c.trueLower = append(c.trueLower[:0], o.trueLower...)
	c.trueUpper = append(c.trueUpper[:0], o.trueUpper...)
	c.lower = append(c.lower[:0], o.lower...)
	c.upper = append(c.upper[:0], o.upper...)
	c.trueCost = append(c.trueCost[:0], o.trueCost...)
	c.cost = append(c.cost[:0], o.cost...)
	c.shifted, c.widened = o.shifted, o.widened
	c.place = append(c.place[:0], o.place...)
	c.head = append(c.head[:0], o.head...)
	c.pos = append(c.pos[:0], o.pos...)
	c.x = append(c.x[:0], o.x...)
	c.d = append(c.d[:0], o.d...)
	c.priced = o.priced
	c.weight = append(c.weight[:0], o.weight...)
}

func (c *core) copyFactor(o *core) {
	c.factor.copyFrom(&o.factor)
	c.stale = o.stale
}
