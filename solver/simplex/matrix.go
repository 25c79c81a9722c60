package simplex

// matrix is a sparse matrix stored twice, by column and by row, so that both a
// column and a row can be walked. It never changes once built: solvers share
// it, and an edit makes a new one.
type matrix struct {
	rows, cols int

	colStart []int32
	colRow   []int32
	colVal   []float64

	rowStart []int32
	rowCol   []int32
	rowVal   []float64
}

// sparse is a sparse row or column given from outside.
type sparse struct {
	index []int32
	value []float64
}

// column returns the rows and values of column j.
func (a *matrix) column(j int) ([]int32, []float64) {
	lo, hi := a.colStart[j], a.colStart[j+1]
	return a.colRow[lo:hi], a.colVal[lo:hi]
}

// row returns the columns and values of row i.
func (a *matrix) row(i int) ([]int32, []float64) {
	lo, hi := a.rowStart[i], a.rowStart[i+1]
	return a.rowCol[lo:hi], a.rowVal[lo:hi]
}

// newMatrix builds a matrix from its columns.
func newMatrix(rows int, columns []sparse) *matrix {
	return (&matrix{rows: rows, colStart: []int32{0}}).withColumns(columns)
}

// transpose fills the row-wise copy from the column-wise one.
func (a *matrix) transpose() {
	a.rowStart = make([]int32, a.rows+1)
	for _, i := range a.colRow {
		a.rowStart[i+1]++
	}
	for i := range a.rows {
		a.rowStart[i+1] += a.rowStart[i]
	}
	a.rowCol = make([]int32, len(a.colRow))
	a.rowVal = make([]float64, len(a.colRow))
	next := append([]int32(nil), a.rowStart[:a.rows]...)
	for j := range a.cols {
		for k := a.colStart[j]; k < a.colStart[j+1]; k++ {
			at := next[a.colRow[k]]
			next[a.colRow[k]]++
			a.rowCol[at], a.rowVal[at] = int32(j), a.colVal[k]
		}
	}
}

// withRows returns a copy of a with rows appended.
func (a *matrix) withRows(added []sparse) *matrix {
	extra := make([]int32, a.cols)
	total := len(a.colRow)
	for _, r := range added {
		for _, j := range r.index {
			extra[j]++
		}
		total += len(r.index)
	}
	b := &matrix{
		rows: a.rows + len(added), cols: a.cols,
		colStart: make([]int32, a.cols+1),
		colRow:   make([]int32, total), colVal: make([]float64, total),
	}
	next := make([]int32, a.cols)
	at := int32(0)
	for j := range a.cols {
		b.colStart[j] = at
		index, value := a.column(j)
		copy(b.colRow[at:], index)
		copy(b.colVal[at:], value)
		next[j] = at + int32(len(index))
		at = next[j] + extra[j]
	}
	b.colStart[a.cols] = at
	for k, r := range added {
		for t, j := range r.index {
			b.colRow[next[j]] = int32(a.rows + k)
			b.colVal[next[j]] = r.value[t]
			next[j]++
		}
	}
	b.transpose()
	return b
}

// withColumns returns a copy of a with columns appended.
func (a *matrix) withColumns(added []sparse) *matrix {
	b := &matrix{
		rows: a.rows, cols: a.cols + len(added),
		colStart: append(make([]int32, 0, a.cols+len(added)+1), a.colStart...),
		colRow:   append([]int32(nil), a.colRow...),
		colVal:   append([]float64(nil), a.colVal...),
	}
	for _, c := range added {
		b.colRow = append(b.colRow, c.index...)
		b.colVal = append(b.colVal, c.value...)
		b.colStart = append(b.colStart, int32(len(b.colRow)))
	}
	b.transpose()
	return b
}

// scaled returns a with row i times rowFactor[i] and column j times
// colFactor[j]. It shares a's pattern.
func (a *matrix) scaled(rowFactor, colFactor []float64) *matrix {
	b := *a
	b.colVal = make([]float64, len(a.colVal))
	b.rowVal = make([]float64, len(a.rowVal))
	for j := range a.cols {
		for k := a.colStart[j]; k < a.colStart[j+1]; k++ {
			b.colVal[k] = a.colVal[k] * rowFactor[a.colRow[k]] * colFactor[j]
		}
	}
	for i := range a.rows {
		for k := a.rowStart[i]; k < a.rowStart[i+1]; k++ {
			b.rowVal[k] = a.rowVal[k] * rowFactor[i] * colFactor[a.rowCol[k]]
		}
	}
	return &b
}
