package simplex

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"rationwright/solver/linear"
)

// Errors of New, AddRow and AddCol; they come wrapped with the place.
var (
	ErrNotFinite = errors.New("simplex: a coefficient or cost is not a finite number")
	ErrBound     = errors.New("simplex: a bound is not a number, or on the wrong side of infinity")
	ErrEntry     = errors.New("simplex: an entry is out of range or given twice")
	ErrBasis     = errors.New("simplex: the basis does not fit the program")
)

// infinite is the size from which a bound counts as none: MPS files write 1e30.
const infinite = 1e30

// Solver holds one program and its last basis between solves. Bounds, costs
// and rows may be changed between solves; the basis is kept, so that the next
// solve is warm. A Solver is not safe for concurrent use; Clone one per worker.
type Solver struct {
	program
	scale scaling
	core  *core

	newRows []sparse // rows added since the matrix was last built
	newCols []sparse // likewise columns
}

// program is the linear program in its own terms, without names.
type program struct {
	sense  float64 // +1 minimises, −1 maximises
	offset float64
	cost   []float64
	// Bounds of the columns, then of the rows.
	lower, upper []float64
	a            *matrix
}

// New returns a solver for p with the slack basis. Integrality is ignored. The
// errors are ErrNotFinite, ErrBound and ErrEntry; crossed bounds are no error
// but make the program infeasible.
func New(p *linear.Problem) (*Solver, error) {
	s := &Solver{program: program{sense: 1, offset: p.Offset}}
	if p.Maximize {
		s.sense = -1
	}
	if math.IsNaN(p.Offset) || math.IsInf(p.Offset, 0) {
		return nil, fmt.Errorf("%w: objective constant", ErrNotFinite)
	}
	columns := make([]sparse, len(p.Cols))
	for j, c := range p.Cols {
		var err error
		if columns[j], err = column(c, len(p.Rows)); err != nil {
			return nil, err
		}
		s.cost = append(s.cost, c.Cost)
		s.lower = append(s.lower, tidy(c.Lower))
		s.upper = append(s.upper, tidy(c.Upper))
	}
	for i, r := range p.Rows {
		if !isRange(r.Lower, r.Upper) {
			return nil, fmt.Errorf("%w: row %d %q", ErrBound, i, r.Name)
		}
		s.lower = append(s.lower, tidy(r.Lower))
		s.upper = append(s.upper, tidy(r.Upper))
	}
	s.a = newMatrix(len(p.Rows), columns)
	s.scale = newScaling(s.a, s.cost)
	s.core = newCore(&s.program, &s.scale)
	return s, nil
}

// column checks c and returns its entries.
func column(c linear.Col, rows int) (sparse, error) {
	var v sparse
	if math.IsNaN(c.Cost) || math.IsInf(c.Cost, 0) {
		return v, fmt.Errorf("%w: cost of column %q", ErrNotFinite, c.Name)
	}
	if !isRange(c.Lower, c.Upper) {
		return v, fmt.Errorf("%w: column %q", ErrBound, c.Name)
	}
	last := -1
	for _, e := range c.Entries {
		if e.Row <= last || e.Row >= rows {
			return v, fmt.Errorf("%w: row %d of column %q", ErrEntry, e.Row, c.Name)
		}
		last = e.Row
		if math.IsNaN(e.Value) || math.IsInf(e.Value, 0) {
			return v, fmt.Errorf("%w: row %d of column %q", ErrNotFinite, e.Row, c.Name)
		}
		if e.Value != 0 {
			v.index = append(v.index, int32(e.Row))
			v.value = append(v.value, e.Value)
		}
	}
	return v, nil
}

// isRange reports whether bounds are numbers on their own side of infinity;
// they may cross.
func isRange(lower, upper float64) bool {
	return !math.IsNaN(lower) && !math.IsNaN(upper) && tidy(lower) < math.Inf(1) && tidy(upper) > math.Inf(-1)
}

// tidy turns a bound too large to mean anything into none.
func tidy(bound float64) float64 {
	if bound >= infinite {
		return math.Inf(1)
	}
	if bound <= -infinite {
		return math.Inf(-1)
	}
	return bound
}

