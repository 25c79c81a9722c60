package linear

// RowView is the coefficients of a [Problem] by row: those of row i are
// Col[Start[i]:Start[i+1]] and Value[Start[i]:Start[i+1]], ascending by column.
type RowView struct {
	Start []int // one more than there are rows
	Col   []int
	Value []float64
}

// ByRow returns the row-wise view of p as it is now; later changes of p do not
// show in it. p must be valid.
func (p *Problem) ByRow() *RowView {
	v := &RowView{Start: make([]int, len(p.Rows)+1)}
	for j := range p.Cols {
		for _, e := range p.Cols[j].Entries {
			v.Start[e.Row+1]++
		}
	}
	for i := range p.Rows {
		v.Start[i+1] += v.Start[i]
	}
	v.Col = make([]int, v.Start[len(p.Rows)])
	v.Value = make([]float64, v.Start[len(p.Rows)])
	next := append([]int(nil), v.Start[:len(p.Rows)]...)
	for j := range p.Cols {
		for _, e := range p.Cols[j].Entries {
			v.Col[next[e.Row]], v.Value[next[e.Row]] = j, e.Value
			next[e.Row]++
		}
	}
	return v
}

// Row returns the columns and coefficients of row i. They belong to the view.
func (v *RowView) Row(i int) (cols []int, values []float64) {
	from, to := v.Start[i], v.Start[i+1]
	return v.Col[from:to:to], v.Value[from:to:to]
}

// Clone returns a copy of p that shares nothing with it.
func (p *Problem) Clone() *Problem {
	q := *p
	q.Rows = append([]Row(nil), p.Rows...)
	q.Cols = append([]Col(nil), p.Cols...)
	for j := range q.Cols {
		q.Cols[j].Entries = append([]Entry(nil), p.Cols[j].Entries...)
	}
	return &q
}

// Relaxation returns a copy of p without integrality.
func (p *Problem) Relaxation() *Problem {
	q := p.Clone()
	for j := range q.Cols {
		q.Cols[j].Integer = false
	}
	return q
}
