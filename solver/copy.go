package solver

import (
	"rationwright/solver/linear"
)

// copyProblem returns a deep copy of the program.
func (r *Ration) copyProblem() *linear.Problem {
	p := *r.Problem
	p.Rows = append([]linear.Row(nil), r.Problem.Rows...)
	p.Cols = append([]linear.Col(nil), r.Problem.Cols...)
	for j := range p.Cols {
		p.Cols[j].Entries = append([]linear.Entry(nil), r.Problem.Cols[j].Entries...)
	}
	return &p
}
