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