// Clone returns an independent copy with the same basis; only what never
// changes is shared.
func (s *Solver) Clone() *Solver {
	s.build()
	t := *s
	t.cost = append([]float64(nil), s.cost...)
	t.lower = append([]float64(nil), s.lower...)
	t.upper = append([]float64(nil), s.upper...)
	t.scale.row = append([]float64(nil), s.scale.row...)
	t.scale.col = append([]float64(nil), s.scale.col...)
	t.core = s.core.clone()
	return &t
}

// Rows returns the number of rows.
func (s *Solver) Rows() int { return s.a.rows + len(s.newRows) }

// Cols returns the number of columns.
func (s *Solver) Cols() int { return s.a.cols + len(s.newCols) }

// Bounds returns the bounds of a column.
func (s *Solver) Bounds(col int) (lower, upper float64) {
	s.build()
	return s.lower[col], s.upper[col]
}

// SetBounds changes the bounds of a column; ±Inf stands for none.
func (s *Solver) SetBounds(col int, lower, upper float64) {
	s.setBounds(col, lower, upper)
}

// RowBounds returns the bounds of a row.
func (s *Solver) RowBounds(row int) (lower, upper float64) {
	s.build()
	return s.lower[s.a.cols+row], s.upper[s.a.cols+row]
}

// SetRowBounds changes the bounds of a row; ±Inf stands for none.
func (s *Solver) SetRowBounds(row int, lower, upper float64) {
	s.setBounds(s.Cols()+row, lower, upper)
}

func (s *Solver) setBounds(k int, lower, upper float64) {
	s.build()
	s.lower[k], s.upper[k] = tidy(lower), tidy(upper)
	f, c := s.scale.of(k), s.core
	c.trueLower[k], c.trueUpper[k] = s.lower[k]/f, s.upper[k]/f
	c.lower[k], c.upper[k] = c.trueLower[k], c.trueUpper[k]
}

// Cost returns the objective coefficient of a column.
func (s *Solver) Cost(col int) float64 {
	s.build()
	return s.cost[col]
}

// SetCost changes the objective coefficient of a column.
func (s *Solver) SetCost(col int, cost float64) {
	s.build()
	s.cost[col] = cost
	c := s.core
	c.trueCost[col] = s.sense * cost * s.scale.col[col] * s.scale.cost
	c.cost[col] = c.trueCost[col]
	c.priced = false
}

// AddRow appends a row, its slack basic, and returns its index. The columns
// may come in any order but each once.
func (s *Solver) AddRow(lower, upper float64, cols []int, values []float64) int {
	if len(s.newCols) > 0 {
		s.build()
	}
	r := sparse{}
	for t, j := range cols {
		if values[t] != 0 {
			r.index = append(r.index, int32(j))
			r.value = append(r.value, values[t])
		}
	}
	s.newRows = append(s.newRows, r)
	s.lower = append(s.lower, tidy(lower))
	s.upper = append(s.upper, tidy(upper))
	return s.Rows() - 1
}

// AddCol appends a column, non-basic at a bound, and returns its index.
func (s *Solver) AddCol(c linear.Col) (int, error) {
	if len(s.newRows) > 0 {
		s.build()
	}
	v, err := column(c, s.a.rows)
	if err != nil {
		return -1, err
	}
	at := s.Cols()
	s.newCols = append(s.newCols, v)
	s.cost = append(s.cost, c.Cost)
	s.lower = slices.Insert(s.lower, at, tidy(c.Lower))
	s.upper = slices.Insert(s.upper, at, tidy(c.Upper))
	return at, nil
}

// build takes added rows and columns into the matrix and the core.
func (s *Solver) build() {
	if len(s.newRows) > 0 {
		s.a = s.a.withRows(s.newRows)
		for _, r := range s.newRows {
			s.scale.row = append(s.scale.row, powerOfTwo(geometric(r.index, r.value, s.scale.col)))
		}
		s.newRows = nil
		s.core = s.core.grown(&s.program, &s.scale)
	}
	if len(s.newCols) > 0 {
		s.a = s.a.withColumns(s.newCols)
		for _, c := range s.newCols {
			_, top := spread(c.index, c.value, s.scale.row)
			s.scale.col = append(s.scale.col, powerOfTwo(1/top))
		}
		s.newCols = nil
		s.core = s.core.grown(&s.program, &s.scale)
	}
}
