package model

import (
	"rationwright/solver/linear"
)

// CopyProblem returns a deep copy of the program.
func (m *Model) CopyProblem() *linear.Problem {
	p := *m.Problem
	p.Rows = append([]linear.Row(nil), m.Problem.Rows...)
	p.Cols = append([]linear.Col(nil), m.Problem.Cols...)
	for j := range p.Cols {
		p.Cols[j].Entries = append([]linear.Entry(nil), m.Problem.Cols[j].Entries...)
	}
	return &p
}
