package menu

import (
	"rationwright/solver/search"
	"rationwright/solver/simplex"
)

// marks say what the rows and columns of a program are for, so that one that is like
// another starts from where that ended.
type marks struct {
	at         any // that is being added; nil: nothing that another program has
	n          [2]int
	rows, cols []mark
}

// mark is a row or a column: which of those for the same thing.
type mark struct {
	at  any
	row bool
	n   int
}

// mark begins what is added next.
func (m *marks) mark(at any) { m.at, m.n = at, [2]int{} }

// modelMark is for what a program has of the model of a plan.
type modelMark struct{}

// markAll marks all that the program has so far.
func (p *program) markAll(at any) {
	p.mark(at)
	for range p.Rows {
		p.added(true)
	}
	for range p.Cols {
		p.added(false)
	}
	p.mark(nil)
}

func (m *marks) added(row bool) {
	list, n := &m.cols, &m.n[0]
	if row {
		list, n = &m.rows, &m.n[1]
	}
	*list = append(*list, mark{m.at, row, *n})
	*n++
}

// places are where rows and columns stood at the end of programs that were solved.
type places map[mark]simplex.Place

// keep notes the places of the last solve of s, the relaxation of a program with these marks.
func (p places) keep(m *marks, s *search.Relaxation) {
	b := s.Basis()
	for j, k := range m.cols {
		p[k] = b[j]
	}
	for i, k := range m.rows {
		if at := s.At[i]; at >= 0 {
			p[k] = b[len(m.cols)+at]
		}
	}
}

// start makes s begin there, columns that are new at zero, new rows loose, and reports
// whether it does: not where most columns are new.
func (p places) start(m *marks, s *search.Relaxation) bool {
	b := make(simplex.Basis, len(m.cols)+s.Solver.Rows())
	known := 0
	for j, k := range m.cols {
		if place, ok := p[k]; ok {
			b[j] = place
			known++
		}
	}
	if 2*known < len(m.cols) {
		return false
	}
	for i, k := range m.rows {
		if at := s.At[i]; at >= 0 {
			b[len(m.cols)+at] = simplex.Basic
			if place, ok := p[k]; ok {
				b[len(m.cols)+at] = place
			}
		}
	}
	s.SetBasis(b)
	return true
}
